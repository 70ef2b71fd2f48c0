"""`hobwort schema`: the JSON Schema of recipe files, or of what a command prints as JSON."""

from __future__ import annotations

import json
from argparse import Namespace

from designer.command_line.output import FINE, print_lines
from designer.library.schema import schema
from designer.resource_files import resource_path


def carry_out(chosen: Namespace) -> int:
    """Print a schema."""
    if chosen.name == "recipe":
        print_lines(json.dumps(schema(), ensure_ascii=False, indent=2))
    else:
        print_lines(resource_path(f"schemas/{chosen.name}.json").read_text("utf-8").rstrip("\n"))
    return FINE
