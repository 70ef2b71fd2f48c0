"""What can be told to others about a fault, with nothing private in it.

Places in the program and kinds of faults are told; folders of the user are not, nor a fault's own
words, for these may repeat what a recipe holds.
"""

from __future__ import annotations

import sys
from pathlib import Path
from traceback import extract_tb

import designer

LEFT_OUT = "(its words are left out: they may tell of your recipe)"
_TOP = Path(designer.__file__).parents[1]


def fault_words(fault: BaseException) -> str:
    """Return the kind of a fault and the places that led to it, and those of its causes."""
    chain: list[BaseException] = []
    before: BaseException | None = fault
    while before is not None and before not in chain:
        chain.insert(0, before)
        before = before.__cause__ or (None if before.__suppress_context__ else before.__context__)
    return "\n\nwhich led to:\n\n".join(map(_words, chain))


def _words(fault: BaseException) -> str:
    lines = []
    for frame in extract_tb(fault.__traceback__):
        lines.append(f"  {place_words(frame.filename)}:{frame.lineno} in {frame.name}")
        if frame.line:
            lines.append(f"    {frame.line}")
    return "\n".join([*lines, f"{type(fault).__qualname__} {LEFT_OUT}"])


def place_words(file: str) -> str:
    """Return a file of the program, of a library or of Python, without the folders it lies in."""
    path = Path(file)
    for top in (_TOP, Path(sys.prefix), Path(sys.base_prefix)):
        if path.is_relative_to(top):
            within = path.relative_to(top).parts
            packages = "site-packages"
            return "/".join(within[within.index(packages) + 1 :] if packages in within else within)
    return path.name


def home_words(path: Path) -> str:
    """Return a path with the user's own folder as ~."""
    try:
        return str(Path("~") / path.relative_to(Path.home()))
    except (ValueError, RuntimeError):
        return str(path)
