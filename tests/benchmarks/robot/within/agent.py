"""Runs inside the program: hands keys and pointer to Qt as a display would, says what is seen.

Started as a script in place of `hobwort`. Commands come as lines of JSON through a socket whose
number is in ROBOT_SOCKET; a thread reads them and passes each to the window's thread, which carries
it out between two other events, in a dialog or a drag as well. Another thread beats: it notes how
long the window's thread took to answer, and where it stood if that was long.
"""

from __future__ import annotations

import json
import os
import sys
from pathlib import Path
from typing import Any

from broken import BREAKING
from line import Line

# The program is imported from where it lies; this folder comes after it.
TOP = Path(__file__).parents[4]
sys.path.insert(0, os.environ.get("ROBOT_PROGRAM", str(TOP)))


def main() -> int:
    """Put the agent beside the program's own application object, then be the program."""
    line = Line(int(os.environ["ROBOT_SOCKET"]))
    options = json.loads(os.environ.get("ROBOT_OPTIONS", "{}"))
    from designer.paper.plain_imports import import_qt

    import_qt()
    if options.get("comma"):
        from PySide6.QtCore import QLocale

        QLocale.setDefault(QLocale(QLocale.Language.German, QLocale.Country.Germany))
    if options.get("clock_h"):
        _move_clock(float(options["clock_h"]))
    if options.get("break"):
        BREAKING[options["break"]]()
    from designer.window import start

    made = start.made_application
    held: list[Any] = []

    def made_with_agent() -> Any:
        from listening import Agent  # Qt is there by now

        application = made()
        held.append(Agent(line, application))
        return application

    start.made_application = made_with_agent
    from designer.command_line import run

    return run(sys.argv[1:])


def _move_clock(hours: float) -> None:
    """Let the store see another time than the system's, as after a clock was set."""
    from datetime import datetime, timedelta

    from designer.library.store import values

    class Moved(datetime):
        @classmethod
        def now(cls, tz: Any = None) -> Any:
            return datetime.now(tz) + timedelta(hours=hours)

    values.datetime = Moved


if __name__ == "__main__":
    sys.exit(main())
