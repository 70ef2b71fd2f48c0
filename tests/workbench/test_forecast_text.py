"""The forecast as text: each figure with its range and causes, the vessels, what to watch."""

from dataclasses import replace

import pytest

from designer.brewday.instrument import reading_range
from designer.brewday.outlook import look_ahead
from designer.recipe.quantity import Kind, Quantity
from designer.units import read, show
from designer.workbench.forecast_document import forecast_document
from designer.workbench.forecast_text import forecast_lines


@pytest.fixture
def outlook(porter):
    return look_ahead(porter)


def test_a_forecast_stands_with_its_unit_its_range_and_its_two_main_causes(porter, outlook):
    found = outlook.forecasts["abv_percent"]
    first, second = found.causes[:2]
    line = next(each for each in forecast_lines(porter, outlook) if "Alcohol" in each)
    assert " ".join(line.split()) == (
        f"Alcohol by volume {found.value:.1f} % {found.low:.1f} to {found.high:.1f} % "
        f"{first.words.text} {100 * first.share:.0f} %, "
        f"{second.words.text} {100 * second.share:.0f} %"
    )
    gravity = next(each for each in forecast_lines(porter, outlook) if "Original" in each)
    assert gravity.split()[2:5] == [
        f"{outlook.forecasts['original_gravity'].value:.3f}",
        f"{outlook.forecasts['original_gravity'].low:.3f}",
        "to",
    ]


def test_vessels_are_told_with_their_size_where_it_is_known(porter, outlook):
    lines = forecast_lines(porter, outlook)
    pot = next(each for each in lines if each.startswith("  Pot: "))
    fermenter = next(each for each in lines if each.startswith("  Fermenter: "))
    assert pot.endswith(") of 9 L")
    assert fermenter.endswith(" make 10 L of 12 L")
    full = replace(porter, process=replace(porter.process, top_up_to=None, frozen_top_up=None))
    full_day = look_ahead(full)
    batch = show(Kind.VOLUME, float(full_day.day.fermenter.batch_l), rounded=True)
    said = f"  Fermenter: no water on top, it holds {batch} of 12 L"
    assert said in forecast_lines(full, full_day)
    unknown = replace(porter, pot=replace(porter.pot, volume=None))
    lines = forecast_lines(unknown, look_ahead(unknown))
    assert next(each for each in lines if each.startswith("  Pot: ")).endswith(")")


def test_what_to_watch_is_said_with_its_cure_under_a_heading_of_its_own(porter):
    too_full = replace(porter, process=replace(porter.process, start_water=Quantity(7.0, "7 L")))
    outlook = look_ahead(too_full)
    lines = forecast_lines(too_full, outlook)
    at = lines.index("Watch out:")
    assert len(lines) - at - 1 == len(outlook.findings) > 0
    first = outlook.findings[0]
    assert lines[at + 1] == f"  {first.severity}: {first.message.text} [{first.offer}]"
    assert first.offer.text == f"{first.fix.text}: {first.makes}"


def test_what_a_small_vessel_leads_to_is_said_as_the_command_that_tells_it(porter):
    small = replace(porter, pot=replace(porter.pot, volume=Quantity(3.0, "3 L")))
    [stop] = [each for each in look_ahead(small).findings if each.code == "pot-overflows"]
    [line] = [
        each for each in forecast_lines(small, look_ahead(small)) if stop.message.text in each
    ]
    assert stop.offer is None
    assert line.endswith(" [every way to brew it here: hobwort fit FILE]")


def test_a_sound_recipe_has_no_heading_for_what_to_watch(porter, outlook):
    lines = forecast_lines(porter, replace(outlook, findings=()))
    assert "Watch out:" not in lines
    assert lines[-1].startswith("  Hydrometer, corrected: ")


def test_temperatures_of_cooling_are_told_to_the_degree(porter, outlook):
    line = next(each for each in forecast_lines(porter, outlook) if each.startswith("  Cool: "))
    filled = outlook.day.fermenter
    assert line == (
        f"  Cool: {filled.cooling_min:.0f} min to {filled.cool_to_c:.0f} °C, "
        f"mixed {filled.mixed_c:.0f} °C"
    )


def test_ice_for_the_bath_is_told_beside_the_time_it_takes(porter):
    cold = replace(porter, process=replace(porter.process, cool_to=Quantity(20.0, "20 °C")))
    outlook = look_ahead(cold)
    line = next(each for each in forecast_lines(cold, outlook) if each.startswith("  Cool: "))
    ice_kg = outlook.day.fermenter.bath_ice_kg
    assert ice_kg > 1.0
    assert line.endswith(f", with {ice_kg:.1f} kg of ice in the bath")
    assert forecast_document(cold, outlook)["ice"]["bath_kg"] == ice_kg


def test_a_document_has_the_cure_of_each_finding_and_the_advice_on_each_doubt(porter, outlook):
    found = forecast_document(porter, outlook)
    cures = [each.offer and each.offer.text for each in outlook.findings]
    assert [each["fix"] for each in found["watch_out"]] == cures
    causes = outlook.forecasts["original_gravity"].causes
    told = found["original_gravity"]["causes"]
    assert [each["advice"] for each in told] == [each.advice or None for each in causes]
    assert any(each["advice"] for each in told)


def leaning(outlook, key, **quartiles):
    found = replace(outlook.forecasts[key], **quartiles)
    return replace(outlook, forecasts={**outlook.forecasts, key: found})


@pytest.mark.parametrize(
    ("quartiles", "says"),
    [
        ({"first_quartile": 2.0, "third_quartile": 3.0}, "higher"),
        ({"first_quartile": 0.8, "third_quartile": 0.9}, "lower"),
        ({"first_quartile": 0.9, "third_quartile": 2.0}, None),
        ({"first_quartile": None, "third_quartile": None}, None),
    ],
)
def test_a_value_outside_the_middle_half_says_where_the_beer_more_likely_lies(
    porter, outlook, quartiles, says
):
    told = leaning(outlook, "original_gravity", **quartiles)
    assert forecast_document(porter, told)["original_gravity"]["leans"] == says
    line = next(each for each in forecast_lines(porter, told) if "Original" in each)
    assert (f"more likely {says}" in line) == bool(says)


def test_what_the_hydrometer_reads_stands_beside_the_wort(porter, outlook):
    document = forecast_document(porter, outlook)
    for key in ("original_gravity", "final_gravity"):
        low, high = reading_range(outlook.forecasts[key], porter.process)
        assert document[key]["reading"] == {"low": low, "high": high}
    assert "reading" not in document["abv_percent"]
    first, last = (document[key]["reading"] for key in ("original_gravity", "final_gravity"))
    assert (
        f"  Hydrometer, corrected: OG {first['low']:.3f} to {first['high']:.3f}, "
        f"FG {last['low']:.3f} to {last['high']:.3f}"
    ) in forecast_lines(porter, outlook)


def test_treated_water_is_told_with_its_caution(porter):
    assert not any("sulfite" in line for line in forecast_lines(porter, look_ahead(porter)))
    process = replace(
        porter.process,
        chlorine=read(Kind.CONCENTRATION, "2 mg/L"),
        disinfectant="chloramine, as Cl2",
        metabisulfite="sodium metabisulfite",
    )
    treated = replace(porter, process=process)
    outlook = look_ahead(treated)
    lines = forecast_lines(treated, outlook)
    beer = outlook.day.beer
    assert (
        f"  Water: {beer.water_treatment_g:.2g} g of sodium metabisulfite into "
        f"{beer.water_l:.1f} L against chloramine, 10 min before use"
    ) in lines
    assert any("asthma" in line and "window" in line for line in lines)


def test_strike_times_yeast_and_sugar_are_told(porter, outlook):
    day, lines = outlook.day, forecast_lines(porter, outlook)
    grams = day.beer.priming_g
    end = 9 * 60 + int(day.total_min + 0.5)
    boil = 9 * 60 + int(next(each for each in day.spans if each.key == "boil").start_min + 0.5)
    wanted = (
        f"  Steep: water at {day.steep.strike_c:.0f} °C, {day.steep.steeped_c:.0f} °C with the "
        "grain in",
        f"  Day: 09:00 to {end // 60}:{end % 60:02d}, the boil from {boil // 60}:{boil % 60:02d}",
        f"  Yeast: {day.beer.yeast_low_g:.0f} to {day.beer.yeast_high_g:.0f} g if it is dry "
        "(1 packet)",
        f"  Bottles: {grams['table sugar']:.0f} g of table sugar for {day.beer.packaged_l:.1f} L "
        f"(or {grams['dextrose monohydrate']:.0f} g dextrose monohydrate, "
        f"{grams['dextrose anhydrous']:.0f} g dextrose anhydrous, "
        f"{grams['dry malt extract']:.0f} g dry malt extract, {grams['honey']:.0f} g honey), "
        "never warmer than 19 °C since it fermented",
    )
    assert [line for line in wanted if line not in lines] == []
    assert not any("Cost" in line for line in lines)


def test_a_keg_is_told_with_its_pressure_and_another_sugar_with_its_grams(porter):
    keg = replace(porter, process=replace(porter.process, package="keg"))
    outlook = look_ahead(keg)
    assert f"  Keg: {outlook.day.beer.keg_bar:.1f} bar at 6 °C" in forecast_lines(keg, outlook)
    extract = replace(porter, process=replace(porter.process, priming_sugar="dry malt extract"))
    outlook = look_ahead(extract)
    grams = outlook.day.beer.priming_g["dry malt extract"]
    lines = forecast_lines(extract, outlook)
    assert any(f"Bottles: {grams:.0f} g of dry malt extract for" in line for line in lines)


def test_a_day_that_ends_after_midnight_says_on_which_day(porter):
    def told(start):
        recipe = replace(porter, process=replace(porter.process, start_time=start))
        lines = forecast_lines(recipe, look_ahead(recipe, ranges=False))
        return next(each for each in lines if each.startswith("  Day: "))

    assert "later" not in told("09:00")
    assert " a day later, the boil from 23:" in told("22:30")
    assert told("23:30").count(" a day later") == 2
