"""A first recipe weighed out: how long it boils, how warm it is pitched, what the pot holds.

Times, temperatures and shares are judgement or common practice, no source, unless said.
"""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.first.fermenting import pitching_c
from designer.brewday.first.grist import best_grist
from designer.brewday.first.kitchen import batch_for, boil_minutes, most_beer_l, whole_batch
from designer.brewday.first.larder import Role
from designer.brewday.first.weighing import weighed
from designer.library.catalogue import find_yeast, new_yeast
from designer.recipe.quantity import Stage
from tests.brewday.first.larders import ENGLISH, FAR, LARDER, aim, kitchen, malt, task


@pytest.mark.parametrize("srm", [7.0, 9.5, 18.0, 22.0])
def test_grist_makes_the_colour_by_hand_too(srm):
    """Morey: 1.4922 x MCU^0.6859, MCU 8.345 x kg/L x °L; extract 386 points x L/kg."""
    found = best_grist(LARDER, aim(srm=srm))
    points = sum(share * part.line.extract.value for part, share in found.shares) * 386.0
    colour = sum(share * part.line.colour.value for part, share in found.shares) * 8.345
    kg_l = 45.0 / points
    assert 1.4922 * (colour * kg_l) ** 0.6859 == pytest.approx(srm, rel=0.08)
    assert sum(share for _, share in found.shares) == pytest.approx(1.0)
    assert 0.05 <= found.share_of(Role.CRYSTAL) <= 0.15
    assert (found.share_of(Role.ROAST) > 0.0) is (srm > 15.0)
    assert found.share_of(Role.ROAST) <= 0.10


def test_no_more_roast_goes_in_than_is_usual_and_the_beer_stays_paler_then():
    found = best_grist(LARDER, aim(srm=35.0))
    assert 0.09 < found.share_of(Role.ROAST) <= 0.10
    assert 20.0 < found.colour_srm < 30.0


def test_a_drier_beer_is_given_sugar_and_a_yeast_that_goes_further():
    """0.81: MEBAK; 61 % of the extract ferments with a yeast of 75 %."""
    dry, full = best_grist(LARDER, aim(fg=1.006)), best_grist(LARDER, aim(fg=1.014))
    assert (dry.yeast.name, full.yeast.name) == (FAR.name, ENGLISH.name)
    assert dry.share_of(Role.SUGAR) >= 0.05 > full.share_of(Role.SUGAR) == 0.0
    assert dry.final_gravity < full.final_gravity - 0.002


def test_ranges_hold_before_what_is_near():
    bands = {"original_gravity": (1.050, 1.060), "abv_percent": (5.0, 6.0)}
    found = best_grist(LARDER, replace(aim(), original_gravity=None, bands=bands))
    assert 1.050 <= found.original_gravity <= 1.060
    assert 5.0 <= found.abv_percent <= 6.0


@pytest.mark.parametrize(
    ("water_l", "minutes"), [(0.5, 30.0), (3.4, 30.0), (4.0, 45.0), (5.2, 60.0), (30.0, 60.0)]
)
def test_little_water_boils_for_less_than_an_hour(water_l, minutes):
    """1.8 L/h: no more than about a third of the water is to go off as steam."""
    assert boil_minutes(kitchen(), water_l) == minutes


def test_a_batch_is_what_the_fermenter_takes_in_round_litres_and_the_pot_has_wort_for():
    assert most_beer_l(kitchen()) == pytest.approx(10.2)
    assert whole_batch(10.2) == 10.0
    assert whole_batch(3.27) == pytest.approx(3.2)
    assert batch_for(kitchen(), 1.045, None) == 10.0
    assert batch_for(kitchen(), 1.045, 7.3) == 7.3
    strong = batch_for(kitchen(5.0, 12.0), 1.100, None)
    assert strong < 6.0
    assert batch_for(kitchen(5.0, 12.0), 1.100, 12.0) == strong


@pytest.mark.parametrize(
    ("name", "form", "tap", "pitch"),
    [
        ("Dry English ale yeast", "dry", 12.0, 18.0),
        ("German or Czech lager", "dry", 12.0, 14.0),
        ("German or Czech lager", "dry", 5.0, 11.0),
        ("German or Czech lager", "dry", 20.0, 15.0),
        ("Saison ale (often diastatic)", "dry", 12.0, 24.0),
    ],
)
def test_it_is_pitched_where_the_yeast_likes_it_and_the_tap_can_cool_it(name, form, tap, pitch):
    assert pitching_c(new_yeast(find_yeast(name, form)), tap) == pitch


@pytest.mark.parametrize("where", [kitchen(), kitchen(5.0, 6.0), kitchen(30.0, 30.0)])
@pytest.mark.parametrize("og", [1.038, 1.055, 1.090])
def test_gravity_and_bitterness_hold_and_nothing_boils_over(where, og):
    found = weighed(task(aim(og=og, fg=1.0 + 0.25 * (og - 1.0)), where))
    beer, pot = found.day.beer, where.pot.volume.value
    assert beer.original_gravity == pytest.approx(og, abs=0.0015)
    assert beer.bitterness_ibu == pytest.approx(30.0, abs=1.5)
    assert found.day.pot.fullest_boiling_l <= 0.8 * pot + 0.01
    assert found.day.fermenter.batch_l <= 0.85 * where.fermenter.volume.value + 0.01
    assert float(found.day.pot.boil_gravity_end) < 1.160
    assert found.day == brew(found.recipe)


def test_hops_boil_in_wort_and_the_rest_of_the_extract_goes_in_late():
    recipe = weighed(task()).recipe
    early, late = [line for line in recipe.fermentables if "extract" in line.kind]
    assert early.when.minutes == recipe.process.boil_time.value == 60.0
    assert late.when.minutes == 10.0
    day = brew(recipe)
    assert 1.030 < day.pot.boil_gravity_start < 1.055


def test_every_line_is_known_by_what_it_is_for():
    found = weighed(task(aim(srm=25.0, dry_hopped=True)))
    lines = (*found.recipe.fermentables, *found.recipe.hops)
    by_name = {each.name: found.roles[each.line_id] for each in lines[:-1]}
    assert by_name["Light dry malt extract"] is Role.BASE
    assert by_name["Crystal malt 60 °L"] is Role.CRYSTAL
    assert by_name["Chocolate malt"] is Role.ROAST
    assert by_name["Challenger"] is Role.BITTERING
    assert by_name["East Kent Golding"] is Role.LATE
    assert found.roles[lines[-1].line_id] is Role.DRY
    assert lines[-1].when.stage is Stage.DRY_HOP


def test_whole_packs_stay_whole_and_the_batch_follows():
    packs = ((malt("Light dry malt extract"), 1.0),)
    found = weighed(task(packs=packs))
    extract = [line for line in found.recipe.fermentables if "extract" in line.kind]
    assert sum(line.amount.value for line in extract) == pytest.approx(1.0)
    assert found.day.beer.original_gravity == pytest.approx(1.045, abs=0.0015)
    assert found.batch_l < 10.0


def test_yeast_comes_in_whole_packets_and_cool_or_strong_beer_takes_longer():
    strong = weighed(task(aim(og=1.090, fg=1.022))).recipe
    assert strong.yeast.amount.value in (11.0, 22.0, 33.0)
    assert strong.process.ferment_time.text == "21 d"
    assert weighed(task()).recipe.process.ferment_time.text == "14 d"
