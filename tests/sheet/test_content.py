"""What the sheet says: all of the recipe, once, at its time, and the cautions where they belong."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date
from itertools import pairwise, product

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from designer.brewday.day import brew
from designer.brewday.instrument import reading_range
from designer.brewday.outlook import look_ahead
from designer.errors import RefusedInputError
from designer.library.sources import STYLE_NUMBERS
from designer.recipe.choices import GrainBag, SyrupTin
from designer.recipe.document import Extra
from designer.recipe.edits import with_line_ids
from designer.recipe.quantity import Kind, Quantity, Stage, When
from designer.sheet.blocks import Form, SideBySide, plain_words
from designer.sheet.content import VARIANTS, brew_sheet
from designer.sheet.html import sheet_html
from designer.sheet.plain import sheet_text
from designer.sheet.plan import letters, name_of
from designer.spoken_language import LANGUAGES
from designer.units import ShownUnits, read, read_when
from designer.units.clock import minutes_of
from designer.wort.density import gravity_from_plato
from designer.wort.hydrometer import extract_from_reading, true_gravity

many = settings(
    max_examples=25,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.function_scoped_fixture],
)
LISTS = ("fermentables", "hops", "extras")


def _lines_of(recipe):
    return sorted(
        [(name, line.line_id) for name in LISTS for line in getattr(recipe, name)] + [("yeast", 0)]
    )


def _step_saying(sheet, words):
    return next(step for step in sheet.steps if words in plain_words(step.do))


@settings(many, max_examples=50)
@given(data=st.data())
def test_every_line_of_any_recipe_goes_in_once_amounts_sum_up_and_time_goes_on(
    any_recipe, sheet_of, data
):
    """On the full sheet and on the card, in every language: a day is run once for all of them."""
    recipe = data.draw(any_recipe())
    start = data.draw(st.sampled_from([None, "00:00", "23:59"]))
    outlook = look_ahead(recipe, ranges=False)
    for variant, language in product(VARIANTS, LANGUAGES):
        sheet = sheet_of(recipe, outlook=outlook, start=start, variant=variant, language=language)
        put_in = [(part.lines, part.line_id) for step in sheet.steps for part in step.portions]
        assert sorted(put_in) == _lines_of(recipe), (variant, language)
        _assert_amounts_sum_up(recipe, sheet)
        _assert_time_goes_on(sheet)


def _assert_amounts_sum_up(recipe, sheet):
    for name in LISTS:
        on_sheet = [p.value for step in sheet.steps for p in step.portions if p.lines == name]
        billed = [line.amount.value for line in getattr(recipe, name) if line.amount is not None]
        assert sum(sorted(on_sheet)) == pytest.approx(sum(sorted(billed)))


def _assert_time_goes_on(sheet):
    """Steps follow each other in time, on the clock of 24 hours."""
    for before, after in pairwise(sheet.steps):
        assert before.minutes <= after.minutes + 1e-6
    days = [_days_in(step.when) for step in sheet.steps if ":" in step.when]
    assert days == sorted(days)


def _days_in(when):
    time, _, rest = when.partition(" ")
    assert minutes_of(time) is not None
    days = {"": 0, "next day": 1, "Folgetag": 1, "lendemain": 1}.get(rest)
    return (int(rest.split()[0]) if days is None else days, minutes_of(time))


@many
@given(data=st.data())
def test_any_recipe_can_be_said_as_text_and_as_html_in_any_units(any_recipe, sheet_of, data):
    recipe = data.draw(any_recipe(most=6))
    units = data.draw(st.sampled_from(list(ShownUnits)))
    spoken = data.draw(st.sampled_from(list(LANGUAGES)))
    form = Form(large=data.draw(st.booleans()))
    sheet = sheet_of(recipe, units, ranges=False, language=spoken, form=form, shop="<b>&Quay {0}")
    text, page = sheet_text(sheet), sheet_html(sheet)
    assert re.search(r"\b(nan|inf)\b", text) is None
    for step in sheet.steps:
        assert plain_words(step.do) in text
    assert page.count('<li class="step">') == len(sheet.steps)
    assert "<b>&" not in page  # typed markup is escaped


def test_boil_additions_stand_at_their_minute_and_their_clock_time(example, sheet_of):
    sheet = sheet_of(example("harbour_lamp_porter"), start="10:00")
    first, late, finings = (
        _step_saying(sheet, words) for words in ("Challenger", "Light dry malt", "Carrageenan")
    )
    assert (first.left, late.left, finings.left) == ("60 min left", "15 min left", "5 min left")
    assert minutes_of(late.when) - minutes_of(first.when) == 45
    assert minutes_of(finings.when) - minutes_of(late.when) == 10


def test_a_day_over_midnight_says_next_day(example, sheet_of):
    sheet = sheet_of(example("harbour_lamp_porter"), start="23:30")
    assert sheet.steps[0].when == "23:30"
    assert _step_saying(sheet, "Challenger").when == "00:34 next day"


def test_the_burner_is_off_before_any_extract_goes_in(example, sheet_of):
    for name in ("harbour_lamp_porter", "slipway_bitter", "foghorn_wheat", "breakwater_red"):
        recipe = example(name)
        kinds = {line.line_id: line.kind for line in recipe.fermentables}
        for step in sheet_of(recipe).steps:
            if any(
                "extract" in kinds[p.line_id] for p in step.portions if p.lines == "fermentables"
            ):
                said = plain_words(step.do)
                assert said.index("Burner off") < said.index("Stir in")
                assert any(aside.kind == "care" for aside in step.asides)


@pytest.mark.parametrize(
    ("words", "danger"),
    [
        ("Back to the boil|until it boils again", "boils over"),
        ("Stand the pot in cold water", "slip"),
        ("siphon it through", "both hands"),
        ("Lift the bag", "Hot and heavy"),
        ("airlock clear", "burst"),
        ("bottles, caps", "pressure"),
        ("both readings agree", "bottles burst"),
    ],
)
def test_cautions_stand_where_the_danger_is(example, sheet_of, words, danger):
    sheet = sheet_of(example("harbour_lamp_porter"))
    step = next(s for s in sheet.steps if any(w in plain_words(s.do) for w in words.split("|")))
    assert any(aside.kind == "care" and danger in aside.text for aside in step.asides)


def test_glass_is_warned_of_only_where_there_is_glass(kitchen_of, sheet_of):
    glass = sheet_text(sheet_of(kitchen_of(fermenter={"kind": "glass carboy"})))
    plastic = sheet_text(sheet_of(kitchen_of()))
    assert "Glass cracks" in glass
    assert "Glass" not in plastic


def test_a_coil_is_warned_of_for_its_hot_outlet(kitchen_of, sheet_of):
    assert "near boiling" in sheet_text(sheet_of(kitchen_of(process={"cooling": "coil"})))


def test_water_with_chlorine_gets_its_dose_and_the_sulfite_warning(kitchen_of, sheet_of):
    recipe = kitchen_of(process={"chlorine": Quantity(1.0, "1 mg/L")})
    text = sheet_text(sheet_of(recipe))
    assert "potassium metabisulfite into all of it against chlorine" in text
    assert "sulfite: not near asthma or allergy, no dust, window open" in text
    assert "metabisulfite" not in sheet_text(sheet_of(kitchen_of()))


def test_chloramine_is_taken_out_with_the_salt_in_hand_which_is_bought_too(kitchen_of, sheet_of):
    recipe = kitchen_of(
        process={
            "chlorine": Quantity(2.0, "2 mg/L"),
            "disinfectant": "chloramine, as Cl2",
            "metabisulfite": "sodium metabisulfite",
        }
    )
    sheet = sheet_of(recipe)
    (both,) = [each for each in sheet.sections[0].blocks if isinstance(each, SideBySide)]
    buy, water = both.left[0], both.right[1]
    grams = brew(recipe).beer.water_treatment_g
    bought = next(item for item in buy.items if item.name == "sodium metabisulfite")
    dosed = next(item for item in water.items if "chloramine" in item.name)
    assert bought.amount == dosed.amount == f"{grams:.2g} g"
    assert dosed.name.startswith("sodium metabisulfite into all of it")
    assert f"or {100 * grams:.2g} mL of 1 g dissolved in 100 mL water" in dosed.note
    assert "potassium" not in sheet_text(sheet)


def test_a_keg_gets_a_pressure_and_bottles_get_sugar(kitchen_of, sheet_of):
    keg = sheet_text(sheet_of(kitchen_of(process={"package": "keg"})))
    assert "0.8 bar" in keg
    assert "table sugar" not in keg
    assert "bottles burst" not in keg
    bottles = sheet_text(sheet_of(kitchen_of()))
    assert "52 g table sugar" in bottles
    assert "Sugar in the recipe is for the boil" in bottles


@pytest.mark.parametrize(
    ("sugar", "name", "instead"),
    [
        ("table sugar", "table sugar", "dextrose"),
        ("dextrose monohydrate", "dextrose", "table sugar"),
        ("dextrose anhydrous", "anhydrous dextrose", "table sugar"),
        ("dry malt extract", "dry extract", "table sugar"),
    ],
)
def test_the_bottles_get_the_priming_sugar_of_the_brewer(
    kitchen_of, sheet_of, sugar, name, instead
):
    recipe = kitchen_of(process={"priming_sugar": sugar})
    keys = {"dextrose": "dextrose monohydrate"}
    grams = brew(recipe).beer.priming_g
    text = " ".join(sheet_text(sheet_of(recipe)).split())
    assert (
        f"Boil {grams[sugar]:.0f} g {name} (or {grams[keys.get(instead, instead)]:.0f} g {instead})"
    ) in text
    assert f"{grams[sugar]:.0f} g {name} for the bottles" in text
    assert ("ferment differently" in text) == (sugar == "dry malt extract")


def test_a_keg_in_us_units_is_set_in_psi(kitchen_of, sheet_of):
    assert "11 psi" in sheet_text(sheet_of(kitchen_of(process={"package": "keg"}), "us"))


def test_the_same_hop_in_several_additions_is_bought_once(example, sheet_of):
    sheet = sheet_of(example("slipway_bitter"))
    (lists,) = (block for block in sheet.sections[0].blocks if isinstance(block, SideBySide))
    buy, weigh = lists.left[0].items, lists.right[0].items
    golding = [item for item in buy if "Golding" in item.name]
    assert [item.amount for item in golding] == ["25 g"]
    assert [item.amount for item in weigh if "Golding" in item.name] == ["15 g", "10 g"]


def test_bags_are_lettered_in_the_order_in_which_they_go_in(example, sheet_of):
    sheet = sheet_of(example("slipway_bitter"))
    bags = [step.bag for step in sheet.steps if step.bag]
    assert bags == [letters(number) for number in range(len(bags))]
    assert [letters(n) for n in (0, 25, 26, 27, 702)] == ["A", "Z", "AA", "AB", "AAA"]


def test_dry_hops_go_in_so_many_days_before_packaging(example, sheet_of):
    sheet = sheet_of(example("slipway_bitter"), brew_date=date(2026, 3, 28))
    assert _step_saying(sheet, "10 g").when == "Day 10\nTue 7 Apr"


def test_extras_go_into_the_fermenter_when_the_recipe_says_and_not_by_words_of_their_purpose(
    kitchen_of, sheet_of
):
    """Clarity enzymes go in with the yeast, finings into finished beer; from memory."""
    enzyme = Extra(
        "Clarity enzyme", "no chill haze after fermentation", when=read_when("fermenter")
    )
    finings = Extra("Finings", "bright beer", when=read_when("fermenter 4 days"))
    recipe = with_line_ids(replace(kitchen_of(), extras=(enzyme, finings)))
    sheet = sheet_of(recipe, ranges=False, brew_date=date(2026, 3, 28))
    assert "Day" not in _step_saying(sheet, "Clarity enzyme").when
    assert _step_saying(sheet, "Finings").when == "Day 10\nTue 7 Apr"


def test_two_equal_readings_days_apart_come_before_packaging(example, sheet_of):
    """Two to three days apart: common practice, no source."""
    steps = sheet_of(example("harbour_lamp_porter")).steps
    readings = [s for s in steps if any(r.label == "FG" for r in s.readings)]
    first, second = (s.minutes / 1440.0 for s in readings)
    assert second - first == pytest.approx(3.0)
    assert _step_saying(sheet_of(example("harbour_lamp_porter")), "table sugar").minutes >= (
        readings[1].minutes
    )


def test_the_printed_correction_gives_the_forecast_back(example, sheet_of):
    """A reading at the sample's temperature plus the table's figure is the gravity, to 0.001."""
    sheet = sheet_of(example("harbour_lamp_porter"))
    table = next(b for s in sheet.sections for b in s.blocks if type(b).__name__ == "Table")
    for cell, temp in zip(table.rows[0][1:], (10, 15, 20, 25, 30, 35), strict=True):
        shown = 1.046 - float(cell.replace("−", "-"))
        assert float(true_gravity(shown, float(temp))) == pytest.approx(1.046, abs=0.0007)


def test_the_correction_is_that_of_the_brewer_s_own_hydrometer(example, sheet_of):
    """One made for 15 °C that shows 1.002 in water: off by both, by ISO 1768 and ICUMSA SPS-4."""
    recipe = example("harbour_lamp_porter")
    process = replace(
        recipe.process,
        hydrometer_made_for=read(Kind.TEMPERATURE, "15 °C"),
        hydrometer_in_water=read(Kind.GRAVITY, "1.002"),
    )
    sheet = sheet_of(replace(recipe, process=process))
    table = next(b for s in sheet.sections for b in s.blocks if type(b).__name__ == "Table")
    near = float(table.rows[0][0].removeprefix("near "))
    for cell, temp in zip(table.rows[0][1:], (10, 15, 20, 25, 30, 35), strict=True):
        shown = near - float(cell.replace("−", "-"))
        plato = extract_from_reading(shown - 0.002, float(temp), 15.0)
        assert float(gravity_from_plato(plato)) == pytest.approx(near, abs=0.0012)
    step = _step_saying(sheet, "float the hydrometer")
    assert "For a hydrometer made for 15 °C, true to 0.001." in str(step.asides)


def test_beside_the_blank_stands_what_the_hydrometer_reads(example, sheet_of):
    recipe = example("harbour_lamp_porter")
    found = look_ahead(recipe).forecasts["original_gravity"]
    low, high = reading_range(found, recipe.process)
    step = _step_saying(sheet_of(recipe), "float the hydrometer")
    reading = f"{found.value:.3f} (read {low:.3f} to {high:.3f})"
    assert step.readings[0].forecast == reading


def test_the_head_says_where_a_beer_more_likely_lies(example, sheet_of):
    recipe = example("harbour_lamp_porter")
    outlook = look_ahead(recipe)
    higher = replace(
        outlook.forecasts["bitterness_ibu"], first_quartile=99.0, middle=100.0, third_quartile=101.0
    )
    told = replace(outlook, forecasts={**outlook.forecasts, "bitterness_ibu": higher})
    sheet = brew_sheet(recipe, told, shown=ShownUnits.METRIC, start=None, brew_date=None)
    figures = {each.label: each.span for each in sheet.head.figures}
    assert figures["Bitterness"] == f"{higher.low:.0f} to {higher.high:.0f}, more likely higher"


def test_a_start_that_is_no_time_of_day_is_refused_in_words(example, sheet_of):
    for start in ("25:00", "nine", "9:75"):
        with pytest.raises(RefusedInputError, match="09:00"):
            sheet_of(example("harbour_lamp_porter"), start=start)


def test_an_empty_recipe_still_gets_a_sheet(any_recipe, sheet_of, empty_recipe):
    sheet = sheet_of(empty_recipe)
    assert sheet.head.title == "Untitled brew"
    assert len(sheet.steps) > 8


def test_stand_hops_are_held_at_their_temperature(example, sheet_of):
    step = _step_saying(sheet_of(example("foghorn_wheat"), "us"), "Hold at")
    assert "175 °F" in plain_words(step.do)
    assert step.left == "15 min stand"


def test_first_wort_hops_and_late_lines_find_their_place(kitchen_of, sheet_of, example):
    recipe = example("harbour_lamp_porter")
    hop = recipe.hops[0]
    moved = kitchen_of(hops=[(hop, When(Stage.FIRST_WORT, "first wort"))])
    step = _step_saying(sheet_of(moved), "while the pot heats")
    assert [part.name for part in step.portions] == ["Challenger, pellets"]


def test_a_style_of_the_guidelines_is_named_with_whose_it_is(example, sheet_of):
    """Source: BJCP, how its guidelines may be used; in the same words in every language."""
    recipe = example("harbour_lamp_porter")
    for code in LANGUAGES:
        assert STYLE_NUMBERS in sheet_text(sheet_of(recipe, language=code))
    for style in ("", "Harbour Ale"):
        own = replace(recipe, style=style)
        assert "BJCP" not in sheet_text(sheet_of(own))


def test_a_lager_gets_its_warm_rest_and_its_weeks_in_the_cold(kitchen_of, sheet_of):
    """Some days warm near the end, then weeks cold: common practice, no source."""
    lager = kitchen_of(process={"pitch_temperature": Quantity(10.0, "10 °C")})
    sheet = sheet_of(lager, ranges=False)
    rest = _step_saying(sheet, "Let it warm to 16 °C and keep it there for 3 days")
    cold = _step_saying(sheet, "cool it slowly to 2 °C and leave it for 4 weeks")
    agree, clean = _step_saying(sheet, "both readings"), _step_saying(sheet, "sanitise bottles")
    assert (rest.when, agree.when, cold.when) == ("Day 8", "Day 14", "Day 14")
    assert clean.when == "Day 42"
    assert sheet.steps.index(agree) < sheet.steps.index(cold) < sheet.steps.index(clean)
    assert any("a little less gas" in aside.text for aside in rest.asides)
    card = sheet_text(sheet_of(lager, ranges=False, variant="bench"))
    assert "Day 8: Let it warm to 16 °C" in card
    warm = kitchen_of(
        process={
            "pitch_temperature": Quantity(10.0, "10 °C"),
            "warmest_after": Quantity(18.0, "18 °C"),
        }
    )
    told = _step_saying(sheet_of(warm, ranges=False), "Let it warm to 18 °C")
    assert not any("less gas" in aside.text for aside in told.asides)
    ale = sheet_text(sheet_of(kitchen_of(), ranges=False))
    assert "Let it warm" not in ale
    assert "lager" not in ale


def rinsed(recipe, when="boil 60 min", **process):
    first, *others = recipe.fermentables
    lines = (replace(first, when=read_when(when)), *others)
    return replace(recipe, fermentables=lines, process=replace(recipe.process, **process))


@pytest.mark.parametrize(
    ("language", "said"),
    [("en", "Rinse the tin"), ("de", "Dose"), ("fr", "la boîte")],
)
@pytest.mark.parametrize(
    "when",
    ["boil 60 min", "boil 15 min", "flame-out", "stand 20 min at 80 °C", "steep", "first wort"],
)
def test_a_tin_is_rinsed_with_hot_wort_in_the_step_that_empties_it(
    example, sheet_of, when, language, said
):
    porter = example("harbour_lamp_porter")
    syrup = porter.fermentables[0].line_id
    recipe = rinsed(porter, when, syrup_tin=SyrupTin.RINSED)
    steps = sheet_of(recipe, ranges=False, language=language).steps
    [rinsing] = [each for each in steps if said in plain_words(each.do)]
    assert ("fermentables", syrup) in {(each.lines, each.line_id) for each in rinsing.portions}
    scraped = rinsed(porter, when, syrup_tin=SyrupTin.SCRAPED)
    for each in sheet_of(scraped, ranges=False, language=language).steps:
        assert said not in plain_words(each.do)


def test_no_tin_is_rinsed_where_all_extract_is_dry(example, sheet_of):
    porter = example("harbour_lamp_porter")
    dry = replace(porter, fermentables=porter.fermentables[1:])
    sheet = sheet_of(rinsed(dry, "boil 20 min", syrup_tin=SyrupTin.RINSED), ranges=False)
    assert not any("Rinse the tin" in plain_words(each.do) for each in sheet.steps)


def test_a_bag_is_rinsed_with_water_that_is_kept_back_for_it(example, sheet_of):
    porter = example("harbour_lamp_porter")
    sheet = sheet_of(rinsed(porter, grain_bag=GrainBag.RINSED), ranges=False)
    filled, lifted = (_step_saying(sheet, words) for words in ("into the pot", "Lift the bag"))
    assert "Keep some back to rinse the bag." in plain_words(filled.do)
    assert "rinse it with the water kept back" in plain_words(lifted.do)
    plain = sheet_of(rinsed(porter, grain_bag=GrainBag.DRAINED), ranges=False)
    assert not any("rinse" in plain_words(each.do) for each in plain.steps)
    bare = replace(porter, fermentables=porter.fermentables[:2])
    without = sheet_of(rinsed(bare, grain_bag=GrainBag.RINSED), ranges=False)
    assert not any("rinse the bag" in plain_words(each.do) for each in without.steps)


@pytest.mark.parametrize(
    ("litres", "water"),
    [(10.0, "a cup of water"), (60.0, "0.5 L of water"), (95.0, "0.75 L of water")],
)
def test_priming_sugar_is_boiled_in_as_much_water_as_it_wants(kitchen_of, sheet_of, litres, water):
    """As much water as sugar, by weight: a judgement, no source."""
    recipe = kitchen_of(
        process={"top_up_to": Quantity(litres, f"{litres} L"), "frozen_top_up": None},
        fermenter={"volume": Quantity(120.0, "120 L")},
    )
    text = sheet_text(sheet_of(recipe, ranges=False))
    assert re.search(rf"Boil \d+ g table sugar .* in {water}, cool", text)


def test_a_name_that_would_fill_a_page_is_cut():
    assert name_of("x" * 120) == "x" * 120
    assert name_of("x" * 121) == f"{'x' * 119}…"
    assert name_of(f"{'x' * 118} {'y' * 9}") == f"{'x' * 118}…"


@pytest.mark.parametrize(
    ("yeast", "told"),
    [
        ("Dry English ale yeast", "settles early"),
        ("German wheat beer ale", "settles slowly"),
        ("Kit ale yeast, unnamed", ""),
        ("my own", ""),
    ],
)
def test_a_yeast_that_settles_early_or_late_is_told_at_the_last_reading(
    example, sheet_of, yeast, told
):
    """Common practice, no source."""
    recipe = example("harbour_lamp_porter")
    recipe = replace(recipe, yeast=replace(recipe.yeast, name=yeast))
    text = sheet_text(sheet_of(recipe, ranges=False))
    assert re.findall("settles (?:early|slowly)", text) == ([told] if told else [])
