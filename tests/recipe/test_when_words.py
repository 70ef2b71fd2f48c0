"""When something goes in, as German and French brewers say it; words from memory of handbooks."""

import pytest

from designer import translation
from designer.recipe.quantity import Stage
from designer.recipe.when_words import said_when
from designer.units import read_when
from designer.units.half_typed import may_become_when


class _German:
    def gettext(self, text):
        return {
            "steep": "Ziehen lassen", "first wort": "Vorderwürze", "boil": "Kochen",
            "flame-out": "Kochende", "stand": "Rast", "fermenter": "Gärbehälter",
            "dry hop": "Stopfen",
            "{stage} {time} at {temperature}": "{stage} {time} bei {temperature}",
        }.get(text, text)  # fmt: skip

    def ngettext(self, one, many, number):
        return {"{count} day": "{count} Tag", "{count} days": "{count} Tage"}[
            one if number == 1 else many
        ]


@pytest.fixture
def german():
    translation.use(_German(), "de")
    yield
    translation.use(None)


@pytest.mark.parametrize(
    ("typed", "kept"),
    [
        ("Kochen 60 min", "boil 60 min"),
        ("60 Minuten kochen", "boil 60 min"),
        ("Rast 20 min bei 80 °C", "stand 20 min at 80 °C"),
        ("Stopfen 4 Tage", "dry hop 4 days"),
        ("Hopfenstopfen 1 Tag", "dry hop 1 days"),
        ("Gaerbehaelter", "fermenter"),
        ("Vorderwürze", "first wort"),
        ("Herd aus", "flame-out"),
        ("ébullition 15 min", "boil 15 min"),
        ("repos 20 min à 80 °C", "stand 20 min at 80 °C"),
        ("houblonnage à cru 4 jours", "dry hop 4 days"),
        ("a cru 4 jours", "dry hop 4 days"),
        ("fermenteur 3 jours", "fermenter 3 days"),
        ("infusion", "steep"),
        ("Feu éteint", "flame-out"),
        ("premier moût", "first wort"),
    ],
)
def test_a_recipe_keeps_english_words_whatever_was_typed(typed, kept):
    found = read_when(typed)
    assert found.text == kept
    assert found == read_when(kept)


@pytest.mark.parametrize(
    "kept",
    ["steep", "first wort", "boil 60 min", "15 min", "flame-out", "stand 20 min at 80 °C",
     "fermenter", "fermenter 3 days", "dry hop 1 day", "dry hop 4 days", "boil 1.5 h"],
)  # fmt: skip
def test_what_is_shown_in_the_language_reads_back_as_the_same(german, kept):
    shown = said_when(kept)
    meant, read = read_when(kept), read_when(shown)
    assert (read.stage, read.minutes, read.days) == (meant.stage, meant.minutes, meant.days)
    assert said_when(read.text) == shown


def test_what_is_shown_is_in_the_language(german):
    assert said_when("dry hop 4 days") == "Stopfen 4 Tage"
    assert said_when("dry hop 4 d") == "Stopfen 4 Tage"
    assert said_when("Stand 20 min at 80 °C") == "Rast 20 min bei 80 °C"
    assert said_when("whirlpool 20 min") == "Rast 20 min"
    assert said_when("15 min") == "15 min"


@pytest.mark.parametrize("typed", ["koch", "sto", "Stopfen", "kochen 6", "rast 20 min be"])
def test_words_on_their_way_are_let_be(german, typed):
    assert may_become_when(typed)


def test_a_word_of_no_language_is_refused_as_before():
    from designer.errors import RefusedInputError

    with pytest.raises(RefusedInputError):
        read_when("krakeln 60 min")
    assert read_when("boil 60 min").stage is Stage.BOIL


def test_a_cause_of_doubt_names_the_moment_in_the_language(german):
    from designer.brewday.tolerances import input_of, input_words

    weight = input_of("weight: {name}", "Challenger, boil 60 min")
    assert input_words(weight).text == "weight: Challenger, Kochen 60 min"
    kit = input_of("colour: {name}", "Hopped kit extract, pale")
    assert input_words(kit).text == "colour: Hopped kit extract, pale"
