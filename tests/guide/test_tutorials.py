"""What the first three chapters have a reader type is read alike in every language.

`python -m tests.guide_pictures` types it into the window of each.
"""

import re

import pytest

from designer import translation
from designer.errors import RefusedInputError
from designer.library.catalogue import find_fermentable
from designer.recipe.quantity import Kind
from designer.spoken_language import catalogue_of, names_in
from designer.units import read, read_when
from designer.workbench.first_words import understood
from tests.guide_pictures.chapters import typed_in

KINDS = (Kind.VOLUME, Kind.MASS, Kind.TEMPERATURE, Kind.GRAVITY, Kind.BITTERNESS, Kind.FRACTION)
KEYS = {"Strg": "Ctrl"}
OF_THEIR_OWN = {"Kailicht-Porter", "Quay Lamp Porter"}
"""A name that the reader gives; any will do."""


def meant(typed, code):
    """What a text is read as, by whatever takes it."""
    if typed in OF_THEIR_OWN:
        return "a name"
    if "+" in typed:
        return [KEYS.get(each, each) for each in typed.split("+")]
    found = {}
    for kind in KINDS:
        for part in (typed, typed.partition("-")[0]):  # from one to another
            try:
                quantity = read(kind, part, decimal_comma=code != "en")
            except RefusedInputError:
                continue
            found[kind, part == typed] = quantity.value, quantity.spread
    if found:
        return found
    entry = find_fermentable(typed)
    if entry is not None:
        return entry.name
    try:
        when = read_when(typed, decimal_comma=code != "en")
    except RefusedInputError:
        words = understood(typed)
        return words.style, words.steps, words.alone, words.unread
    return when.stage, when.minutes, when.days


@pytest.mark.parametrize("chapter", ["10_own_recipe", "11_small_pot", "12_odd_reading"])
@pytest.mark.parametrize("code", ["de", "fr"])
def test_what_a_chapter_has_one_type_means_the_same_in_another_language(chapter, code):
    english = [meant(each, "en") for each in typed_in("en", chapter)]
    assert len(english) >= 5
    translation.use(catalogue_of(f"program_{code}"), code, names_in(code))
    assert [meant(each, code) for each in typed_in(code, chapter)] == english


def test_nothing_of_the_chapters_is_left_unread_in_any_language():
    for code in ("en", "de", "fr"):
        style, plain = typed_in(code, "10_own_recipe")[7:9]
        assert understood(style).style.name == "English Porter"
        assert {re.sub(r"\W", "", understood(each).unread) for each in (style, plain)} == {""}
