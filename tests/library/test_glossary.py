"""The glossary: terms as they stand on labels, on the sheet and in forecasts, each used."""

import re

import pytest

from designer import translation
from designer.library.glossary import explained, headed, in_words, looked_up, terms, terms_in
from designer.spoken_language import catalogue_of
from tests.sentences import sentences
from tests.sheet.messages import messages

TRADE = (
    "krausen", "flame-out", "first wort", "°L", "points", "attenuation", "utilisation", "finings",
    "alpha acid", "OG", "FG", "IBU", "SRM", "EBC", "°P", "wort", "trub", "pitch", "top-up",
    "hop stand", "whirlpool", "dry hop", "evaporation", "steep", "foam line", "priming sugar",
    "volumes of CO2", "original gravity", "final gravity", "extract yield", "cooling constant",
    "crystal malt", "base malt", "mash", "pellets", "sanitised", "airlock", "hydrometer", "tannin",
    "chloramine", "carbonation", "dextrose", "keg", "carboy", "growlers", "style range",
)  # fmt: skip
"""Words that a beginner has not met: those of handbooks on this kind of brewing."""


def names(text):
    return [each.term for each in terms_in(text)]


def every_sentence():
    own = [text for ids, places in sentences().items() for text in ids
           if any(place != "resources/glossary.csv" for place in places)]  # fmt: skip
    return own + [text for ids in messages() for text in ids]


@pytest.mark.parametrize("word", TRADE)
def test_every_word_of_the_trade_is_in_it(word):
    assert len(terms_in(f"the {word} of it")) == 1, names(word)


def test_no_term_is_in_it_that_the_program_does_not_use():
    unused = {each.term for each in terms()}
    for line in dict.fromkeys("\n".join(every_sentence()).splitlines()):
        unused.difference_update(each.term for each in terms_in(line))
        if not unused:
            break
    assert unused == set()


def test_a_name_stands_for_one_term_and_no_term_stands_twice():
    called = [name.lower() for each in terms() for name in each.called]
    assert sorted(set(called)) == sorted(called)
    assert len(terms()) >= 60


def test_a_meaning_is_one_to_three_sentences_in_whole():
    for each in terms():
        assert each.meaning.endswith("."), each.term
        assert 1 <= len(re.findall(r"[.:](?: |$)", each.meaning)) <= 5, each.term
        assert len(each.meaning) <= 260, each.term


@pytest.mark.parametrize(
    ("label", "found"),
    [
        ("Original gravity (OG)", ["original gravity"]),
        ("ROOM FOR KRAUSEN", ["krausen"]),
        ("Alpha acid", ["alpha acid"]),
        ("Crystal malt 60 °L", ["crystal malt", "°L"]),
        ("go to the log", []),
        ("og", []),
        ("What there is", []),
        ("12.4 °P", ["°P"]),
        ("Top-up mark", ["top up"]),
    ],
)
def test_a_label_is_searched_for_whole_words_the_longest_first(label, found):
    assert names(label) == found


def test_a_term_is_found_by_its_name_by_another_name_and_by_its_meaning():
    assert looked_up("OG")[0].term == "original gravity"
    assert looked_up("whirlpool")[0].term == "stand"
    assert "tannin" in [each.term for each in looked_up("husks")]
    assert looked_up("zeppelin") == ()


def test_it_is_told_in_words_with_the_source_of_its_figures():
    [found] = terms_in("°P")
    assert in_words(found).startswith("°P: Degrees Plato")
    assert in_words(found).endswith("Source: ICUMSA SPS-4 (1998), density of sucrose solutions.")
    [gravity] = terms_in("Original gravity")
    assert headed(gravity) == "Original gravity (OG)"
    assert explained((gravity, found)).count("\n") == 1


class _Other:
    """A language in which wort has another word, and two forms of it."""

    def gettext(self, text):
        return {"wort": "Würze", "worts": "Würzen; Vorderwürze"}.get(text, text)

    def ngettext(self, one, many, number):
        return one if number == 1 else many


def test_labels_of_another_language_are_explained_by_its_words():
    translation.use(_Other())
    try:
        assert names("Würze aus dem Topf") == ["wort"]
        assert names("wort") == []
    finally:
        translation.use(None)
    assert names("wort") == ["wort"]


def test_terms_stand_in_the_alphabet_of_the_language_they_are_called_in():
    translation.use(catalogue_of("program_de"), "de")
    try:
        names = [translation.tr(each.term) for each in terms()]
    finally:
        translation.use(None)
    assert names.index("Überlaufschlauch") == names.index("Überkochen") + 1
    assert names.index("Stil") < names.index("Überkochen") < names.index("Verdampfung")


@pytest.mark.parametrize(
    ("code", "asked", "term"),
    [
        ("de", "Würze", "wort"), ("de", "wuerze", "wort"), ("de", "wort", "wort"),
        ("de", "og", "original gravity"), ("de", "Spindel", "hydrometer"),
        ("fr", "moût", "wort"), ("fr", "mout", "wort"), ("fr", "original gravity",
        "original gravity"), ("fr", "densimètre", "hydrometer"),
    ],
)  # fmt: skip
def test_a_term_is_found_in_the_language_and_in_english(code, asked, term):
    translation.use(catalogue_of(f"program_{code}"), code)
    try:
        assert looked_up(asked)[0].term == term
    finally:
        translation.use(None)
