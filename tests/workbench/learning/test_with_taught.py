"""Taken figures in the empty fields of recipes: of that name alone, and never written into them."""

from dataclasses import replace

import pytest

from designer.brewday.learning.figures import Figure
from designer.brewday.outlook import look_ahead
from designer.library.store import Store
from designer.library.store.kitchen import PotRecord
from designer.recipe.document import PlannedBoil, PlannedFermenter, Pot
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind
from designer.recipe.taught import without_taught
from designer.workbench.brew.brewing import brewing_of
from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.instants import Instant
from designer.workbench.brew.taught_at_start import values_of_taught
from designer.workbench.learning.before_and_after import adopting, before_and_after
from designer.workbench.learning.next_to_measure import next_to_measure
from designer.workbench.learning.taken import TakenFigure, taken_of
from designer.workbench.learning.taught import give_back, keep, take, taught_of
from designer.workbench.learning.with_taught import filled_by, offered_by, with_taught
from tests.taught_kitchen import FIVE_BREWS, brewed, porter

POT, YEAST = "Kitchen pot", "Dry English ale yeast"
EVAPORATION = TakenFigure(Figure.EVAPORATION, POT, "1.04 L/h ± 9 %", brews=("a", "b", "c"))
ATTENUATION = TakenFigure(Figure.ATTENUATION, YEAST, "73 % ± 2 %", brews=("a",))
MARK = TakenFigure(Figure.VOLUME_BIAS, "Small bucket", "102 % ± 1 %")
COOLING = TakenFigure(Figure.COOLING, POT, "0.05 /min ± 10 %")
HYDROMETER = TakenFigure(Figure.HYDROMETER, "", "1.0010 ± 0.0005")
ALL = (EVAPORATION, ATTENUATION, MARK, COOLING, HYDROMETER)


@pytest.fixture
def box(tmp_path):
    with Store.open(tmp_path / "box") as store:
        store.pots.insert(PotRecord(POT, "9 L", evaporation="0.9 L/h"))
        yield store


def test_each_empty_field_takes_what_was_taken_for_its_vessel_or_yeast():
    made = with_taught(porter(), ALL)
    assert made.process.evaporation.value == 1.04
    assert made.process.evaporation.spread == pytest.approx(0.0936)
    assert made.yeast.attenuation.brews == 1
    assert made.fermenter.marks_hold.value == 1.02
    assert made.process.hydrometer_in_water.value == 1.001
    assert without_taught(made) == porter()


def test_other_pots_and_yeasts_and_other_ways_to_cool_take_nothing():
    other = replace(
        porter(), pot=Pot(name="Stock pot"), yeast=replace(porter().yeast, name="Lager")
    )
    assert with_taught(other, (EVAPORATION, ATTENUATION, COOLING)) == other
    coiled = replace(porter(), process=replace(porter().process, cooling="coil"))
    assert with_taught(coiled, (COOLING,)) == coiled


def test_what_is_typed_stays_and_is_only_offered():
    process = replace(porter().process, evaporation=typed(Kind.EVAPORATION, 0.9))
    recipe = replace(porter(), process=process)
    assert with_taught(recipe, (EVAPORATION,)) is recipe
    (offered,) = offered_by(recipe, (EVAPORATION,))
    assert offered.path == ("process", "evaporation")
    adopted = adopting(recipe, [offered]).apply(recipe)
    assert adopted.process.evaporation == offered.quantity.as_typed()
    assert without_taught(adopted) == adopted


def test_each_boil_of_a_plan_takes_the_figure_of_its_own_pot():
    boils = (PlannedBoil(pot=porter().pot), PlannedBoil(pot=Pot(name="Stock pot")))
    fermenters = (PlannedFermenter(porter().fermenter),)
    planned = replace(porter(), boils=boils, fermenters=fermenters)
    made = with_taught(planned, ALL)
    assert [boil.evaporation and boil.evaporation.value for boil in made.boils] == [1.04, None]
    assert made.process.evaporation is None
    assert made.fermenters[0].fermenter.marks_hold.value == 1.02
    assert without_taught(made) == planned


def test_a_text_that_was_damaged_fills_nothing():
    broken = replace_value(EVAPORATION, "\x00 L/h ±")
    assert with_taught(porter(), (broken,)) == porter()


def replace_value(taken, text):
    return replace(taken, value=text)


def began(told):
    values = {"start_min": 540, "taught": told}
    return brewing_of(porter(), (), [Entry("a", Instant(1.8e9), What.BEGAN, values)]).recipe


def test_a_brew_is_filled_by_what_its_beginning_says():
    told = values_of_taught(filled_by(porter(), ALL))
    assert began(told) == with_taught(porter(), ALL)


@pytest.mark.parametrize(
    "told",
    [
        "no list", [5], [{}], [{"at": ["process", "evaporation"]}],
        [{"at": ["process", "start_water"], "value": 3.0}],
        [{"at": ["__class__", "evaporation"], "value": 1.0}],
        [{"at": ["process", "__class__", "evaporation"], "value": 1.0}],
        [{"at": ["boils", 7, "evaporation"], "value": 1.0}],
        [{"at": ["boils", True, "evaporation"], "value": 1.0}],
        [{"at": ["yeast", "evaporation"], "value": 1.0}],
        [{"at": ["process", "evaporation"], "value": -4.0}],
        [{"at": ["process", "evaporation"], "value": float("nan")}],
    ],
)  # fmt: skip
def test_a_log_that_was_damaged_or_tampered_with_fills_nothing(told):
    assert began(told) == porter()


def test_a_figure_typed_otherwise_in_the_kitchen_is_not_the_kitchen_s_any_more(box):
    brewed(box)
    known = taught_of(box).of(Figure.EVAPORATION, POT)
    taken = take(box, known)
    assert taken.before == "0.9 L/h"
    assert taken_of(box) == (taken,)
    assert len(taken.brews) == 5
    (pot,) = box.pots.all()
    box.pots.update(pot, replace(pot, evaporation="1.5 L/h"))
    assert taken_of(box) == ()
    assert give_back(box, Figure.EVAPORATION, POT) is not None
    assert box.pots.all()[0].evaporation == "1.5 L/h", "what was typed since stays"


def test_taking_it_does_not_count_its_brews_twice(box):
    brewed(box)
    before = taught_of(box).of(Figure.EVAPORATION, POT)
    take(box, before)
    after = taught_of(box)
    assert after.of(Figure.EVAPORATION, POT) == before
    assert after.taken_for(Figure.EVAPORATION, POT).value in box.pots.all()[0].evaporation
    back = give_back(box, Figure.EVAPORATION, POT)
    assert (back.before, box.pots.all()[0].evaporation) == ("0.9 L/h", "0.9 L/h")
    assert give_back(box, Figure.EVAPORATION, POT) is None


def test_taken_again_it_still_goes_back_to_what_stood_there_at_first(box):
    brewed(box, FIVE_BREWS[:4])
    take(box, taught_of(box).of(Figure.EVAPORATION, POT))
    brewed(box, FIVE_BREWS[4:])
    again = take(box, taught_of(box).of(Figure.EVAPORATION, POT))
    assert again.before == "0.9 L/h"
    give_back(box, Figure.EVAPORATION, POT)
    assert box.pots.all()[0].evaporation == "0.9 L/h"


def test_one_s_own_figure_is_kept_until_the_brews_say_something_else(box):
    brewed(box, FIVE_BREWS[:4])
    keep(box, taught_of(box).of(Figure.EVAPORATION, POT))
    assert taught_of(box).kept_for(Figure.EVAPORATION, POT) is not None
    brewed(box, [{"start": 6.9, "end": 5.5}])
    assert taught_of(box).kept_for(Figure.EVAPORATION, POT) is None


def test_the_next_forecast_is_narrower_with_what_was_learned(box):
    brewed(box)
    found = before_and_after(porter(), taught_of(box))
    before, after = (each.forecasts["final_gravity"] for each in (found.before, found.after))
    assert after.high - after.low < before.high - before.low
    assert found.typed == ()


def test_what_would_teach_most_is_told_with_its_share():
    said = next_to_measure(look_ahead(porter())).text
    assert said.startswith("Next time read the gravity until it no longer falls: ")
    assert said.endswith(" % of what is open in the final gravity hangs on that.")
