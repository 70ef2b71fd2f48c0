"""Labels for bottles: their words in three languages, sizes, and what a brewer typed."""

from datetime import date

import pytest

from designer.sheet.label_drawing import lamp
from designer.sheet.labels import (
    MOST_LABELS,
    LabelFacts,
    as_typed,
    bottle_size,
    label_words,
    labels_for,
    labels_text,
)
from designer.sheet.language import language
from designer.units import ShownUnits

FACTS = LabelFacts("Harbour Lamp Porter", 4.44, 28.6, date(2026, 4, 11), date(2026, 4, 25))


@pytest.mark.parametrize(
    ("code", "lines"),
    [
        ("en", ("4.4 % vol · 29 IBU · 500 mL", "bottled 11 April 2026", "best from 25 April 2026")),
        ("de", ("4,4 % vol · 29 IBU · 500 mL", "abgefüllt 11. April 2026",
                "am besten ab 25. April 2026")),
        ("fr", ("4,4 % vol · 29 IBU · 500 mL", "mise en bouteille\u202f: 11 avril 2026",
                "à boire à partir du 25 avril 2026")),
    ],
)  # fmt: skip
def test_a_label_tells_what_is_in_the_bottle(code, lines):
    spoken = language(code)
    (label,) = labels_for(label_words(FACTS, spoken), [(0.5, 1)], ShownUnits.METRIC, spoken)
    assert label.words.name == "Harbour Lamp Porter"
    assert label.lines == lines


def test_what_is_typed_stands_in_place_of_ours_and_nothing_leaves_a_line_out():
    english = language("en")
    words = label_words(FACTS, english)
    typed = as_typed(words, {"allergens": "contains barley\nand wheat", "best": "", "other": "x"})
    (label,) = labels_for(typed, [(0.75, 1)], ShownUnits.METRIC, english)
    assert label.lines[1:] == ("bottled 11 April 2026", "contains barley and wheat")
    (bare,) = labels_for(
        label_words(LabelFacts("Ale"), english), [(0.5, 1)], ShownUnits.METRIC, english
    )
    assert bare.lines == ("500 mL",)


def test_what_is_too_long_for_a_label_is_cut():
    english = language("en")
    words = as_typed(
        label_words(LabelFacts("n" * 101), english),
        {"allergens": "a" * 160, "best": f"{'b' * 58} {'c' * 2}"},
    )
    (label,) = labels_for(words, [(0.5, 1)], ShownUnits.METRIC, english)
    assert label.words.name == f"{'n' * 99}…"
    assert {"a" * 160, f"{'b' * 58}…"} <= set(label.lines)


def test_strained_bottles_say_so_on_their_labels():
    strained = LabelFacts("Ale", strained=True)
    assert "Under pressure" in label_words(strained, language("en")).care


@pytest.mark.parametrize(
    ("litres", "units", "text"),
    [
        (0.33, "metric", "330 mL"),
        (1.5, "metric", "1,5 L"),
        (0.354882, "us", "12 fl oz"),
        (0.65, "us", "22 fl oz"),
        (0.354882, "both", "355 mL (12 fl oz)"),
    ],
)
def test_the_size_is_that_of_the_bottle(litres, units, text):
    assert bottle_size(litres, ShownUnits(units), language("de")) == text


def test_each_bottle_has_a_label_and_there_is_an_end():
    english = language("en")
    words = label_words(FACTS, english)
    labels = labels_for(words, [(0.5, 12), (0.75, 4), (0.33, 0)], ShownUnits.METRIC, english)
    assert [each.size for each in labels] == ["500 mL"] * 12 + ["750 mL"] * 4
    text = labels_text(labels)
    printed = ["  bottled 11 April 2026", "  best from 25 April 2026"]
    assert text.splitlines() == [
        "12 ×", "  Harbour Lamp Porter", "  4.4 % vol · 29 IBU · 500 mL", *printed, "",
        "4 ×", "  Harbour Lamp Porter", "  4.4 % vol · 29 IBU · 750 mL", *printed,
    ]  # fmt: skip
    many = labels_for(words, [(0.5, 100_000)], ShownUnits.METRIC, english)
    assert len(many) == MOST_LABELS


def test_the_lamp_is_the_same_on_both_sides_and_within_its_drawing():
    drawn = lamp("#000000", "#ffcc00")

    def mirrored(points):
        return frozenset((round(drawn.width - x, 6), round(y, 6)) for x, y in points)

    def as_it_is(points):
        return frozenset((round(x, 6), round(y, 6)) for x, y in points)

    shapes = {as_it_is(each.points) for each in drawn.shapes}
    assert {mirrored(each.points) for each in drawn.shapes} == shapes
    for x, y in (point for each in drawn.shapes for point in each.points):
        assert 0.0 <= x <= drawn.width
        assert 0.0 <= y <= drawn.height
