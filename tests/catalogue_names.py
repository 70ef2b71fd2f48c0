"""Names that have a word in other languages: ingredients, styles, words about them, vessels.

Those of hop varieties are the same everywhere.
"""

import csv
import json

from designer.resource_files import resource_path

_COLUMNS = {
    "fermentables.csv": ("name",),
    "yeasts.csv": ("name", "flocculation"),
    "kettle_aids.csv": ("name", "purpose", "when", "dose_unit"),
    "styles.csv": ("name",),
    "style_families.csv": ("family",),
    "hops.csv": ("use", "aroma"),
}
_HEAD = """\
# Names of ingredients and styles, and words about them. Hop varieties keep their names.
msgid ""
msgstr ""
"Content-Type: text/plain; charset=UTF-8\\n"
"Content-Transfer-Encoding: 8bit\\n"
"""


def names():
    """Return each name and where it stands, in its order there."""
    found = {}
    for file, columns in _COLUMNS.items():
        with resource_path(file).open(encoding="utf-8", newline="") as lines:
            for row in csv.DictReader(lines):
                for column in columns:
                    words = row[column].split(", ") if column == "aroma" else [row[column]]
                    words = [each for each in words if len(each) > 2]  # no g and mL
                    found |= {each: found.get(each, f"resources/{file}") for each in words}
    for path in sorted(resource_path("examples").glob("*.hobwort")):
        recipe = json.loads(path.read_text(encoding="utf-8"))
        hops = {each["name"] for each in recipe["hops"]}
        for name in _named(recipe):
            if name not in hops:
                found.setdefault(name, f"resources/examples/{path.name}")
    return found


def _named(recipe):
    for part in ("pot", "fermenter", "yeast"):
        yield recipe[part]["name"]
    for lines in ("fermentables", "extras"):
        yield from (each["name"] for each in recipe.get(lines, ()))


def template() -> str:
    """Return the `.pot` file of the names."""
    entries = [f'#: {place}\nmsgid "{name}"\nmsgstr ""' for name, place in names().items()]
    return _HEAD + "\n" + "\n\n".join(entries) + "\n"
