"""Makes the pictures of one language, in a process of its own: `making CODE FOLDER`."""

import os
import sys
import tempfile
from pathlib import Path

LOCALES = {"en": "en_GB.UTF-8", "de": "de_DE.UTF-8", "fr": "fr_FR.UTF-8"}
SCALE = "1.4"


def surround(code, folder):
    """Give the program a desk, a language and folders of its own; before it is imported."""
    screen = Path(__file__).parents[1] / "screen.json"
    os.environ.update(
        QT_QPA_PLATFORM=f"offscreen:configfile={screen}",
        QT_SCALE_FACTOR=SCALE,
        QT_LOGGING_RULES="*.warning=false",
        LANGUAGE=code,
        LC_ALL=LOCALES[code],
        HOBWORT_SETTINGS=str(folder / "settings"),
        HOBWORT_STORE=str(folder / "store"),
    )


def make(code, pictures):
    """Make all pictures of a language."""
    from .fixed_time import stand_still

    stand_still()
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        surround(code, folder)
        from .kitchen_desk import Desk
        from .scenes import SCENES
        from .seen_words import listening

        ears = listening(code)
        desk = Desk(folder / "first", pictures, ears)
        for scene in SCENES:
            desk.begin_anew(folder / scene.__name__)
            scene(desk)
            sys.stdout.write(f"{code}: {scene.__name__}\n")
            sys.stdout.flush()
        desk.close()
    # What Qt would still take down is taken down by the system.
    sys.stdout.flush()
    os._exit(0)


if __name__ == "__main__":
    make(sys.argv[1], Path(sys.argv[2]))
