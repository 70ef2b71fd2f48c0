"""What is known of the chosen recipe: tags, every version, and what can be done with them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, TypeVar

from PySide6.QtCore import QItemSelectionModel, Qt, Signal
from PySide6.QtGui import QKeyEvent, QResizeEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QFrame,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QListView,
    QMenu,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from designer.brewday.predictions import MAIN
from designer.errors import DesignerError
from designer.library.recipe_file import read_document
from designer.library.store import RecipeRow, Version, VersionRow
from designer.recipe.comparing import differences
from designer.translation import tr, trn
from designer.window.box.brew_panel import BrewPanel
from designer.window.box.comparison_table import Compared, ComparisonTable, when_kept
from designer.window.box.recipe_card import RecipeCard
from designer.window.box.time_line_model import NEWEST_FIRST, ORDERS, TimeLineModel, key_of
from designer.window.parts.buttons import button
from designer.window.parts.deeds import add_deeds, open_menu
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.figures import figure
from designer.window.parts.flow import FlowLayout
from designer.window.parts.ordering import Order, order_menu
from designer.window.parts.page_frame import heading
from designer.window.parts.row_menu import add_buttons, offer_menu
from designer.window.parts.targets import are_large
from designer.window.session.autosave import Autosave
from designer.window.session.brew_keeping import BrewKeeping, log_in
from designer.workbench.brew.brew_told import BrewTold, told_of
from designer.workbench.keys import OPEN_OR_EDIT

if TYPE_CHECKING:
    from designer.library.store import Store
    from designer.window.parts.deeds import Deeds

T = TypeVar("T")
LONGEST_TITLE = 200
KEPT_AS = "versions"
LONG_LINE = 5
"""So many versions and brews are worth sorting."""
LOW, MORE_FOR_FINGERS = 560, 160
"""A panel lower than that has no room for all of it; where targets are large it needs more."""


class VersionsList(QListView):
    """The versions of a recipe; Return and a double click open the one that is chosen."""

    open_wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.doubleClicked.connect(lambda _index: self.open_wanted.emit())

    def deeds(self) -> Deeds:
        """Return what the Edit menu can do here just now: open the chosen version."""
        is_chosen = self.currentIndex().isValid()
        return {OPEN_OR_EDIT: self.open_wanted.emit} if is_chosen else {}

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.open_wanted.emit()
        else:
            super().keyPressEvent(event)


class BoxDetails(QFrame):
    """Follows what is chosen in the list; whatever it changes, `changed` tells the list of it."""

    version_wanted = Signal(object)
    throw_wanted = Signal()
    changed = Signal()
    said = Signal(str, bool)
    paper_wanted = Signal(int)
    """A brew of this recipe that was done without the program is to be typed in."""

    def __init__(
        self,
        autosave: Autosave,
        brews: BrewKeeping,
        display: DisplayFormat,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.setObjectName("card")
        self._autosave, self._display = autosave, display
        self._chosen: tuple[RecipeRow, ...] = ()
        self._versions_of = 0
        self.versions_model = TimeLineModel(display, self)
        kept = display.settings.kept_order(KEPT_AS)
        if kept is not None and kept[0] in dict(ORDERS):
            self.versions_model.order = Order(*kept)
        self.brew_panel = BrewPanel(brews)
        self.brew_panel.said.connect(self.said)
        self.brew_panel.changed.connect(self.changed)
        brews.changed.connect(self._look_again)
        self._lay_out()
        self.show_chosen((), in_trash=False)

    def close_down(self) -> None:
        """Let go of what goes on beside the page, for the end of the program."""
        self.card.close_down()

    def _lay_out(self) -> None:
        self.card = RecipeCard(self._display)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(14, 12, 14, 12)
        layout.addWidget(self.card, 3)
        layout.addLayout(_beside(self._recipe_buttons()))
        self.tags = QLineEdit()
        self.tags.setAccessibleName(tr("Tags, with commas between them"))
        self.tags.setPlaceholderText(tr("Tags: winter, strong …"))
        self.tags.editingFinished.connect(self._put_tags)
        layout.addWidget(self.tags)
        self._versions_heading = heading(tr("Versions and brews"))
        self.order_button = button(
            tr("Sort by"), tr("Versions and brews in another order"), self._open_order_menu
        )
        over = QHBoxLayout()
        over.addWidget(self._versions_heading, 1)
        over.addWidget(self.order_button)
        layout.addLayout(over)
        layout.addWidget(self._list(), 2)
        layout.addLayout(_beside(self._version_buttons()))
        layout.addWidget(self.brew_panel)
        layout.addWidget(self._comparison(), 3)
        layout.addStretch(0)

    def _recipe_buttons(self) -> tuple[QPushButton, ...]:
        self.open_button = button(tr("Open"), tr("Open the newest version"), self.open_newest)
        self.copy_button = button(tr("Duplicate"), tr("Make a copy of this recipe"), self.duplicate)
        self.throw_button = button(
            tr("Throw away"), tr("Move to the trash"), self.throw_wanted.emit
        )
        self.open_button.setObjectName("primary")
        self.brewed_button = button(
            tr("Brewed on paper…"),
            tr("Type in a brew of the chosen recipe that was done from the paper sheet"),
            self.note_brewed,
        )
        return self.open_button, self.copy_button, self.throw_button, self.brewed_button

    def _version_buttons(self) -> tuple[QPushButton, ...]:
        self.back_button = button(
            tr("Restore version"), tr("Make the chosen version the newest again"), self.bring_back
        )
        self.branch_button = button(
            tr("New recipe from it"),
            tr("Begin a new recipe from the chosen version"),
            self.branch,
        )
        self.compare_button = button(
            tr("Compare"),
            tr("Compare the two chosen recipes or versions, line by line"),
            self.compare,
        )
        by_versions = (self.back_button, self.branch_button, self.compare_button)
        self._does = {each: each.toolTip() for each in by_versions}
        return by_versions

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._share_room()

    def _share_room(self) -> None:
        """What goes in gives way to a comparison, and to the versions where the window is low."""
        low = LOW + (MORE_FOR_FINGERS if are_large() else 0)
        is_wanted = self._around.isVisibleTo(self) or self.height() < low
        self.card.make_room(is_wanted)

    def fill_menu(self, menu: QMenu) -> None:
        """Add what can be done with the chosen versions."""
        add_deeds(menu, self.versions.deeds(), (OPEN_OR_EDIT,))
        add_buttons(menu, (self.back_button, self.branch_button, self.compare_button))
        menu.addSeparator()
        menu.addMenu(self.order_menu(menu))

    def order_menu(self, parent: QWidget) -> QMenu:
        """Return a menu of what versions and brews can be sorted by; what is chosen is kept."""
        first, order = frozenset(key for key, _ in ORDERS), self.versions_model.order
        return order_menu(parent, ORDERS, order, self._order_by, down_first=first)

    def _order_by(self, order: Order | None) -> None:
        self.versions_model.order = order or NEWEST_FIRST
        self._display.settings.keep_order(KEPT_AS, order)
        self._show_versions(self._versions_of)

    def _open_order_menu(self) -> None:
        below = self.order_button.rect().bottomLeft()
        open_menu(self.order_menu(self.order_button), self.order_button.mapToGlobal(below))

    def _list(self) -> QListView:
        self.versions = VersionsList()
        offer_menu(self.versions, self.fill_menu)
        self.versions.setModel(self.versions_model)
        self.versions.setWordWrap(True)
        self.versions.setResizeMode(QListView.ResizeMode.Adjust)
        self.versions.setAccessibleName(tr("Versions and their brews"))
        self.versions.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.versions.selectionModel().selectionChanged.connect(self._enable)
        self.versions.open_wanted.connect(self.open_version)
        return self.versions

    def _comparison(self) -> QWidget:
        self.compared = ComparisonTable()
        self.alike = QLabel()
        self.alike.setWordWrap(True)
        self.alike.setTextFormat(Qt.TextFormat.PlainText)
        self.alike.setObjectName("soft")
        around = QWidget()
        layout = QVBoxLayout(around)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.compared, 1)
        layout.addWidget(self.alike)
        self._around = around
        self._around.hide()
        return self._around

    # what is chosen

    def show_chosen(self, chosen: Sequence[RecipeRow], *, in_trash: bool) -> None:
        """Show what is known of the chosen recipes."""
        self._chosen = tuple(chosen)
        one = chosen[0] if len(chosen) == 1 else None
        many = trn("{number:,} recipe chosen", "{number:,} recipes chosen", len(chosen))
        title = one.name[:LONGEST_TITLE] if one is not None else many
        self.card.show_recipe(one, title if chosen else tr("Choose a recipe in the list"))
        if not self.tags.hasFocus():
            self.tags.setText(", ".join(one.tags) if one is not None else "")
        usable = one is not None and not in_trash
        for each in (self.tags, self.open_button, self.copy_button, self.brewed_button):
            each.setEnabled(usable)
        self.throw_button.setEnabled(bool(chosen))
        self.throw_button.setText(tr("Restore") if in_trash else tr("Throw away"))
        self.throw_button.setToolTip(
            tr("Restore from the trash") if in_trash else tr("Move to the trash")
        )
        self.versions.setVisible(one is not None)
        self._versions_heading.setVisible(one is not None)
        self.order_button.setVisible(False)
        self._say_compared(())
        self._show_versions(one.id if one is not None else 0)

    def _show_versions(self, recipe: int) -> None:
        self._versions_of = recipe
        if not recipe:
            self.versions_model.put_rows(())
            self._enable()
            return

        def work(store: Store) -> tuple[Version, list[VersionRow], list[BrewTold]]:
            logs = [log_in(store, each) for each in store.brews.all(recipe)]
            told = [told_of(each.brew, each.entries) for each in logs]
            return store.recipes.newest(recipe), store.recipes.versions(recipe), told

        def done(found: tuple[Version, list[VersionRow], list[BrewTold]]) -> None:
            newest, versions, told = found
            if recipe == self._versions_of:
                self.card.show_newest(newest, versions)
                self._put_line(versions, told)

        self._autosave.store.ask(work, done, self._fail, key="versions")

    def _put_line(self, versions: list[VersionRow], brews: list[BrewTold]) -> None:
        """Show the line of time anew; what is chosen stays chosen."""
        chosen = {key_of(each) for each in self._chosen_rows()}
        self.versions_model.show_line(versions, brews)
        self.order_button.setVisible(len(versions) + len(brews) >= LONG_LINE)
        selection = self.versions.selectionModel()
        for number, each in enumerate(self.versions_model.rows):
            if key_of(each) in chosen:
                index = self.versions_model.index(number, 0)
                selection.setCurrentIndex(index, QItemSelectionModel.SelectionFlag.Select)
        self._enable()

    def _look_again(self) -> None:
        """The store holds more of some brew now."""
        if self.isVisible() and self._versions_of:
            self._show_versions(self._versions_of)

    def _chosen_rows(self) -> list[VersionRow | BrewTold]:
        indexes = self.versions.selectionModel().selectedIndexes()
        rows = sorted({index.row() for index in indexes})
        return [self.versions_model.rows[row] for row in rows]

    def chosen_versions(self) -> list[VersionRow]:
        """Return the chosen versions, the newest first."""
        versions = [each for each in self._chosen_rows() if not isinstance(each, BrewTold)]
        return sorted(versions, key=lambda each: each.number, reverse=True)

    def chosen_brew(self) -> BrewTold | None:
        """Return the chosen brew; None if none is, or more than that."""
        rows = self._chosen_rows()
        return rows[0] if len(rows) == 1 and isinstance(rows[0], BrewTold) else None

    def _enable(self) -> None:
        self.brew_panel.show_brew(self.chosen_brew())
        versions = self.chosen_versions()
        one, two = len(versions) == 1, len(versions) == 2 or len(self._chosen) == 2
        needs_one = tr("Choose one of the versions below first")
        needs_two = tr("Choose two recipes in the list, or two of the versions below, first")
        for each, usable, needs in (
            (self.back_button, one, needs_one),
            (self.branch_button, one, needs_one),
            (self.compare_button, two, needs_two),
        ):
            each.setEnabled(usable)
            each.setToolTip(self._does[each] if usable else needs)

    # doing

    def _do(self, work: Callable[[Store], T], then: Callable[[T], object] | None = None) -> None:
        def done(result: T) -> None:
            self.changed.emit()
            if then is not None:
                then(result)

        self._autosave.store.ask(work, done, self._fail)

    def _fail(self, fault: str) -> None:
        self.said.emit(fault, True)

    def open_newest(self) -> None:
        """Open the newest version of the chosen recipe."""
        if len(self._chosen) == 1 and self.open_button.isEnabled():
            recipe = self._chosen[0].id
            self._autosave.store.ask(
                lambda store: store.recipes.newest(recipe), self.version_wanted.emit, self._fail
            )

    def open_version(self) -> None:
        """Open the chosen version as it was, or the log of the chosen brew."""
        if self.chosen_brew() is not None:
            self.brew_panel.open()
            return
        versions = self.chosen_versions()
        if len(versions) == 1:
            number = versions[0].id
            self._autosave.store.ask(
                lambda store: store.recipes.version(number), self.version_wanted.emit, self._fail
            )

    def duplicate(self) -> None:
        """Keep a copy of the chosen recipe."""
        if self._chosen:
            recipe = self._chosen[0].id
            self._do(lambda store: store.recipes.duplicate(recipe))

    def note_brewed(self) -> None:
        """Ask for a brew of the chosen recipe's newest version that was done from paper."""
        if self._chosen:
            self.paper_wanted.emit(self._chosen[0].id)

    def bring_back(self) -> None:
        """Make the chosen version the newest again."""
        versions = self.chosen_versions()
        if versions:
            version = versions[0].id
            self._do(
                lambda store: store.recipes.bring_back(version), self._autosave.note_brought_back
            )

    def branch(self) -> None:
        """Begin a new recipe with the chosen version."""
        versions = self.chosen_versions()
        if self._chosen and versions:
            version = versions[0].id
            name = tr("{name}, another way", name=self._chosen[0].name)
            self._do(lambda store: store.recipes.branch(version, name), self.version_wanted.emit)

    def _put_tags(self) -> None:
        if len(self._chosen) != 1:
            return
        wanted = [tag.strip() for tag in self.tags.text().split(",") if tag.strip()]
        old, recipe = self._chosen[0].tags, self._chosen[0].id
        if list(old) == wanted:
            return
        drop = [tag for tag in old if tag not in wanted]
        self._do(lambda store: store.tags.put([recipe], add=wanted, drop=drop))

    # comparing

    def compare(self) -> None:
        """Compare two versions, or two recipes, line by line and by their forecasts."""
        versions, recipes = self.chosen_versions(), self._chosen
        if len(versions) == 2:
            newer, older = (each.id for each in versions)

            def work(store: Store) -> tuple[Version, Version]:
                return store.recipes.version(older), store.recipes.version(newer)
        elif len(recipes) == 2:
            first, second = (each.id for each in recipes)

            def work(store: Store) -> tuple[Version, Version]:
                return store.recipes.newest(first), store.recipes.newest(second)
        else:
            return
        self._autosave.store.ask(work, self._show_compared, self._fail)

    def _show_compared(self, pair: tuple[Version, Version]) -> None:
        try:
            before, after = (read_document(each.document, tr("version")) for each in pair)
        except DesignerError as fault:
            self._fail(str(fault))
            return
        figures = self._figures(pair)
        lines = [
            Compared(each.what, each.before, each.after) for each in differences(before, after)
        ]
        rows = [each for each in figures if each.before != each.after] + lines
        alike = [f"{each.what} {each.before}" for each in figures if each.before == each.after]
        of_one = pair[0].recipe == pair[1].recipe
        headings = [
            tr("Version {number}", number=version.number) if of_one else recipe.name
            for version, recipe in zip(pair, (before, after), strict=True)
        ]
        if rows:
            rows = [*when_kept(*pair), *rows]
        self._say_compared(tuple(rows), headings, alike)

    def _figures(self, pair: tuple[Version, Version]) -> list[Compared]:
        """Return the forecasts of both that are known, also those that are alike."""
        found = []
        for each in (one for one in MAIN if one.listed):
            before, after = (version.summary.forecast(each.key) for version in pair)
            if before is not None and after is not None:
                texts = [figure(each.key, value, self._display) for value in (before, after)]
                found.append(Compared(tr(each.label), *texts))
        return found

    def _say_compared(
        self,
        rows: tuple[Compared, ...],
        headings: Sequence[str] = ("", ""),
        alike: Sequence[str] = (),
    ) -> None:
        """Show what differs, and below it which forecasts do not; nothing for no headings."""
        self.compared.compared.show_rows(rows, *headings)
        self.compared.setVisible(bool(rows))
        same = tr("The same in both: {figures}.", figures=", ".join(alike)) if alike else ""
        self.alike.setText(same if rows else tr("They do not differ."))
        self.alike.setVisible(bool(same) or not rows)
        self._around.setVisible(any(headings))
        self._share_room()


def _beside(buttons: Sequence[QPushButton]) -> FlowLayout:
    row = FlowLayout(across=6)
    for each in buttons:
        row.addWidget(each)
    return row
