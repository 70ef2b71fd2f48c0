"""How a program is started to be measured: with its modules compiled, as an installed one's are."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def as_installed() -> Iterator[dict[str, str]]:
    """Give the environment for starts; the first start in it compiles, and is not to be counted.

    Whatever the environment here says: compiling every module anew takes longer than the start.
    """
    with tempfile.TemporaryDirectory(prefix="hobwort-compiled-") as compiled:
        environment = {**os.environ, "PYTHONPYCACHEPREFIX": compiled}
        environment.pop("PYTHONDONTWRITEBYTECODE", None)
        yield environment
