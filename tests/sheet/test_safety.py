"""What can hurt is said at the step where it does, as heavy and as hot as it is.

Limits: `designer.brewday.hot_wort`, `designer.sheet.lifting` (common practice, no source).
"""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from designer.brewday.outlook import look_ahead
from designer.recipe.quantity import Quantity, Stage, When
from designer.recipe.severity import Severity
from designer.sheet.blocks import Label, Shape, Strong, plain_words
from designer.sheet.drawings import vessels
from designer.sheet.figures import Figures
from designer.sheet.html import sheet_html
from designer.sheet.plain import sheet_text
from designer.sheet.plan import Plan
from designer.spoken_language import LANGUAGES
from designer.units import ShownUnits


def typed(**figures):
    return {
        name: Quantity(value, str(value)) if isinstance(value, float) else value
        for name, value in figures.items()
    }


def step_saying(sheet, words):
    return next(step for step in sheet.steps if re.search(words, plain_words(step.do)))


def cautions(step, kind="care"):
    return " ".join(aside.text for aside in step.asides if aside.kind == kind)


@pytest.fixture
def into_glass(kitchen_of):
    """The porter cooled to 95 °C in the pot alone, then into a carboy."""
    return kitchen_of(process=typed(cool_to=95.0), fermenter={"kind": "glass carboy"})


@pytest.mark.parametrize("variant", ["full", "bench"])
def test_boiling_wort_is_stopped_before_it_goes_into_glass(into_glass, sheet_of, variant):
    sheet = sheet_of(into_glass, ranges=False, variant=variant)
    moved = step_saying(sheet, "siphon it through")
    assert moved.do[0] == Strong("Stop: at 95 °C it must not go into glass.")
    assert "Cool the pot to 30 °C first" in plain_words(moved.do)
    assert "Stop: Wort at 95 °C goes into glass" in cautions(moved, "stop")
    assert "!! Stop: Wort at 95 °C goes into glass" in sheet_text(sheet)
    assert '<p class="aside stop">⛔ Stop: Wort at 95 °C' in sheet_html(sheet)


def test_glass_is_poured_into_at_thirty_degrees_if_nothing_else_is_asked_for(kitchen_of, sheet_of):
    sheet = sheet_of(kitchen_of(fermenter={"kind": "glass carboy"}), ranges=False)
    moved = step_saying(sheet, "siphon it through")
    assert "Stop" not in plain_words(moved.do)
    cooled = step_saying(sheet, "cold water, lid on")
    assert cooled.readings[0].forecast == "30 °C"


@pytest.mark.parametrize(("hot", "stopped"), [(30.0, False), (31.0, True)])
def test_the_stop_for_glass_comes_just_above_thirty_degrees(kitchen_of, hot, stopped):
    recipe = kitchen_of(process=typed(cool_to=hot), fermenter={"kind": "glass carboy"})
    found = {each.code: each for each in look_ahead(recipe, ranges=False).findings}
    assert ("hot-into-glass" in found) is stopped
    if stopped:
        assert found["hot-into-glass"].severity is Severity.STOP
        assert found["hot-into-glass"].fix.apply(recipe).process.cool_to.value == 30.0


def test_wort_that_scalds_waits_before_it_is_poured_into_a_bucket(kitchen_of, sheet_of):
    sheet = sheet_of(kitchen_of(process=typed(cool_to=70.0)), ranges=False)
    moved = step_saying(sheet, "siphon it through")
    assert plain_words(moved.do).startswith("Stop: at 70 °C it scalds. Lid on, wait until it is at")
    assert "Stop" not in sheet_text(sheet_of(kitchen_of(process=typed(cool_to=50.0)), ranges=False))


def test_nothing_hot_is_stirred_hard_or_filled_into_the_jar(kitchen_of, sheet_of):
    hot = kitchen_of(process=typed(cool_to=60.0, frozen_top_up=0.0))
    stirred = step_saying(sheet_of(hot, ranges=False), "Stir hard")
    said = plain_words(stirred.do)
    assert said.startswith("Lid on, wait until it is at 30 °C: at ")
    assert said.index("wait") < said.index("Stir hard")
    assert "scalds" in cautions(stirred)
    cool = step_saying(sheet_of(kitchen_of(), ranges=False), "Stir hard")
    assert plain_words(cool.do).startswith("Stir hard")


STOPS = {
    "pot-overflows": ({"start_water": 9.5}, {}, "of cold water"),
    "fermenter-overflows": ({"top_up_to": 13.0}, {}, "Top up|frozen water"),
    "no-water": ({"start_water": 0.0}, {}, "of cold water"),
    "boils-dry": ({"start_water": 2.0, "evaporation": 3.0}, {}, "timer"),
    "all-left-in-pot": ({"left_in_pot": 100.0}, {}, "siphon it through"),
}


@pytest.mark.parametrize("variant", ["full", "bench"])
@pytest.mark.parametrize("code", STOPS)
def test_a_stop_stands_again_where_it_bites_and_on_the_card(kitchen_of, sheet_of, code, variant):
    process, fermenter, words = STOPS[code]
    recipe = kitchen_of(process=typed(**process), fermenter=fermenter)
    (found,) = [f for f in look_ahead(recipe, ranges=False).findings if f.code == code]
    sheet = sheet_of(recipe, ranges=False, variant=variant)
    stopped = [step for step in sheet.steps if cautions(step, "stop")]
    (step,) = [each for each in stopped if found.message.text in cautions(each, "stop")]
    assert re.search(words, plain_words(step.do))


@settings(
    max_examples=40,
    deadline=None,
    phases=(Phase.generate,),
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.function_scoped_fixture],
)
@given(data=st.data())
def test_every_stop_of_any_recipe_is_at_some_step_of_both_sheets(any_recipe, sheet_of, data):
    recipe = data.draw(any_recipe(most=6))
    stops = [
        each for each in look_ahead(recipe, ranges=False).findings if each.severity is Severity.STOP
    ]
    for variant in ("full", "bench"):
        text = sheet_text(sheet_of(recipe, ranges=False, variant=variant))
        assert text.count("!! Stop: ") == len(stops)


def sized(recipe, litres, *, stove="electric"):
    """The recipe with so much water, in vessels that hold it."""
    return replace(
        recipe,
        pot=replace(recipe.pot, volume=Quantity(2.0 * litres, "?"), power=None, stove=stove),
        fermenter=replace(recipe.fermenter, volume=Quantity(2.0 * litres, "?")),
        process=replace(
            recipe.process,
            start_water=Quantity(litres, "?"),
            top_up_to=Quantity(1.2 * litres, "?"),
            frozen_top_up=None,
        ),
    )


def test_a_heavy_hot_pot_is_not_lifted_off_the_plate(example, sheet_of):
    porter = example("harbour_lamp_porter")
    light = step_saying(sheet_of(porter, ranges=False), "liquid malt")
    heavy = step_saying(sheet_of(sized(porter, 20.0), ranges=False), "liquid malt")
    assert plain_words(light.do).startswith("Burner off, pot aside.")
    assert plain_words(heavy.do).startswith("Burner off, wait until it is still.")
    assert re.search(r"\b2\d kg, scalding: do not lift it", cautions(heavy))
    assert "pot aside" not in sheet_text(sheet_of(sized(porter, 20.0), ranges=False))


@pytest.mark.parametrize(
    ("litres", "pours", "carries"),
    [
        (2.0, None, None),
        (7.0, "both hands", "both hands"),
        (15.0, "two people", "two people"),
        (120.0, "do not lift the pot", "cannot be moved"),
    ],
)
def test_lifting_is_warned_of_by_weight(example, sheet_of, litres, pours, carries):
    sheet = sheet_of(sized(example("harbour_lamp_porter"), litres), ranges=False)
    poured, carried = step_saying(sheet, "siphon it through"), step_saying(sheet, "Lid and airlock")
    for step, words in ((poured, pours), (carried, carries)):
        assert (words in cautions(step)) if words else (" kg" not in cautions(step))


def test_what_nobody_can_carry_is_filled_where_it_stands(example, sheet_of):
    sheet = sheet_of(sized(example("harbour_lamp_porter"), 120.0), ranges=False)
    moved, closed = step_saying(sheet, "siphon it through"), step_saying(sheet, "Lid and airlock")
    assert "Put the fermenter where it will stay" in plain_words(moved.do)
    assert "Carry" not in plain_words(closed.do)
    bathed = step_saying(sheet, "Stand the pot in cold water")
    assert "scalding: nobody lifts it" in cautions(bathed)
    light = sheet_of(sized(example("harbour_lamp_porter"), 15.0), ranges=False)
    assert "hand-warm: two people" in cautions(step_saying(light, "Stand the pot in cold water"))


def test_a_gas_flame_has_its_cautions_and_a_plate_has_none_of_them(example, sheet_of):
    porter = example("harbour_lamp_porter")
    gas = sheet_of(sized(porter, 5.0, stove="gas"), ranges=False)
    assert "cloths and sleeves away from the flame" in cautions(gas.steps[0])
    assert "Flame out? Shut the gas" in cautions(step_saying(gas, "until it boils again"))
    plate = sheet_text(sheet_of(porter, ranges=False))
    assert "Gas" not in plate
    assert "Flame" not in plate


def test_what_meets_cool_wort_is_sanitised_in_the_boil(example, sheet_of):
    sheet = sheet_of(example("harbour_lamp_porter"), ranges=False)
    step = step_saying(sheet, "Sanitise: bucket")
    assert step.left == "20 min left"
    assert "never mix" in cautions(step)
    assert "Clean, the day before" in sheet_text(sheet)


def test_the_coil_goes_into_the_boil_ten_minutes_before_its_end(kitchen_of, sheet_of):
    sheet = sheet_of(kitchen_of(process={"cooling": "coil"}), ranges=False)
    step = step_saying(sheet, "Lower the clean coil")
    assert step.left == "10 min left"
    order = [plain_words(each.do) for each in sheet.steps]
    assert order == [
        plain_words(each.do) for each in sorted(sheet.steps, key=lambda each: each.minutes)
    ]
    short = kitchen_of(process={"cooling": "coil", **typed(boil_time=5.0)})
    assert step_saying(sheet_of(short, ranges=False), "Lower the clean coil").left == "5 min left"


REFUSED = [
    {"bottle": "still-wine bottles, jars, growlers"},
    {"bottle": "one-way or unknown glass", "carbonation": Quantity(3.0, "3 vol")},
]
SUGARS = ("sugar", "dextrose", "dry extract", "Zucker", "Traubenzucker", "sucre", "Haushaltszucker")


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("variant", ["full", "bench"])
@pytest.mark.parametrize("changes", REFUSED)
def test_bottles_that_would_burst_get_no_sugar_anywhere_but_reason_and_way_out(
    kitchen_of, sheet_of, changes, variant, language
):
    recipe = kitchen_of(process=changes)
    sheet = sheet_of(recipe, ranges=False, variant=variant, language=language)
    (found,) = [
        each for each in look_ahead(recipe, ranges=False).findings if each.code == "bottle-pressure"
    ]
    for text in (sheet_text(sheet), sheet_html(sheet)):
        told = re.sub("<[^>]*>", "", text)
        assert not any(re.search(rf"\d\s*(k?g|oz) {each}", told) for each in SUGARS)
        assert "52 g" not in told
    if language == "en":
        said = sheet_text(sheet)
        assert f"!! Stop: Bottles: {recipe.process.bottle}. " in said
        assert "they burst and throw shards. No priming sugar is given." in said
        assert "Take beer or sparkling-wine bottles" in said or "Aim at 2 volumes" in said
    assert found.severity is Severity.STOP


@pytest.mark.parametrize("variant", ["full", "bench"])
def test_bottles_under_strain_have_their_caution_printed_with_the_sugar(
    kitchen_of, sheet_of, variant
):
    recipe = kitchen_of(process={"bottle": "one-way or unknown glass"})
    sheet = sheet_of(recipe, ranges=False, variant=variant)
    text = sheet_text(sheet)
    to_tick = step_saying(sheet, "gloves and goggles at hand")
    assert "at ease to 2.9 bar" in cautions(to_tick)
    assert "[ ] Bottles near their limit: have gloves and goggles at hand." in text
    assert text.count("near their limit") == 1
    assert "! Up to 3.2 bar at 30 °C, at ease to 2.9 bar: weigh exactly" in text
    assert "52 g table sugar" in text
    recipe = kitchen_of(
        process={"bottle": "one-way or unknown glass", "carbonation": Quantity(2.1, "2.1")}
    )
    text = sheet_text(sheet_of(recipe, ranges=False, variant=variant))
    assert "! Up to 2.9 bar at 30 °C, just beyond what they bear at ease: weigh" in text
    plain = sheet_text(sheet_of(kitchen_of(), ranges=False, variant=variant))
    assert "at ease" not in plain
    assert "near their limit" not in plain


@pytest.mark.parametrize(
    ("changes", "says"),
    [({"start_water": 12.0}, "Pot: overflows"), ({"top_up_to": 20.0}, "Fermenter: overflows 20 L")],
)
def test_the_drawing_shows_what_runs_over(kitchen_of, changes, says):
    def drawn(recipe):
        figures = Figures(ShownUnits.METRIC)
        return vessels(Plan(recipe, look_ahead(recipe, ranges=False), figures, 540, None))

    over = drawn(kitchen_of(process=typed(**changes)))
    assert says in over.says
    assert [each for each in over.shapes if isinstance(each, Shape) and each.fill == "care"]
    assert [each for each in over.shapes if isinstance(each, Label) and each.tone == "care"]
    for each in over.shapes:
        points = each.points if isinstance(each, Shape) else ((each.x, each.y),)
        assert all(0.0 <= x <= over.width and 0.0 <= y <= over.height for x, y in points)
    sound = drawn(kitchen_of())
    assert "overflows" not in sound.says
    assert not [each for each in sound.shapes if isinstance(each, Shape) and each.fill == "care"]


def with_tin(recipe, stage):
    """The recipe with all of its extract at that stage."""
    lines = tuple(
        replace(line, when=When(stage, str(stage))) if "extract" in line.kind else line
        for line in recipe.fermentables
    )
    return replace(recipe, fermentables=lines)


def test_extract_at_flame_out_waits_until_nothing_bubbles_and_is_then_kept_hot(example, sheet_of):
    """It foams over; and ten minutes above 75 °C kill what is in it: common practice, no source."""
    tin = with_tin(example("harbour_lamp_porter"), Stage.FLAME_OUT)
    sheet = sheet_of(tin, ranges=False)
    said = [plain_words(step.do) for step in sheet.steps]
    off = next(place for place, text in enumerate(said) if "Burner off. Stir in" in text)
    assert sheet.steps[off].readings[0].label == "Level, hot"
    assert said[off + 1].startswith("When it is still, stir in ")
    assert "boil over" in cautions(sheet.steps[off + 1])
    kept = step_saying(sheet, "lid on, 10 min at 75 °C or more")
    assert sheet.steps.index(kept) > off + 1
    assert sheet.steps.index(kept) < sheet.steps.index(step_saying(sheet, "siphon it through"))


def test_a_pot_full_of_syrup_weighs_what_is_in_it_when_it_is_poured(example, sheet_of):
    porter = example("harbour_lamp_porter")
    boiled, late = (
        cautions(step_saying(sheet_of(each, ranges=False), "siphon it through"))
        for each in (
            with_tin(porter, Stage.FERMENTER), with_tin(porter, Stage.FLAME_OUT),
        )
    )  # fmt: skip
    assert weights(late)[0] > weights(boiled)[0]


def weights(text):
    return [float(each) for each in re.findall(r"([\d.]+) kg", text)]


def test_extract_for_the_bucket_is_dissolved_in_hot_water_before_the_wort_comes(example, sheet_of):
    sheet = sheet_of(with_tin(example("harbour_lamp_porter"), Stage.FERMENTER), ranges=False)
    tin = step_saying(sheet, "of water just boiled on it")
    assert sheet.steps.index(tin) < sheet.steps.index(step_saying(sheet, "siphon it through"))
    assert "never glass" in cautions(tin)
    assert "do not lift" in cautions(tin)
    assert "water to boil in a kettle" in sheet_text(sheet)


def test_no_boiling_water_is_poured_into_glass(example, sheet_of):
    porter = with_tin(example("harbour_lamp_porter"), Stage.FERMENTER)
    carboy = replace(porter, fermenter=replace(porter.fermenter, kind="glass carboy"))
    sheet = sheet_of(carboy, ranges=False)
    assert "just boiled" not in sheet_text(sheet)
    assert "Hot water cracks glass" in cautions(step_saying(sheet, "Stir .* into the fermenter"))
