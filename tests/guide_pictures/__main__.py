"""Make the pictures of the guide anew, or with --check tell which of them are stale.

python -m tests.guide_pictures [--check] [en] [de] [fr]
"""

import argparse
import subprocess
import sys
import tempfile
from pathlib import Path

from PySide6.QtGui import QImage

from designer.spoken_language import LANGUAGES

from .seen_words import KEY, read

ROOT = Path(__file__).parents[2]
PICTURES = ROOT / "resources" / "guide" / "pictures"


def main():
    """Make or check those of the languages that are named, or of all; return the exit code."""
    words = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    words.add_argument("languages", nargs="*", choices=[*LANGUAGES, []], metavar="LANGUAGE")
    words.add_argument("--check", action="store_true", help="write nothing; tell what differs")
    chosen = words.parse_args()
    is_stale = False
    for code in chosen.languages or LANGUAGES:
        with tempfile.TemporaryDirectory() as name:
            made, kept = Path(name), PICTURES / code
            command = [sys.executable, "-m", "tests.guide_pictures.making", code, name]
            subprocess.run(command, cwd=ROOT, check=True)
            if chosen.check:
                told = [_differs(kept, made, each) for each in _names(kept, made)]
                is_stale = is_stale or any(told)
            else:
                _put(made, kept)
    return int(is_stale)


def _names(kept, made):
    return sorted({path.name for folder in (kept, made) for path in folder.glob("*.png")})


def _differs(kept, made, name):
    """Whether a picture tells other words than the one made today; it is said which."""
    old, new = (
        set(read(QImage(str(folder / name)).text(KEY))) if (folder / name).is_file() else set()
        for folder in (kept, made)
    )
    for sign, words in (("-", old - new), ("+", new - old)):
        for _, said in sorted(words):
            sys.stdout.write(f"{kept.name}/{name}: {sign} {said}\n")
    return old != new


def _put(made, kept):
    """Put what was made in place of what there was."""
    kept.mkdir(parents=True, exist_ok=True)
    for path in kept.glob("*.png"):
        path.unlink()
    size = 0
    for path in sorted(made.glob("*.png")):
        content = path.read_bytes()
        (kept / path.name).write_bytes(content)
        size += len(content)
    sys.stdout.write(f"{kept}: {size / 1e6:.2f} MB\n")


if __name__ == "__main__":
    sys.exit(main())
