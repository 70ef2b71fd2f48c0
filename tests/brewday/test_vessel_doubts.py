"""How doubtful marks, jugs and what stays in the pot are, and how far yeast ferments."""

import math
from dataclasses import replace

import pytest

from designer.brewday import vessel_doubts, yeast_doubts
from designer.brewday.day import brew, brew_samples
from designer.brewday.doubts import Doubt
from designer.recipe.document import Fermenter, Process, Yeast
from designer.recipe.fields import facts_of
from designer.recipe.quantity import Quantity


@pytest.mark.parametrize("litres", [5.0, 10.0, 23.0])
def test_a_mark_is_off_by_a_share_of_it_and_the_eye_by_as_much_at_any_height(litres):
    """Source: R 0.04 (home tests: 5 to 10 % off, a sticker 2 L in 25), ± 0.15 L by eye (geometry:
    0.045 to 0.08 L a millimetre at 24 to 32 cm); independent parts add as squares.
    """
    doubt = vessel_doubts.fermenter_mark(litres)
    share = math.sqrt(0.04**2 + (0.15 / litres) ** 2)
    assert (doubt.published, doubt.middle) == (litres, litres)
    ends = (litres * math.exp(-share), litres * math.exp(share))
    assert (doubt.low, doubt.high) == pytest.approx(ends)


@pytest.mark.parametrize(
    ("marks", "of_it", "anyway"),
    [("moulded or printed", 0.04, 0.15), ("stuck on", 0.08, 0.15),
     ("own, set by weighing", 0.01, 0.10)],
)  # fmt: skip
def test_marks_are_as_good_as_they_were_made(marks, of_it, anyway, harbour_porter):
    """Source: home tests, a sticker 2 L wrong in 25; own marks: judgement."""
    own = replace(harbour_porter, fermenter=replace(harbour_porter.fermenter, marks=marks))
    _, tolerances = brew_samples(own, 8)
    half = math.sinh(math.hypot(of_it, anyway / 10.0)) * 10.0
    assert tolerances["fermenter mark"].half_width == pytest.approx(half)


@pytest.mark.parametrize(
    ("field", "words", "key", "before", "after"),
    [
        ("syrup_tin", "rinsed with hot wort", "syrup left in the tin", 0.023, 0.005),
        ("grain_bag", "rinsed with some of the water", "extract held in the bag", 1.0, 0.3),
        ("into_fermenter", "strained, the rest squeezed", "wort left in the pot", 0.8, 0.3),
    ],
)
def test_rinsing_and_straining_leave_less_behind(field, words, key, before, after, harbour_porter):
    """0 to 0.5 % of a rinsed tin, 0 to 0.3 of a rinsed bag's part, 0.1 to 0.4 L: judgement."""
    process = replace(harbour_porter.process, left_in_pot=None)
    recipe = replace(harbour_porter, process=process)
    careful = replace(recipe, process=replace(process, **{field: words}))
    widths = [2.0 * brew_samples(each, 8)[1][key].half_width for each in (recipe, careful)]
    assert widths == pytest.approx([before, after])
    plain = brew(recipe).beer.original_gravity
    assert brew(careful).beer.original_gravity == plain


def test_a_mark_of_nothing_is_no_doubt():
    doubt = vessel_doubts.fermenter_mark(0.0)
    assert doubt.low == doubt.high == 0.0


def test_what_stays_in_the_pot_is_a_factor_off_where_nobody_measured_it():
    """0.2 to 1 L of a pot under 12 L, a guess off by e to the 0.6; judgement."""
    doubt, facts = vessel_doubts.LEFT_IN_POT, facts_of(Process, "left_in_pot")
    assert (doubt.low, doubt.middle, doubt.high) == (0.2, 0.4, 1.0)
    assert doubt.published == facts.default == 0.3
    assert (facts.spread, facts.relative) == (0.6, True)


def test_a_jug_is_off_by_four_per_cent_at_every_fill():
    """Source: ± 5 % of every mark, ANSI Z61.1 (quoted by a products page)."""
    facts = facts_of(Process, "start_water")
    assert (facts.spread, facts.relative) == (0.04, True)


def test_yeast_goes_as_far_as_its_strain_and_any_yeast_as_any_does():
    """Source: 44 batches of three strains ("Observations on attenuations", web article, 2017);
    classes from 65 to 80 %, Palmer, How to Brew, 1st ed., online, ch. 6.
    """
    doubt, facts = yeast_doubts.UNKNOWN_YEAST, facts_of(Yeast, "attenuation")
    assert (doubt.low, doubt.middle, doubt.high) == (0.67, 0.75, 0.82)
    assert doubt.published == facts.default
    assert (facts.spread, facts.relative) == (0.04, False)


@pytest.mark.parametrize("module", [vessel_doubts, yeast_doubts])
def test_every_doubt_of_vessels_and_yeast_names_its_source(module):
    doubts = [each for each in vars(module).values() if isinstance(each, Doubt)]
    assert all(len(each.source) > 20 for each in doubts)


def bucket(spread=None, holds=1.0, marks="moulded or printed"):
    return Fermenter(marks=marks, marks_hold=Quantity(holds, f"{holds}", spread))


def test_a_bucket_whose_marks_were_weighed_holds_so_many_times_what_they_say():
    assert vessel_doubts.true_litres(bucket(holds=1.05), 10.0) == pytest.approx(10.5)
    assert vessel_doubts.marked_litres(bucket(holds=1.05), 10.5) == pytest.approx(10.0)
    assert vessel_doubts.true_litres(Fermenter(), 10.0) == 10.0


@pytest.mark.parametrize(
    ("fermenter", "of_it"),
    [
        (Fermenter(), 0.04),
        (bucket(), 0.04),
        (bucket(spread=0.02), 0.02),
        (bucket(spread=0.03, holds=1.5), 0.02),
        (bucket(spread=0.02, holds=0.0), 0.04),
    ],
)
def test_what_is_known_of_the_marks_is_how_far_off_they_still_are(fermenter, of_it):
    assert vessel_doubts.share_off(fermenter) == (pytest.approx(of_it), 0.15)
    off = vessel_doubts.off_at_mark(fermenter, 5.0)
    assert off == pytest.approx(math.sqrt(of_it**2 + 0.03**2))
    assert vessel_doubts.off_at_mark(fermenter, 0.0) == 1.0
    assert vessel_doubts.off_at_mark(fermenter, 0.1) == 1.0


def test_a_mark_of_next_to_nothing_is_off_by_all_of_it():
    assert vessel_doubts.fermenter_mark(0.1).high == pytest.approx(0.1 * math.e)


def test_strained_wort_leaves_less_in_the_pot():
    strained = vessel_doubts.left_in_pot("strained, the rest squeezed")
    assert (strained.low, strained.middle, strained.high) == (0.1, 0.2, 0.4)
    assert vessel_doubts.left_in_pot("poured") is vessel_doubts.LEFT_IN_POT
