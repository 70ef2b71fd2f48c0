"""The day in words and minutes, and the books of pot and fermenter behind it."""

from dataclasses import replace
from itertools import pairwise

import pytest

from designer.brewday.day import brew, run_day
from designer.brewday.predictions import PREDICTIONS
from designer.brewday.tolerances import Nominal
from designer.recipe.document import Extra, Fermentable, Hop
from designer.recipe.edits import with_line_ids
from designer.recipe.quantity import Stage, When
from designer.wort.bitterness import tinseth_bigness, tinseth_time_factor
from designer.wort.bitterness_methods import garetz_ibu, rager_ibu
from designer.wort.heat import enthalpy_kj, heat_of_vaporisation
from designer.wort.isomerisation_rate import relative_rate


@pytest.fixture
def busy_day(harbour_porter, kitchen):
    """The porter with something going in at every stage that there is."""
    return with_line_ids(
        replace(
            harbour_porter,
            process=replace(harbour_porter.process, cool_to=kitchen.q(35, "°C")),
            fermentables=(
                *harbour_porter.fermentables,
                Fermentable(
                    "Candy sugar", "sugar", kitchen.q(0.1, "kg"), When(Stage.FLAME_OUT, "f")
                ),
                Fermentable("Honey", "sugar", kitchen.q(0.2, "kg"), When(Stage.FERMENTER, "fv")),
            ),
            hops=(
                *harbour_porter.hops,
                Hop("Early", "whole", kitchen.q(0.05), kitchen.q(0.01, "kg"),
                    When(Stage.FIRST_WORT, "first wort")),
                Hop("Warm", "whole", kitchen.q(0.05), kitchen.q(0.01, "kg"),
                    When(Stage.STAND, "stand", 20.0, 85.0)),
                Hop("Warm later", "whole", kitchen.q(0.05), kitchen.q(0.01, "kg"),
                    When(Stage.STAND, "stand", 0.5, 85.0)),
                Hop("Cool", "whole", kitchen.q(0.05), kitchen.q(0.01, "kg"),
                    When(Stage.STAND, "stand", 10.0, 55.0)),
                Hop("Dry", "whole", kitchen.q(0.05), kitchen.q(0.02, "kg"),
                    When(Stage.DRY_HOP, "dry", days=3.0)),
            ),
            extras=(
                *harbour_porter.extras,
                Extra("Salts", amount=kitchen.q(1, "g"), when=When(Stage.STEEP, "steep")),
                Extra("Nutrient", amount=kitchen.q(1, "g"), when=When(Stage.FERMENTER, "fv")),
                Extra("Spice", amount=kitchen.q(1, "g"), when=When(Stage.FLAME_OUT, "f")),
            ),
        )
    )  # fmt: skip


SPANS = [
    ("heat water", "Heat the water"),
    ("steep", "Steep 25 min"),
    ("lift", "Lift the grain out"),
    ("heat to boil", "Heat to the boil"),
    ("extract in", "Burner off, extract in"),
    ("heat to boil", "Back to the boil"),
    ("boil", "Boil 60 min"),
    ("off the boil", "Extract in, off the boil"),
    ("kept hot", "Lid on, 10 min"),
    ("cool", "Cool to the stand"),
    ("stand", "Stand 20 min"),
    ("cool", "Cool to the stand"),
    ("stand", "Stand 10 min"),
    ("cool", "Cool"),
    ("move", "Into the fermenter"),
    ("top up", "Top up, mix, pitch"),
]
LENGTHS = {
    1: 25.0, 2: 5.0, 4: 3.0, 6: 60.0, 7: 1.0, 8: 10.0, 10: 20.0, 12: 10.0, 14: 10.0, 15: 10.0,
}  # fmt: skip


def test_the_stages_of_the_day_follow_each_other_without_a_gap(busy_day):
    spans = brew(busy_day).spans
    assert [(span.key, span.label.text) for span in spans] == SPANS
    for earlier, later in pairwise(spans):
        assert later.start_min == pytest.approx(earlier.end_min)
    for place, minutes in LENGTHS.items():
        assert spans[place].end_min - spans[place].start_min == pytest.approx(minutes)
    assert brew(busy_day).total_min == pytest.approx(spans[-1].end_min)


def test_everything_goes_in_at_its_stage_and_minute(busy_day):
    day = brew(busy_day)
    starts = {place: span.start_min for place, span in enumerate(day.spans)}
    boil_end = starts[6] + 60.0
    went_in = {each.name: each for each in day.additions}
    expected = {
        "Salts": ("extras", "steep", 0.0, None),
        "Medium crystal malt": ("fermentables", "steep", starts[1], None),
        "Early": ("hops", "first wort", starts[3], None),
        "Light liquid malt extract": ("fermentables", "extract in", starts[4], 60.0),
        "Challenger": ("hops", "boil", starts[6], 60.0),
        "Light dry malt extract": ("fermentables", "boil", boil_end - 15.0, 15.0),
        "Carrageenan finings": ("extras", "boil", boil_end - 5.0, 5.0),
        "East Kent Golding": ("hops", "flame-out", boil_end, None),
        "Candy sugar": ("fermentables", "flame-out", boil_end + 1.0, None),
        "Spice": ("extras", "flame-out", boil_end, None),
        "Warm": ("hops", "stand", starts[10], None),
        "Warm later": ("hops", "stand", starts[10] + 19.5, None),
        "Cool": ("hops", "stand", starts[12], None),
        "Honey": ("fermentables", "fermenter", starts[13], None),
        "Nutrient": ("extras", "fermenter", day.total_min, None),
        "Dry": ("hops", "dry hop", day.total_min, None),
    }
    assert set(went_in) == set(expected)
    for name, (lines, stage, minute, left) in expected.items():
        found = went_in[name]
        assert (found.lines, found.stage, found.boil_left_min) == (lines, stage, left), name
        assert found.time_min == pytest.approx(minute), name
        line = next(each for each in getattr(busy_day, lines) if each.name == name)
        assert found.line_id == line.line_id, name
    times = [each.time_min for each in day.additions]
    assert times == sorted(times)


def test_the_moments_of_the_time_line_are_those_of_its_stages(busy_day):
    day = brew(busy_day)
    seen = [moment.stage for moment in day.moments]
    in_order = [stage for stage, next_one in pairwise([*seen, ""]) if stage != next_one]
    assert in_order == [
        "fill", "heat water", "steep", "lift", "heat to boil", "extract in", "heat to boil", "boil",
        "flame-out", "kept hot", "cool", "stand", "cool", "stand", "cool", "move", "pitch",
    ]  # fmt: skip
    assert seen.count("heat water") == 4
    assert day.moments[0].temperature_c == 12.0
    pitch = day.moments[-1]
    assert pitch.fermenter_volume_l == pytest.approx(day.fermenter.batch_l)
    assert pitch.temperature_c == pytest.approx(day.fermenter.mixed_c)
    moved = next(moment for moment in day.moments if moment.stage == "move")
    poured = day.fermenter.from_pot_l + day.fermenter.hot_l
    honey = next(each for each in busy_day.fermentables if each.name == "Honey").amount.value / 1.4
    assert moved.fermenter_volume_l == pytest.approx(poured + honey, abs=0.03)
    assert max(moment.pot_volume_l for moment in day.moments) == pytest.approx(day.pot.fullest_l)
    fullest = max(day.moments, key=lambda moment: moment.pot_volume_l)
    assert fullest.stage == day.pot.fullest_at


def book(vessel):
    entries = [(flow.stage, flow.cause) for flow in vessel.flows]
    return [entry for entry, after in pairwise([*entries, ("", "")]) if entry != after]


def test_the_books_say_what_went_in_and_out(busy_day):
    _, run = run_day(busy_day, Nominal(), noting=True)
    stove = "stove, less losses"
    assert book(run.pot) == [
        ("fill", "water"),
        ("heat water", stove),
        ("steep", "grain"),
        ("steep", "extract from the grain"),
        ("steep", "stove holds the temperature"),
        ("lift", "grain and what it holds"),
        ("heat to boil", stove),
        ("extract in", "Light liquid malt extract"),
        ("heat to boil", stove),
        ("boil", "steam"),
        ("boil", stove),
        ("boil", "Light dry malt extract"),
        ("boil", stove),
        ("boil", "steam"),
        ("boil", stove),
        ("flame-out", "Candy sugar"),
        ("cool", "coolant"),
        ("move", "wort to the fermenter"),
    ]
    assert book(run.fermenter) == [
        ("move", "Honey"),
        ("move", "hot water"),
        ("move", "wort from the pot"),
        ("top up", "top-up water"),
        ("top up", "frozen top-up water"),
    ]


def test_grain_comes_and_goes_with_its_heat_and_leaves_its_extract(busy_day):
    """Source: conservation of mass and energy; malt at 0.40 of the heat of water."""
    _, run = run_day(busy_day, Nominal(), noting=True)
    flows = {flow.cause: flow for flow in run.pot.flows}
    dry, drawn, lifted = (
        flows[cause] for cause in ("grain", "extract from the grain", "grain and what it holds")
    )
    assert dry.grain_kg == pytest.approx(0.25)
    assert dry.heat_kj == pytest.approx(4.1868 * 0.40 * 0.25 * 20.0)
    assert drawn.grain_kg == -drawn.extract_kg < 0.0
    assert dry.grain_kg + drawn.grain_kg + lifted.grain_kg == pytest.approx(0.0, abs=1e-12)
    assert lifted.water_kg == pytest.approx(-0.25 * 0.998203, rel=1e-5)
    heat = 4.1868 * (lifted.water_kg + 0.40 * lifted.grain_kg) * 68.0
    assert lifted.heat_kj == pytest.approx(heat)


def test_steam_takes_its_heat_with_it(busy_day):
    """Source: heat of vaporisation, IAPWS-95."""
    day, run = run_day(busy_day, Nominal(), noting=True)
    steam = [flow for flow in run.pot.flows if flow.cause == "steam"]
    gone = sum(-flow.water_kg for flow in steam)
    assert day.pot.evaporated_l == pytest.approx(gone / 0.998203)
    each_kg = heat_of_vaporisation(100.4) + 4.1868 * 100.4
    assert sum(-flow.heat_kj for flow in steam) == pytest.approx(each_kg * gone, rel=1e-3)


def test_grain_never_drinks_the_pot_dry(harbour_porter, kitchen):
    grain = replace(harbour_porter.fermentables[2], amount=kitchen.q(20, "kg"))
    recipe = replace(harbour_porter, fermentables=(grain,))
    day, run = run_day(recipe, Nominal(), noting=True)
    assert day.steep.held_in_grain_l == pytest.approx(0.9 * day.pot.start_water_l)
    assert run.pot.water_kg >= 0.0


def test_a_day_with_notes_is_the_day_without(busy_day):
    noted = run_day(busy_day, Nominal(), noting=True)[0]
    quick = run_day(busy_day, Nominal(), noting=False)[0]
    for each in PREDICTIONS:
        # notes cut the cooling, whose Gauss points are good to one in a million
        assert each.compute(quick) == pytest.approx(each.compute(noted), rel=1e-5), each.key
    assert quick.total_min == pytest.approx(noted.total_min)
    assert quick.pot.evaporated_l == pytest.approx(noted.pot.evaporated_l)
    assert quick.fermenter.mixed_c == pytest.approx(noted.fermenter.mixed_c)


def stand_only(kitchen, minutes, temp_c, harbour_porter):
    hop = Hop("Warm", "whole", kitchen.q(0.05), kitchen.q(0.01, "kg"),
              When(Stage.STAND, "stand", minutes, temp_c))  # fmt: skip
    process = kitchen.quiet_process(start_water=kitchen.q(6, "L"))
    return with_line_ids(replace(harbour_porter, process=process, hops=(hop,), extras=()))


@pytest.mark.parametrize(("minutes", "temp_c"), [(20.0, 85.0), (0.5, 90.0), (30.0, 62.0)])
def test_a_stand_counts_on_the_slow_clock_of_its_temperature(
    minutes, temp_c, kitchen, harbour_porter
):
    """Tinseth's curve with its clock at the Arrhenius rate; cooling takes seconds here."""
    day = brew(stand_only(kitchen, minutes, temp_c, harbour_porter))
    clock = minutes * relative_rate(temp_c)
    utilisation = tinseth_bigness(day.pot.boil_gravity_end) * tinseth_time_factor(clock)
    expected = 1e6 * 0.01 * 0.05 * utilisation / day.fermenter.batch_l
    cooling = 1e6 * 0.01 * 0.05 / day.fermenter.batch_l * 0.0005
    assert day.beer.bitterness_ibu == pytest.approx(expected, abs=cooling + 0.005 * expected)


def test_a_cold_stand_counts_nothing(kitchen, harbour_porter):
    assert brew(stand_only(kitchen, 60.0, 55.0, harbour_porter)).beer.bitterness_ibu == 0.0


@pytest.mark.parametrize("method", ["Rager", "Garetz"])
def test_formulas_of_minutes_are_given_the_days_own(method, busy_day, kitchen):
    high = replace(
        busy_day,
        process=replace(busy_day.process, altitude=kitchen.q(800, "m")),
        methods=replace(busy_day.methods, bitterness=method),
        hops=(
            *busy_day.hops,
            replace(busy_day.hops[0], name="Long", when=kitchen.boil(90)),
            replace(busy_day.hops[0], name="Quarter", when=kitchen.boil(15)),
        ),
    )
    high = with_line_ids(high)
    day, run = run_day(high, Nominal(), noting=True)
    moved = day.fermenter.from_pot_l / (
        day.fermenter.from_pot_l + day.fermenter.lost_to_trub_l + day.fermenter.lost_to_hops_l
    )
    boil_sg = (day.pot.boil_gravity_start + day.pot.boil_gravity_end) / 2.0
    clock = [float(stretch.minutes) for stretch in run.clock.stretches]
    minutes = {"Challenger": 60.0, "Early": 60.0, "Long": 60.0, "Quarter": 15.0, "Dry": None}
    for hop in high.hops:
        given = minutes.get(hop.name, 0.0)
        found = day.gives[hop.line_id].bitterness_ibu
        if given is None:
            assert found == 0.0
            continue
        if hop.name not in minutes:
            given = sum(clock[run.hop_positions[hop.line_id] :])
        alpha = hop.alpha.value
        if method == "Rager":
            ibu = rager_ibu(hop.amount.value, alpha, given, boil_sg, day.fermenter.batch_l)
        else:
            pot_l = day.fermenter.from_pot_l / moved
            ibu = garetz_ibu(
                hop.amount.value,
                alpha,
                given,
                day.beer.original_gravity,
                day.fermenter.batch_l,
                pot_l,
                800.0,
            )
        # First wort hops count a tenth more than at the start of the boil; Preis & Mitter 1995.
        gains = 1.10 if hop.name == "Early" else 1.0
        assert found == pytest.approx(gains * moved * ibu, rel=1e-6), hop.name


def test_what_is_in_the_fermenter_holds_the_heat_that_came_with_it(busy_day):
    """Source: conservation of energy."""
    day, run = run_day(busy_day, Nominal(), noting=True)
    wort = run.fermenter
    assert enthalpy_kj(wort.extract_kg, wort.water_kg, day.fermenter.mixed_c) == pytest.approx(
        sum(flow.heat_kj for flow in wort.flows), rel=1e-9
    )


def test_what_the_lines_give_adds_up_to_the_beer(busy_day):
    """Source: conservation of mass; what goes into the fermenter leaves nothing in the pot."""
    day, run = run_day(busy_day, Nominal(), noting=True)
    gives = day.gives
    points = 1000.0 * (day.beer.original_gravity - 1.0)
    assert sum(line.points for line in gives.values()) == pytest.approx(points)
    assert sum(line.bitterness_ibu for line in gives.values()) == pytest.approx(
        day.beer.bitterness_ibu
    )
    honey, candy = (
        next(line for line in busy_day.fermentables if line.name == name)
        for name in ("Honey", "Candy sugar")
    )
    share = honey.amount.value / run.fermenter.extract_kg
    assert gives[honey.line_id].points == pytest.approx(points * share)
    moved = day.fermenter.from_pot_l / (
        day.fermenter.from_pot_l + day.fermenter.lost_to_trub_l + day.fermenter.lost_to_hops_l
    )
    assert gives[candy.line_id].points == pytest.approx(
        points * moved * candy.amount.value / run.fermenter.extract_kg
    )


def test_the_mark_after_the_boil_is_that_of_hot_wort(porter):
    """IAPWS-95 (reference library iapws): water takes 4.2 % more room at 100 °C than at 20 °C.

    Wort is mostly water and expands nearly as much.
    """
    from iapws import IAPWS95

    expansion = IAPWS95(T=293.15, P=0.101325).rho / IAPWS95(T=372.95, P=0.101325).rho
    day = brew(porter)
    assert day.boil_end_hot_l / day.pot.boil_end_l == pytest.approx(expansion, abs=0.006)
    assert day.boil_end_hot_l <= day.pot.fullest_l


def test_without_a_time_line_the_mark_is_that_at_20_degrees(porter):
    day, _ = run_day(porter, Nominal(), noting=False)
    assert not day.moments
    assert day.boil_end_hot_l == day.pot.boil_end_l
