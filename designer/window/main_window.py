"""The window: puts header, pages and menus together, from the first picture to the end."""

from __future__ import annotations

import gc
from collections.abc import Callable
from functools import partial
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
from PySide6.QtWidgets import QAbstractButton, QApplication

from designer.recipe.document import Recipe
from designer.translation import tr
from designer.window.explaining import Explaining
from designer.window.find.finding import Finding
from designer.window.guide_at_hand import GuideAtHand
from designer.window.menus.menu_bar import Menus
from designer.window.paged_window import PagedWindow
from designer.window.parts.on_screen import LEAST, keep_on_screen, open_on_screen
from designer.window.parts.settings import Settings
from designer.window.parts.theme import apply_scheme
from designer.window.parts.typeface import wear_typeface
from designer.window.recipe_closing import RecipeClosing
from designer.window.recipe_files import RecipeFiles
from designer.window.session.open_recipe import OpenRecipe

if TYPE_CHECKING:
    from designer.library.pasted import PastedTable
    from designer.window.brew_days import BrewDays
    from designer.window.compose.compose_page import ComposePage
    from designer.window.going_on import GoingOn
    from designer.window.help_overlay import HelpOverlay
    from designer.window.noting import Noting
    from designer.window.opening_anew import OpeningAnew
    from designer.window.parts.background import Latest
    from designer.window.parts.fingers import Fingers
    from designer.window.parts.questions import Questions
    from designer.window.reminders import Reminders
    from designer.window.session.autosave import Autosave

USUAL = (1280, 800)
RESTING_MS = 30  # after the second picture: keys pressed meanwhile come first


def _load_store() -> None:
    """Have the modules of the Recipe box ready, and SQLite: that too takes longer than a frame."""
    import designer.library.store.store

    del designer


def _load_numpy() -> None:
    """Have numpy ready; its import takes longer than a frame.

    What is loaded by then stays: the collector need not look through it again between two keys.
    """
    import numpy

    del numpy
    gc.collect()
    gc.freeze()
    # Next to nothing goes in circles here: all that was kept since is looked through more seldom.
    gc.set_threshold(700, 10, 100)
    gc.enable()  # it was off while the window opened


class MainWindow(PagedWindow):
    """One open recipe, with all that can be done with it."""

    def __init__(
        self,
        opened: OpenRecipe,
        settings: Settings,
        questions: Questions | None = None,
        make_autosave: Callable[[], Autosave] | None = None,
        *,
        going_on: bool = False,
    ) -> None:
        """Show the open recipe. If there is none: the doors, or with `going_on` what comes of it.

        That is what was open last, which the Recipe box tells.
        """
        super().__init__(opened, settings, questions, make_autosave)
        self._recipe_closing = RecipeClosing(self, self.keeping, self._stay_open)
        self.files = RecipeFiles(self, self._recipe_closing)
        self._brew_days: BrewDays | None = None
        self.reminders: Reminders | None = None
        self.explaining = Explaining(self)
        self.guide = GuideAtHand(self)
        self.finding = Finding(self, lambda: self.menus.look())
        self.menus = Menus(
            self,
            self.files,
            self.guide.open,
            self.show_help,
            self.report_problem,
            self.show_about,
            self.explaining,
            self.finding,
        )
        self.help: HelpOverlay | None = None
        self.has_stopped = True
        self._painted = False
        self._going_on: GoingOn | None = None
        self._warm: list[Latest] = []
        self.fingers: Fingers | None = None
        self._was_touched = False
        self._scheme, self._typeface = self._worn(), settings.typeface
        self._begun_with = (settings.language, settings.size)
        self._opening_anew: OpeningAnew | None = None
        self._log: Noting | None = None
        self.setMinimumSize(*LEAST)
        self.setAcceptDrops(True)
        open_on_screen(self, USUAL, settings.geometry)
        self._connect()
        self._say_state()
        self._show_first(going_on=going_on and self.keeping.has_box)

    def _show_first(self, *, going_on: bool) -> None:
        self.keeping.looks_back = self.opened.is_open or going_on
        if self.opened.is_open:
            self.show_page(0)
        elif going_on:
            self._wait_for_last()
        else:
            self.begin()

    def _wait_for_last(self) -> None:
        """Show that what was open last is looked for; the doors if there is no such thing."""
        from designer.window.going_on import GoingOn

        self._going_on = GoingOn(self.begin)
        self.pages.addWidget(self._going_on)
        self.pages.setCurrentWidget(self._going_on)
        self.header.check_page(-1)
        self.keeping.looked_back.connect(self._follow_last)
        self._say_state()

    def _follow_last(self) -> None:
        """Show what was open last, or the doors; the brewer may be elsewhere by now."""
        if self._is_going_on():
            if self.opened.is_open:
                self.show_page(0)
            elif self.autosave is not None and self.autosave.broken:
                self.show_doors()  # the next start looks again
            else:
                self.begin()
            self._say_state()

    def _connect(self) -> None:
        opened = self.opened
        opened.untaken_changed.connect(self._say_untaken)
        opened.stepped.connect(self._say_step)
        opened.told.connect(self._say)
        self.guide_wanted.connect(self.guide.open_at)
        if opened.note:
            self.messages.say(opened.note)
        # Queued: what is said of an edit that was made must not cover why it was not.
        opened.refused.connect(self.say_fault, Qt.ConnectionType.QueuedConnection)
        opened.path_changed.connect(self._say_state)
        opened.recipe_changed.connect(self._settle)
        opened.undo_stack.cleanChanged.connect(self._say_state)
        self.keeping.state_changed.connect(self._say_state)
        self.pages.currentChanged.connect(self._say_state)
        self.keeping.unkept_changed.connect(self.header.say_unkept)
        self.keeping.begun.connect(lambda: self.brew_days.look_back())
        self.keeping.begun.connect(self._remember_beers)
        self.keeping.begun.connect(self._begin_log)
        self.brew_wanted.connect(lambda uid: self.brew_days.go_on_with(uid))
        self.brew_log_wanted.connect(lambda uid: self.brew_days.show_log(uid))
        self.paper_wanted.connect(lambda recipe: self.brew_days.brewed_on_paper(recipe))
        self.settings.changed.connect(self._follow_settings)
        QGuiApplication.styleHints().colorSchemeChanged.connect(self._follow_desktop)

    @property
    def brew_days(self) -> BrewDays:
        """The brews of this window; put together when the Recipe box can be asked."""
        if self._brew_days is None:
            from designer.window.brew_days import BrewDays

            self._brew_days = BrewDays(self, self.files)
        return self._brew_days

    def _remember_beers(self) -> None:
        """Say what is to be done for beers; asked for after all that is needed to go on."""
        from designer.window.reminders import Reminders

        self.reminders = Reminders(self, lambda uid: self.brew_days.show_beer(uid))
        self.reminders.begin()

    def _settle(self) -> None:
        self.settle_messages()
        self._say_state()

    def _say_step(self, before: Recipe, after: Recipe, step: str) -> None:
        """Say what an undo or a redo has done where the page does not show it."""
        if self.pages.currentWidget() is not self._compose:
            self.messages.say(step, topic="step")

    def _say_untaken(self) -> None:
        """Let the header tell what is typed and not taken."""
        self.header.say_untaken(self.opened.untaken)
        if not self.opened.untaken:
            self.messages.withdraw("untaken")

    def _say_state(self) -> None:
        name = f"{self.recipe_name()}[*] – " if self.opened.is_open else ""
        self.setWindowTitle(f"{name}Hobwort")
        if self.isWindowModified() != self.opened.unsaved:  # Qt would tell the desktop each time
            self.setWindowModified(self.opened.unsaved)
        kept = self.keeping.state()
        if not self.opened.is_open:
            kept = tr("opening …") if self._is_going_on() else tr("nothing open")
        self.header.say_state(self.opened, kept, self.state_of_brew())

    def _is_going_on(self) -> bool:
        return self._going_on is not None and self.pages.currentWidget() is self._going_on

    def _follow_settings(self) -> None:
        """Dress anew where typeface, light or dark was chosen; all else follows by itself."""
        begun_with = (self.settings.language, self.settings.size)
        if begun_with != self._begun_with:
            self._begun_with = begun_with
            self._say_opening_anew()
        wanted = (self._worn(), self.settings.typeface)
        application = QApplication.instance()
        if wanted == (self._scheme, self._typeface) or not isinstance(application, QApplication):
            return
        if self._typeface != self.settings.typeface:
            wear_typeface(application, self.settings.typeface)
        self._scheme, self._typeface = wanted
        settings, large = self.settings, self._has_large_targets()
        apply_scheme(application, settings.scheme, settings.contrast, large=large)

    def _say_opening_anew(self) -> None:
        """Say when the language and the size that were chosen will be there."""
        if self._opening_anew is None:
            from designer.window.opening_anew import OpeningAnew

            self._opening_anew = OpeningAnew(self)
        self._opening_anew.say()

    def _stay_open(self) -> None:
        """The window was to close and does not: nothing opens anew for that."""
        if self._opening_anew is not None:
            self._opening_anew.opens_anew = False

    @property
    def is_to_open_anew(self) -> bool:
        """Whether the window was closed to be opened anew."""
        return self._opening_anew is not None and self._opening_anew.opens_anew

    def _worn(self) -> str:
        """Light or dark, how much contrast, and whether for fingers, in one word."""
        targets = "large" if self._has_large_targets() else "usual"
        return f"{self.settings.scheme} {self.settings.contrast} {targets}"

    def _has_large_targets(self) -> bool:
        """Whether what is pressed is to be large enough for fingers."""
        when = self.settings.targets
        return when == "always" or (when == "automatically" and self._was_touched)

    def _follow_fingers(self) -> None:
        """Take fingers as such, once there is a screen that can be touched."""
        from designer.window.parts.touch_screen import has_touch_screen  # the first picture is seen

        if self.fingers is None and has_touch_screen():
            from designer.window.parts.fingers import Fingers

            self.fingers = Fingers(self)
            self.fingers.touched.connect(self._note_touched)

    def _note_touched(self) -> None:
        if not self._was_touched:
            self._was_touched = True
            self._follow_settings()

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

    # the first pictures

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

        keep_on_screen(self)  # its frame is known by now
        store, numpy = self._warm = [Latest(self), Latest(self)]
        store.answered.connect(self._follow_store)
        numpy.answered.connect(self.opened.want_ranges)
        if self.opened.is_open:
            self.compose.complete()
            once_painted(self.compose.day_line, self._follow_second_picture)
        elif self.begin_page is not None:
            self.begin_page.complete()
            once_painted(self.begin_page, self._follow_second_picture)
        else:
            self._follow_second_picture()

    def _note_compose(self, page: ComposePage) -> None:
        # Later, for the text may have been dropped, and the drag is not over yet.
        page.choice_wanted.connect(self._choose_lines, Qt.ConnectionType.QueuedConnection)
        if self._painted:
            QTimer.singleShot(0, page, page.complete)

    def _follow_second_picture(self) -> None:
        if not self.isVisible():
            return  # closed meanwhile
        self._wear_icon()
        self._follow_fingers()
        application = QApplication.instance()
        if isinstance(application, QApplication):
            application.focusWindowChanged.connect(self._follow_fingers)
        self.explaining.begin()
        self.menus.begin()
        QTimer.singleShot(RESTING_MS, partial(self._warm[0].ask, _load_store))
        QTimer.singleShot(RESTING_MS, self, lambda: self.keeping.saving)

    def _wear_icon(self) -> None:
        """Show the program's icon in title and task bar; no key waits for it by now."""
        from designer.window.parts.own_icon import own_icon

        QApplication.setWindowIcon(own_icon())

    def _follow_store(self) -> None:
        if not self.isVisible():
            return  # closed meanwhile
        self._warm[1].ask(_load_numpy)
        self.keeping.begin()

    def _begin_log(self) -> None:
        """Note what the program does from now on, for whoever helps with a problem."""
        if self._log is None and self.autosave is not None:
            from designer.window.noting import Noting

            self._log = Noting(self.pages, self.autosave.folder)

    # help

    def show_help(self) -> None:
        """Lay keys and first steps over the window."""
        if self.help is None:
            from designer.window.help_overlay import HelpOverlay

            self.help = HelpOverlay(self)
        self.help.lay_over()

    def report_problem(self) -> None:
        """Show what can be told to others about the last fault of the program."""
        from designer.library.store.folder import store_folder
        from designer.window.problem_report import ProblemReport

        store = self.autosave.folder if self.autosave is not None else store_folder()
        ProblemReport(store, self).open()

    def show_about(self) -> None:
        """Show the version, the licence and whose figures the program has."""
        from designer.window.about.about_dialog import AboutHobwort

        AboutHobwort(self).open()

    # what comes from other programs, and the end

    def _choose_lines(self, table: PastedTable) -> None:
        self.files.bill.choose(table, self.compose.worked_on.make)

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        is_file = any(url.isLocalFile() for url in event.mimeData().urls())
        if is_file and event.source() is None:  # what is dragged out of this window stays out
            event.setDropAction(Qt.DropAction.CopyAction)
            event.accept()

    def dropEvent(self, event: QDropEvent) -> None:
        """Open the first recipe file that is dropped on the window, or bring in a table."""
        from designer.window.box.handed_out import MIME  # nothing is dropped on the first picture

        event.setDropAction(Qt.DropAction.CopyAction)  # no one is to delete what was dropped
        event.accept()
        urls = [url for url in event.mimeData().urls() if url.isLocalFile()]
        self.files.take_dropped(urls, is_passing=event.mimeData().hasFormat(MIME))

    def closeEvent(self, event: QCloseEvent) -> None:
        """Close once all is kept, or the brewer has decided."""
        if self._recipe_closing.may_close():
            self._shut_down()
            event.accept()
        else:
            event.ignore()

    def _shut_down(self) -> None:
        """Let go of all that goes on beside the window; nobody sees it any more."""
        self.settings.geometry = self.saveGeometry()
        self.hide()
        self.guide.close()
        for each in self._warm:
            each.wait()
        if self._brew_days is not None:
            self._brew_days.close()
        if self.reminders is not None:
            self.reminders.close()
        if self._log is not None:
            self._log.end()
        self.has_stopped = self.keeping.stop(was_left=self._recipe_closing.was_left)
        self.close_pages()
        self.opened.undo_stack.blockSignals(True)  # it goes down with the window, which listens
