"""The bytes of files: read only from what is a file, written in one move, nothing left behind.

A failed read or write never touches the file on disk: writing goes to a file of ours beside it,
which is flushed to the disk and then moved into place. That file is locked while it is written, so
the one of a process that was killed can be told from the one of a process at work.
"""

from __future__ import annotations

import os
import re
import stat
import sys
from contextlib import suppress
from pathlib import Path

from designer.errors import DesignerError
from designer.library.system_reason import reason_of
from designer.recipe.message import say, word
from designer.translation import message, tr
from designer.units.quoting import one_line, quoted

if sys.platform != "win32":
    import fcntl

PART = ".hobwort-part"
STALE_S = 600.0
"""So long nothing is written to a file beside another before it counts as left behind."""
STALE_WITHOUT_LOCK_S = 86_400.0
# Compiled when first used: reading needs neither.
_OURS = r"\..{1,40}-[0-9a-f]{8}" + re.escape(PART)
_OURS_WITHOUT_LOCK = r"\..{0,30}\.hobwort-[a-z0-9_]{8}"
"""As the first releases named them, which did not lock them."""


class ChangedFileError(DesignerError):
    """A file is not as it was last seen; `theirs` are the bytes it holds now."""

    def __init__(self, path: Path, theirs: bytes) -> None:
        self.path, self.theirs = path, theirs
        super().__init__(tr("{path} was changed outside this window.", path=path))


def bytes_of(path: Path, largest: int) -> bytes:
    """Return the content of a file of at most `largest` bytes.

    A pipe or a device is refused without being waited for, except one that was handed to the
    program open, as the shell does with `<(command)` and `/dev/stdin`. Raises DesignerError.
    """
    try:
        found = path.stat()
        if stat.S_ISDIR(found.st_mode):
            raise DesignerError(
                say("a-folder", "{path} is a folder; give a recipe file inside it.", path=path)
            )
        _refuse_devices(path, found)
        size = found.st_size
        if size <= largest:
            with os.fdopen(_opened(path), "rb") as file:
                _refuse_devices(path, os.fstat(file.fileno()))  # it may be another by now
                raw = file.read(largest + 1)
            size = len(raw)  # a pipe tells no size
        if size > largest:
            raise DesignerError(
                say(
                    "file-too-large",
                    "{path} has {size} MB or more; a recipe has less than {largest} MB. It is not "
                    "one of ours.",
                    path=path,
                    size=f"{size / 1000000.0:.0f}",
                    largest=f"{largest / 1000000.0:.0f}",
                )
            )
    except FileNotFoundError:
        raise DesignerError(
            say("file-not-there", "{path} is not there. Check the name and the folder.", path=path)
        ) from None
    except OSError as fault:
        raise DesignerError(
            say(
                "cannot-be-read",
                "{path} cannot be read: {reason}. Mend that, or give another file.",
                path=path,
                reason=reason_of(fault),
            )
        ) from None
    except ValueError:
        raise DesignerError(
            say(
                "no-file-name",
                "{path} cannot be the name of a file.",
                path=quoted(str(path), 80),
            )
        ) from None
    return raw


def is_handed_over(path: Path) -> bool:
    """Whether a path names what the shell opened for the program, not a file of its own."""
    name = str(path)
    return name == "/dev/stdin" or name.startswith(("/dev/fd/", "/proc/self/fd/"))


def refuse_handed_over(path: Path) -> None:
    """Refuse what the shell opened where a file is wanted that can be saved to.

    Raises DesignerError.
    """
    if is_handed_over(path):
        raise DesignerError(
            say("a-pipe", "{path} is a pipe, not a file; give a recipe file.", path=path)
        )


def _opened(path: Path) -> int:
    """Open a file to read, without waiting for whoever may write to it."""
    waits = 0 if is_handed_over(path) else getattr(os, "O_NONBLOCK", 0)
    return os.open(path, os.O_RDONLY | waits | getattr(os, "O_BINARY", 0))


def _refuse_devices(path: Path, found: os.stat_result) -> None:
    if not stat.S_ISREG(found.st_mode) and not is_handed_over(path):
        what = message("a pipe") if stat.S_ISFIFO(found.st_mode) else message("a device")
        raise DesignerError(
            say(
                "not-a-file",
                "{path} is {what}, not a file; give a recipe file.",
                path=path,
                what=word(what),
            )
        )


def write_whole(path: Path, content: bytes, *, instead_of: bytes | None = None) -> None:
    """Put `content` at `path`: write beside it, flush to the disk, move into place.

    With `instead_of` only a file of that content is replaced, or none at all.

    Raises ChangedFileError where the file holds something else by now, and DesignerError that says
    what is wrong; the old file is untouched then.
    """
    beside = ""
    try:
        target = path.resolve() if path.is_symlink() else path
        if target.is_symlink():  # 3.13 resolves links in a circle to one of them
            raise RuntimeError
        if target.is_dir():
            raise DesignerError(
                say(
                    "folder-for-a-file",
                    "{path} is a folder; give a file name inside it.",
                    path=path,
                )
            )
        if target.exists() and not target.is_file():
            raise DesignerError(
                say("a-device", "{path} is a device, not a file; give a file name.", path=path)
            )
        mode = stat.S_IMODE(target.stat().st_mode) & 0o777 if target.exists() else None
        handle, beside = _begun_beside(target, 0o666 if mode is None else mode)
        with os.fdopen(handle, "wb") as file:
            _hold(file.fileno())
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        if mode is not None:
            Path(beside).chmod(mode)  # whatever new files are given
        if instead_of is not None:  # asked last: the flush may have taken seconds
            _refuse_others(target, path, (instead_of, content))
        Path(beside).replace(target)
        beside = ""
        flush_folder(target.parent)
    except (OSError, ValueError, RuntimeError) as fault:  # RuntimeError: links in a circle
        raise _not_written(path, fault) from None
    finally:
        if beside:
            Path(beside).unlink(missing_ok=True)


def _begun_beside(target: Path, mode: int) -> tuple[int, str]:
    """Begin a file of ours beside another, with the rights that the system gives a new one."""
    flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0)
    while True:
        beside = f"{target.parent}/.{target.name[:40]}-{os.urandom(4).hex()}{PART}"
        with suppress(FileExistsError):
            return os.open(beside, flags, mode), beside


def _not_written(path: Path, fault: OSError | ValueError | RuntimeError) -> DesignerError:
    name = one_line(str(path))[:200]
    if isinstance(fault, FileNotFoundError) and not path.parent.is_dir():
        return DesignerError(
            say(
                "folder-gone",
                "{name} could not be written: the folder {parent} is not there. Save under "
                "another name, or bring the folder back.",
                name=name,
                parent=one_line(str(path.parent))[:200],
            )
        )
    reason = reason_of(fault) if isinstance(fault, OSError) else tr("no name that a file can have")
    return DesignerError(
        say(
            "not-written",
            "{name} could not be written: {reason}. What was there before is untouched; save "
            "under another name or make room.",
            name=name,
            reason=reason,
        )
    )


def _refuse_others(target: Path, path: Path, known: tuple[bytes, ...]) -> None:
    """Refuse to replace a file that holds something else than what is known."""
    largest = max(map(len, known))
    try:
        with target.open("rb") as file:
            found = file.read(largest + 1)
            if found not in known:
                raise ChangedFileError(path, found + file.read())
    except FileNotFoundError:
        return


def is_there(path: Path) -> bool:
    """Whether a file of that name is there, of whatever kind; a folder is none."""
    try:
        return path.exists() and not path.is_dir()
    except OSError:  # no name that a file can have, or a folder that may not be read
        return False


def free_path(path: Path) -> Path:
    """Return the path, or one with a number where a file of that name is there already."""
    free, number = path, 2
    while free.exists():
        free = path.with_name(f"{path.stem}-{number}{path.suffix}")
        number += 1
    return free


def clear_leftovers(beside: Path) -> None:
    """Delete what processes that were killed while they wrote left beside a file just written.

    Only files that `write_whole` named, that nothing was written to for a while, and that no
    process holds. What the system does not allow stays.
    """
    with suppress(OSError):
        now = beside.stat().st_mtime  # by the clock of the disk, which may be another machine's
        for entry in os.scandir(beside.resolve().parent):
            stale_s = _stale_s(entry.name)
            if stale_s is not None:
                with suppress(OSError):
                    _clear(Path(entry.path), now - stale_s)


def _stale_s(name: str) -> float | None:
    """After how long a file of that name is left behind; None if it is none of ours."""
    if re.fullmatch(_OURS, name, re.DOTALL):
        return STALE_S
    is_old = re.fullmatch(_OURS_WITHOUT_LOCK, name, re.DOTALL) is not None
    return STALE_WITHOUT_LOCK_S if is_old else None


def _clear(path: Path, before: float) -> None:
    found = path.lstat()
    if not stat.S_ISREG(found.st_mode) or found.st_mtime > before:
        return
    handle = os.open(path, os.O_RDWR | getattr(os, "O_NOFOLLOW", 0))
    try:
        is_free = _hold(handle)
    finally:
        os.close(handle)
    if is_free:
        path.unlink()


def _hold(handle: int) -> bool:
    """Lock a file until it is closed; False if another process holds it.

    A disk without locks lets everything be held: there the time alone tells what is stale. Windows
    deletes no file that is open, which does the same.
    """
    if sys.platform != "win32":
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            return False
        except OSError:
            return True
    return True


def flush_folder(folder: Path) -> None:
    """Make the move itself last through a power cut, where the system can.

    The new file is whole and in place by then, so a system that cannot is no failure to save.
    """
    if hasattr(os, "O_DIRECTORY"):
        with suppress(OSError):
            handle = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
            try:
                os.fsync(handle)
            finally:
                os.close(handle)
