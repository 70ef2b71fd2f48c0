"""The program: `hobwort`, or `python -m designer`."""

from __future__ import annotations

import gc
import os
import sys
from contextlib import suppress


def main() -> int:
    """Run the command line; return its exit code, or end the process with it."""
    # What is loaded and written is no garbage: it is looked through more seldom.
    gc.set_threshold(20_000, 10, 10)
    try:  # whoever presses Ctrl+C may do so while it loads
        from designer.plain_loading import load_plainly

        load_plainly()
        from designer.command_line import run  # with all that it loads

        code = run(sys.argv[1:])
    except KeyboardInterrupt:
        return _end_interrupted()
    if "PySide6.QtWidgets" not in sys.modules:
        _end_at_once(code)
    return code


def _end_interrupted() -> int:
    """End as a program that knows nothing of Ctrl+C: without a word, and so that a shell sees it.

    Files that were being written have been taken away, or put in their place, on the way here.
    """
    import signal  # asked for by nothing else

    with suppress(OSError, ValueError):
        sys.stdout.flush()
    if os.name == "posix":
        signal.signal(signal.SIGINT, signal.SIG_DFL)
        os.kill(os.getpid(), signal.SIGINT)
    return 128 + signal.SIGINT


def _end_at_once(code: int) -> None:
    """End the process: taking all modules apart again takes a sixth of the time of a sheet.

    All was written by now. The window has threads and files to close, and ends as usual.
    """
    for stream in (sys.stdout, sys.stderr):
        with suppress(OSError, ValueError):  # it was told already, or is closed
            stream.flush()
    os._exit(code)


if __name__ == "__main__":
    sys.exit(main())
