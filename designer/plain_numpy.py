"""Numpy without what it loads beside its arrays, and with one thread.

Texts for whoever asks numpy's compiled functions what they do, types for whoever checks them, and
the modules that pickle arrays or hand them to C, are a third of all that its import does, and hold
2 MB. Hobwort asks for none of it: it is loaded once something of it is asked for. The library that
multiplies matrices would keep memory for a thread of each core, and have them wait for each other
without rest; the largest matrices of Hobwort, those of readings, are multiplied as soon by one.
"""

from __future__ import annotations

import os
import sys
from importlib.machinery import ModuleSpec
from typing import Any

from designer.once_asked import put_off, waiting_spec

WAITING: dict[str, dict[str, object]] = {
    "numpy._core._add_newdocs": {},
    "numpy._core._add_newdocs_scalars": {},
    "numpy._typing": {"NDArray": list},
}
"""As numpy 2 calls them, with what is looked at; of another everything is loaded, as ever."""
NOT_ASKED = ("ctypes", "pickle", "platform")


class _Expecting:
    """Sees numpy come, and has some of its modules wait."""

    def find_spec(self, name: str, path: Any = None, _target: Any = None) -> ModuleSpec | None:
        if name == "numpy":
            os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
            for each in NOT_ASKED:
                put_off(each)
        return waiting_spec(name, path, WAITING[name]) if name in WAITING else None


_expecting = _Expecting()


def expect_numpy() -> None:
    """Have numpy loaded plainly by whoever imports it first."""
    if "numpy" not in sys.modules and _expecting not in sys.meta_path:
        sys.meta_path.insert(0, _expecting)
