"""Bottles are judged at the fullest of twenty, at 30 °C; what is refused has no sugar anywhere.

Limits by kind of bottle: a judgement, no source; see `designer.wort.carbonation`.
"""

import pytest

from designer.brewday import bottles
from designer.brewday.day import brew
from designer.brewday.outlook import look_ahead
from designer.library.places import set_field
from designer.recipe.document import BOTTLES
from designer.recipe.severity import Severity
from designer.wort.carbonation import BOTTLE_LIMITS, volumes_to_aim_at

UNKNOWN, HEAVY, PLASTIC, SPARKLING, NONE = BOTTLES


def filled(recipe, kind, volumes, **others):
    changes = {"process.bottle": kind, "process.carbonation": f"{volumes} vol", **others}
    for place, text in changes.items():
        recipe = set_field(recipe, place, text)
    return recipe


def bottle_findings(recipe):
    found = look_ahead(recipe, ranges=False).findings
    return [each for each in found if each.code.startswith("bottle-")]


@pytest.mark.parametrize("kind", [UNKNOWN, HEAVY, PLASTIC, SPARKLING])
def test_each_kind_of_bottle_has_its_caution_and_its_end(harbour_porter, kind):
    comfortable, never = (volumes_to_aim_at(bar) for bar in BOTTLE_LIMITS[kind])
    assert bottle_findings(filled(harbour_porter, kind, comfortable - 0.01)) == []
    (care,) = bottle_findings(filled(harbour_porter, kind, comfortable + 0.01))
    (still,) = bottle_findings(filled(harbour_porter, kind, never - 0.01))
    (stop,) = bottle_findings(filled(harbour_porter, kind, never + 0.01))
    assert (care.severity, still.severity) == (Severity.CARE, Severity.CARE)
    assert stop.severity is Severity.STOP
    for finding in (care, stop):
        cured = finding.fix.apply(filled(harbour_porter, kind, never + 0.01))
        assert bottle_findings(cured) == []


def test_bottles_that_nobody_named_are_taken_for_the_weakest(harbour_porter):
    assert harbour_porter.process.bottle == UNKNOWN
    assert brew(harbour_porter).beer.bottled.never_bar == 3.7


@pytest.mark.parametrize("volumes", [0.5, 2.3])
def test_what_is_not_made_for_pressure_is_refused_however_few_the_bubbles(harbour_porter, volumes):
    recipe = filled(harbour_porter, NONE, volumes)
    (stop,) = bottle_findings(recipe)
    assert stop.severity is Severity.STOP
    assert stop.fix is None  # other bottles have to be had
    assert str(stop.about) == "process.bottle"
    assert brew(recipe).beer.priming_g == {}


def test_gas_that_the_beer_holds_already_counts(harbour_porter):
    cold = filled(harbour_porter, UNKNOWN, 0.5, **{"process.warmest_after": "0 °C"})
    none = filled(harbour_porter, UNKNOWN, 0.5, **{"process.warmest_after": "25 °C"})
    assert brew(cold).beer.bottled.most_bar > brew(none).beer.bottled.most_bar
    assert brew(cold).beer.bottled.most_bar == pytest.approx(  # 1.71 volumes left at 0 °C
        brew(filled(harbour_porter, UNKNOWN, 1.706)).beer.bottled.most_bar, abs=0.01
    )


def test_a_refused_beer_has_no_sugar_and_one_within_the_limits_has_each_of_them(harbour_porter):
    assert brew(filled(harbour_porter, UNKNOWN, 2.7)).beer.priming_g == {}
    assert len(brew(filled(harbour_porter, UNKNOWN, 2.5)).beer.priming_g) == 5


def test_a_keg_is_no_bottle(harbour_porter):
    recipe = filled(harbour_porter, NONE, 5.0, **{"process.package": "keg"})
    assert brew(recipe).beer.bottled is None
    assert bottle_findings(recipe) == []
    assert brew(recipe).beer.priming_g


def test_nothing_is_said_of_bottles_before_there_is_beer(empty_day):
    assert bottle_findings(empty_day) == []


@pytest.fixture
def empty_day():
    from designer.recipe.document import Recipe

    return Recipe()


@pytest.mark.parametrize(
    ("comfortable", "volumes"), [(0.0, 0.0), (-1.0, 0.0), (2.0, 2.0), (2.09, 2.0), (2.5, 2.5)]
)
def test_what_bottles_bear_with_ease_is_told_to_the_tenth_below(comfortable, volumes, monkeypatch):
    monkeypatch.setattr(bottles, "volumes_to_aim_at", lambda bar: bar)
    assert bottles.Bottled("any", 1.0, comfortable, 9.0).comfortable_volumes == volumes


def test_beer_that_holds_more_than_is_wanted_keeps_it():
    """At 20 °C it holds 0.86 volumes (Henry's law; ASBC tables)."""
    assert bottles.aimed_volumes(2.4, 20.0) == 2.4
    assert bottles.aimed_volumes(0.5, 20.0) == pytest.approx(0.86, abs=0.03)
    plain = bottles.judged(UNKNOWN, 2.4, 20.0)
    more = bottles.judged(UNKNOWN, 2.4, 20.0, unfinished=0.5)
    assert more.most_bar > plain.most_bar + 0.5
    assert (plain.kind, plain.never_bar) == (UNKNOWN, BOTTLE_LIMITS[UNKNOWN].never_bar)
