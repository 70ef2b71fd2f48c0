"""Brews of a window: gone on with where they were left, from the start, Begin and the Recipe box.

A brew that was done from the paper sheet is typed in here afterwards.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import UTC
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QApplication, QLineEdit

from designer.errors import DesignerError
from designer.library.recipe_file import document_text, read_document
from designer.library.store.brews import Brew, new_brew
from designer.recipe.document import Recipe
from designer.translation import tr
from designer.window.brew.part_names import Part
from designer.window.paged_window import BREW, PagedWindow
from designer.window.parts.dates import day_text
from designer.window.recipe_files import RecipeFiles
from designer.workbench.brew.clocks import now
from designer.workbench.brew.left_words import last_wall, left_words
from designer.workbench.brew.paper_day import PaperDay, entries_of_paper

if TYPE_CHECKING:
    from designer.library.store import Store, Version
    from designer.window.brew.paper_form import PaperForm
    from designer.window.session.brew_keeping import BrewKeeping, BrewLog

RECENT_S = 12 * 3600.0
"""A brew that was left so long ago at most is what the window opens on."""
MOST_OFFERED = 3


class BrewDays(QObject):
    """For one window."""

    def __init__(self, window: PagedWindow, files: RecipeFiles) -> None:
        super().__init__(window)
        self._window, self._files = window, files
        self._forms: dict[str, PaperForm] = {}

    @property
    def _brews(self) -> BrewKeeping:
        self._window.keeping.begin()
        assert self._window.keeping.brews is not None
        return self._window.keeping.brews

    # going on

    def look_back(self) -> None:
        """Ask which brews are under way: after what else there is to go on with."""
        autosave = self._window.autosave
        if autosave is None:
            return

        def others(store: Store) -> bool:
            from designer.library.store.windows import open_windows

            return bool(open_windows(store.folder) - {autosave.window_name()})

        def ask(has_others: bool) -> None:
            follow = partial(self._follow, is_alone=not has_others)
            self._brews.running(follow, lambda _: None)  # the box says what is wrong

        autosave.store.ask(others, ask, lambda _: ask(False))

    def _follow(self, running: list[BrewLog], *, is_alone: bool) -> None:
        """Open on the brew that was left last, if that was not long ago; say which there are."""
        if not running or self._window.brew_is_shown:
            return
        at = now()
        running = sorted(running, key=lambda each: -last_wall(each.entries))
        is_recent = 0.0 <= at.wall - last_wall(running[0].entries) <= RECENT_S
        opens = is_alone and is_recent and not _is_typing()
        told = [
            tr(
                "The brew of “{name}” is under way: {where}.",
                name=each.brew.name[:60],
                where=left_words(each.entries, at, day_text),
            )
            for each in running[:MOST_OFFERED]
        ]
        ways: list[tuple[str, Callable[[], None]]] = [
            (
                tr("Go on with {name}", name=each.brew.name[:30]),
                partial(self.go_on_with, each.brew.uid),
            )
            for each in running[opens:MOST_OFFERED]
        ]
        say = partial(self._window.messages.say, " ".join(told), actions=ways)
        if opens:
            self._show_part(running[0].brew.uid, Part.STOVE, say)
        else:
            say()

    def go_on_with(self, uid: str) -> None:
        """Show a brew where it stands, at the stove or in the fermenter.

        Where nothing is open, its recipe is opened.
        """

        def show(log: BrewLog) -> None:
            self._show_part(uid, Part.FERMENTING if log.is_over else Part.STOVE)

        self._brews.log_of(uid, show, self._window.say_fault)

    def show_log(self, uid: str) -> None:
        """Show the log of a brew; where nothing is open, its recipe is opened."""
        self._show_part(uid, Part.LOG)

    def show_beer(self, uid: str) -> None:
        """Show what became of a brew's beer; where nothing is open, its recipe is opened."""
        self._show_part(uid, Part.FERMENTING)

    def _show_part(self, uid: str, part: Part, then: Callable[[], None] | None = None) -> None:
        def show() -> None:
            self._show(uid, part)
            if then is not None:
                self._once_shown(uid, then)

        if self._window.opened.is_open:
            show()
        else:
            self._brews.log_of(
                uid, lambda log: self._open_brewed(log.brew, show), self._window.say_fault
            )

    def _open_brewed(self, brew: Brew, show: Callable[[], None]) -> None:
        """Open what was brewed: its version of the box, or else the document of the brew."""

        def open_document(_: str = "") -> None:
            try:
                recipe = read_document(brew.document, brew.name)
            except DesignerError as fault:
                self._window.say_fault(str(fault))
                return
            self._files.begin_with(recipe, show)

        def open_version(version: Version) -> None:
            self._files.open_version(version, show)

        autosave = self._window.autosave
        if brew.version and autosave is not None:
            autosave.store.ask(
                lambda store: store.recipes.version(brew.version), open_version, open_document
            )
        else:
            open_document()

    def _show(self, uid: str, part: Part) -> None:
        window = self._window
        page = window.brew_day()
        page.brew.go_on(uid)
        window.show_page(window.page_names.index(BREW))
        page.show_part(part if part in page.parts.keys else Part.LOG)

    def _once_shown(self, uid: str, then: Callable[[], None]) -> None:
        """Let `then` follow once the log of a brew has come: until then it says things itself."""
        shown = self._window.brew_day().brew

        def follow() -> None:
            if shown.brew is not None and shown.brew.uid == uid:
                shown.changed.disconnect(connection)
                then()

        connection = shown.changed.connect(follow)
        follow()

    # done from paper

    def brewed_on_paper(self, recipe: int = 0) -> None:
        """Ask for a brew of the newest version of a recipe of the box; 0 for the open recipe."""
        window = self._window
        if not recipe:
            self._ask(window.opened.recipe, self._brew_of_open)
        elif window.autosave is not None:
            window.autosave.store.ask(
                lambda store: store.recipes.newest(recipe), self._ask_version, window.say_fault
            )

    def _ask_version(self, version: Version) -> None:
        try:
            recipe = read_document(version.document, version.called)
        except DesignerError as fault:
            self._window.say_fault(str(fault))
            return

        def brew_of(started: str) -> Brew:
            return new_brew(
                version.document, recipe=version.recipe, version=version.id, started=started
            )

        self._ask(recipe, brew_of)

    def _brew_of_open(self, started: str) -> Brew:
        window = self._window
        # Asked for with the first brew: it brings the store's summaries in.
        from designer.window.session.brewed_version import put_to_open

        brew = new_brew(document_text(window.opened.recipe), started=started)
        return put_to_open(brew, window.opened, window.autosave, self._brews.belongs_to)

    def _ask(self, recipe: Recipe, brew_of: Callable[[str], Brew]) -> None:
        """Show the form of a recipe, with what was typed into it before."""
        from designer.window.brew.paper_form import PaperForm  # with the first such brew

        key = document_text(recipe)
        form = self._forms.get(key)
        if form is None:
            form = self._forms[key] = PaperForm(recipe, self._window.display, self._window)
            form.kept.connect(lambda day: self._keep(key, self._taught(recipe, day), brew_of))
        form.open()

    def _taught(self, recipe: Recipe, day: PaperDay) -> PaperDay:
        """Return a day with what the kitchen has taught of its recipe by now."""
        return replace(day, taught=self._window.opened.taught(recipe)[1])

    def _keep(self, key: str, day: PaperDay, brew_of: Callable[[str], Brew]) -> None:
        form = self._forms.pop(key)
        brew = brew_of(day.began.astimezone(UTC).isoformat(timespec="seconds"))
        self._brews.begin(brew)
        self._brews.append(brew.uid, *entries_of_paper(day))
        form.close_down()
        form.deleteLater()
        told = tr(
            "The brew of “{name}” on {day} is in the Recipe box.",
            name=brew.name[:60],
            day=day_text(day.began),
        )
        self._window.messages.say(told)

    def close(self) -> None:
        """Let go of what is reckoned beside the window."""
        for form in self._forms.values():
            form.close_down()


def _is_typing() -> bool:
    focus = QApplication.focusWidget()
    return isinstance(focus, QLineEdit) and focus.isModified()
