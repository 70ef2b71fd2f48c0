"""How a brew's beer is packaged, its label and its days, read off its log."""

from dataclasses import replace
from datetime import UTC, date, datetime

import pytest

from designer.brewday.packaging.packaged import BottleSize
from designer.library.recipe_file import load
from designer.recipe.choices import Bottle, Package
from designer.resource_files import resource_path
from designer.units import ShownUnits
from designer.workbench.brew.beer import beer_of
from designer.workbench.brew.entries import What
from designer.workbench.brew.instants import Instant
from designer.workbench.brew.packing_chosen import COUNTS, as_chosen
from designer.workbench.brew.packing_of_beer import beer_dates, label_facts, packed_of
from designer.workbench.brew.packing_values import values_of_packing
from designer.workbench.brew.reckoning import reckoned
from tests.workbench.brew.brew_days import STARTS
from tests.workbench.brew.test_beer import Cellar
from tests.workbench.planned_red import two_boils

DAY_S = 86_400.0


@pytest.fixture
def cellar():
    made = Cellar(load(resource_path("examples/harbour_lamp_porter.hobwort")))
    made.warmth(0.0, 19.0)
    for day in (11.0, 14.0, 17.0):
        made.sample(day, 1.013)
    return made


def now_of(cellar, day, fermenter=1):
    known = reckoned(cellar.now, ShownUnits.METRIC, advice=False)
    at = Instant(STARTS + 60.0 * cellar.pitched_min + DAY_S * day)
    beer = beer_of(cellar.now, known, at, fermenter)
    today = datetime.fromtimestamp(at.wall, UTC).astimezone().date()
    return beer, known, packed_of(cellar.now, beer, today), today


def test_what_nobody_chose_follows_the_beer(cellar):
    beer, _, packed, _ = now_of(cellar, 17.0)
    assert packed.packing == beer.packing
    assert packed.packed.sugars
    chosen = replace(beer.packing, volumes=1.9, beer_l=5.0, chosen=frozenset({"volumes"}),
                     done=False, may_fall=None)  # fmt: skip
    held = as_chosen(chosen, beer.packing)
    assert (held.volumes, held.beer_l) == (1.9, beer.packing.beer_l)
    assert (held.done, held.may_fall) == (beer.packing.done, beer.packing.may_fall)
    counted = replace(chosen, bottles=(BottleSize(0.5, 3),), chosen=frozenset({COUNTS}))
    assert as_chosen(counted, beer.packing).bottles == (BottleSize(0.5, 3),)


def test_beer_that_was_packaged_keeps_its_day_its_label_and_its_dates(cellar):
    beer, known, before, today = now_of(cellar, 17.0)
    facts = label_facts("Porter", known, beer, before, today)
    assert (facts.packaged_on, (facts.best_from - today).days) == (today, 14)
    packing = replace(beer.packing, bottles=(BottleSize(0.5, 19, Bottle.HEAVY),), volumes=2.8)
    cellar.on_day(17.0)
    cellar.write(What.PACKAGED, packing=values_of_packing(packing), said="19 bottles")
    beer, known, after, later = now_of(cellar, 30.0)
    assert (after.on, after.packing.volumes) == (today, 2.8)
    facts = label_facts("Porter", known, beer, after, later)
    assert facts.packaged_on == today
    assert facts.strained
    assert facts.abv_percent == beer.fermenting.abv_percent
    days = beer_dates(beer, after)
    assert [(day - today).days for day, _ in days] == [14, 14, 180]
    assert days == after.dates


def test_each_fermenter_is_packaged_for_itself():
    cellar = Cellar(two_boils())
    for state in cellar.now.states:
        if state.step.kind == "pitch" and not state.entry:
            cellar.do(state.step.key)
    for fermenter in (1, 2):
        for day in (11.0, 14.0, 17.0):
            cellar.sample(day, 1.012, fermenter=fermenter)
    beers = [now_of(cellar, 17.0, each)[0] for each in (1, 2)]
    assert [each.packing.fermenter for each in beers] == [1, 2]
    cellar.on_day(17.0)
    keg = replace(beers[1].packing, package=Package.KEG)
    cellar.write(What.PACKAGED, packing=values_of_packing(keg), said="into a keg")
    assert now_of(cellar, 18.0, 1)[2].on is None
    second = now_of(cellar, 18.0, 2)[2]
    assert isinstance(second.on, date)
    assert second.packing.package is Package.KEG
