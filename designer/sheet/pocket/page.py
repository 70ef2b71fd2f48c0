"""The pocket page put together: recipe, style and scripts in one file that asks for nothing else.

A content security policy in the page lets only its own style and scripts run, named by their
hashes, and nothing be loaded or sent: W3C, Content Security Policy Level 3.
"""

from __future__ import annotations

import base64
import json
from datetime import date
from functools import cache
from html import escape
from string import Template

from designer.brewday.results import Outlook
from designer.digests import sha256
from designer.library.file_names import file_name
from designer.library.recipe_file import document_text
from designer.recipe.document import Recipe
from designer.resource_files import resource_path
from designer.sheet.blocks import Sheet, Table
from designer.sheet.content import brew_sheet
from designer.sheet.language import Language
from designer.sheet.language import language as spoken_in
from designer.sheet.pocket.blanks import blanks_of, degrees_of
from designer.sheet.pocket.hydrometer import hydrometer_table
from designer.sheet.pocket.recipe_id import recipe_id
from designer.sheet.pocket.steps import label_of, steps_html
from designer.sheet.pocket.words import words_of
from designer.sheet.stove import ENDED_BY, StoveStep, stove_steps
from designer.units import ShownUnits

SCRIPTS = (
    "words", "depot", "log", "timers", "day", "sound", "awake", "steps", "timer_cards", "readings",
    "bring_back", "main",
)  # fmt: skip


def pocket_page(
    recipe: Recipe,
    outlook: Outlook,
    *,
    shown: ShownUnits,
    start: str | None,
    brew_date: date | None,
    language: str = "en",
) -> str:
    """Return the page to brew `recipe` from with a phone; the arguments are those of `brew_sheet`.

    Raises RefusedInputError for a start that is no time of the day, ValueError for an unknown
    language.
    """
    spoken = spoken_in(language)
    steps = stove_steps(
        recipe, outlook, shown=shown, start=start, brew_date=brew_date, language=language
    )
    sheet = brew_sheet(
        recipe, outlook, shown=shown, start=start, brew_date=brew_date, language=language
    )
    script = _script()
    words = words_of(spoken)
    top = sheet.head
    return _template("page.html").substitute(
        {name: escape(text) for name, text in words.items()},
        language=language,
        policy=_policy(script, _text("style.css")),
        title=escape(top.title),
        about=escape(" · ".join(each for each in (top.subtitle, top.vessels) if each)),
        style=_text("style.css"),
        steps=steps_html(steps, shown, spoken, _tables(sheet)),
        foot=escape(sheet.foot),
        recipe=_as_data(_told(recipe, steps, shown, spoken, top.title)),
        script=script,
    )


def _tables(sheet: Sheet) -> tuple[Table, ...]:
    """What the sheet has of tables on the brew day: the hydrometer's, once."""
    brew = [block for each in sheet.sections for block in each.blocks if isinstance(block, Table)]
    return tuple(brew[:1])


def _told(
    recipe: Recipe,
    steps: tuple[StoveStep, ...],
    shown: ShownUnits,
    spoken: Language,
    title: str,
) -> dict[str, object]:
    """What the scripts know of the recipe."""
    return {
        "id": recipe_id(recipe),
        "document": document_text(recipe),
        "title": title,
        "file": file_name(recipe.name),
        "language": spoken.code,
        "comma": spoken.decimal_comma,
        "shown": str(shown),
        "degrees": degrees_of(shown),
        "steps": [
            {
                "key": each.key,
                "label": label_of(each),
                "boil": each.boil,
                "fermenter": each.fermenter,
                "minutes": each.minutes,
                "on_day": each.on_day,
                "left_min": each.left_min,
                "ends": ENDED_BY.get(each.kind, ()),
                "starts": each.starts
                and {
                    "name": each.starts.name,
                    "minutes": each.starts.minutes,
                    "boil": each.starts.boil,
                },
            }
            for each in steps
        ],
        "hydrometer": hydrometer_table(recipe.process, shown),
        "blanks": dict(blanks_of(steps, shown)),
        "words": words_of(spoken),
    }


def _as_data(values: object) -> str:
    """JSON that ends no script element, whatever a brewer typed (HTML standard, 4.12.1.3)."""
    return json.dumps(values, ensure_ascii=False, separators=(",", ":")).replace("<", "\\u003c")


def _policy(script: str, style: str) -> str:
    return (
        f"default-src 'none'; script-src {_hash(script)}; style-src {_hash(style)}; "
        "base-uri 'none'; form-action 'none'"
    )


def _hash(text: str) -> str:
    digest = base64.b64encode(sha256(text.encode("utf-8")).digest()).decode("ascii")
    return f"'sha256-{digest}'"


@cache
def _script() -> str:
    """All scripts as one, which leaves no name behind in the browser."""
    parts = "\n".join(_text(f"{name}.js") for name in SCRIPTS)
    return f'\n(() => {{\n"use strict";\n{parts}}})();\n'


@cache
def _template(name: str) -> Template:
    return Template(_text(name))


@cache
def _text(name: str) -> str:
    return resource_path(f"pocket/{name}").read_text(encoding="utf-8")
