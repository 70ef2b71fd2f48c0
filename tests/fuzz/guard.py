"""What must never happen while a text or a file from elsewhere is read.

Python tells of each such thing beforehand (`sys.addaudithook`), whoever does it: code that is run,
a process or a connection that is begun, a file elsewhere that is opened or changed.
"""

import sys
from pathlib import Path

FORBIDDEN = (
    "ctypes.dlopen",
    "ftplib.",
    "http.",
    "os.exec",
    "os.fork",
    "os.posix_spawn",
    "os.spawn",
    "os.startfile",
    "os.system",
    "pickle.find_class",
    "pty.spawn",
    "smtplib.",
    "socket.",
    "sqlite3.enable_load_extension",
    "sqlite3.load_extension",
    "subprocess.",
    "urllib.",
    "webbrowser.",
)
WITH_PATHS = ("open", "os.remove", "os.rename", "os.mkdir", "os.truncate", "sqlite3.connect")


class ForbiddenError(BaseException):
    """Something was about to happen that no text may bring about."""


class Guard:
    """Watches this process from the first `with` on; within it nothing forbidden may happen."""

    def __init__(self, folder: Path, readable: tuple[Path, ...]) -> None:
        self._folders = tuple(str(each.resolve()) for each in (folder, *readable))
        self._writable = str(folder.resolve())
        self._on = False
        self.met: list[str] = []
        sys.addaudithook(self._hear)

    def __enter__(self) -> None:
        self._on = True

    def __exit__(self, *_: object) -> None:
        self._on = False
        if self.met:
            met, self.met = self.met, []
            raise ForbiddenError(met)

    def _hear(self, event: str, words: tuple[object, ...]) -> None:
        if not self._on or sys.is_finalizing():
            return
        if event.startswith(FORBIDDEN):
            self._note(event, words)
        elif event in WITH_PATHS:
            self._judge(event, words)
        elif event in ("exec", "compile"):
            self._judge_code(event, words)

    def _judge(self, event: str, words: tuple[object, ...]) -> None:
        path = words[0]
        within_folder = event == "os.remove" and words[-1] != -1  # named beside a handle
        if isinstance(path, int) or within_folder:
            return
        name = path.decode(errors="replace") if isinstance(path, bytes) else str(path)
        name = name.removeprefix("file:").split("?")[0]
        if name in ("", ":memory:"):
            return
        lies = str(Path(name).resolve())
        writes = event not in ("open", "sqlite3.connect") or (
            event == "open" and isinstance(words[1], str) and set(words[1]) & set("wax+")
        )
        allowed = (self._writable,) if writes else self._folders
        if not lies.startswith(allowed):
            self._note(event, words)

    def _judge_code(self, event: str, words: tuple[object, ...]) -> None:
        """Code of a file is a module being imported; any other was made of a text."""
        code = words[0]
        name = getattr(code, "co_filename", "") if event == "exec" else str(words[1])
        if not name.startswith(("/", "<frozen")) and not _is_importing():
            self._note(event, (name,))

    def _note(self, event: str, words: tuple[object, ...]) -> None:
        self._on = False
        self.met.append(f"{event}: {words!r}"[:300])


def _is_importing() -> bool:
    """Whether a module is being imported: dataclasses are made of code that is put together."""
    frame = sys._getframe()
    while frame is not None:
        if frame.f_code.co_filename == "<frozen importlib._bootstrap>":
            return True
        frame = frame.f_back
    return False
