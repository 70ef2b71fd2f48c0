"""The window: puts header, pages and menus together, and carries out what they ask for."""

from __future__ import annotations

import gc
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import (
    QCloseEvent,
    QDragEnterEvent,
    QDropEvent,
    QGuiApplication,
    QKeyEvent,
    QPaintEvent,
)
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QMainWindow,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from designer.errors import DesignerError
from designer.library.recipe_file import load, read_document
from designer.recipe.document import Recipe
from designer.resource_files import resource_path
from designer.window.compose.compose_page import ComposePage
from designer.window.header import Header
from designer.window.menus import Menus
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.fields import TextField
from designer.window.parts.settings import Settings
from designer.window.parts.theme import apply_scheme
from designer.window.session.open_recipe import OpenRecipe

if TYPE_CHECKING:
    from designer.brewday.fit.answer import Way
    from designer.library.pasted import PastedTable
    from designer.library.store import Version
    from designer.window.begin.begin_page import BeginPage
    from designer.window.box.recipe_box_page import RecipeBoxPage
    from designer.window.compose.bill_files import BillFiles
    from designer.window.fit.fit_page import FitPage
    from designer.window.help_overlay import HelpOverlay
    from designer.window.kitchen.kitchen_page import KitchenPage
    from designer.window.parts.background import Latest
    from designer.window.parts.message_bar import MessageBar
    from designer.window.parts.questions import Questions
    from designer.window.session.autosave import Autosave
    from designer.window.session.box_trouble import BoxTrouble
    from designer.window.session.leaving import Leaving
    from designer.window.session.saving import Saving
    from designer.window.sheet.sheet_page import SheetPage

COMPOSE, FIT, SHEET = "Compose", "Fit", "Sheet"
BOX, KITCHEN = "Recipe box", "Vessels and cupboard"
SMALLEST = (760, 520)
USUAL = (1280, 800)
STOPPING_S, LEFT_S = 10.0, 0.5
"""How long the end of the program waits for the store; if the brewer has left what it owes."""
RESTING_MS = 30  # after the second picture: keys pressed meanwhile come first
EXAMPLE = "examples/harbour_lamp_porter.hobwort"


def _load_numpy() -> None:
    """Have numpy ready; its import takes longer than a frame.

    What is loaded by then stays: the collector need not look through it again between two keys.
    """
    import numpy

    del numpy
    gc.collect()
    gc.freeze()
    gc.enable()  # it was off while the window opened


class MainWindow(QMainWindow):
    """One open recipe on the pages."""

    def __init__(
        self,
        opened: OpenRecipe,
        settings: Settings,
        questions: Questions | None = None,
        make_autosave: Callable[[], Autosave] | None = None,
    ) -> None:
        super().__init__()
        self.opened, self.settings = opened, settings
        self.autosave: Autosave | None = None
        self._make_autosave = make_autosave
        self._questions = questions
        self.display = DisplayFormat(settings)
        self._messages: MessageBar | None = None
        self._saving: Saving | None = None
        self.page_names = (COMPOSE, FIT, SHEET) + (
            (BOX, KITCHEN) if make_autosave is not None else ()
        )
        self.header = Header(opened, self.display, self.page_names)
        self.compose = ComposePage(opened, self.display)
        self._sheet: SheetPage | None = None
        self.pages = QStackedWidget()
        self.pages.addWidget(self.compose)
        self.fit: FitPage | None = None
        self.box: RecipeBoxPage | None = None
        self.kitchen: KitchenPage | None = None
        self._painted = False
        self._leaving: Leaving | None = None
        self.box_trouble: BoxTrouble | None = None
        self._may_close = False
        self.has_stopped = True
        self._warm: Latest | None = None
        self._scheme = settings.scheme
        self._lay_out()
        self.menus = Menus(self)
        self.help: HelpOverlay | None = None
        self.begin_page: BeginPage | None = None
        self._bill: BillFiles | None = None
        self._connect()
        self._say_state()
        self.compose.fermentables.view.setFocus(Qt.FocusReason.OtherFocusReason)

    def _lay_out(self) -> None:
        body = QWidget()
        layout = QVBoxLayout(body)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self.header)
        layout.addWidget(self.pages, 1)
        self.setCentralWidget(body)
        self.setMinimumSize(*SMALLEST)
        self.setAcceptDrops(True)
        self.resize(*USUAL)
        if not self.settings.geometry.isEmpty():
            self.restoreGeometry(self.settings.geometry)

    def _connect(self) -> None:
        self.header.page_wanted.connect(self.show_page)
        self.compose.refused.connect(lambda text: self.messages.say(text, refused=True))
        self.compose.removed.connect(self._say_removed)
        # Later, for the text may have been dropped, and the drag is not over yet.
        self.compose.choice_wanted.connect(self._choose_lines, Qt.ConnectionType.QueuedConnection)
        self.opened.untaken_changed.connect(self._say_untaken)
        self.opened.stepped.connect(self._say_step)
        self.header.refused.connect(lambda text: self.messages.say(text))
        self.opened.told.connect(lambda text: self.messages.say(text))
        if self.opened.note:
            self.messages.say(self.opened.note)
        # Queued: what is said of an edit that was made must not cover why it was not.
        self.opened.refused.connect(
            lambda text: self.messages.say(text, grave=True), Qt.ConnectionType.QueuedConnection
        )
        self.opened.path_changed.connect(self._say_state)
        self.opened.recipe_changed.connect(self._settle)
        self.opened.undo_stack.cleanChanged.connect(self._say_state)
        self.settings.changed.connect(self._follow_settings)
        QGuiApplication.styleHints().colorSchemeChanged.connect(self._follow_desktop)

    def _begin_keeping(self) -> None:
        """From now on the Recipe box keeps what is done here; what was open last is shown."""
        assert self._make_autosave is not None
        if self.autosave is not None:
            return
        self.autosave = autosave = self._make_autosave()
        self._connect_autosave(autosave)
        autosave.written = self.settings.written
        autosave.begin(go_on=self.opened.path is None)

    def _connect_autosave(self, autosave: Autosave) -> None:
        from designer.window.session.box_trouble import BoxTrouble

        autosave.said.connect(lambda text, grave: self.messages.say(text, grave=grave))
        autosave.offered.connect(lambda text, ways: self.messages.say(text, actions=ways))
        autosave.state_changed.connect(self._say_state)
        self.saving.on_disk.trouble_changed.connect(autosave.note_last)
        autosave.version_wanted.connect(self.open_version)
        autosave.holds_newest.connect(self.settings.forget_written)
        autosave.file_is_newest.connect(self.settings.note_written)
        self.box_trouble = BoxTrouble(self, autosave)

    def copy_everything(self) -> None:
        """Ask for a file and copy everything into it."""
        path = self.questions.copy_where(self)
        if path is not None and self.autosave is not None:
            self.autosave.maintenance.copy_all(path)

    def bring_everything_back(self) -> None:
        """Ask for a backup or a copy and put it in place."""
        if self.autosave is not None:
            path = self.questions.which_copy(self, str(self.autosave.backup_folder))
            if path is not None:
                self.autosave.maintenance.bring_back_all(path)

    def _settle(self) -> None:
        if self._messages is not None:
            self._messages.outdate()
            self._messages.settle()
        self._say_state()

    def _say_step(self, before: Recipe, after: Recipe, step: str) -> None:
        """Say what an undo or a redo has done where the page does not show it."""
        if self.pages.currentWidget() is not self.compose:
            self.messages.say(step, topic="step")

    def _say_removed(self, text: str) -> None:
        """Say what went, with the way back, until something else is done."""
        undo = ("Undo", self.opened.undo_stack.undo)
        self.messages.say(text, actions=[undo], topic="removed")

    def _say_untaken(self) -> None:
        """Let the header tell what is typed and not taken."""
        self.header.say_untaken(self.opened.untaken)
        if not self.opened.untaken:
            self.messages.withdraw("untaken")

    def _say_state(self) -> None:
        name = self.opened.recipe.name or "Untitled brew"
        self.setWindowTitle(f"{name}[*] – Hobwort")
        self.setWindowModified(self.opened.unsaved)
        self.header.say_state(self.opened, self.autosave.state if self.autosave is not None else "")

    def _follow_settings(self) -> None:
        """Dress anew where light or dark was chosen; all else follows by itself."""
        if self.settings.scheme == self._scheme:
            return
        self._scheme = self.settings.scheme
        application = QApplication.instance()
        if isinstance(application, QApplication):
            apply_scheme(application, self.settings.scheme)

    def _follow_desktop(self) -> None:
        if self.settings.scheme == "system":
            self._scheme = ""
            self._follow_settings()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Return presses the button that has the keyboard; Qt would leave that to the space bar."""
        focus = QApplication.focusWidget()
        returns = event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter)
        if returns and isinstance(focus, QAbstractButton) and not event.isAutoRepeat():
            focus.click()
        else:
            super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        if not self._painted:
            self._painted = True
            QTimer.singleShot(0, self._follow_first_picture)

    def _follow_first_picture(self) -> None:
        """Add what is reckoned; when that has been painted too, what needs larger libraries.

        Ranges need numpy, which is loaded beside the window, so that keys are taken at once.
        """
        from designer.window.once_painted import once_painted
        from designer.window.parts.background import Latest

        self.compose.complete()
        self._warm = warm = Latest(self)
        warm.answered.connect(self.opened.want_ranges)
        once_painted(self.compose.day_line, self._follow_second_picture)

    def _follow_second_picture(self) -> None:
        if not self.isVisible():
            return  # closed meanwhile
        if self._warm is not None:
            QTimer.singleShot(RESTING_MS, partial(self._warm.ask, _load_numpy))
        QTimer.singleShot(RESTING_MS, self, lambda: self.saving)
        if self._make_autosave is not None:
            QTimer.singleShot(RESTING_MS, self._begin_keeping)

    def show_help(self) -> None:
        """Lay keys and first steps over the window."""
        if self.help is None:
            from designer.window.help_overlay import HelpOverlay

            self.help = HelpOverlay(self)
        self.help.open_for(self.menus.actions)

    def report_problem(self) -> None:
        """Show what can be told to others about the last fault of the program."""
        from designer.library.store.folder import store_folder
        from designer.window.problem_report import ProblemReport

        store = self.autosave.folder if self.autosave is not None else store_folder()
        ProblemReport(store, self).open()

    def show_page(self, number: int) -> None:
        """Show a page by the number of its button."""
        name = self.page_names[number]
        focus = QApplication.focusWidget()
        if focus is not None:
            focus.clearFocus()
        self.header.check_page(number)
        if name == COMPOSE:
            self.pages.setCurrentWidget(self.compose)
            self.compose.fermentables.view.setFocus(Qt.FocusReason.OtherFocusReason)
            return
        page: FitPage | SheetPage | RecipeBoxPage | KitchenPage
        if name == FIT:
            page = self._fit_page()
        elif name == BOX:
            page = self._box_page()
        elif name == KITCHEN:
            page = self._kitchen_page()
        else:
            page = self.sheet
        self.pages.setCurrentWidget(page)
        page.take_focus()

    @property
    def messages(self) -> MessageBar:
        """What the program has to say, over the pages; put together with the first word."""
        if self._messages is None:
            from designer.window.parts.message_bar import MessageBar

            self._messages = MessageBar()
            self._messages.float_over(self.pages)
        return self._messages

    @property
    def questions(self) -> Questions:
        """What asks in dialogs; put together when first wanted."""
        if self._questions is None:
            from designer.window.parts.questions import Questions

            self._questions = Questions()
        return self._questions

    @property
    def sheet(self) -> SheetPage:
        """The sheet's pages; put together when first wanted."""
        if self._sheet is None:
            from designer.window.sheet.sheet_page import SheetPage

            self._sheet = SheetPage(self.opened, self.display)
            self._sheet.failed.connect(lambda text: self.messages.say(text, grave=True))
            self._sheet.done.connect(self.messages.say)
            self._sheet.file_made.connect(self.saving.write)
            self.pages.addWidget(self._sheet)
        return self._sheet

    @property
    def saving(self) -> Saving:
        """What reads, writes and watches the file; put together when the window is seen."""
        if self._saving is None:
            from designer.window.session.saving import Saving

            self._saving = Saving(self)
            self._saving.on_disk.trouble_changed.connect(self._say_state)
        return self._saving

    def _fit_page(self) -> FitPage:
        """The ways to brew it here; put together when first wanted."""
        if self.fit is None:
            from designer.window.fit.fit_page import FitPage

            self.fit = FitPage(self.opened, self.display, lambda: self.autosave)
            self.fit.packs_wanted.connect(self._show_packs)
            self.fit.used.connect(self._say_used)
            self.fit.said.connect(self.messages.say)
            self.fit.sheet_wanted.connect(lambda: self.show_page(self.page_names.index(SHEET)))
            self.pages.addWidget(self.fit)
        return self.fit

    def _show_packs(self) -> None:
        """Show the pack sizes of the shop, on the page of what this kitchen has."""
        self.show_page(self.page_names.index(KITCHEN))
        if self.kitchen is not None:
            self.kitchen.show_packs()

    def _say_used(self, way: Way) -> None:
        self.show_page(0)
        more = " Its second boil has a recipe of its own." if len(way.boils) > 1 else ""
        self.messages.say(f"The recipe is now: {way.name}. Undo takes it back.{more}")

    def _box_page(self) -> RecipeBoxPage:
        """The Recipe box; put together when first wanted."""
        if self.autosave is None:
            self._begin_keeping()
        assert self.autosave is not None
        if self.box is None:
            from designer.window.box.recipe_box_page import RecipeBoxPage

            self.box = RecipeBoxPage(self.autosave, self.display)
            self.box.version_wanted.connect(self.open_version)
            self.box.said.connect(lambda text, grave: self.messages.say(text, grave=grave))
            self.box.copy_wanted.connect(self.copy_everything)
            self.box.copy_back_wanted.connect(self.bring_everything_back)
            self.pages.addWidget(self.box)
        return self.box

    def _kitchen_page(self) -> KitchenPage:
        """Vessels and cupboard; put together when first wanted."""
        assert self.autosave is not None
        if self.kitchen is None:
            from designer.window.kitchen.kitchen_page import KitchenPage

            self.kitchen = KitchenPage(self.opened, self.autosave, self.display)
            self.kitchen.said.connect(lambda text, grave: self.messages.say(text, grave=grave))
            self.kitchen.refused.connect(lambda text: self.messages.say(text, refused=True))
            self.kitchen.removed.connect(
                lambda text, undo: self.messages.say(text, actions=[("Undo", undo)])
            )
            self.pages.addWidget(self.kitchen)
        return self.kitchen

    # files

    def begin(self) -> None:
        """Show the three doors; the open recipe stays until one is gone through."""
        if self.begin_page is None:
            from designer.window.begin.begin_page import BeginPage

            self.begin_page = BeginPage(self.display)
            self.begin_page.begun.connect(self._begin_with)
            self.begin_page.example_wanted.connect(self.open_example)
            self.begin_page.file_wanted.connect(self.open_file)
            self.pages.addWidget(self.begin_page)
        self._finish_typing()
        self.pages.setCurrentWidget(self.begin_page)
        self.header.check_page(-1)
        self.begin_page.own.fields["original_gravity"].setFocus()
        self.begin_page.own.fields["original_gravity"].selectAll()

    def _begin_with(self, recipe: Recipe) -> None:
        self._put(recipe, None, self._say_begun)

    def _say_begun(self) -> None:
        self.messages.say("A place to start from: change any line, and watch the forecast follow.")

    def new_recipe(self) -> None:
        """Begin an empty recipe in the same vessels."""
        old = self.opened.recipe
        self._put(Recipe(pot=old.pot, fermenter=old.fermenter, process=old.process), None)

    def open_example(self) -> None:
        """Open the example as a recipe of one's own, not yet in a file."""
        self._put(load(resource_path(EXAMPLE)), None)

    def open_file(self) -> None:
        """Ask for a recipe file and open it."""
        path = self.questions.which_file(self, self.folder())
        if path is not None:
            self._open(path)

    def open_path(self, path: Path) -> None:
        """Open a file that is already named, such as a recent one."""
        self._open(path)

    def _open(self, path: Path, *, keep_path: bool = True) -> None:
        def show(recipe: Recipe) -> None:
            then = partial(self.settings.remember, path) if keep_path else None
            self._put(recipe, path if keep_path else None, then)

        self.saving.on_disk.open(path, show, self._say_fault)

    def _say_fault(self, fault: DesignerError) -> None:
        self.messages.say(str(fault), grave=True)

    def _put(
        self, recipe: Recipe, path: Path | None, then: Callable[[], None] | None = None
    ) -> None:
        """Put another recipe in place of the open one, once that is kept."""

        def go() -> None:
            if self.autosave is not None:
                self.autosave.start_afresh()
            say_left = self._leaving_untaken()
            self.opened.replace_by(recipe, path)
            self.messages.clear()
            self.show_page(0)
            say_left()
            if then is not None:
                then()

        self._leave_for(go)

    def open_version(self, version: Version) -> None:
        """Open a recipe of the Recipe box."""
        autosave = self.autosave
        if autosave is None:
            return
        try:
            recipe = read_document(version.document, f"version {version.number}")
        except DesignerError as fault:
            self.messages.say(str(fault), grave=True)
            return

        def go() -> None:
            say_left = self._leaving_untaken()
            autosave.show_version(version, recipe)
            self.messages.clear()
            self.show_page(0)
            say_left()

        self._leave_for(go)

    def save(self) -> None:
        """Keep a version in the Recipe box, and write the recipe's file if it has one.

        Without a Recipe box a file is asked for. What became of it is said when it is known.
        """
        with self._typing_taken():
            self.saving.save()
        self._say_unsaved_texts()

    def _leaving_untaken(self) -> Callable[[], None]:
        """Return what says, once another recipe is open, what was typed here and not taken."""
        untaken, name = self.opened.untaken, self._name()

        def say() -> None:
            if untaken:
                text = f"Typed in {name} and not taken: {', '.join(untaken)}."
                self.messages.say(text, refused=True)

        return say

    def _say_unsaved_texts(self) -> None:
        """Say what is typed and cannot be saved, because it was not taken."""
        untaken = self.opened.untaken
        if untaken:
            self.messages.say(
                f"Not taken, and so not saved: {', '.join(untaken)}. The old value is kept there.",
                grave=True, topic="untaken",
            )  # fmt: skip

    def save_version(self) -> None:
        """Ask for a name and keep a version under it."""
        self._finish_typing()
        if self.autosave is not None:
            name = self.questions.version_name(self)
            if name is not None:
                self.autosave.save(name)

    @property
    def bill(self) -> BillFiles:
        """What takes tables of ingredients in and out; loaded when first wanted."""
        if self._bill is None:
            from designer.window.compose.bill_files import BillFiles

            self._bill = BillFiles(self)
        return self._bill

    def _choose_lines(self, table: PastedTable) -> None:
        self.bill.choose(table)

    def write_bill(self) -> None:
        """Ask for a file and write the bill of ingredients, as a table or as text."""
        self.bill.write()

    def bring_bill_in(self) -> None:
        """Ask for a table of ingredients and add its lines, as one step."""
        self.bill.bring_in()

    def save_as(self) -> None:
        """Ask for a file and write the recipe to it."""
        with self._typing_taken():
            self.saving.save_as()
        self._say_unsaved_texts()

    def folder(self) -> str:
        """Where a file is looked for first: beside the open one, or the last."""
        if self.opened.path is not None:
            return str(self.opened.path.parent)
        recent = self.settings.recent
        return str(Path(recent[0]).parent) if recent else str(Path.home())

    def _finish_typing(self) -> None:
        """Let the field that has the keyboard put in what was typed."""
        focus = QApplication.focusWidget()
        if focus is not None and self.isAncestorOf(focus):
            focus.clearFocus()

    @contextmanager
    def _typing_taken(self) -> Iterator[None]:
        """Let what was typed so far be taken, and the field go on at the same place after that.

        A cell of a table stays closed: what is typed next would take the place of all it holds.
        """
        focus = QApplication.focusWidget()
        field = focus if isinstance(focus, TextField) else None
        place = field.cursorPosition() if field is not None else 0
        self._finish_typing()
        yield
        if field is not None and field.isVisible():
            field.setFocus(Qt.FocusReason.OtherFocusReason)
            field.setCursorPosition(place)

    def _leave_for(self, go: Callable[[], None]) -> None:
        """Go on to another recipe once the open one is kept, or the brewer has decided."""
        self._finish_typing()
        if self._make_autosave is not None:
            self._begin_keeping()
        if self.autosave is None:
            if self._may_be_lost():
                go()
        elif self.opened.unsaved or self._is_leaving():
            self._leaver().begin(self.autosave.leave, go, self._name())
        else:
            go()

    def _leaver(self) -> Leaving:
        if self._leaving is None:
            from designer.window.session.leaving import Leaving

            self._leaving = Leaving(self, self.saving.save_elsewhere)
        return self._leaving

    def _is_leaving(self) -> bool:
        return self._leaving is not None and self._leaving.pending

    def _name(self) -> str:
        return self.opened.recipe.name or "Untitled brew"

    def _may_be_lost(self) -> bool:
        """Whether nothing is unsaved, or the brewer says what is to become of it."""
        if not self.opened.unsaved:
            return True
        answer = self.questions.about_unsaved(self, self.opened.recipe.name)
        if answer == "save":
            self.save()
            return self.saving.on_disk.disk.finished() and not self.opened.unsaved
        return answer == "leave"

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        is_file = any(url.isLocalFile() for url in event.mimeData().urls())
        if is_file and event.source() is None:  # what is dragged out of this window stays out
            event.setDropAction(Qt.DropAction.CopyAction)
            event.accept()

    def dropEvent(self, event: QDropEvent) -> None:
        """Open the first recipe file that is dropped on the window, or bring in a table."""
        event.setDropAction(Qt.DropAction.CopyAction)  # no one is to delete what was dropped
        event.accept()
        urls = [url for url in event.mimeData().urls() if url.isLocalFile()]
        if urls:
            from designer.window.box.handed_out import MIME
            from designer.window.parts.questions import TABLES

            # what another window drags out of its Recipe box is a file for the moment only
            is_passing = event.mimeData().hasFormat(MIME)
            path = Path(urls[0].toLocalFile())
            if path.suffix.lower() in TABLES:
                self.bill.read(path)
            else:
                self._open(path, keep_path=not is_passing)

    def closeEvent(self, event: QCloseEvent) -> None:
        """Close once all is kept, or the brewer has decided."""
        self._finish_typing()
        if self.saving.holds_up(self.close):
            event.ignore()
            return
        if self.opened.unsaved and self._make_autosave is not None:
            self._begin_keeping()
        autosave = self.autosave
        if self._may_close:
            may = True
        elif autosave is None:
            may = self._may_be_lost()
        else:
            may = autosave.settled and not self._is_leaving()
        if may:
            self._shut_down()
            event.accept()
            return
        event.ignore()
        if autosave is not None:
            name = self._name() if self.opened.unsaved else ""
            leaver = self._leaver()
            leaver.begin(autosave.keep_for_closing, self._close_now, name, closing=True)

    def _close_now(self) -> None:
        self._may_close = True
        self.close()
        self._may_close = False

    def _shut_down(self) -> None:
        """Let go of all that goes on beside the window; nobody sees it any more."""
        self.settings.geometry = self.saveGeometry()
        self.hide()
        self.saving.on_disk.stop()
        if self._warm is not None:
            self._warm.wait()
        if self.fit is not None:
            self.fit.latest.wait()
        if self.autosave is not None:
            # Where the brewer has left what the store never answered, it need not be waited for.
            keeps = self.autosave
            is_left = not keeps.settled or (self._may_close and keeps.store.busy)
            self.has_stopped = keeps.close(LEFT_S if is_left else STOPPING_S)
        if self.box is not None:
            self.box.close_down()
        self.opened.undo_stack.blockSignals(True)  # it goes down with the window, which listens
