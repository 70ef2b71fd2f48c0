"""Figures of an ingredient whose label says nothing, by its kind."""

import math

import pytest

from designer.brewday.vessel_doubts import HELD_BY_HOPS
from designer.recipe import kind_defaults
from designer.recipe.document import FERMENTABLE_KINDS, HOP_FORMS, Fermentable, Hop
from designer.recipe.quantity import Quantity


def test_every_kind_of_fermentable_has_figures_and_says_what_they_rest_on():
    assert kind_defaults.FERMENTABLE_DEFAULTS.keys() == set(FERMENTABLE_KINDS)
    for kind, found in kind_defaults.FERMENTABLE_DEFAULTS.items():
        assert 0.0 <= found.extract <= 1.0, kind
        assert 0.0 <= found.fermentability <= 1.0, kind
        assert found.colour >= 0.0, kind
        assert len(found.source) > 8, kind


def test_malt_extract_is_as_strong_as_handbooks_print_it():
    """Source: Palmer, How to Brew: 36 ppg of liquid, 42 to 44 ppg of dry malt extract, against 46
    of sugar (from memory; common practice).
    """
    liquid = kind_defaults.FERMENTABLE_DEFAULTS["liquid extract"]
    dry = kind_defaults.FERMENTABLE_DEFAULTS["dry extract"]
    assert 46.0 * liquid.extract == pytest.approx(36.5, abs=1.0)
    assert 42.0 <= 46.0 * dry.extract <= 44.5


def test_dry_sugar_is_all_extract_and_all_of_it_ferments():
    sugar = kind_defaults.FERMENTABLE_DEFAULTS["sugar"]
    assert (sugar.extract, sugar.fermentability, sugar.colour) == (1.0, 1.0, 0.0)


def test_grain_that_needs_a_mash_gives_next_to_nothing_in_a_steep():
    assert kind_defaults.FERMENTABLE_DEFAULTS["mash grain"].extract == 0.0


@pytest.mark.parametrize("kind", FERMENTABLE_KINDS)
def test_a_figure_left_out_is_that_of_the_kind_and_a_figure_typed_is_taken_even_if_zero(kind):
    silent = Fermentable(kind=kind)
    usual = kind_defaults.FERMENTABLE_DEFAULTS[kind]
    assert kind_defaults.figures(silent) is usual
    assert kind_defaults.extract_fraction(silent) == usual.extract
    assert kind_defaults.real_fermentability(silent) == usual.fermentability
    assert kind_defaults.colour_lovibond(silent) == usual.colour
    for value in (0.0, 0.5):
        typed = Quantity(value, "typed")
        line = Fermentable(kind=kind, extract=typed, fermentability=typed, colour=typed)
        assert kind_defaults.extract_fraction(line) == value
        assert kind_defaults.real_fermentability(line) == value
        assert kind_defaults.colour_lovibond(line) == value


def test_the_alpha_acid_of_a_hop_is_its_own_or_that_of_a_middling_hop():
    assert kind_defaults.alpha_acid(Hop()) == kind_defaults.DEFAULT_ALPHA
    assert kind_defaults.alpha_acid(Hop(alpha=Quantity(0.0, "0 %"))) == 0.0
    assert kind_defaults.alpha_acid(Hop(alpha=Quantity(0.072, "7.2 %"))) == 0.072


def test_hops_hold_back_wort_by_their_form_within_home_records():
    """Whole 4.9 L/kg weighed, pellets 4 to 6 alone and 10 with their trub (home records)."""
    held = {form: HELD_BY_HOPS[form] for form in HOP_FORMS}
    assert held["whole"].published == pytest.approx(4.9, abs=0.1)
    assert 4.0 <= held["pellets"].published <= 10.0
    assert held["pellets"].high / held["pellets"].low == pytest.approx(math.exp(0.9))
    assert held["whole"].high / held["whole"].low == pytest.approx(math.exp(0.5))
