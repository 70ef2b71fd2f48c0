"""`hobwort open`: the window."""

from __future__ import annotations

import gc
from argparse import Namespace
from pathlib import Path

from designer.window.plain_imports import import_qt


def carry_out(chosen: Namespace) -> int:
    """Open the window, with a recipe file if one is given."""
    # Nothing made while the window opens is garbage, and looking for it took 10 of 280 ms; the
    # collector is at work again after that.
    gc.disable()
    import_qt()
    from designer.window.start import run  # after Qt, which is imported in a way of its own

    return run(Path(chosen.file) if chosen.file else None)
