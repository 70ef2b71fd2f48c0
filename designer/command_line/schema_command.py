"""`hobwort schema`: the JSON Schema of recipe files."""

from __future__ import annotations

from argparse import Namespace

from designer.command_line.output import FINE, print_json
from designer.library.schema import schema


def carry_out(_: Namespace) -> int:
    """Print the schema."""
    print_json(schema())
    return FINE
