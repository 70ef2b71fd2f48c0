"""What packaging and pitching need, read off the day."""

from dataclasses import replace

import pytest

from designer.brewday.day import brew, brew_samples, run_day
from designer.brewday.outlook import look_ahead
from designer.brewday.tolerances import Nominal
from designer.brewday.yeast_doubts import LITTLE_YEAST
from designer.recipe.document import PRIMING_SUGARS, Fermentable, Hop, Yeast
from designer.recipe.edits import with_line_ids
from designer.recipe.quantity import Quantity, Stage, When
from designer.wort.carbonation import (
    PRIMING_G_L_PER_VOLUME,
    extract_g_l_per_volume,
    keg_pressure_bar,
    priming_sugar_g,
)
from designer.wort.density import plato_from_gravity
from designer.wort.fermentation import kcal_from_extracts, real_fermentability
from designer.wort.water_treatment import metabisulfite_mg


def with_process(recipe, **typed):
    return replace(recipe, process=replace(recipe.process, **typed))


def test_food_value_is_that_of_the_forecast_gravities(harbour_porter):
    """ASBC food value, from the two gravities."""
    day = brew(harbour_porter)
    original, final = day.beer.original_gravity, day.beer.final_gravity
    extracts = plato_from_gravity(original), plato_from_gravity(final)
    kcal = kcal_from_extracts(*extracts, final)
    assert day.beer.kcal_per_100ml == pytest.approx(kcal, rel=1e-9)


def test_sugar_primes_what_is_left_after_lees_and_dry_hops(harbour_porter, kitchen):
    """4 % of lees (common practice, no source); pellets hold 6 L/kg (home records)."""
    dry = Hop("Dry", "pellets", kitchen.q(0.05), kitchen.q(0.04, "kg"),
              When(Stage.DRY_HOP, "dry", days=3.0))  # fmt: skip
    recipe = with_process(harbour_porter, carbonation=kitchen.q(2.5, "vol"))
    day = brew(with_line_ids(replace(recipe, hops=(*recipe.hops, dry))))
    assert day.beer.packaged_l == pytest.approx(10.0 * 0.96 - 0.24)
    grams = day.beer.priming_g
    of_each = PRIMING_G_L_PER_VOLUME | {"dry malt extract": extract_g_l_per_volume(0.61)}
    assert grams.keys() == of_each.keys() == set(PRIMING_SUGARS)
    for sugar, each in of_each.items():
        wanted = priming_sugar_g(day.beer.packaged_l, 2.5, 19.0, each)
        assert grams[sugar] == pytest.approx(wanted)
    assert grams["dextrose monohydrate"] > 1.1 * grams["table sugar"]
    assert day.beer.keg_bar == pytest.approx(keg_pressure_bar(2.5, 6.0))


def test_gas_that_a_warm_rest_drove_off_is_primed_for(harbour_porter, kitchen):
    """Computed: 10 instead of 18 °C is 0.28 volumes; what counts is the warmest since then."""
    lager = with_process(harbour_porter, pitch_temperature=kitchen.q(10, "°C"))
    rested = with_process(lager, warmest_after=kitchen.q(18, "°C"))
    before, after = (brew(each).beer for each in (lager, rested))
    more_g = after.priming_g["table sugar"] - before.priming_g["table sugar"]
    assert more_g == pytest.approx(0.28 * 3.82 * after.packaged_l, rel=0.02)
    assert after.final_gravity == before.final_gravity
    assert after.yeast_high_g == before.yeast_high_g
    chilled = with_process(lager, warmest_after=kitchen.q(4, "°C"))
    assert brew(chilled).beer.priming_g["table sugar"] < before.priming_g["table sugar"]


def test_priming_extract_ferments_as_far_as_the_yeast_of_the_recipe_takes_it(
    harbour_porter, kitchen
):
    """Dry extract ferments by 61 % real with a yeast of 75 %, in proportion with another."""
    usual = brew(harbour_porter).beer.priming_g
    lazy = replace(harbour_porter.yeast, attenuation=kitchen.q(0.60, "%"))
    grams = brew(replace(harbour_porter, yeast=lazy)).beer.priming_g
    assert grams["dry malt extract"] == pytest.approx(usual["dry malt extract"] * 75 / 60)
    assert grams["table sugar"] == pytest.approx(usual["table sugar"])


@pytest.mark.parametrize(("pitch_c", "times"), [(19, 1.0), (15, 1.0), (14.9, 2.0)])
def test_a_cool_ferment_wants_twice_the_yeast(pitch_c, times, harbour_porter, kitchen):
    """By °P x r / 9 a litre, r = 0.5 at 15 °P and 0.57 at 16; judgement."""
    day = brew(with_process(harbour_porter, pitch_temperature=kitchen.q(pitch_c, "°C")))
    assert day.beer.yeast_wanted_g == pytest.approx(9.2 * times, abs=0.5 * times)
    assert day.beer.yeast_low_g == pytest.approx(0.75 * day.beer.yeast_wanted_g)
    assert day.beer.yeast_high_g == pytest.approx(1.2 * day.beer.yeast_wanted_g)


def of_strength(kitchen, malt_kg, yeast):
    malt = Fermentable("Malt", "dry extract", kitchen.q(malt_kg))
    process = kitchen.quiet_process(start_water=kitchen.q(8), top_up_to=kitchen.q(20))
    return kitchen.recipe(process=process, fermentables=(malt,), yeast=yeast)


def test_strong_wort_wants_clearly_more_yeast_than_weak_wort(kitchen):
    """20 L of 1.091 and of 1.026: 47 g and 7 g by °P x r / 9 a litre; judgement."""
    strong, weak = (brew(of_strength(kitchen, kg, Yeast("A"))).beer for kg in (4.9, 1.4))
    assert strong.original_gravity == pytest.approx(1.091, abs=0.001)
    assert weak.original_gravity == pytest.approx(1.026, abs=0.001)
    assert (strong.yeast_wanted_g, weak.yeast_wanted_g) == pytest.approx((47, 7.3), abs=1.0)
    assert (strong.yeast_packets, weak.yeast_packets) == (5, 1)


class Late(Nominal):
    """The day as typed, but of yeast that was late."""

    def doubt(self, doubt, name=""):
        return doubt.high if doubt is LITTLE_YEAST else doubt.published


@pytest.mark.parametrize(
    ("malt_kg", "grams", "unit", "most"),
    [
        (4.9, 11, "g", 8.0),
        (3.4, 6, "g", 4.0),
        (2.0, 11, "g", 0.0),
        (4.9, 5, "packet", 0.0),
        (4.9, 1, "packets", 8.0),
    ],
)
def test_too_little_yeast_may_leave_some_points(malt_kg, grams, unit, most, kitchen):
    """+0 to +8 points of 11 g in 20 L of 1.090, +0 to +4 under 0.4 of what is wanted; judgement."""
    yeast = Yeast("A", amount=Quantity(float(grams), "", None, unit))
    recipe = of_strength(kitchen, malt_kg, yeast)
    plain, late = (run_day(recipe, each, noting=False)[0].beer for each in (Nominal(), Late()))
    left = 1000 * (late.final_gravity - plain.final_gravity)
    assert left == pytest.approx(most, abs=0.16 * most)
    assert plain.final_gravity == brew(replace(recipe, yeast=Yeast("A"))).beer.final_gravity


def test_yeast_colder_than_it_works_may_leave_some_points(kitchen):
    """+0 to +6 points; judgement."""
    recipe = of_strength(kitchen, 2.5, Yeast("A", lowest=kitchen.q(21, "°C")))  # pitched at 19 °C
    assert "yeast pitched too cold" in brew_samples(recipe, 8)[1]
    warm = replace(recipe, yeast=Yeast("A", lowest=kitchen.q(19, "°C")))
    assert "yeast pitched too cold" not in brew_samples(warm, 8)[1]
    cold, usual = (look_ahead(each).forecasts["final_gravity"] for each in (recipe, warm))
    assert cold.value == usual.value
    assert cold.high > usual.high + 0.0015


def test_all_the_water_of_the_day_is_treated_if_it_is_chlorinated(harbour_porter, kitchen):
    assert brew(harbour_porter).beer.water_treatment_g == 0.0
    day = brew(with_process(harbour_porter, chlorine=kitchen.q(2.0, "mg/L")))
    litres = 6.5 + day.fermenter.top_up_l
    assert day.beer.water_treatment_g == pytest.approx(
        metabisulfite_mg(litres, 2.0) / 1000, rel=1e-3
    )


@pytest.mark.parametrize(
    ("disinfectant", "salt", "mg_a_mg"),
    [
        ("chlorine", "potassium metabisulfite", 1.568),
        ("chlorine", "sodium metabisulfite", 1.341),
        ("chloramine, as Cl2", "potassium metabisulfite", 1.568),
        ("chloramine, as Cl2", "sodium metabisulfite", 1.341),
        ("chloramine, as NH2Cl", "potassium metabisulfite", 2.159),
        ("chloramine, as NH2Cl", "sodium metabisulfite", 1.847),
    ],
)
def test_the_dose_follows_what_the_water_carries_and_the_salt(
    disinfectant, salt, mg_a_mg, harbour_porter, kitchen
):
    """Source: stoichiometry, deLange as quoted in Homebrew Digest 5793, per mg of chlorine, of
    chloramine told as Cl2, and of NH2Cl itself; half as much again is our excess.
    """
    told = with_process(
        harbour_porter,
        chlorine=kitchen.q(2.0, "mg/L"),
        disinfectant=disinfectant,
        metabisulfite=salt,
    )
    beer = brew(told).beer
    assert beer.water_l == pytest.approx(6.5 + brew(told).fermenter.top_up_l, rel=1e-3)
    assert 1000 * beer.water_treatment_g == pytest.approx(
        1.5 * 2.0 * mg_a_mg * beer.water_l, rel=5e-4
    )


def test_sugar_in_the_fermenter_ferments_with_the_rest(harbour_porter, kitchen):
    """Extract weighted by what reaches the fermenter; 0.81 of apparent attenuation (MEBAK)."""
    honey = Fermentable("Honey", "sugar", kitchen.q(0.5, "kg"), When(Stage.FERMENTER, "fermenter"))
    recipe = with_line_ids(
        replace(harbour_porter, fermentables=(*harbour_porter.fermentables, honey))
    )
    day = brew(recipe)
    moved = day.fermenter.from_pot_l / (
        day.fermenter.from_pot_l + day.fermenter.lost_to_trub_l + day.fermenter.lost_to_hops_l
    )
    kilograms = [1.2 * moved, 0.4825 * moved, 0.0975 * moved, 0.5]
    share = real_fermentability(
        kilograms, [0.61, 0.61, 0.38, 1.0], [False, False, False, True], 0.75
    )
    apparent = (day.beer.original_gravity - day.beer.final_gravity) / (
        day.beer.original_gravity - 1.0
    )
    assert apparent == pytest.approx(share / 0.81, rel=1e-9)


def test_a_cup_of_hopped_beer_is_as_bitter_as_its_wort(kitchen):
    kit = Fermentable("Kit", "hopped kit extract", kitchen.q(0.05, "kg"), kitchen.boil(0),
                      label_bitterness=kitchen.q(400))  # fmt: skip
    process = kitchen.quiet_process(start_water=kitchen.q(0.4, "L"), boil_time=kitchen.q(0, "min"))
    day = brew(kitchen.recipe(process=process, fermentables=(kit,)))
    assert day.beer.bitterness_ibu == pytest.approx(400 * 0.05 / day.fermenter.batch_l)
    assert day.fermenter.batch_l < 0.5
