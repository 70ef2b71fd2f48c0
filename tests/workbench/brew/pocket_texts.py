"""Logs of a phone as its page writes them, made without a phone."""

from __future__ import annotations

import base64
import json
import textwrap
import zlib

from designer.library.recipe_file import document_text
from designer.sheet.pocket.recipe_id import recipe_id

WATER = {"what": "water in the pot", "by": "mark", "kind": "volume", "boil": 1, "fermenter": 1}
OG = {"what": "original gravity", "by": "hydrometer", "kind": "gravity", "boil": 1, "fermenter": 1}
ROWS = [
    [1, 0, "began", {"start_min": 540, "shown": "metric"}],
    [2, 5.5, "done", {"step": "boil 1/fill"}],
    [3, 5.5, "timer", {"timer": "steep 1", "does": "start", "kind": "steep", "minutes": 25,
                       "name": "", "boil": 1, "with": 2}],
    [4, 9, "reading", {"blank": "x", "typed": "6,1 L", "sample": "", "of": WATER,
                       "step": "boil 1/fill"}],
    [5, 12, "corrects", {"entry": 4, "values": {"blank": "x", "typed": "6.2 L", "sample": ""}}],
    [6, 20, "note", {"text": "windy 🌬", "step": ""}],
    [7, 30, "takes back", {"entry": 6}],
]  # fmt: skip


def pasted(recipe, rows, *, packed=True, form=1, **more):
    """Return the text that the page would have written."""
    values = {
        "recipe": recipe_id(recipe), "brewing": "0badc0ffee", "began": 1_795_000_000,
        "shown": "metric", "rows": rows, "document": document_text(recipe), **more,
    }  # fmt: skip
    plain = json.dumps(values).encode()
    packing = zlib.compressobj(9, zlib.DEFLATED, -15)
    body = packing.compress(plain) + packing.flush() if packed else plain
    raw = body + zlib.crc32(plain).to_bytes(4, "big")
    signs = base64.b32encode(raw).decode().rstrip("=")
    lines = "\n".join(textwrap.wrap(f"{'Z' if packed else 'P'}{signs}", 30))
    return f"HOBWORT BREW {form}\n{lines}\n0 END\n"
