"""Save and Save as, and what another program does to the file: said with all that can be done.

The file and the Recipe box are tried each by itself; each says what became of it.
"""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer

from designer.errors import DesignerError
from designer.library.file_bytes import clear_leftovers, write_whole
from designer.library.file_names import file_name
from designer.library.recipe_file import SUFFIX
from designer.translation import tr
from designer.window.parts.message_bar import KEEPING
from designer.window.session.disk_thread import SLOW_MS
from designer.window.session.recipe_on_disk import ChangedOnDiskError, OnDisk, RecipeOnDisk
from designer.window.session.recipe_window import RecipeWindow

if TYPE_CHECKING:
    from collections.abc import Callable

    Ways = list[tuple[str, Callable[[], None]]]


TOPIC = "the file"
"""What is said of the file takes the place of what was said of it before."""


class _Told:
    """What became of one press of Save, said anew with each answer that adds to it."""

    def __init__(self, saving: Saving) -> None:
        self._saving = saving
        self._file = self._box = ""
        self._grave = False
        self._ways: Ways = []

    def in_file(self, path: Path) -> None:
        self._file = tr("Saved to {path}.", path=path)
        self._say()

    def not_in_file(self, fault: DesignerError) -> None:
        self._file, self._grave = str(fault), True
        self._ways = self._saving.ways_on(fault)
        self._say()

    def in_box(self, number: int) -> None:
        self._box = tr("The Recipe box kept version {number}.", number=number)
        self._saving.withdraw(KEEPING)
        if self._grave:
            self._say()

    def not_in_box(self, fault: str) -> None:
        self._box = tr("The Recipe box did not keep it: {fault}", fault=fault)
        self._grave = True
        self._ways = self._ways or ([] if self._file else self._saving.ways_on(None))
        self._say()
        if not self._file:  # what is wrong with the box, and all ways on, whichever was said first
            self._saving.say_trouble_again()

    def _say(self) -> None:
        # Which of file and box answers first is chance: where all is well the file says it all.
        box = self._box if self._grave else ""
        words = " ".join(each for each in (self._file, box) if each)
        topic = TOPIC if self._file else KEEPING
        self._saving.say(words, grave=self._grave, ways=self._ways, topic=topic)


class Saving:
    """Carries out what the File menu asks for, for one window.

    `say_trouble_again` says once more what keeps the Recipe box from keeping, if anything does.
    """

    def __init__(self, window: RecipeWindow, say_trouble_again: Callable[[], None]) -> None:
        self._window, self.say_trouble_again = window, say_trouble_again
        self.on_disk = on_disk = RecipeOnDisk(window.opened, window)
        self._leave: Callable[[], object] | None = None
        self._stays: Callable[[], object] = lambda: None
        self._went_wrong = False
        on_disk.changed.connect(self._tell_changed)
        on_disk.gone.connect(self._tell_gone)
        for better in (on_disk.back, window.opened.path_changed):
            better.connect(self._withdraw)
        on_disk.disk.slow.connect(self._tell_slow)
        on_disk.disk.settled.connect(self._go_on_leaving)
        on_disk.look()

    def say(
        self, words: str, *, grave: bool = False, ways: Ways | None = None, topic: str = TOPIC
    ) -> None:
        """Say what became of the file, with buttons for what can be done."""
        self._went_wrong = self._went_wrong or grave
        self._window.messages.say(words, grave=grave, actions=ways or [], topic=topic)

    def withdraw(self, topic: str) -> None:
        """Take back what was said: it is no longer so."""
        self._window.messages.withdraw(topic)

    # saving

    def save(self) -> None:
        """Keep a version in the Recipe box, and write the recipe's file if it has one.

        Without a Recipe box a file is asked for. What became of it is said when it is known.
        """
        if not self._window.opened.is_open:
            return
        with self._window.typing_taken():
            path, autosave = self._window.opened.path, self._window.autosave
            told = _Told(self)
            if autosave is not None:
                autosave.save(then=told.in_box, failed=told.not_in_box)
            if path is not None:
                self.on_disk.save(path, partial(self._saved, told, path), told.not_in_file)
            elif autosave is None:
                self._ask_and_save(told)
        self._say_unsaved_texts()

    def _saved(self, told: _Told, path: Path) -> None:
        self._window.settings.remember(path)
        told.in_file(path)

    def save_as(self) -> None:
        """Ask for a file and write the recipe to it."""
        if not self._window.opened.is_open:
            return
        with self._window.typing_taken():
            self._ask_and_save(_Told(self))
        self._say_unsaved_texts()

    def _ask_and_save(self, told: _Told) -> None:
        path = self._ask_where()
        if path is not None:
            self.on_disk.save(path, partial(self._saved, told, path), told.not_in_file)

    def _ask_where(self) -> Path | None:
        window = self._window
        suggested = Path(window.folder()) / (file_name(window.opened.recipe.name) + SUFFIX)
        return window.questions.save_where(window, str(suggested))

    def _say_unsaved_texts(self) -> None:
        """Say what is typed and cannot be saved, because it was not taken."""
        untaken = self._window.opened.untaken
        if untaken:
            self._window.messages.say(
                tr(
                    "Not taken, and so not saved: {texts}. The old value is kept there.",
                    texts=", ".join(untaken),
                ),
                grave=True,
                topic="untaken",
            )

    def save_elsewhere(self, then: Callable[[bool], None]) -> None:
        """Ask for a file because nothing else keeps the recipe; `then` gets whether it does."""
        told, path = _Told(self), self._ask_where()

        def saved(path: Path) -> None:
            self._saved(told, path)
            then(True)

        def failed(fault: DesignerError) -> None:
            told.not_in_file(fault)
            then(False)

        if path is None:
            then(False)
        else:
            self.on_disk.save(path, partial(saved, path), failed)

    def ways_on(self, fault: DesignerError | None) -> Ways:
        """What can be done about a file that was not written."""
        if isinstance(fault, ChangedOnDiskError):
            return self._ways_with(fault.found)
        return [(tr("Save as…"), self.save_as)]

    # what another program did

    def _ways_with(self, found: OnDisk) -> Ways:
        ways: Ways = [(tr("Keep both"), self._keep_both)]
        if found.recipe is not None:
            ways.append((tr("Use theirs"), partial(self._take_theirs, found)))
        ways.append((tr("Overwrite"), partial(self._overwrite, found)))
        return ways

    def _tell_changed(self, found: OnDisk) -> None:
        opened = self._window.opened
        told = [tr("{path} was changed outside this window.", path=opened.path)]
        if found.recipe is None:
            told.append(tr("It cannot be opened as it is now: {fault}", fault=found.fault))
        told.append(
            tr("What you changed is not in it.")
            if opened.unsaved
            else tr("Yours is what is shown here.")
        )
        self.say(" ".join(told), grave=True, ways=self._ways_with(found))

    def _tell_gone(self, has_folder: bool) -> None:
        path = self._window.opened.path
        if path is not None and has_folder:
            told = tr(
                "{path} is not there any more. What was in it is open here: Save writes it anew.",
                path=path,
            )
            self.say(told, grave=True, ways=[(tr("Save"), self.save), *self.ways_on(None)])
        elif path is not None:
            told = tr(
                "{path} is out of reach: the folder {folder} is not there any more. What was in it "
                "is open here; save it elsewhere, or bring the folder or its drive back.",
                path=path,
                folder=path.parent,
            )
            self.say(told, grave=True, ways=self.ways_on(None))

    def _withdraw(self) -> None:
        """What was said of the file is no longer so, or of another file."""
        self._window.messages.withdraw(TOPIC)

    def _keep_both(self) -> None:
        theirs = self._window.opened.path

        def done(mine: Path) -> None:
            self._window.settings.remember(mine)
            self.say(
                tr(
                    "Both are kept: yours, open here, in {mine}, theirs in {theirs}.",
                    mine=mine,
                    theirs=theirs,
                )
            )

        self.on_disk.keep_both(done, _Told(self).not_in_file)

    def _take_theirs(self, found: OnDisk) -> None:
        self.on_disk.take_theirs(found)
        self.say(tr("What the file holds is open now. Undo brings yours back."))

    def _overwrite(self, found: OnDisk) -> None:
        path = self._window.opened.path
        if path is not None:
            told = _Told(self)
            done = partial(self._saved, told, path)
            self.on_disk.save(path, done, told.not_in_file, instead_of=found.content)

    def write(self, path: Path, content: bytes, done: str) -> None:
        """Write another file than the recipe's, and say `done` when it is on the disk."""

        def work() -> None:
            write_whole(path, content)
            clear_leftovers(path)

        def failed(fault: DesignerError) -> None:
            self.say(str(fault), grave=True)

        what = tr("Saving {file}", file=path.name)
        self.on_disk.disk.ask(work, lambda _: self.say(done), failed, what, is_writing=True)

    # slow disks

    def holds_up(self, leave: Callable[[], object], stays: Callable[[], object]) -> bool:
        """Whether something is still being written; `leave` is called when it is on the disk.

        `stays` is called instead where the brewer stays, or it could not be written.
        """
        disk = self.on_disk.disk
        if disk.pending:
            self._leave, self._stays, self._went_wrong = leave, stays, False
            QTimer.singleShot(SLOW_MS, self._window, self._tell_leaving)
        return disk.pending

    def _tell_leaving(self) -> None:
        if self._leave is not None and self.on_disk.disk.pending:
            self.say(
                tr("The disk is slow. The window closes when your recipe is on it."),
                ways=[
                    (tr("Close without waiting"), self.on_disk.disk.give_up),
                    (tr("Stay"), self._stay),
                ],
            )

    def _stay(self) -> None:
        self._leave = None
        self._stays()

    def _go_on_leaving(self) -> None:
        leave, self._leave = self._leave, None
        if leave is not None and self._went_wrong:
            self._stays()
        elif leave is not None:
            leave()

    def _tell_slow(self, what: str) -> None:
        if self._leave is not None:
            return
        if self.on_disk.disk.pending:
            self.say(
                tr(
                    "{doing}: the disk is slow. Go on meanwhile; what you type counts as unsaved.",
                    doing=what,
                )
            )
        else:
            ways: Ways = [(tr("Do not wait"), self.on_disk.disk.give_up)]
            self.say(tr("{doing}: the disk is slow. Go on meanwhile.", doing=what), ways=ways)
