"""No text is taken as a quantity that has more in it than its figures and units.

What is accepted is taken apart here in another way than the reader does it: figures as figures are
written, words that are units or join figures, and nothing besides.
"""

import re
from unicodedata import bidirectional, category, decimal

import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

from designer.errors import RefusedInputError
from designer.recipe.quantity import Kind, Quantity
from designer.units import read
from designer.units.control_characters import figures_only, without_control_characters
from designer.units.odd_texts import CURRENCIES
from designer.units.quick_words import FACTORS
from designer.units.scales import SCALE_WORDS

WORDS = {
    **{kind: set(words) for kind, words in SCALE_WORDS.items()},
    Kind.MONEY: {"€", "$", "£", "¥", "kr", "zł", *map(str.lower, CURRENCIES)},
}
FIGURE = r"\d{1,3}([.,'])\d{3}(\1\d{3})*([.,]\d+)?|\d+[.,]\d+|[.,]\d+|\d+"
KINDS = sorted(set(Kind) - {Kind.DOSE})

SHORT = (
    "1 2 12 60 1.5 1,5 1.500 1,500 1'000 .5 1/2 ½ 1½ 1e3 \u0661 \u0662\u0663 kg g lb oz L mL gal h "
    "min m cm in ft F °C °P °L EBC SRM IBU % € EUR W W/K L/kg /min vol tablet and to - – ± +/- , . "
    "' \" = ; x NaN # ( ) + _ \u202e \u200f \u200b \u00ad \x07 ² nan inf"
)
pieces = st.sampled_from(SHORT.split())
heaps = st.lists(st.tuples(pieces, st.sampled_from(["", " "])), min_size=1, max_size=6).map(
    lambda parts: "".join(piece + space for piece, space in parts)
)


def taken(kind, text):
    try:
        return read(kind, text)
    except RefusedInputError:
        return None


def words_of(kind):
    known = {kind: FACTORS.get(kind, {})}[kind]
    spelled = WORDS.get(kind, set()) | set(known)
    return {part for word in spelled for part in re.split(r"[\s.]+", word.lower())} | {"%"}


@given(st.sampled_from(KINDS), heaps)
@example(Kind.VOLUME, "1-2\u06611 1/2")
@example(Kind.MASS, "½1–2")
@example(Kind.VOLUME, "1 L=")
@example(Kind.MONEY, "3 SRM")
@example(Kind.MASS, "1.5 kg1.15kg")
def test_what_is_accepted_is_figures_and_their_units_and_nothing_else(kind, text):
    assume(taken(kind, text) is not None)
    plain = figures_only(text).replace("½", " 1/2").replace("–", "-").lower().strip()
    scripts = {ord(each) - decimal(each) for each in plain if each.isdecimal()}
    assert len(scripts) == 1
    plain = re.sub(r"(?<![\d.,'])(?:\d+(?:\s+|-))?\d+/\d+(?![\d.,'])", " ", plain)
    rest = re.sub(rf"(?<![\d.,'])(?:{FIGURE})(?:e[+-]?\d+)?(?!\d)[.,]?", " ", plain)
    for word in re.split(r"\band\b|\bto\b|\s*\+/-\s*|[\s±,+-]+", rest):
        assert {word, word.rstrip(".'")} & (words_of(kind) | {""}), (word, rest)


@given(heaps)
@example("1 L=")
@example("1½ft NaNpsi")
@example("2 \u202epackets")
def test_a_dose_is_counted_in_words_of_letters(text):
    found = taken(Kind.DOSE, text)
    assume(found is not None)
    assert re.fullmatch(r"[^\W\d_]+(?:[ '-][^\W\d_]+)*", found.unit)


@given(st.sampled_from(list(Kind)), heaps)
def test_a_text_is_kept_without_marks_that_cannot_be_seen(kind, text):
    found = taken(kind, text)
    assume(found is not None)
    assert found.text.isprintable() or "\u00a0" in found.text
    assert not set(found.text) & set("\u202e\u200f\u200b\u00ad\x07")


@given(st.sampled_from(list(Kind)), heaps, st.booleans())
def test_a_kept_text_is_read_as_it_was_when_it_was_typed(kind, text, comma):
    try:
        typed = read(kind, text, decimal_comma=comma)
    except RefusedInputError:
        return
    assert read(kind, text, decimal_comma=comma, kept=True) == typed


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("1.5 kg 1.15 kg", "two different units"),
        ("3 oz 2 lb", "the larger first"),
        ("1-2\u06611 kg", "two scripts"),
        ("1,5.5 kg", "run together"),
        ("250 g,", "one character too many"),
    ],
)
def test_what_is_odd_is_said(text, why):
    with pytest.raises(RefusedInputError, match=why):
        read(Kind.MASS, text)


@pytest.mark.parametrize(
    ("kind", "text", "value"),
    [
        (Kind.MASS, "2 lb 3 oz", 2.1875 * 0.45359237),
        (Kind.TIME, "1 h 30 min", 90.0),
        (Kind.TIME, "1 d 2 h 30 min", 1590.0),
        (Kind.LENGTH, "1 ft 2 in", 0.3556),
        (Kind.VOLUME, "1 gal 2 qt", 1.5 * 3.785411784),
        (Kind.MASS, "2 stone 3 lb", 31 * 0.45359237),
    ],
)
def test_a_sum_is_of_different_units_the_larger_first(kind, text, value):
    assert read(kind, text).value == pytest.approx(value)


def test_joiners_and_tabs_stay_in_names():
    assert without_control_characters("a\u200db\tc\nd") == "a\u200db\tc\nd"
    assert without_control_characters("a\u202eb\u2069c\x00d\x9fe\ufefff") == "abcdef"


def test_the_unit_of_a_dose_is_the_word_without_its_marks():
    assert read(Kind.DOSE, "1\u00ad sa\u200bchet") == Quantity(1.0, "1 sachet", unit="sachet")


def test_control_and_direction_marks_are_taken_out_among_signs_of_every_script():
    turning = ("LRE", "RLE", "LRO", "RLO", "PDF", "LRI", "RLI", "FSI", "PDI")
    signs = map(chr, range(0x110000))
    marks = [each for each in signs if category(each) == "Cc" or bidirectional(each) in turning]
    assert len(marks) == 65 + len(turning)
    for mark in set(marks) - set("\t\n\r"):
        assert without_control_characters(f"75 °{mark}L — ½ Мюних") == "75 °L — ½ Мюних"
