"""Recipe box: every recipe that was kept, found with each key; its versions, trash and backups."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

from PySide6.QtCore import QMimeData, Qt, QTimer, Signal
from PySide6.QtGui import (
    QDragEnterEvent,
    QDropEvent,
    QGuiApplication,
    QHideEvent,
    QKeyEvent,
    QShowEvent,
)
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QMenu,
    QPushButton,
    QSplitter,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from designer.library.recipe_file import write_whole
from designer.library.store import RecipeRow
from designer.library.store.brew_journal import LOG_SUFFIX, take_in_file
from designer.library.store.brews import Brew
from designer.library.store.search import DAYS
from designer.recipe.quantity import Kind
from designer.translation import message, tr, trn
from designer.window.box.box_details import BoxDetails
from designer.window.box.box_table import BoxTable
from designer.window.box.chosen_sheets import ChosenSheets
from designer.window.box.collections_menu import CollectionsMenu
from designer.window.box.first_steps import FirstSteps
from designer.window.box.handed_out import HandedOut, local_files
from designer.window.box.recipes_model import COLUMNS, RecipesModel
from designer.window.parts.buttons import button
from designer.window.parts.deeds import add_deeds, add_entry
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.ordering import Order, order_menu, show_order
from designer.window.parts.page_frame import MARGIN, Page
from designer.window.parts.plain_text import tip
from designer.window.parts.questions import Questions
from designer.window.parts.row_menu import add_buttons, offer_menu
from designer.window.parts.under_way import OF_ITEMS, UnderWay
from designer.window.session.autosave import Autosave
from designer.window.session.box_maintenance import BoxMaintenance
from designer.window.session.brew_keeping import BrewKeeping
from designer.window.session.piecewise_job import PiecewiseJob
from designer.window.session.recipe_window import RecipeWindow
from designer.workbench.box_files import (
    BroughtIn,
    WrittenRecipe,
    brought_in_words,
    keep_a_piece,
    write_a_piece,
    written_words,
)
from designer.workbench.box_search import GRAMMAR, fits_told
from designer.workbench.keys import COPY, PASTE

if TYPE_CHECKING:
    from designer.library.store import Store
    from designer.library.store.search import Found
    from designer.library.store.search_words import FittingPot
    from designer.window.box.backups_panel import BackupsPanel

T = TypeVar("T")
HINT = message(
    "Find: porter   ibu 30..40   abv <5   with oats   without wheat   fits 9 L   tagged winter"
)
CLOSEST = message("Closest to what is searched, then the latest")
NEWEST_FIRST = ("changed", *DAYS)
"""Orders that begin with the last day."""
LOOK_AGAIN_MS, ALL_AFTER_KEY_MS = 2000, 200
FIRST_SHOWN = 200
"""So many are shown with each key; all others are listed once the keys have stopped."""


class SearchField(QLineEdit):
    """What is typed is searched for at once; Return and Down go to what was found."""

    left_down = Signal()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Down, Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.left_down.emit()
        else:
            super().keyPressEvent(event)


class RecipeBoxPage(Page):
    """Search, list, and what can be done with the chosen recipes; the backups in their place."""

    version_wanted = Signal(object)
    copy_wanted = Signal()
    copy_back_wanted = Signal()
    said = Signal(str, bool)
    door_wanted = Signal(int)
    """A door of Begin."""
    removed = Signal(str, object)
    """What was deleted, in words, and what puts it back."""
    paper_wanted = Signal(int)
    log_wanted = Signal(str)
    go_on_wanted = Signal(str)
    """A brew is to be gone on with at the stove."""

    def __init__(
        self,
        autosave: Autosave,
        maintenance: BoxMaintenance,
        brews: BrewKeeping,
        display: DisplayFormat,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._autosave, self._maintenance = autosave, maintenance
        self._display = display
        kept = display.settings.kept_order("box")
        known = kept is not None and kept[0] in {each.key for each in COLUMNS}
        self._order = Order(*kept) if kept is not None and known else None
        self._token = ""
        self._problems: Sequence[str] = ()
        self._pots: Sequence[FittingPot] = ()
        self._was_listed = False
        self.job: PiecewiseJob | None = None
        self.setAcceptDrops(True)
        self.model = RecipesModel(display, self)
        self.handed_out = HandedOut(autosave)
        self.model.handed_out = self.handed_out.mime
        self.details = BoxDetails(autosave, brews, display)
        self.backups: BackupsPanel | None = None
        self.sheets = ChosenSheets(display, autosave, self)
        self._lay_out()
        self._connect()
        self._look_again = QTimer(self, interval=LOOK_AGAIN_MS)
        self._look_again.timeout.connect(self._ask_for_changes)
        self._all_soon = QTimer(self, singleShot=True, interval=ALL_AFTER_KEY_MS)
        self._all_soon.timeout.connect(self._list_all)
        self.model.rows_wanted.connect(self._read_rows)
        display.settings.changed.connect(self.look_up)
        autosave.box_replaced.connect(self.look_up)
        autosave.box_replaced.connect(self.collections.follow)

    @property
    def _questions(self) -> Questions:
        window = self.window()
        return window.questions if isinstance(window, RecipeWindow) else Questions()

    # layout

    def _lay_out(self) -> None:
        both = QSplitter(Qt.Orientation.Horizontal)
        both.setChildrenCollapsible(False)
        both.addWidget(self._list())
        both.addWidget(self.details)
        both.setStretchFactor(0, 3)
        both.setStretchFactor(1, 1)
        both.setSizes([830, 415])
        recipes = QWidget()
        within = QVBoxLayout(recipes)
        within.setContentsMargins(0, 0, 0, 0)
        within.setSpacing(8)
        within.addLayout(self._top())
        within.addWidget(both, 1)
        self.parts = QStackedWidget()
        self.parts.addWidget(recipes)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(MARGIN, 12, MARGIN, 12)
        layout.addWidget(self.parts)

    def _top(self) -> QHBoxLayout:
        self.search = SearchField()
        self.search.setAccessibleName(tr("Find recipes"))
        keys = tr("Ctrl+F comes here, Down goes to the list")
        self.search.setToolTip(tip(f"{tr(GRAMMAR)}\n{keys}"))
        self.search.left_down.connect(self._go_to_list)
        self.search.setPlaceholderText(tr(HINT))
        self.search.setClearButtonEnabled(True)
        self.search.textChanged.connect(self.look_up)
        self.trash_button = QPushButton(tr("Trash"))
        self.trash_button.setCheckable(True)
        self.trash_button.setToolTip(tr("Show what was thrown away"))
        self.trash_button.setAccessibleName(tr("Show the trash"))
        self.trash_button.toggled.connect(self._show_trash)
        self.backups_button = button(
            tr("Backups…"),
            tr("The backups of the whole box, and how to restore one"),
            self.show_backups,
        )
        row = QHBoxLayout()
        row.addWidget(self.search, 1)
        self.collections = CollectionsMenu(
            self._autosave, self.search, self._chosen_ids, lambda: self._questions
        )
        row.addWidget(self.collections)
        for text, hint, act in (
            (tr("Import…"), tr("Import recipe files into the Recipe box"), self.import_files),
            (tr("Export…"), tr("Export the chosen recipes as files"), self.export),
        ):
            row.addWidget(button(text, hint, act))
        self.sheets_button = self.sheets.button(self._chosen_ids, self._run)
        row.addWidget(self.sheets_button)
        row.addWidget(self.trash_button)
        row.addWidget(self.backups_button)
        return row

    def _list(self) -> QWidget:
        self.table = BoxTable(self.model, self._display.settings)
        self.told = QLabel()
        self.told.setTextFormat(Qt.TextFormat.PlainText)
        self.told.setObjectName("soft")
        self.told.setWordWrap(True)
        self.told.setTextFormat(Qt.TextFormat.PlainText)
        self.under_way = UnderWay(self._stop, tr("What is done so far is kept"), OF_ITEMS)
        below = QHBoxLayout()
        below.addWidget(self.told, 1)
        below.addWidget(self.under_way)
        box = QWidget()
        layout = QVBoxLayout(box)
        layout.setContentsMargins(0, 0, 8, 0)
        layout.addWidget(self.table, 1)
        layout.addWidget(self._first_steps())
        layout.addLayout(below)
        return box

    def _first_steps(self) -> FirstSteps:
        self.first_steps = steps = FirstSteps()
        steps.door_wanted.connect(self.door_wanted)
        steps.import_wanted.connect(self.import_files)
        steps.all_wanted.connect(lambda: self.search.clear())
        steps.trash_wanted.connect(lambda: self.trash_button.setChecked(True))
        steps.hidden.connect(self._hide_examples)
        return steps

    def _hide_examples(self) -> None:
        self._display.settings.examples_told = True
        self.first_steps.hide()
        self.take_focus()

    def _offer_steps(self, count: int | None) -> None:
        """Say below the list what it is for, or why it is empty, where that helps."""
        steps, typed = self.first_steps, self.search.text().strip()
        examples = sum(bool(each.example) for each in self.model.rows_read)
        if self.trash_button.isChecked() or count is None:
            steps.hide()
        elif not count and typed:
            steps.show_not_found(typed)
        elif not count:
            steps.show_empty()
        elif examples and not typed and not self._display.settings.examples_told:
            steps.show_examples(examples)
        else:
            steps.hide()

    def _go_to_list(self) -> None:
        self.table.setFocus(Qt.FocusReason.OtherFocusReason)
        if not self.chosen():
            self.table.choose_near(0)

    def _connect(self) -> None:
        self.table.horizontalHeader().sectionClicked.connect(self._sort)
        show_order(self.table.horizontalHeader(), COLUMNS, self._order)
        self.table.open_wanted.connect(self.details.open_newest)
        self.table.delete_wanted.connect(self.throw_away)
        self.table.drag_wanted.connect(self._hand_out_for_drag)
        self.table.copy_wanted.connect(self.copy)
        self.table.paste_wanted.connect(self.paste)
        self.table.selectionModel().selectionChanged.connect(self._choose)
        offer_menu(self.table, self.fill_menu)
        self.details.version_wanted.connect(self.version_wanted)
        self.details.throw_wanted.connect(self.throw_away)
        self.details.changed.connect(self.look_again)
        self.details.said.connect(self.said)
        self.sheets.said.connect(self.said)
        self.collections.said.connect(self.said)
        self.collections.removed.connect(self.removed)
        self.collections.changed.connect(self.look_again)
        self.details.paper_wanted.connect(self.paper_wanted)
        self.details.brew_panel.removed.connect(self.removed)
        self.details.brew_panel.log_wanted.connect(self.log_wanted)
        self.details.brew_panel.go_on_wanted.connect(self.go_on_wanted)

    def fill_menu(self, menu: QMenu) -> None:
        """Add what can be done to the chosen recipes."""
        details = self.details
        add_buttons(menu, (details.open_button, details.copy_button, details.throw_button))
        add_buttons(menu, (details.compare_button, details.brewed_button))
        menu.addSeparator()
        add_deeds(menu, self.table.deeds(), (COPY, PASTE))
        add_entry(menu, tr("Export…"), self.export).setEnabled(bool(self.chosen()))
        menu.addMenu(self.order_menu(menu))
        menu.addMenu(self.table.columns_menu())

    # backups

    def show_backups(self) -> None:
        """Show the backups in place of the recipes."""
        if self.backups is None:
            from designer.window.box.backups_panel import BackupsPanel  # looked at by few

            self.backups = BackupsPanel(self._autosave, self._maintenance, self.model.display)
            self.backups.closed.connect(self.show_recipes)
            self.backups.copy_wanted.connect(self.copy_wanted)
            self.backups.copy_back_wanted.connect(self.copy_back_wanted)
            self.backups.said.connect(self.said)
            self.parts.addWidget(self.backups)
        self.parts.setCurrentWidget(self.backups)
        self.backups.take_focus()

    def show_recipes(self) -> None:
        """Show the recipes again."""
        self.parts.setCurrentIndex(0)
        self.backups_button.setFocus(Qt.FocusReason.OtherFocusReason)

    def close_down(self) -> None:
        """For the end of the program, when the store has stopped: leave nothing behind."""
        self._stop()
        self.details.close_down()
        self.handed_out.clear()
        if self.backups is not None:
            self.backups.latest.wait()

    # finding

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._ask_for_changes()  # first: what changes after it is noticed
        self.look_again()
        self.collections.follow()
        self._look_again.start()

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        self._look_again.stop()

    def begin_search(self) -> bool:
        self.parts.setCurrentIndex(0)
        self.take_focus()
        return True

    def take_focus(self) -> None:
        """Give the keyboard to the search, or to the backups if they are shown."""
        if self.backups is not None and self.parts.currentWidget() is self.backups:
            self.backups.take_focus()
            return
        self.search.setFocus(Qt.FocusReason.OtherFocusReason)
        self.search.selectAll()

    def look_up(self) -> None:
        """Search with what is typed; answers for older keys are dropped."""
        if not self.isVisible():
            return
        ask = self._asked()

        def work(store: Store) -> Found:
            return store.finder.find(**ask, limit=FIRST_SHOWN)

        self._all_soon.stop()
        self._autosave.store.ask(work, self._show_found, self._fail, key="find")

    def look_again(self) -> None:
        """Look what became of the recipes that are listed, and stay where the list is."""
        if len(self.model.ids) <= FIRST_SHOWN:
            self.look_up()
        elif self.isVisible():
            self._list_all()

    def _asked(self) -> dict[str, Any]:
        """What is searched for, as `Finder` takes it."""
        return {
            "typed": self.search.text(),
            "order": self._order.key if self._order else "closest",
            "descending": self._order.down if self._order else None,
            "trashed": self.trash_button.isChecked(),
        }

    def _show_found(self, found: Found) -> None:
        """Show the first that were found; a key is answered with what was found in its time."""
        is_all = not (found.more or found.hurried)
        self.table.show_days(found.days)
        if found.rows or is_all:
            with self._staying():
                self.model.show_rows(found.rows)
                self._choose_first()
        self._problems, self._pots = found.problems, found.pots
        self._tell(len(found.rows) if is_all else None)
        if not is_all:
            self._all_soon.start()

    def _choose_first(self) -> None:
        """Choose the first recipe of the first list, so that there is something to see of one."""
        is_chosen = self.table.selectionModel().hasSelection()
        if not self._was_listed and self.model.ids and not is_chosen:
            self.table.choose({self.model.ids[0]})
        self._was_listed = self._was_listed or bool(self.model.ids)

    def _list_all(self) -> None:
        """List all that match; the rows that are seen now are read anew with them."""
        ask, seen = self._asked(), self.table.seen_ids()

        def work(store: Store) -> tuple[tuple[int, ...], list[RecipeRow]]:
            return store.finder.every(**ask), store.finder.rows(seen)

        def done(found: tuple[tuple[int, ...], list[RecipeRow]]) -> None:
            ids, rows = found
            with self._staying():
                self.model.show_all(ids)
                self.model.keep_only(rows)
            self._tell(len(ids))

        self._autosave.store.ask(work, done, self._fail, key="find")

    def _read_rows(self, ids: Sequence[int]) -> None:
        self._autosave.store.ask(
            lambda store: store.finder.rows(ids), self.model.take_rows, self._fail
        )

    @contextmanager
    def _staying(self) -> Iterator[None]:
        """Keep what is chosen and where the list is, while other rows come into it."""
        chosen = {row.id for row in self.table.chosen()}
        at, top = self.table.currentIndex().row(), self.table.top_id()
        yield
        if not self.table.selectionModel().hasSelection():
            self.table.choose(chosen)
        if chosen and not self.table.chosen() and self.table.hasFocus():
            self.table.choose_near(at)
        self.table.stay_at(top)
        self._choose()

    def _tell(self, count: int | None) -> None:
        """Say how many there are, if that is known, and what was not understood."""
        told = list(self._problems)
        if count is None:
            told.append(tr("The first {number}; more are being listed …", number=FIRST_SHOWN))
        elif count:
            told.append(self._how_many(count))
        else:
            told.append(self._nothing())
        told += [self._fitting(each) for each in self._pots]
        self._offer_steps(count)
        self.told.setText(" ".join(told))

    def _fitting(self, pot: FittingPot) -> str:
        """Say what fits a pot that is searched for."""
        return fits_told(pot, self._display.short(Kind.VOLUME, pot.foam_line_l))

    def _how_many(self, count: int) -> str:
        found, thrown = bool(self.search.text().strip()), self.trash_button.isChecked()
        if found and thrown:
            return trn(
                "{number:,} recipe found in the trash.",
                "{number:,} recipes found in the trash.",
                count,
            )
        if found:
            return trn("{number:,} recipe found.", "{number:,} recipes found.", count)
        if thrown:
            return trn("{number:,} recipe in the trash.", "{number:,} recipes in the trash.", count)
        return trn("{number:,} recipe.", "{number:,} recipes.", count)

    def _nothing(self) -> str:
        if self.trash_button.isChecked():
            return tr("The trash is empty.")
        if self.search.text().strip():
            return tr("No recipe found.")
        return tr("No recipe yet.")

    def _sort(self, section: int) -> None:
        order = COLUMNS[section].key
        if not order:
            return
        was = self._order
        down = not was.down if was is not None and was.key == order else order in NEWEST_FIRST
        self._order_by(Order(order, down))

    def _order_by(self, order: Order | None) -> None:
        self._order = order
        self.model.display.settings.keep_order("box", order)
        show_order(self.table.horizontalHeader(), COLUMNS, order)
        self.look_up()

    def order_menu(self, parent: QWidget) -> QMenu:
        """Return a menu of the columns that are seen, and of what was found as it fits best."""
        shown = [
            (each.key, each.heading)
            for number, each in enumerate(COLUMNS)
            if each.key and not self.table.isColumnHidden(number)
        ]
        return order_menu(
            parent, shown, self._order, self._order_by, CLOSEST, frozenset(NEWEST_FIRST)
        )

    def _ask_for_changes(self) -> None:
        token = self._token

        def done(changes: Any) -> None:
            if self._token and changes:
                self.look_again()
                self.collections.follow()
            self._token = changes.token

        self._autosave.store.ask(
            lambda store: store.changes_since(token), done, None, key="changes"
        )

    # choosing and doing

    def chosen(self) -> list[RecipeRow]:
        """Return the chosen recipes, from the top."""
        return self.table.chosen()

    def _chosen_ids(self) -> list[int]:
        return [row.id for row in self.chosen()]

    def _choose(self) -> None:
        self.details.show_chosen(self.chosen(), in_trash=self.trash_button.isChecked())

    def _do(self, work: Callable[[Store], T], then: Callable[[T], object] | None = None) -> None:
        def done(result: T) -> None:
            self.look_again()
            if then is not None:
                then(result)

        self._autosave.store.ask(work, done, self._fail)

    def _fail(self, fault: str) -> None:
        self.said.emit(fault, True)

    def throw_away(self) -> None:
        """Put the chosen recipes into the trash, or take them out of it."""
        ids = self._chosen_ids()
        if not ids:
            return
        if self.trash_button.isChecked():
            self._do(lambda store: store.trash.restore(ids))
            return
        many = trn("{number:,} recipe", "{number:,} recipes", len(ids))
        what = self.chosen()[0].name[:60] if len(ids) == 1 else many
        told = tr("“{what}” is in the trash; open Trash to restore it.", what=what)

        def back() -> None:
            self._do(lambda store: store.trash.restore(ids))

        self._do(lambda store: store.trash.put(ids), lambda _: self.removed.emit(told, back))

    def _show_trash(self) -> None:
        self.table.clearSelection()
        self.look_up()

    # files

    def import_files(self) -> None:
        """Ask for recipe files and keep them in the box."""
        self.bring_in(self._questions.which_files(self))

    def bring_in(self, paths: list[Path]) -> None:
        """Keep recipe files in the box, and saved brew logs.

        What cannot be read is told, the rest comes in.
        """

        def done(pieces: list[BroughtIn], left: int) -> None:
            self.said.emit(*brought_in_words(pieces, left))
            self.look_again()

        logs = [path for path in paths if path.suffix.lower() == LOG_SUFFIX]
        recipes = [path for path in paths if path not in logs]
        for path in logs:
            self._take_in(path)
        if recipes:
            self._run(tr("Importing"), recipes, keep_a_piece, done)

    def _take_in(self, path: Path) -> None:
        """Take in a brew log that was saved to a file while the box could not keep it."""

        def told(brew: Brew) -> None:
            self.said.emit(
                tr("The brew log of “{name}” is in the Recipe box.", name=brew.name[:60]), False
            )

        self._do(lambda store: take_in_file(store, path), told)

    def export(self) -> None:
        """Write the chosen recipes as files into a folder."""
        chosen = self._chosen_ids()
        if not chosen:
            self.said.emit(tr("Choose the recipes to export in the list."), False)
            return
        folder = self._questions.which_folder(self)
        if folder is None:
            return

        def done(pieces: list[dict[int, WrittenRecipe]], left: int) -> None:
            self.said.emit(written_words(pieces, folder, left), False)

        self._run(
            tr("Exporting"),
            chosen,
            lambda store, recipes: write_a_piece(store, recipes, folder, write_whole),
            done,
        )

    def _run(
        self,
        doing: str,
        items: Sequence[T],
        piece: Callable[[Store, Sequence[T]], tuple[int, object]],
        then: Callable[[list[Any], int], None],
    ) -> None:
        """Do long work a piece at a time, and show how far it is; one such work at a time."""
        if self.job is not None:
            self.said.emit(
                tr("{doing} is still under way; stop it first.", doing=self.under_way.doing), False
            )
            return
        job = self.job = PiecewiseJob(self._autosave.store, items, piece, self)

        def ended(pieces: list[Any]) -> None:
            self.job = None
            self.under_way.tell(doing, 0, 0)
            job.deleteLater()
            then(pieces, len(items) - job.done)

        job.progressed.connect(partial(self.under_way.tell, doing))
        job.failed.connect(self._fail)
        job.ended.connect(ended)
        job.begin()

    def _stop(self) -> None:
        if self.job is not None:
            self.job.stop()

    def _hand_out_for_drag(self) -> None:
        def failed(fault: str) -> None:
            self.table.give_up_drag()
            self._fail(fault)

        self.handed_out.write(self.chosen(), self.table.drag_now, failed)

    def copy(self) -> None:
        """Put the chosen recipes on the clipboard: files for a folder, text for a letter."""
        chosen = self.chosen()
        if not chosen:
            return

        def done() -> None:
            QGuiApplication.clipboard().setMimeData(self.handed_out.mime(chosen))
            what = trn("{number:,} recipe", "{number:,} recipes", len(chosen))
            if len(chosen) == 1:
                what = tr("“{name}”", name=chosen[0].name[:60])
            told = tr(
                "{what} copied: paste into a folder for files, into a message for text.", what=what
            )
            self.said.emit(told, False)

        self.handed_out.write(chosen, done, self._fail)

    def paste(self) -> None:
        """Keep the recipe files that are on the clipboard."""
        self._take(QGuiApplication.clipboard().mimeData())

    def _take(self, mime: QMimeData) -> None:
        if self.handed_out.is_own(mime):
            self.said.emit(
                tr("Those recipes are in this box. Duplicate makes a copy of one."), False
            )
        else:
            self.bring_in(local_files(mime))

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if local_files(event.mimeData()) and not self.handed_out.is_own(event.mimeData()):
            event.setDropAction(Qt.DropAction.CopyAction)
            event.accept()
        else:
            event.ignore()

    def dropEvent(self, event: QDropEvent) -> None:
        event.setDropAction(Qt.DropAction.CopyAction)  # no one is to delete what was dropped
        event.accept()
        self._take(event.mimeData())
