"""The file of an open recipe: written, read and watched without ever holding up the window.

What counts is the content. A file is looked at when the window is turned to, every second or so
while it is open, and before each save; other programs replace files, take them away and bring them
back, on disks that tell nobody: so it is looked at rather than waited for a sign.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import NamedTuple

from PySide6.QtCore import QObject, Qt, QTimer, Signal
from PySide6.QtGui import QGuiApplication

from designer.digests import sha256
from designer.errors import DesignerError, RefusedInputError
from designer.library.file_bytes import ChangedFileError, bytes_of, free_path, refuse_handed_over
from designer.library.recipe_file import decoded, read_document, save
from designer.recipe.document import Recipe
from designer.recipe.limits import LARGEST_DOCUMENT_BYTES
from designer.recipe.message import Message, say
from designer.translation import tr
from designer.window.session.disk_thread import DiskThread
from designer.window.session.open_recipe import FileTrouble, OpenRecipe

LOOK_MS = 1500
GONE_LOOKS = 2
"""So often a file must be missing until that is told: programs take it away to replace it."""


class OnDisk(NamedTuple):
    """What a file holds: its bytes, and the recipe they say, or in words why they say none."""

    content: bytes
    recipe: Recipe | None
    fault: str = ""


class ChangedOnDiskError(DesignerError):
    """Another program changed the file since it was last seen; `found` is what it holds now."""

    def __init__(self, path: Path, found: OnDisk) -> None:
        self.found = found
        super().__init__(
            tr("{path} was changed outside this window, and was not written over.", path=path)
        )


class _FolderGoneError(DesignerError):
    """The folder of the file is not there any more."""


class _Wanted(NamedTuple):
    """One save that was asked for; `sitting` counts the recipes that were open before."""

    sitting: int
    path: Path
    recipe: Recipe
    history: tuple[Recipe, ...]
    instead_of: bytes | None
    done: Callable[[], None]
    failed: Callable[[DesignerError], None]


class TakeTheirs(NamedTuple):
    """Take over, whole, what another program wrote into the recipe's file."""

    recipe: Recipe
    text: Message = say("take-theirs", "take over what the file holds")
    merge_key: str = ""

    def apply(self, recipe: Recipe) -> Recipe:
        """Return the other program's recipe."""
        return self.recipe


def read_on_disk(path: Path) -> OnDisk:
    """Return what a file holds. Raises DesignerError for one that cannot be read."""
    refuse_handed_over(path)
    return _held(path, bytes_of(path, LARGEST_DOCUMENT_BYTES))


def _held(path: Path, content: bytes) -> OnDisk:
    try:
        return OnDisk(content, read_document(decoded(content, str(path)), str(path)))
    except RefusedInputError as fault:
        return OnDisk(content, None, fault.problems[0])
    except DesignerError as fault:
        return OnDisk(content, None, str(fault))


class RecipeOnDisk(QObject):
    """Reads, writes and watches the file of the recipe that is open."""

    changed = Signal(object)
    """Another program or window changed the file; what it holds now, an OnDisk."""
    gone = Signal(bool)
    """The file cannot be read any more; whether its folder is still there."""
    back = Signal()
    """The file holds again what it held before, or what is open."""

    trouble_changed = Signal()
    """`file_trouble` of the open recipe says something else."""

    def __init__(self, opened: OpenRecipe, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._opened = opened
        self.disk = DiskThread(self)
        self._path: Path | None = None
        self._known: OnDisk | None = None
        self._told: bytes | None = None
        self._sign: tuple[int, ...] = ()
        self._missing = 0
        self._looking = False
        self._wanted: list[_Wanted] = []
        self._writing = self._noting = False
        self._opening = self._sitting = 0
        self._ticks = QTimer(self, interval=LOOK_MS)
        self._ticks.timeout.connect(self.look)
        opened.path_changed.connect(self._follow)
        application = QGuiApplication.instance()
        if isinstance(application, QGuiApplication):
            application.applicationStateChanged.connect(self._note_activity)
        self._follow()

    # reading

    def open(
        self,
        path: Path,
        then: Callable[[Recipe], None],
        failed: Callable[[DesignerError], None],
    ) -> None:
        """Read a recipe file; only the one asked for last is handed to `then`."""
        self._opening += 1
        number = self._opening

        def answer(found: OnDisk) -> None:
            if number != self._opening:
                return
            if found.recipe is None:
                failed(DesignerError(found.fault))
                return
            then(found.recipe)
            if self._opened.path == path and self._opened.recipe == found.recipe:
                self._remember(found)

        self.disk.ask(
            lambda: read_on_disk(path), answer, failed, tr("Reading {file}", file=path.name)
        )

    # watching

    def _follow(self) -> None:
        """Another recipe is open, of another file or none."""
        if self._noting:
            return
        self._sitting += 1
        self._path, self._known, self._told, self._sign = self._opened.path, None, None, ()
        self._missing = 0
        self._say_trouble(None)
        self._watch()

    def _watch(self) -> None:
        if self._path is None:
            self._ticks.stop()
        else:
            self._ticks.start()

    def _note_activity(self, state: Qt.ApplicationState) -> None:
        if state == Qt.ApplicationState.ApplicationActive:
            self._sign = ()  # by content, whatever the times of the file say
            self.look()

    def look(self) -> None:
        """Look whether the file is as it was last seen; the answer comes as a signal."""
        path = self._path
        if path is None or self._looking or self._writing:
            return
        self._looking = True
        known, sign = self._known, self._sign

        def work() -> tuple[tuple[int, ...], OnDisk | None]:
            now = _sign_of(path)
            if now and now == sign:
                return now, None
            found = _looked_at(path)
            return now, known if known and known.content == found else read_on_disk(path)

        self.disk.ask(work, partial(self._take, path), partial(self._miss, path))

    def _take(self, path: Path, answer: tuple[tuple[int, ...], OnDisk | None]) -> None:
        self._looking = False
        sign, found = answer
        if path != self._path or self._writing:
            return
        self._sign, self._missing = sign, 0
        if found is None:
            return
        if self._is_no_news(found):
            self._remember(found)
        elif found.content != self._told:
            self._told = found.content
            self._say_trouble(FileTrouble.CHANGED)
            self.changed.emit(found)

    def _is_no_news(self, found: OnDisk) -> bool:
        """Whether a file says what it was known to say, or what is open."""
        if self._known is None and self._opened.file_mark:
            is_open = found.recipe == self._opened.recipe
            return is_open or mark_of(found.content) == self._opened.file_mark
        if found.recipe is None:
            return self._known is not None and found.content == self._known.content
        known = (self._known.recipe,) if self._known is not None else self._opened.history()[0]
        return found.recipe in (*known, self._opened.recipe)

    def _remember(self, found: OnDisk) -> None:
        self._known, self._opened.file_mark = found, mark_of(found.content)
        was_told, self._told = self._told is not None or self._opened.file_trouble, None
        self._missing = 0
        if was_told:
            self._say_trouble(None)
            self.back.emit()

    def _say_trouble(self, trouble: FileTrouble | None) -> None:
        self._opened.file_trouble = trouble
        self.trouble_changed.emit()

    def _miss(self, path: Path, fault: DesignerError) -> None:
        """The file cannot be read: it is being replaced, or is gone."""
        self._looking = False
        if path != self._path or self._writing:
            return
        self._sign = ()
        self._missing += 1
        if self._missing == GONE_LOOKS:
            self._say_trouble(FileTrouble.GONE)
            self.gone.emit(not isinstance(fault, _FolderGoneError))

    # writing

    def save(
        self,
        path: Path,
        done: Callable[[], None],
        failed: Callable[[DesignerError], None],
        *,
        instead_of: bytes | None = None,
    ) -> None:
        """Write the recipe as it is now; `done` when it is on the disk and was read back.

        The open recipe's own file is replaced only if it is as last seen, or holds `instead_of`.
        """
        recipe, history = self._opened.recipe, self._opened.history()[0]
        wanted = _Wanted(self._sitting, path, recipe, history, instead_of, done, failed)
        self._wanted.append(wanted)
        if path == self._path and not self._opened.file_trouble:
            self._say_trouble(FileTrouble.BEING_WRITTEN)  # it may be in the Recipe box before
        if not self._writing:
            self._write_next()

    def _write_next(self) -> None:
        if not self._wanted:
            return
        self._writing = True
        wanted = self._wanted.pop(0)
        is_own = wanted.sitting == self._sitting and wanted.path == self._path
        known = self._known.content if self._known is not None else None
        mark = self._opened.file_mark

        def work() -> OnDisk:
            seen = wanted.instead_of
            try:
                if seen is None and is_own:
                    seen = known if known is not None else _seen(wanted.path, wanted.history, mark)
                content = save(wanted.recipe, wanted.path, instead_of=seen)
            except ChangedFileError as changed:
                found = _held(wanted.path, changed.theirs)
                raise ChangedOnDiskError(wanted.path, found) from None
            return OnDisk(content, wanted.recipe)

        what = tr("Saving {file}", file=wanted.path.name)
        written, failed = partial(self._written, wanted), partial(self._not_written, wanted)
        self.disk.ask(work, written, failed, what, is_writing=True)

    def _written(self, wanted: _Wanted, found: OnDisk) -> None:
        self._writing = False
        if wanted.sitting == self._sitting:  # else another recipe was opened meanwhile
            self._path, self._sign = wanted.path, ()
            self._noting = True
            self._remember(found)
            self._opened.note_written(wanted.recipe, wanted.path)
            self._noting = False
            self._watch()
        wanted.done()
        self._write_next()

    def _not_written(self, wanted: _Wanted, fault: DesignerError) -> None:
        self._writing = False
        if wanted.sitting == self._sitting and wanted.path == self._path:
            self._say_trouble(FileTrouble.NOT_WRITTEN)
            if isinstance(fault, ChangedOnDiskError):
                self._told = fault.found.content
        wanted.failed(fault)
        self._write_next()

    def take_theirs(self, found: OnDisk) -> None:
        """Put what another program wrote in place of what is open, as one step."""
        if found.recipe is not None:
            self._opened.make(TakeTheirs(found.recipe))
            self._remember(found)

    def keep_both(
        self, done: Callable[[Path], None], failed: Callable[[DesignerError], None]
    ) -> None:
        """Write what is open beside its file, under a name that is free."""
        path = self._path
        assert path is not None

        def found(free: Path) -> None:
            self.save(free, partial(done, free), failed, instead_of=b"")

        what = tr("Looking beside {file}", file=path.name)
        self.disk.ask(partial(free_path, path), found, failed, what, is_writing=True)

    def stop(self) -> None:
        """Look no more; for the end of the program."""
        self._ticks.stop()
        self.disk.stop()


def _looked_at(path: Path) -> bytes:
    try:
        return bytes_of(path, LARGEST_DOCUMENT_BYTES)
    except DesignerError:
        if not _sign_of(path.parent):
            raise _FolderGoneError(
                tr("{folder} is not there any more.", folder=path.parent)
            ) from None
        raise


def _sign_of(path: Path) -> tuple[int, ...]:
    """What tells cheaply that a file may hold something else than a second ago; () for none."""
    try:
        found = path.stat()
    except (OSError, ValueError):
        return ()
    return (found.st_ino, found.st_size, found.st_mtime_ns, found.st_ctime_ns)


def mark_of(content: bytes) -> str:
    """Return what tells the content of a file from any other."""
    return sha256(content).hexdigest()


def _seen(path: Path, history: tuple[Recipe, ...], mark: str) -> bytes:
    """Return what a file holds if that is what it was last seen to hold; b"" for no file.

    `mark` is that of what was seen, "" where nobody knows: then any state of the recipe will do.

    Raises ChangedFileError where it holds anything else, DesignerError where it cannot be read.
    """
    if not _sign_of(path):
        return b""  # a file that comes to be there, or cannot be looked at, is not replaced unseen
    found = read_on_disk(path)
    is_known = mark_of(found.content) == mark if mark else found.recipe in history
    if not is_known:
        raise ChangedFileError(path, found.content)
    return found.content
