"""What happens when the program itself is at fault: it is logged, said once, and work is kept."""

from __future__ import annotations

import sys
import tempfile
import traceback
from pathlib import Path
from types import TracebackType
from typing import TYPE_CHECKING

from designer.errors import DesignerError
from designer.library.recipe_file import save

if TYPE_CHECKING:
    from designer.window.main_window import MainWindow


class FaultCatcher:
    """Takes the place of `sys.excepthook` while a window is open."""

    def __init__(self, window: MainWindow, folder: Path) -> None:
        self._window, self._folder = window, folder
        self._said = False

    def __call__(
        self, kind: type[BaseException], fault: BaseException, trace: TracebackType | None
    ) -> None:
        """Log the fault; the first time keep a copy of the recipe and tell the brewer."""
        if issubclass(kind, KeyboardInterrupt):
            self._window.close()
            return
        report = "".join(traceback.format_exception(kind, fault, trace))
        sys.stderr.write(report)
        if self._said:
            return
        self._said = True
        log = self._folder / "hobwort-fault.txt"
        copy = self._folder / "hobwort-rescued.hobwort"
        try:
            log.write_text(report, encoding="utf-8")
            save(self._window.opened.recipe, copy)
        except (OSError, DesignerError):
            self._window.messages.say(
                "Something in the program went wrong. Save your recipe now.", grave=True
            )
            return
        self._window.messages.say(
            "Something in the program went wrong. You can go on; your recipe was also kept in "
            f"{copy}, and what went wrong in {log}.",
            grave=True,
        )


def catch_faults(window: MainWindow) -> None:
    """From now on tell the brewer of faults in a window's slots instead of dying of them."""
    sys.excepthook = FaultCatcher(window, Path(tempfile.gettempdir()))
