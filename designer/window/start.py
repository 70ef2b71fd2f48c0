"""Start-up of the window."""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QApplication

from designer.errors import DesignerError
from designer.library.file_bytes import refuse_handed_over
from designer.library.recipe_file import load
from designer.recipe.document import Recipe
from designer.translation import message, tr
from designer.window.faults import catch_faults, close_on_ctrl_c
from designer.window.main_window import MainWindow
from designer.window.parts.interface_size import drawn_as_wanted
from designer.window.parts.program_words import words_of_program
from designer.window.parts.settings import RECIPE, Settings
from designer.window.parts.theme import apply_scheme
from designer.window.parts.typeface import wear_typeface
from designer.window.parts.wording import speak_alike
from designer.window.session.open_recipe import OpenRecipe

if TYPE_CHECKING:
    from designer.window.session.autosave import Autosave

NO_DISPLAY = message(
    "There is no display here (neither DISPLAY nor WAYLAND_DISPLAY is set), so no window can open. "
    "Use: hobwort forecast FILE, or hobwort sheet FILE -o sheet.pdf"
)

DESKTOP_FILE = "org.hobwort.hobwort"
"""The name of the desktop entry: what Wayland calls the window by. X11 calls it "hobwort"."""


def has_display() -> bool:
    """Return whether a window could open; Qt itself would abort without a word to catch."""
    if sys.platform in ("win32", "darwin") or os.environ.get("QT_QPA_PLATFORM"):
        return True
    return bool(os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"))


def run(path: Path | None, first: str = "") -> int:
    """Open the window, with a recipe file or where one left off; return its exit code.

    Without a file `first` says what is shown: `DOORS`, `RECIPE` for what was open last, "" as it
    was chosen. Raises DesignerError where no window can open.
    """
    if not has_display():
        raise DesignerError(tr(NO_DISPLAY))
    application = made_application()
    speak_alike(application)
    settings = Settings(application)
    wear_typeface(application, settings.typeface)
    window = opened_window(path, settings, keeping=True, waiting=True, first=first)
    # After the window is put together: a style sheet polishes each widget at each new parent.
    large = settings.targets == "always"
    apply_scheme(application, settings.scheme, settings.contrast, large=large)
    catch_faults(window)
    close_on_ctrl_c(window)
    window.show()
    code = int(application.exec())
    if window.is_to_open_anew:
        settings.write_out()
        _start_anew()
    if not window.has_stopped:
        _end_at_once(code, settings)
    return code


def _end_at_once(code: int, settings: Settings) -> None:
    """End the process although the disk of the Recipe box has not answered: the brewer said so."""
    settings.write_out()
    for stream in (sys.stdout, sys.stderr):
        stream.flush()
    os._exit(code)


def _start_anew() -> None:
    """Begin the program again, without the file it was given: it goes on where it was left."""
    for stream in (sys.stdout, sys.stderr):
        stream.flush()
    os.execv(sys.executable, words_of_program("open", "--go-on"))


def made_application() -> QApplication:
    """Return the application object, with its names set."""
    # Named as an argument: setStyle() would have every kind of Qt's styles made known to Python.
    with drawn_as_wanted():
        application = QApplication(["hobwort", "-style", "Fusion"])
    application.setApplicationName("hobwort")
    application.setApplicationDisplayName("")
    application.setDesktopFileName(DESKTOP_FILE)
    return application


def opened_window(
    path: Path | None,
    settings: Settings,
    *,
    keeping: bool = False,
    waiting: bool = False,
    first: str = "",
) -> MainWindow:
    """Return the window with the recipe of a file, with that of the last session, or at the doors.

    With `keeping` drafts and versions go to the Recipe box, which tells what was open last; with
    `waiting` the forecast and its pictures follow once the window has been painted. `first` is as
    in `run`.
    """
    recipe, trouble = _recipe(path)
    opened = OpenRecipe(recipe, path if recipe is not None else None, waiting=waiting)
    window = MainWindow(
        opened,
        settings,
        make_autosave=(lambda: _autosave(opened)) if keeping else None,
        going_on=path is None and settings.left_off == RECIPE == (first or settings.starts),
    )
    if trouble:
        window.messages.say(
            tr("{trouble} Begin with one of these, or open another.", trouble=trouble), grave=True
        )
    elif path is not None:
        settings.remember(path)
    return window


def _autosave(opened: OpenRecipe) -> Autosave:
    """Return what keeps the recipe of a window; imported only now that the window is seen."""
    from designer.library.store import store_folder
    from designer.window.session.autosave import Autosave
    from designer.window.session.store_thread import StoreThread

    folder = store_folder()
    autosave = Autosave(opened, StoreThread(folder), folder)
    autosave.lays_examples_in = True
    return autosave


def _recipe(path: Path | None) -> tuple[Recipe | None, str]:
    """Return the recipe of a file, None where there is none, and why there is none."""
    if path is None:
        return None, ""
    try:
        refuse_handed_over(path)
        return load(path), ""
    except DesignerError as fault:
        return None, str(fault)
