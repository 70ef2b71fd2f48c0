"""A robot brewer: drives the program as a process of its own and knows what must be there."""

from __future__ import annotations

import sys
from pathlib import Path

TOP = Path(__file__).parents[3]
if str(TOP) not in sys.path:
    sys.path.insert(0, str(TOP))
