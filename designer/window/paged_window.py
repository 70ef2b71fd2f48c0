"""A window with header and pages, each put together when first wanted."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtWidgets import QApplication, QVBoxLayout, QWidget
from shiboken6 import isValid

from designer.errors import DesignerError
from designer.translation import message, tr
from designer.window.header import Header
from designer.window.parts.page_frame import Page
from designer.window.parts.scrolling import bring_keyboard_into_view
from designer.window.parts.settings import DOORS, RECIPE, Settings
from designer.window.session.keeping import Keeping
from designer.window.session.open_recipe import OpenRecipe
from designer.window.session.recipe_window import RecipeWindow
from designer.window.session.turning import Turning

if TYPE_CHECKING:
    from pathlib import Path

    from designer.brewday.fit.answer import Way
    from designer.library.store import Store
    from designer.library.store.kitchen import FermenterRecord, PotRecord
    from designer.window.begin.begin_page import BeginPage
    from designer.window.box.recipe_box_page import RecipeBoxPage
    from designer.window.brew.brew_page import BrewPage
    from designer.window.compose.compose_page import ComposePage
    from designer.window.fit.fit_page import FitPage
    from designer.window.kitchen.kitchen_page import KitchenPage
    from designer.window.parts.questions import Questions
    from designer.window.session.autosave import Autosave
    from designer.window.session.open_brew import OpenBrew
    from designer.window.session.picture_files import PictureFiles
    from designer.window.session.to_go_on_with import Thing
    from designer.window.sheet.sheet_page import SheetPage
    from designer.workbench.brew.clocks import Clock
    from designer.workbench.brew.pocket_text import PocketLog

COMPOSE, FIT, SHEET = message("Compose"), message("Fit"), message("Sheet")
BREW, BOX, KITCHEN = message("Brew day"), message("Recipe box"), message("Kitchen")
"""What the pages are called; looked up where that is shown."""
NOTHING_OPEN = message("No recipe is open: begin one, or open one, first")
LED_TO = {"fit": FIT}
"""The page that a finding leads to."""


class PagedWindow(RecipeWindow):
    """One open recipe on the pages. The signals are what the pages ask for and do not do.

    While no recipe is open the pages of a recipe are off.
    """

    begun = Signal(object)
    begun_to_fit = Signal(object)
    example_wanted = Signal(str)
    file_wanted = Signal()
    version_wanted = Signal(object)
    go_on_wanted = Signal(object)
    brew_wanted = Signal(str)
    brew_log_wanted = Signal(str)
    paper_wanted = Signal(int)
    guide_wanted = Signal(str, str)

    def __init__(
        self,
        opened: OpenRecipe,
        settings: Settings,
        questions: Questions | None = None,
        make_autosave: Callable[[], Autosave] | None = None,
    ) -> None:
        super().__init__(opened, settings, questions)
        self.keeping = Keeping(self, make_autosave)
        self._entries = [
            each for each in PAGES if self.keeping.has_box or not (each.of_box or each.needs_box)
        ]
        self.page_names = tuple(each.name for each in self._entries)
        self.header = Header(opened, self.display, self.page_names)
        self._compose: ComposePage | None = None
        self.fit: FitPage | None = None
        self.box: RecipeBoxPage | None = None
        self.kitchen: KitchenPage | None = None
        self.begin_page: BeginPage | None = None
        self.brew_page: BrewPage | None = None
        self.brew_clock: Clock | None = None
        """What tells the time of a brew day; the machine's clocks unless another is given."""
        self._sheet: SheetPage | None = None
        self._pictures: PictureFiles | None = None
        self._lay_out()
        self.turning = Turning(opened.undo_stack, self)
        self.pages.currentChanged.connect(self._turn)
        opened.opened_first.connect(self._offer_pages)
        self._offer_pages()
        self.header.page_wanted.connect(partial(self.show_page, pressed=True))
        self.header.refused.connect(self._say)
        self.header.doors_wanted.connect(self.begin)
        self.header.unkept.clicked.connect(self.keeping.say_trouble_again)
        self._page_seen = 0

    def focusNextPrevChild(self, forward: bool) -> bool:
        """Go on with Tab; where that leads is seen, though it may have been scrolled away."""
        has_moved = super().focusNextPrevChild(forward)
        bring_keyboard_into_view()
        return has_moved

    def lay_below(self, bar: QWidget) -> None:
        """Lay a bar below the pages."""
        self._layout.addWidget(bar)

    def _lay_out(self) -> None:
        body = QWidget()
        self._layout = layout = QVBoxLayout(body)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self.header)
        layout.addWidget(self.pages, 1)
        self.setCentralWidget(body)

    @property
    def pictures(self) -> PictureFiles:
        """What copies and saves pictures; loaded when first wanted."""
        if self._pictures is None:
            from designer.window.session.picture_files import PictureFiles

            self._pictures = PictureFiles(self, self.keeping.saving)
        return self._pictures

    def show_preferences(self) -> None:
        """Show all that can be chosen about the program, in one place."""
        from designer.window.preferences import Preferences

        Preferences(self).open()

    def open_window(self, *words: str) -> None:
        """Open a further window of the same Recipe box, at the doors unless `words` say otherwise.

        It is a process of its own: what one does, however it ends, leaves the others alone.
        """
        from PySide6.QtCore import QProcess  # no start needs it

        from designer.window.parts.program_words import words_of_program

        program, *first = words_of_program("open", *(words or ("--begin",)))
        begun, _ = QProcess.startDetached(program, first)
        if not begun:
            self.say_fault(
                tr("No further window opens: {program} cannot be started.", program=program)
            )

    def import_into_box(self, paths: list[Path]) -> None:
        """Show the Recipe box and import files into it."""
        self.show_page(self.page_names.index(BOX))
        if self.box is not None:
            self.box.bring_in(paths)

    # what pages say

    def _say(self, text: str, grave: bool = False) -> None:
        self.messages.say(text, grave=grave)

    def say_fault(self, text: str) -> None:
        """Say what went wrong."""
        self.messages.say(text, grave=True)

    def _say_refused(self, text: str) -> None:
        self.messages.say(text, refused=True)

    def _say_removed(self, text: str, undo: Callable[[], None], topic: str = "") -> None:
        """Say what went, with the way back, until something else is done."""
        self.messages.say(text, actions=[(tr("Undo"), undo)], topic=topic)

    def _say_taken_out(self, text: str, back: Callable[[], None]) -> None:
        """Say what went out of the box or the Kitchen; undo brings it back, too."""
        self._say_removed(text, self.turning.offer(text, back))

    # pages

    def _offer_pages(self) -> None:
        """Offer the pages of a recipe only while one is open."""
        for number in range(len(self._entries)):
            self.header.offer_page(number, self.why_off(number))

    def why_off(self, number: int) -> str:
        """Return why a page cannot be shown, in words; "" if it can."""
        is_off = not self.opened.is_open and self.needs_recipe(number)
        return tr(NOTHING_OPEN) if is_off else ""

    def needs_recipe(self, number: int) -> bool:
        """Whether a page shows the open recipe, so that there is none while nothing is open."""
        return not self._entries[number].of_box

    def show_page(self, number: int, *, pressed: bool = False) -> None:
        """Show a page by the number of its button.

        Where its button was pressed the page stays as it was scrolled; else one sees what has the
        keyboard, for that is what goes on.
        """
        if self.why_off(number):
            return
        if self._entries[number].name != BREW:
            self.show_full(False)
        self._page_seen = number
        if self.opened.is_open:
            self.settings.left_off = RECIPE
        focus = QApplication.focusWidget()
        if focus is not None:
            focus.clearFocus()
        self.header.check_page(number)
        page = self._entries[number].put_together(self)
        if self.keeping.taken is not None:
            self.keeping.taken.refresh()
        self.pages.setCurrentWidget(page)
        page.take_focus()
        if self.isVisible() and not pressed:
            QTimer.singleShot(0, self, bring_keyboard_into_view)  # once it is laid out

    @property
    def page_shown(self) -> str:
        """The page that is shown, by its name in English; "" for the doors."""
        number = self.header.page_buttons.checkedId()
        return self._entries[number].name if number >= 0 else ""

    @property
    def compose(self) -> ComposePage:
        """The page on which the recipe is made."""
        if self._compose is None:
            # No recipe is open at the very first start, and the window is seen the sooner for it.
            from designer.window.compose.compose_page import ComposePage

            self._compose = page = ComposePage(self.opened, self.display)
            page.refused.connect(self._say_refused)
            page.said.connect(self._say)
            page.page_wanted.connect(lambda key: self.show_page(self.page_names.index(LED_TO[key])))
            page.removed.connect(
                lambda text: self._say_removed(text, self.opened.undo_stack.undo, topic="removed")
            )
            self.pages.addWidget(page)
            self._note_compose(page)
        return self._compose

    def _note_compose(self, page: ComposePage) -> None:
        """The page of the recipe was put together."""

    @property
    def sheet(self) -> SheetPage:
        """The sheet's pages; put together when first wanted."""
        if self._sheet is None:
            from designer.window.sheet.sheet_page import SheetPage

            self._sheet = SheetPage(self.opened, self.display, lambda: self.autosave)
            self._sheet.failed.connect(self.say_fault)
            self._sheet.done.connect(self._say)
            self._sheet.file_made.connect(self.keeping.saving.write)
            self.pages.addWidget(self._sheet)
        return self._sheet

    def _fit_page(self) -> FitPage:
        """The ways to brew it here."""
        if self.fit is None:
            from designer.window.fit.fit_page import FitPage

            self.fit = FitPage(self.opened, self.display, lambda: self.autosave)
            self.fit.packs_wanted.connect(self._show_packs)
            self.fit.used.connect(self._say_used)
            self.fit.said.connect(self._say)
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
        told = tr(
            "Brewed this way from now on: {way}. The recipe stays as it is written; Undo goes "
            "back.",
            way=tr(way.name),
        )
        self.messages.say(told)

    def brew_day(self) -> BrewPage:
        """The brew day beside the stove, its log kept in the Recipe box."""
        self.keeping.begin()
        assert self.keeping.brews is not None
        if self.brew_page is None:
            from designer.window.brew.brew_page import BrewPage
            from designer.window.session.open_brew import OpenBrew

            brew = OpenBrew(self.keeping.brews, self.display, self.brew_clock, self)
            self.brew_page = page = BrewPage(self.opened, self.display, brew, self._start_brew)
            self.messages.keep_above(page.flash)
            brew.changed.connect(self.settle_messages)
            brew.said.connect(self._say)
            page.said.connect(self._say)
            page.full_screen_wanted.connect(self.show_full)
            page.file_made.connect(self.keeping.saving.write)
            page.failed.connect(self.say_fault)
            page.to_phone_wanted.connect(self._onto_phone)
            page.from_phone_wanted.connect(self._from_phone)
            page.paper_wanted.connect(lambda: self.paper_wanted.emit(0))
            page.without_recipe_wanted.connect(self.read_kit)
            self.pages.addWidget(page)
        return self.brew_page

    def read_kit(self) -> None:
        """Explain a gravity reading of a wort whose recipe is not here: a caller's kit."""
        # Few ask for it; nothing of it is loaded before.
        from designer.window.brew.reading.reading_form import ReadingForm

        ReadingForm(self.display, self.questions, self).show()

    @property
    def brew_is_shown(self) -> bool:
        """Whether a brew is shown on its page already."""
        return self.brew_page is not None and self.brew_page.brew.brew is not None

    @property
    def _at_the_stove(self) -> OpenBrew | None:
        """The brew of the page that is shown; None on any other."""
        page = self.brew_page
        return page.brew if page is not None and self.pages.currentWidget() is page else None

    def _turn(self) -> None:
        """Let undo and redo act on what the page shows."""
        self.turning.forget_beside()
        self.turning.turn_to(self._at_the_stove)

    def state_of_brew(self) -> str:
        """Return what became of the log of the brew that is shown, "kept 10:51"; else ""."""
        brew, brews = self._at_the_stove, self.keeping.brews
        return brews.state if brew is not None and brew.is_open and brews is not None else ""

    def _start_brew(self) -> None:
        """Begin to brew the open recipe as it stands."""
        self.finish_typing()
        page = self.brew_day()
        try:
            page.brew.start(self.opened, self.autosave)
        except DesignerError as fault:
            self.say_fault(str(fault))

    def _onto_phone(self) -> None:
        """Offer the page for a phone, of the brew that is open or else of the recipe."""
        brew = self.brew_day().brew
        recipe, outlook = brew.recipe, brew.outlook_planned
        self.sheet.offer_phone(None if recipe is None or outlook is None else (recipe, outlook))

    def _from_phone(self) -> None:
        """Ask for the log of a phone, and take it in."""
        from designer.window.brew.from_pocket import FromPhone

        dialog = FromPhone(self.brew_day().brew, self.questions, self)
        dialog.taken.connect(self._take_from_phone)
        dialog.open()

    def _take_from_phone(self, log: PocketLog, joins: bool) -> None:
        from designer.window.session.brew_from_phone import join_brew, take_in_brew

        brew, keeping = self.brew_day().brew, self.keeping.brews
        assert keeping is not None
        if joins:
            join_brew(brew, log)
        else:
            take_in_brew(brew, keeping, log, self.opened, self.autosave)

    def turn_full(self) -> None:
        """Let what is shown have the whole screen, or be in the window again.

        On the brew day header and menus make room too.
        """
        page = self.brew_page
        if page is not None and self.pages.currentWidget() is page:
            self.show_full(not page.is_full)
        else:
            self.setWindowState(self.windowState() ^ Qt.WindowState.WindowFullScreen)

    def show_full(self, full: bool) -> None:
        """Let the page of the brew day have the whole screen, or be in the window again."""
        page = self.brew_page
        if page is None or full is page.is_full:
            return
        self.header.setVisible(not full)
        self.menuBar().setVisible(not full)
        others = self.windowState() & ~Qt.WindowState.WindowFullScreen
        self.setWindowState(others | Qt.WindowState.WindowFullScreen if full else others)
        page.show_full(full=full)

    def _box_page(self) -> RecipeBoxPage:
        """The Recipe box."""
        self.keeping.begin()
        assert self.autosave is not None
        assert self.maintenance is not None
        assert self.keeping.brews is not None
        if self.box is None:
            from designer.window.box.recipe_box_page import RecipeBoxPage

            self.box = RecipeBoxPage(
                self.autosave, self.maintenance, self.keeping.brews, self.display
            )
            self.box.version_wanted.connect(self.version_wanted)
            self.box.door_wanted.connect(self.begin_at)
            self.box.said.connect(self._say)
            self.box.sheets.file_made.connect(self.keeping.saving.write)
            self.box.removed.connect(self._say_taken_out)
            self.box.go_on_wanted.connect(self.brew_wanted)
            self.box.log_wanted.connect(self.brew_log_wanted)
            self.box.paper_wanted.connect(self.paper_wanted)
            self.box.copy_wanted.connect(self.keeping.copy_everything)
            self.box.copy_back_wanted.connect(self.keeping.bring_everything_back)
            self.pages.addWidget(self.box)
        return self.box

    def _kitchen_page(self) -> KitchenPage:
        """The page of vessels and cupboard."""
        self.keeping.begin()
        assert self.autosave is not None
        if self.kitchen is None:
            from designer.window.kitchen.kitchen_page import KitchenPage

            assert self.keeping.brews is not None
            self.kitchen = KitchenPage(self.opened, self.autosave, self.keeping.brews, self.display)
            self.kitchen.said.connect(self._say)
            self.kitchen.refused.connect(self._say_refused)
            self.kitchen.removed.connect(self._say_taken_out)
            self.kitchen.typed.connect(self.turning.offer)
            if self.keeping.taken is not None:
                self.kitchen.taken_changed.connect(self.keeping.taken.refresh)
            self.pages.addWidget(self.kitchen)
        return self.kitchen

    def begin(self) -> None:
        """Show the three doors; the open recipe stays until one is gone through."""
        self.settings.left_off = DOORS
        self.show_doors()

    def show_doors(self) -> None:
        """Show the doors for want of anything else; the next start need not."""
        if self.begin_page is None:
            from designer.window.begin.begin_page import BeginPage

            self.begin_page = BeginPage(self.display, lambda: self.autosave, self._open_now)
            column = self.begin_page.column
            column.go_on_wanted.connect(self._go_on_with)
            column.box_wanted.connect(lambda: self.show_page(self.page_names.index(BOX)))
            column.kitchen_wanted.connect(lambda: self.show_page(self.page_names.index(KITCHEN)))
            self.opened.opened_first.connect(column.ask_box)
            self.begin_page.begun.connect(self.begun)
            self.begin_page.begun_to_fit.connect(self.begun_to_fit)
            self.begin_page.example_wanted.connect(self.example_wanted)
            self.begin_page.file_wanted.connect(self.file_wanted)
            self.begin_page.left.connect(self._leave_doors)
            self.begin_page.vessels_told.connect(self._keep_vessels)
            self.keeping.begun.connect(self.begin_page.ask_box)
            self.pages.addWidget(self.begin_page)
        self.finish_typing()
        self.pages.setCurrentWidget(self.begin_page)
        if self.isVisible():
            self.begin_page.complete()  # else it is seen first
        self.header.check_page(-1)
        self.begin_page.take_focus()

    def _keep_vessels(self, pot: PotRecord | None, fermenter: FermenterRecord | None) -> None:
        """Keep the vessels that the brewer has told of in the Kitchen."""
        self.keeping.begin()
        assert self.begin_page is not None
        page = self.begin_page

        def work(store: Store) -> None:
            if pot is not None:
                store.pots.insert(pot)
            if fermenter is not None:
                store.fermenters.insert(fermenter)

        def done() -> None:
            page.end_welcome()
            page.ask_box()

        if self.autosave is None or (pot is None and fermenter is None):
            done()
        else:
            self.autosave.store.ask(work, lambda _: done(), self.say_fault)

    def _open_now(self) -> Thing | None:
        """The open recipe as something to go on with."""
        if not self.opened.is_open:
            return None
        # Asked for once the Recipe box has answered.
        from designer.window.session.to_go_on_with import opened_now

        srm = None if self.opened.waiting else float(self.opened.day.beer.colour_srm)
        return opened_now(self.recipe_name(), srm)

    def _go_on_with(self, thing: Thing) -> None:
        """Go back to the open recipe, or on with another one."""
        if thing.brew:
            self.brew_wanted.emit(thing.brew)
        elif thing == self._open_now():
            self._leave_doors()
        else:
            self.go_on_wanted.emit(thing)

    def begin_at(self, door: int) -> None:
        """Show the doors, this one open."""
        self.begin()
        assert self.begin_page is not None
        self.begin_page.open_door(door)

    def _leave_doors(self) -> None:
        """Go back from the doors to the page that was seen before, if a recipe is open."""
        if self.opened.is_open:
            self.show_page(self._page_seen)

    def what_if(self) -> None:
        """Try variants of the open recipe; it stays as it is until one is kept."""
        place, focus = self.compose.focused_place(), QApplication.focusWidget()
        self.finish_typing()
        tried = self.compose.what_if(place)
        if focus is not None and self.isAncestorOf(focus):
            tried.finished.connect(partial(_give_back, focus))

    def close_pages(self) -> None:
        """Let go of what goes on beside the pages, for the end of the program."""
        for page in self.findChildren(Page):
            page.close_down()


def _give_back(focus: QWidget, _result: int) -> None:
    """Give the keyboard back to what had it; the editor of a cell may be gone by then."""
    if isValid(focus) and focus.isVisible():
        focus.setFocus(Qt.FocusReason.OtherFocusReason)


class PageEntry(NamedTuple):
    """A page with a button: its name and what puts it together.

    `of_box` tells that it shows the Recipe box and no recipe, `needs_box` that it keeps things
    there.
    """

    name: str
    put_together: Callable[[PagedWindow], Page]
    of_box: bool = False
    needs_box: bool = False


PAGES = (
    PageEntry(COMPOSE, lambda window: window.compose),
    PageEntry(FIT, PagedWindow._fit_page),
    PageEntry(SHEET, lambda window: window.sheet),
    PageEntry(BREW, PagedWindow.brew_day, needs_box=True),
    PageEntry(BOX, PagedWindow._box_page, of_box=True, needs_box=True),
    PageEntry(KITCHEN, PagedWindow._kitchen_page, of_box=True, needs_box=True),
)
"""In the order of their buttons."""
