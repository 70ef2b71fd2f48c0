"""A field of fermentables that does not exist, declared by one line before anything else reads it.

Loaded as a plugin of pytest, in a process of its own: see `test_one_entry.py`.
"""

import importlib.util
import sys

DECLARATION = (
    '    moisture: Quantity | None = _share("Moisture", high=0.2, '
    'table=InTable("Water in it", on_sheet="{value} % water"))\n'
)
BEFORE = "    locked: bool ="


def _load():
    found = importlib.util.find_spec("designer.recipe.document")
    source = found.loader.get_source(found.name)
    assert BEFORE in source
    module = importlib.util.module_from_spec(found)
    sys.modules[found.name] = module
    declared = source.replace(BEFORE, DECLARATION + BEFORE, 1)  # the first are the fermentables
    exec(compile(declared, found.origin, "exec"), module.__dict__)
    sys.modules["designer.recipe"].document = module


_load()
