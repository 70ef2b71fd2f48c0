"""Searches that are kept: typed in one language, understood and shown in every other."""

import json

import pytest

from designer import translation
from designer.library.store import Summary
from designer.library.store.collections_kept import collections_of, keep_collection
from designer.library.store.search_said import kept_search, shown_search
from designer.spoken_language import catalogue_if_any, names_in


@pytest.fixture
def speak():
    def speaking(code):
        catalogue = catalogue_if_any(f"program_{code}") if code != "en" else None
        translation.use(catalogue, code, names_in(code) if code != "en" else None)

    yield speaking
    translation.use(None)


@pytest.mark.parametrize(
    ("german", "kept", "french"),
    [
        ("mit haferflocken ibu 30..40", 'with "Flaked oats" ibu 30..40', None),
        ("ohne weizen", None, None),
        ('Stichwort "ohne Mit" abv<5', 'tagged "ohne Mit" abv<5', 'mot-clé "ohne Mit" abv<5'),
        ("passt 9 L mit cascade", "fits 9 L with cascade", "tient 9 L avec cascade"),
        ("stichwort mit", "tagged mit", "mot-clé mit"),
        ('"mit" porter', '"mit" porter', '"mit" porter'),
        ("stil porter og 1,040..", "style Porter og 1,040..", None),
    ],
)
def test_a_search_typed_in_german_is_kept_in_english_and_shown_in_each_language(
    speak, german, kept, french
):
    speak("de")
    found = kept_search(german)
    assert kept in (None, found)
    assert kept_search(shown_search(found)) == found
    speak("fr")
    assert french in (None, shown_search(found))
    assert kept_search(shown_search(found)) == found
    speak("en")
    assert shown_search(found) == found


def test_a_tag_is_asked_for_by_both_french_words(speak):
    speak("fr")
    assert {kept_search(f"{word} hiver") for word in ("mot-clé", "étiquette")} == {"tagged hiver"}


def test_a_collection_kept_in_german_finds_the_same_in_french_and_english(box, speak):
    for name, thing in (("Stout", "Flaked oats"), ("Bitter", "Light dry malt extract")):
        document = {"hobwort": 1, "name": name, "fermentables": [{"name": thing}]}
        box.recipes.add(json.dumps(document), Summary(ibu=35.0))
    speak("de")
    typed, expected = "mit haferflocken ibu 30..40", ["Stout"]
    assert [row.name for row in box.finder.find(typed, hurry_s=None).rows] == expected
    keep_collection(box, "Hafer", typed)
    for code in ("de", "fr", "en"):
        speak(code)
        (found,) = collections_of(box)
        for search in (found.search, found.shown):
            rows = box.finder.find(search, hurry_s=None).rows
            assert [row.name for row in rows] == expected, (code, search)
