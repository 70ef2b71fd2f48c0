"""A published way of working something out, where several are in use.

Each subject that knows more than one keeps a table from the method's name to one of these, so
that a choice, its explanation and its source are written in one place.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from designer.wort.numeric import Numeric


class Method(NamedTuple):
    """The function, one sentence for the brewer who chooses, and where it was published."""

    function: Callable[..., Numeric]
    sentence: str
    source: str
