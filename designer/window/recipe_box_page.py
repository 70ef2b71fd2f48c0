"""Recipe box: every recipe that was kept, found with each key; its versions, trash and backups."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QMimeData, Qt, QTimer, Signal
from PySide6.QtGui import (
    QDragEnterEvent,
    QDropEvent,
    QGuiApplication,
    QHideEvent,
    QKeyEvent,
    QKeySequence,
    QShortcut,
    QShowEvent,
)
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QSplitter,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from designer.library.store import RecipeRow
from designer.window.backups_panel import BackupsPanel
from designer.window.box_details import BoxDetails
from designer.window.box_files import HandedOut, brought_in, kept_from, local_files, written
from designer.window.box_table import BoxTable
from designer.window.buttons import button
from designer.window.compose_page import MARGIN
from designer.window.keeper import Keeper
from designer.window.questions import Questions
from designer.window.recipes_model import COLUMNS, RecipesModel
from designer.window.shown import Shown

if TYPE_CHECKING:
    from designer.library.store import Store

HINT = "Find: porter   ibu 30..40   abv 4..5   with oats   without wheat   fits 9 L   tagged winter"
LOOK_AGAIN_MS = 2000
MOST_SHOWN = 200


class SearchField(QLineEdit):
    """What is typed is searched for at once; Return and Down go to what was found."""

    left_down = Signal()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Down, Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.left_down.emit()
        else:
            super().keyPressEvent(event)


class RecipeBoxPage(QWidget):
    """Search, list, and what can be done with the chosen recipes; the backups in their place."""

    version_wanted = Signal(object)
    copy_wanted = Signal()
    copy_back_wanted = Signal()
    said = Signal(str, bool)

    def __init__(self, keeper: Keeper, shown: Shown, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._keeper = keeper
        self._order, self._down = "closest", False
        self._token = ""
        self.setAcceptDrops(True)
        self.model = RecipesModel(shown, self)
        self.handed_out = HandedOut(keeper)
        self.model.handed_out = self.handed_out.mime
        self.details = BoxDetails(keeper, shown)
        self.backups: BackupsPanel | None = None
        self._lay_out()
        self._connect()
        self._look_again = QTimer(self, interval=LOOK_AGAIN_MS)
        self._look_again.timeout.connect(self._ask_for_changes)
        shown.settings.changed.connect(self.look_up)
        keeper.box_replaced.connect(self.look_up)

    @property
    def _questions(self) -> Questions:
        return getattr(self.window(), "questions", None) or Questions()

    # layout

    def _lay_out(self) -> None:
        both = QSplitter(Qt.Orientation.Horizontal)
        both.setChildrenCollapsible(False)
        both.addWidget(self._list())
        both.addWidget(self.details)
        both.setStretchFactor(0, 3)
        both.setStretchFactor(1, 1)
        both.setSizes([900, 340])
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
        self.search.setAccessibleName("Find recipes")
        self.search.setToolTip("Ctrl+F comes here, Down goes to the list")
        self.search.left_down.connect(self._go_to_list)
        self.search.setPlaceholderText(HINT)
        self.search.setClearButtonEnabled(True)
        self.search.textChanged.connect(self.look_up)
        self.trash_button = QPushButton("Trash")
        self.trash_button.setCheckable(True)
        self.trash_button.setToolTip("Show what was thrown away")
        self.trash_button.setAccessibleName("Show the trash")
        self.trash_button.toggled.connect(self._show_trash)
        self.backups_button = button(
            "Backups…", "The backups of the whole box, and bringing one back", self.show_backups
        )
        row = QHBoxLayout()
        row.addWidget(self.search, 1)
        for text, tip, act in (
            ("Bring in…", "Bring recipe files into the box", self.import_files),
            ("Write out…", "Write the chosen recipes as files", self.export),
        ):
            row.addWidget(button(text, tip, act))
        row.addWidget(self.trash_button)
        row.addWidget(self.backups_button)
        return row

    def _list(self) -> QWidget:
        self.table = BoxTable(self.model)
        self.told = QLabel()
        self.told.setObjectName("soft")
        self.told.setWordWrap(True)
        box = QWidget()
        layout = QVBoxLayout(box)
        layout.setContentsMargins(0, 0, 8, 0)
        layout.addWidget(self.table, 1)
        layout.addWidget(self.told)
        return box

    def _go_to_list(self) -> None:
        self.table.setFocus(Qt.FocusReason.OtherFocusReason)
        if not self.chosen():
            self.table.choose_near(0)

    def _connect(self) -> None:
        find = QShortcut(QKeySequence(QKeySequence.StandardKey.Find), self)
        find.activated.connect(self._find)
        self.table.horizontalHeader().sectionClicked.connect(self._sort)
        self.table.open_wanted.connect(self.details.open_newest)
        self.table.delete_wanted.connect(self.throw_away)
        self.table.drag_wanted.connect(self._hand_out_for_drag)
        self.table.copy_wanted.connect(self.copy)
        self.table.paste_wanted.connect(self.paste)
        self.table.selectionModel().selectionChanged.connect(self._choose)
        self.details.version_wanted.connect(self.version_wanted)
        self.details.throw_wanted.connect(self.throw_away)
        self.details.changed.connect(self.look_up)
        self.details.said.connect(self.said)

    # backups

    def show_backups(self) -> None:
        """Show the backups in place of the recipes."""
        if self.backups is None:
            self.backups = BackupsPanel(self._keeper)
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
        self.handed_out.clear()
        if self.backups is not None:
            self.backups.latest.wait()

    # finding

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.look_up()
        self._look_again.start()

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        self._look_again.stop()

    def _find(self) -> None:
        self.parts.setCurrentIndex(0)
        self.take_focus()

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
        chosen = {row.id for row in self.table.chosen()}
        at = self.table.currentIndex().row()
        self.model.show_rows(found.rows)
        self.table.choose(chosen)
        if chosen and not self.table.chosen() and self.table.hasFocus():
            self.table.choose_near(at)
        told = list(found.problems)
        if found.more:
            told.append(f"The first {len(found.rows)} are shown; type more to narrow them down.")
        elif not found.rows:
            told.append(self._nothing())
        self.told.setText(" ".join(told))
        self.told.setVisible(bool(told))
        self._choose()

    def _nothing(self) -> str:
        if self.trash_button.isChecked():
            return "The trash is empty."
        if self.search.text().strip():
            return "Nothing matches. Take a word away, or look in the trash."
        return "Nothing is kept yet. Save a recipe (Ctrl+S) and it is here, with every version."

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

    # choosing and doing

    def chosen(self) -> list[RecipeRow]:
        """Return the chosen recipes, from the top."""
        return self.table.chosen()

    def _choose(self) -> None:
        self.details.show_chosen(self.chosen(), in_trash=self.trash_button.isChecked())

    def _do(self, work: Callable[[Store], Any], then: Callable[[Any], None] | None = None) -> None:
        def done(result: Any) -> None:
            self.look_up()
            if then is not None:
                then(result)

        self._keeper.store.ask(work, done, self._fail)

    def _fail(self, fault: str) -> None:
        self.said.emit(fault, True)

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

    # files

    def import_files(self) -> None:
        """Ask for recipe files and keep them in the box."""
        self.bring_in(self._questions.which_files(self))

    def bring_in(self, paths: list[Path]) -> None:
        """Keep recipe files in the box; what cannot be read is told, the rest comes in."""
        if paths:
            self._do(
                lambda store: kept_from(store, paths),
                lambda found: self.said.emit(brought_in(*found), bool(found[1])),
            )

    def export(self) -> None:
        """Write the chosen recipes as files into a folder."""
        chosen = self.chosen()
        if not chosen:
            self.said.emit("Choose the recipes to write out in the list.", False)
            return
        folder = self._questions.which_folder(self)
        if folder is None:
            return

        def done(found: list[Any]) -> None:
            files = "1 file" if len(found) == 1 else f"{len(found)} files"
            self.said.emit(f"Wrote {files} to {folder}.", False)

        self._keeper.store.ask(lambda store: written(store, chosen, folder), done, self._fail)

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
            what = f"“{chosen[0].name[:60]}”" if len(chosen) == 1 else f"{len(chosen)} recipes"
            self.said.emit(
                f"{what} copied: paste into a folder for files, into a letter for text.", False
            )

        self.handed_out.write(chosen, done, self._fail)

    def paste(self) -> None:
        """Keep the recipe files that are on the clipboard."""
        self._take(QGuiApplication.clipboard().mimeData())

    def _take(self, mime: QMimeData) -> None:
        if self.handed_out.is_own(mime):
            self.said.emit("Those recipes are in this box. Duplicate makes a copy of one.", False)
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
