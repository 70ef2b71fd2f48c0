"""The table of rarer units, which the window asks of another process of the program."""

from __future__ import annotations

from argparse import Namespace

from designer.command_line.output import FINE, print_lines
from designer.units.pint_units import table_text


def carry_out(_: Namespace) -> int:
    """Print the table."""
    print_lines(table_text())
    return FINE
