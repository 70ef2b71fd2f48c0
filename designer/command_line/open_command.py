"""`hobwort open`: the window."""

from __future__ import annotations

import gc
import signal
from argparse import Namespace
from pathlib import Path

from designer.errors import DesignerError
from designer.paper.plain_imports import import_qt
from designer.recipe.message import say


def carry_out(chosen: Namespace) -> int:
    """Open the window, with a recipe file if one is given.

    Raises DesignerError for a file that is not there and for a folder: whoever typed its name looks
    at the terminal.
    """
    path = Path(chosen.file) if chosen.file else None
    if path is not None and not path.exists():
        raise DesignerError(
            say("file-not-there", "{path} is not there. Check the name and the folder.", path=path)
        )
    if path is not None and path.is_dir():
        raise DesignerError(
            say("a-folder", "{path} is a folder; give a recipe file inside it.", path=path)
        )
    # What is remembered of it is read again from other folders.
    return open_window(path and path.absolute(), chosen.first)


def open_window(path: Path | None, first: str = "") -> int:
    """Open the window; return the exit code of the program. `first` is as in `start.run`."""
    # Nothing made while the window opens is garbage, and looking for it took 10 of 280 ms; the
    # collector is at work again after that.
    gc.disable()
    # Until there is a window nothing was typed, and Ctrl+C ends the program at once: Qt makes other
    # faults of what is raised while it loads.
    signal.signal(signal.SIGINT, signal.SIG_DFL)
    import_qt()
    from designer.window.start import run  # after Qt, which is imported in a way of its own

    return run(path, first)
