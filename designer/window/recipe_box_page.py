"""Recipe box: every recipe that was kept, found with each key; its versions, tags and trash."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QDragEnterEvent, QDropEvent, QKeyEvent, QShowEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QHeaderView,
    QLabel,
    QLineEdit,
    QListView,
    QPushButton,
    QSplitter,
    QTableView,
    QVBoxLayout,
    QWidget,
)

from designer.brewday.outlook import look_ahead
from designer.errors import DesignerError
from designer.library.recipe_file import document_text, load, read_document, write_whole
from designer.library.store import RecipeRow, Version, VersionRow
from designer.recipe.comparing import differences
from designer.window.compose_page import MARGIN, heading
from designer.window.figures import figure
from designer.window.keeper import Keeper, summary_of
from designer.window.questions import SUFFIX, Questions, file_name
from designer.window.recipes_model import COLUMNS, RecipesModel, VersionsModel
from designer.window.shown import Shown

if TYPE_CHECKING:
    from designer.library.store import Store

HINT = "Find: porter   ibu 30..40   abv 4..5   with oats   without wheat   fits 9 L   tagged winter"
LOOK_AGAIN_MS = 2000
MOST_SHOWN = 200


class BoxTable(QTableView):
    """The list; Return opens, Delete throws away or restores."""

    open_wanted = Signal()
    delete_wanted = Signal()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.open_wanted.emit()
        elif event.key() == Qt.Key.Key_Delete:
            self.delete_wanted.emit()
        else:
            super().keyPressEvent(event)


class RecipeBoxPage(QWidget):
    """Search, list, and what can be done with the chosen recipes."""

    version_wanted = Signal(object)
    said = Signal(str, bool)

    def __init__(self, keeper: Keeper, shown: Shown, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._keeper, self._shown = keeper, shown
        self._order, self._down = "closest", False
        self._token = ""
        self._versions_of = 0
        self.setAcceptDrops(True)
        self.model = RecipesModel(shown, self)
        self.versions_model = VersionsModel(shown, self)
        self._lay_out()
        self._look_again = QTimer(self, interval=LOOK_AGAIN_MS)
        self._look_again.timeout.connect(self._ask_for_changes)
        shown.settings.changed.connect(self.look_up)
        self._choose()

    @property
    def _questions(self) -> Questions:
        return getattr(self.window(), "questions", None) or Questions()

    # layout

    def _lay_out(self) -> None:
        both = QSplitter(Qt.Orientation.Horizontal)
        both.setChildrenCollapsible(False)
        both.addWidget(self._list())
        both.addWidget(self._details())
        both.setStretchFactor(0, 3)
        both.setStretchFactor(1, 1)
        both.setSizes([900, 340])
        layout = QVBoxLayout(self)
        layout.setContentsMargins(MARGIN, 12, MARGIN, 12)
        layout.setSpacing(8)
        layout.addLayout(self._top())
        layout.addWidget(both, 1)

    def _top(self) -> QHBoxLayout:
        self.search = QLineEdit()
        self.search.setAccessibleName("Find recipes")
        self.search.setPlaceholderText(HINT)
        self.search.setClearButtonEnabled(True)
        self.search.textChanged.connect(self.look_up)
        self.trash_button = QPushButton("Trash")
        self.trash_button.setCheckable(True)
        self.trash_button.setToolTip("Show what was thrown away")
        self.trash_button.setAccessibleName("Show the trash")
        self.trash_button.toggled.connect(self._show_trash)
        row = QHBoxLayout()
        row.addWidget(self.search, 1)
        for text, tip, act in (
            ("Bring in…", "Bring recipe files into the box", self.import_files),
            ("Write out…", "Write the chosen recipes as files", self.export),
        ):
            row.addWidget(self._button(text, tip, act))
        row.addWidget(self.trash_button)
        return row

    def _button(self, text: str, tip: str, act: Callable[[], None]) -> QPushButton:
        button = QPushButton(text)
        button.setToolTip(tip)
        button.setAccessibleName(f"{text.rstrip('…')}: {tip}")
        button.clicked.connect(lambda _checked=False: act())
        return button

    def _list(self) -> QWidget:
        self.table = BoxTable()
        self.table.setModel(self.model)
        self.table.setAccessibleName("Recipes")
        self.table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.table.setShowGrid(False)
        self.table.setTabKeyNavigation(False)
        self.table.setWordWrap(False)
        self.table.verticalHeader().hide()
        self.table.verticalHeader().setDefaultSectionSize(self.fontMetrics().height() + 12)
        header = self.table.horizontalHeader()
        header.setHighlightSections(False)
        header.setSectionsClickable(True)
        header.setSectionResizeMode(QHeaderView.ResizeMode.Interactive)
        header.setStretchLastSection(True)
        header.sectionClicked.connect(self._sort)
        for number, column in enumerate(COLUMNS):
            self.table.setColumnWidth(number, column.width)
        self.table.open_wanted.connect(self.open_chosen)
        self.table.delete_wanted.connect(self.throw_away)
        self.table.doubleClicked.connect(lambda _index: self.open_chosen())
        self.table.selectionModel().selectionChanged.connect(self._choose)
        self.told = QLabel()
        self.told.setObjectName("soft")
        self.told.setWordWrap(True)
        box = QWidget()
        layout = QVBoxLayout(box)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.table, 1)
        layout.addWidget(self.told)
        return box

    def _details(self) -> QWidget:
        card = QFrame()
        card.setObjectName("card")
        self.title = QLabel()
        self.title.setWordWrap(True)
        self.tags = QLineEdit()
        self.tags.setAccessibleName("Tags, with commas between them")
        self.tags.setPlaceholderText("Tags: winter, strong …")
        self.tags.editingFinished.connect(self._put_tags)
        self.versions = QListView()
        self.versions.setModel(self.versions_model)
        self.versions.setAccessibleName("Versions, the newest first")
        self.versions.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.versions.selectionModel().selectionChanged.connect(self._choose_versions)
        self.versions.doubleClicked.connect(lambda _index: self.open_version())
        self.compared = QLabel()
        self.compared.setWordWrap(True)
        self.compared.setTextFormat(Qt.TextFormat.PlainText)
        self.compared.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        buttons = QGridLayout()
        self.open_button = self._button("Open", "Open the newest version", self.open_chosen)
        self.copy_button = self._button("Duplicate", "Keep a copy of its own", self.duplicate)
        self.throw_button = self._button("Throw away", "Put into the trash", self.throw_away)
        self.back_button = self._button(
            "Bring back", "Make the chosen version the newest", self.bring_back
        )
        self.branch_button = self._button(
            "Branch", "Begin a new recipe from the chosen version", self.branch
        )
        self.brewed_button = self._button(
            "Brewed today", "Note that the chosen recipe was brewed today", self.note_brewed
        )
        self.compare_button = self._button(
            "Compare", "Compare the two chosen recipes or versions, line by line", self.compare
        )
        self._buttons = (
            self.open_button, self.copy_button, self.throw_button, self.back_button,
            self.branch_button, self.compare_button, self.brewed_button,
        )  # fmt: skip
        for number, button in enumerate(self._buttons):
            buttons.addWidget(button, number // 3, number % 3)
        layout = QVBoxLayout(card)
        layout.setContentsMargins(14, 12, 14, 12)
        layout.addWidget(self.title)
        layout.addWidget(self.tags)
        layout.addLayout(buttons)
        layout.addWidget(heading("Versions"))
        layout.addWidget(self.versions, 1)
        layout.addWidget(self.compared)
        return card

    # finding

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.look_up()
        self._look_again.start()

    def hideEvent(self, event: Any) -> None:
        super().hideEvent(event)
        self._look_again.stop()

    def take_focus(self) -> None:
        """Give the keyboard to the search."""
        self.search.setFocus(Qt.FocusReason.OtherFocusReason)
        self.search.selectAll()

    def look_up(self) -> None:
        """Search with what is typed; answers for older keys are dropped."""
        if not self.isVisible():
            return
        typed, order, down = self.search.text(), self._order, self._down
        trashed = self.trash_button.isChecked()
        wanted = None if order == "closest" else down

        def patiently(store: Store) -> Any:
            return store.finder.find(
                typed,
                order=order,
                descending=wanted,
                trashed=trashed,
                limit=MOST_SHOWN,
                hurry_s=None,
            )

        def work(store: Store) -> Any:
            return store.finder.find(
                typed, order=order, descending=wanted, trashed=trashed, limit=MOST_SHOWN
            )

        def done(found: Any) -> None:
            # A key is answered at once with what was found by then; the rest follows.
            if found.hurried:
                self._keeper.store.ask(patiently, self._show_found, self._fail, key="find")
            if found.rows or not found.hurried:
                self._show_found(found)

        self._keeper.store.ask(work, done, self._fail, key="find")

    def _show_found(self, found: Any) -> None:
        chosen = {row.id for row in self.chosen()}
        self.model.show_rows(found.rows)
        self._select(chosen)
        told = list(found.problems)
        if found.more:
            told.append(f"The first {len(found.rows)} are shown; type more to narrow them down.")
        elif not found.rows:
            told.append(self._nothing())
        self.told.setText(" ".join(told))
        self._choose()

    def _nothing(self) -> str:
        if self.trash_button.isChecked():
            return "The trash is empty."
        if self.search.text().strip():
            return "Nothing matches. Take a word away, or look in the trash."
        return "Nothing is kept yet. Save a recipe (Ctrl+S) and it is here, with every version."

    def _select(self, ids: set[int]) -> None:
        if not ids:
            return
        model = self.table.selectionModel()
        flag = model.SelectionFlag.Select | model.SelectionFlag.Rows
        for number, row in enumerate(self.model.rows):
            if row.id in ids:
                model.select(self.model.index(number, 0), flag)

    def _sort(self, section: int) -> None:
        order = COLUMNS[section].order
        if not order:
            return
        self._down = not self._down if order == self._order else order in ("changed", "brewed")
        self._order = order
        header = self.table.horizontalHeader()
        header.setSortIndicatorShown(True)
        way = Qt.SortOrder.DescendingOrder if self._down else Qt.SortOrder.AscendingOrder
        header.setSortIndicator(section, way)
        self.look_up()

    def _ask_for_changes(self) -> None:
        token = self._token

        def done(changes: Any) -> None:
            if self._token and changes:
                self.look_up()
            self._token = changes.token

        self._keeper.store.ask(lambda store: store.changes_since(token), done, None, key="changes")

    # choosing

    def chosen(self) -> list[RecipeRow]:
        """Return the chosen recipes, from the top."""
        rows = sorted({index.row() for index in self.table.selectionModel().selectedIndexes()})
        return [self.model.rows[row] for row in rows if row < len(self.model.rows)]

    def _choose(self) -> None:
        chosen = self.chosen()
        one = chosen[0] if len(chosen) == 1 else None
        in_trash = self.trash_button.isChecked()
        self.title.setText(
            f"<b>{_escaped(one.name)}</b>" if one is not None
            else f"<b>{len(chosen)} recipes chosen</b>" if chosen
            else "Choose a recipe in the list"
        )  # fmt: skip
        if not self.tags.hasFocus():
            self.tags.setText(", ".join(one.tags) if one is not None else "")
        self.tags.setEnabled(one is not None and not in_trash)
        self.open_button.setEnabled(one is not None and not in_trash)
        self.copy_button.setEnabled(one is not None and not in_trash)
        self.brewed_button.setEnabled(one is not None and not in_trash)
        self.throw_button.setEnabled(bool(chosen))
        self.throw_button.setText("Restore" if in_trash else "Throw away")
        self.compared.setText("")
        self._show_versions(one.id if one is not None else 0)

    def _show_versions(self, recipe: int) -> None:
        self._versions_of = recipe
        if not recipe:
            self.versions_model.show_versions(())
            self._choose_versions()
            return

        def done(versions: list[VersionRow]) -> None:
            if recipe == self._versions_of:
                self.versions_model.show_versions(tuple(versions))
                self._choose_versions()

        self._keeper.store.ask(
            lambda store: store.recipes.versions(recipe), done, self._fail, key="versions"
        )

    def chosen_versions(self) -> list[VersionRow]:
        """Return the chosen versions, the newest first."""
        indexes = self.versions.selectionModel().selectedIndexes()
        rows = sorted({index.row() for index in indexes})
        return [self.versions_model.versions[row] for row in rows]

    def _choose_versions(self) -> None:
        versions, recipes = self.chosen_versions(), self.chosen()
        self.back_button.setEnabled(len(versions) == 1)
        self.branch_button.setEnabled(len(versions) == 1)
        self.compare_button.setEnabled(len(versions) == 2 or len(recipes) == 2)

    # doing

    def _do(self, work: Callable[[Store], Any], then: Callable[[Any], None] | None = None) -> None:
        def done(result: Any) -> None:
            self.look_up()
            if then is not None:
                then(result)

        self._keeper.store.ask(work, done, self._fail)

    def _fail(self, fault: str) -> None:
        self.said.emit(fault, True)

    def open_chosen(self) -> None:
        """Open the newest version of the chosen recipe."""
        chosen = self.chosen()
        if len(chosen) == 1 and not self.trash_button.isChecked():
            recipe = chosen[0].id
            self._keeper.store.ask(
                lambda store: store.recipes.newest(recipe), self.version_wanted.emit, self._fail
            )

    def open_version(self) -> None:
        """Open the chosen version as it was."""
        versions = self.chosen_versions()
        if len(versions) == 1:
            number = versions[0].id
            self._keeper.store.ask(
                lambda store: store.recipes.version(number), self.version_wanted.emit, self._fail
            )

    def duplicate(self) -> None:
        """Keep a copy of the chosen recipe."""
        chosen = self.chosen()
        if chosen:
            recipe = chosen[0].id
            self._do(lambda store: store.recipes.duplicate(recipe))

    def note_brewed(self) -> None:
        """Note that the chosen recipe's newest version was brewed today."""
        chosen = self.chosen()
        if chosen:
            recipe = chosen[0].id
            told = f"“{chosen[0].name[:60]}” was brewed today."
            self._do(
                lambda store: store.brews.start(store.recipes.newest(recipe)),
                lambda _: self.said.emit(told, False),
            )

    def bring_back(self) -> None:
        """Make the chosen version the newest again."""
        versions = self.chosen_versions()
        if versions:
            version = versions[0].id
            self._do(lambda store: store.recipes.bring_back(version))

    def branch(self) -> None:
        """Begin a new recipe with the chosen version."""
        chosen, versions = self.chosen(), self.chosen_versions()
        if chosen and versions:
            version, name = versions[0].id, f"{chosen[0].name}, another way"
            self._do(lambda store: store.recipes.branch(version, name), self.version_wanted.emit)

    def throw_away(self) -> None:
        """Put the chosen recipes into the trash, or take them out of it."""
        ids = [row.id for row in self.chosen()]
        if not ids:
            return
        if self.trash_button.isChecked():
            self._do(lambda store: store.trash.restore(ids))
            return
        what = self.chosen()[0].name if len(ids) == 1 else f"{len(ids)} recipes"
        self._do(
            lambda store: store.trash.put(ids),
            lambda _: self.said.emit(
                f"“{what[:60]}” is in the trash; Trash brings it back.", False
            ),
        )

    def _show_trash(self) -> None:
        self.table.clearSelection()
        self.look_up()

    def _put_tags(self) -> None:
        chosen = self.chosen()
        if len(chosen) != 1:
            return
        wanted = [tag.strip() for tag in self.tags.text().split(",") if tag.strip()]
        old, recipe = chosen[0].tags, chosen[0].id
        if list(old) == wanted:
            return
        drop = [tag for tag in old if tag not in wanted]
        self._do(lambda store: store.tags.put([recipe], add=wanted, drop=drop))

    def compare(self) -> None:
        """Compare two versions, or two recipes, line by line and by their forecasts."""
        versions, recipes = self.chosen_versions(), self.chosen()
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
        self._keeper.store.ask(work, self._show_compared, self._fail)

    def _show_compared(self, pair: tuple[Version, Version]) -> None:
        try:
            before, after = (read_document(each.document, "version") for each in pair)
        except DesignerError as fault:
            self._fail(str(fault))
            return
        lines = []
        for key, name in (
            ("original_gravity", "og"), ("abv_percent", "abv"), ("bitterness_ibu", "ibu"),
            ("colour_srm", "srm"),
        ):  # fmt: skip
            values = [getattr(each.summary, name) for each in pair]
            if None not in values:
                texts = [figure(key, value, self._shown) for value in values]
                lines.append(f"{texts[0]}  →  {texts[1]}")
        lines = ["   ".join(lines)] if lines else []
        for each in differences(before, after):
            lines.append(f"{each.what}: {each.before or '–'}  →  {each.after or '–'}")
        self.compared.setText("\n".join(lines) if len(lines) > 1 else "They do not differ.")

    # files

    def import_files(self) -> None:
        """Ask for recipe files and keep them in the box."""
        self.bring_in(self._questions.which_files(self))

    def bring_in(self, paths: list[Path]) -> None:
        """Keep recipe files in the box; what cannot be read is told, the rest comes in."""
        if not paths:
            return

        def work(store: Store) -> tuple[int, list[str]]:
            faults, many = [], []
            for path in paths:
                try:
                    recipe = load(path)
                except DesignerError as fault:
                    faults.append(str(fault))
                    continue
                summary = summary_of(recipe, look_ahead(recipe, ranges=False))
                many.append((document_text(recipe), summary, ()))
            store.recipes.add_many(many)
            return len(many), faults

        def done(result: tuple[int, list[str]]) -> None:
            count, faults = result
            said = f"{count} {'recipe' if count == 1 else 'recipes'} brought in."
            self.said.emit("\n".join([said, *faults[:5]]), bool(faults))

        self._do(work, done)

    def export(self) -> None:
        """Write the chosen recipes as files into a folder."""
        chosen = self.chosen()
        if not chosen:
            self.said.emit("Choose the recipes to write out in the list.", False)
            return
        folder = self._questions.which_folder(self)
        if folder is None:
            return

        def work(store: Store) -> int:
            for row in chosen:
                path = _free(folder / (file_name(row.name) + SUFFIX))
                write_whole(path, store.recipes.newest(row.id).document.encode("utf-8"))
            return len(chosen)

        def done(count: int) -> None:
            files = "1 file" if count == 1 else f"{count} files"
            self.said.emit(f"Wrote {files} to {folder}.", False)

        self._keeper.store.ask(work, done, self._fail)

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if any(url.isLocalFile() for url in event.mimeData().urls()):
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        urls = event.mimeData().urls()
        self.bring_in([Path(url.toLocalFile()) for url in urls if url.isLocalFile()])


def _free(path: Path) -> Path:
    """Return the path, or one with a number where a file of that name is there already."""
    free, number = path, 2
    while free.exists():
        free = path.with_name(f"{path.stem}-{number}{path.suffix}")
        number += 1
    return free


def _escaped(text: str) -> str:
    return text[:200].replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
