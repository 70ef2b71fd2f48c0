"""The brew day at the stove: the sheet's own steps, each once for every box, in order of time."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from designer import translation
from designer.brewday.measured.expecting import expected
from designer.brewday.measured.readings import Measured
from designer.brewday.outlook import look_ahead
from designer.po_file import PoCatalogue
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind, Stage, When
from designer.sheet.blocks import plain_words
from designer.sheet.language import language
from designer.sheet.stove import ASIDES, stove_steps
from designer.spoken_language import LANGUAGES
from designer.units import ShownUnits

from . import plans
from .conftest import EXAMPLES
from .test_any_plan import planned_recipes

ALL = {**plans.ALL, **{name: lambda name=name: plans.example(name) for name in EXAMPLES}}

many = settings(
    max_examples=25,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.function_scoped_fixture],
)


@pytest.fixture(params=ALL)
def brewed(request):
    """A recipe and what is said of it."""
    recipe = ALL[request.param]()
    return recipe, look_ahead(recipe, ranges=False)


def at_stove(recipe, outlook, units="metric", language="en"):
    return stove_steps(
        recipe, outlook, shown=ShownUnits(units), start=None, brew_date=None, language=language
    )


def brew_day(sheet):
    """The steps of the sheet's brew days."""
    return [
        step
        for section in sheet.sections
        if section.key.split("-")[0] == "brew"
        for step in section.steps
    ]


def boxes(step):
    return max(len(step.turns), 1)


def test_every_box_of_the_sheet_is_one_step_with_its_letter_its_time_and_what_goes_in(
    brewed, sheet_of
):
    recipe, outlook = brewed
    printed = Counter()
    for step in brew_day(sheet_of(recipe, outlook=outlook)):
        whens = [turn.when for turn in step.turns] or [step.when]
        printed.update((when, step.left, step.bag, step.portions) for when in whens)
    told = Counter(
        (each.when, each.left, each.mark if each.portions and each.mark.isalpha() else "",
         each.portions)
        for each in at_stove(recipe, outlook)
    )  # fmt: skip
    more = told - printed
    assert not printed - told
    # Only the start of the boil is told with something else on paper.
    starts = [each for each in at_stove(recipe, outlook) if each.kind == "boils"]
    assert sum(more.values()) <= len(starts)
    assert all((each.when, each.left, "", ()) in told for each in starts)
    assert set(more) <= {(each.when, each.left, "", ()) for each in starts}


def test_every_word_of_the_sheets_steps_is_said_at_the_stove(brewed, sheet_of):
    recipe, outlook = brewed
    steps = at_stove(recipe, outlook)
    said = Counter(plain_words(each.do) for each in steps)
    for step in brew_day(sheet_of(recipe, outlook=outlook)):
        text = plain_words(step.do)
        parts = [do for do in said if do and text.endswith(do)]
        assert parts, text
        whole = max(parts, key=len)
        rest = text.removesuffix(whole).strip()
        assert not rest or rest in said or rest.endswith(":"), rest


def test_steps_are_in_order_of_time_and_end_with_a_closed_fermenter(brewed):
    steps = at_stove(*brewed)
    minutes = [round(each.minutes, 6) for each in steps]
    assert minutes == sorted(minutes)
    assert steps[0].kind == "fill"
    assert steps[-1].kind == "close"


def test_each_boil_starts_its_clock_once_and_additions_follow_it(brewed):
    recipe, outlook = brewed
    steps = at_stove(recipe, outlook)
    boils = 1 if outlook.plan is None else len(outlook.plan.boils)
    for boil in range(1, boils + 1):
        own = [each for each in steps if each.boil == boil]
        (start,) = [each for each in own if each.starts and each.starts.name == "boil"]
        assert start.kind == "boils"
        assert start.starts.boil == boil
        for each in own:
            if each.left_min is not None:
                passed = start.starts.minutes - each.left_min
                assert each.minutes - start.minutes == pytest.approx(passed, abs=1e-6)


def test_what_comes_before_another_boil_is_done_before_its_pot_is_filled():
    recipe = plans.two_boils()
    steps = [each.key for each in at_stove(recipe, look_ahead(recipe, ranges=False))]
    at = steps.index("boil 2/fill")
    assert steps[at - 2 : at] == ["fermenter 1/close", "boil 1/rinse"]


def test_keys_are_unique_and_the_same_in_any_language_and_units(brewed):
    found = {
        tuple((each.key, each.kind, each.boil, each.fermenter) for each in at_stove(*brewed, *how))
        for how in [(units, code) for units in ("metric", "us") for code in LANGUAGES]
    }
    (keys,) = found
    assert len({key for key, *_ in keys}) == len(keys)


def test_every_blank_of_the_sheet_is_at_its_step_with_the_same_forecast(brewed, sheet_of):
    recipe, outlook = brewed
    printed = Counter()
    for step in brew_day(sheet_of(recipe, outlook=outlook)):
        for reading in step.readings:
            printed[reading.forecast] += len(reading.turns) or 1
    told = Counter(blank.forecast for each in at_stove(recipe, outlook) for blank in each.blanks)
    assert not printed - told


def test_what_must_not_be_missed_stands_first_beside_a_step(brewed):
    for each in at_stove(*brewed):
        order = [ASIDES.index(aside.kind) for aside in each.asides]
        assert order == sorted(order)


def test_who_brews_alone_is_told_at_the_second_pot_to_light_it_later():
    recipe = plans.two_pots()
    said = {
        each.key: [aside.text for aside in each.asides]
        for each in at_stove(recipe, look_ahead(recipe, ranges=False))
        if each.kind == "fill"
    }
    assert any(text.startswith("Alone? Light the second pot") for text in said["boil 2/fill"])
    assert not any(text.startswith("Alone?") for text in said["boil 1/fill"])


def test_the_blanks_of_a_plain_day_hold_its_figures(example):
    recipe = example("harbour_lamp_porter")
    outlook = look_ahead(recipe, ranges=False)
    day = outlook.day
    blanks = [blank for each in at_stove(recipe, outlook) for blank in each.blanks]
    found = {blank.what: blank.value for blank in blanks}
    assert len(found) == len(blanks)
    boiling = next(each for each in day.moments if each.stage == "boil")
    assert found == {
        Measured.WATER_IN: recipe.process.start_water.value,
        Measured.STRIKE: day.steep.strike_c,
        Measured.STEEP: day.steep.steeped_c,
        Measured.BOIL_START_VOLUME: boiling.pot_volume_l,
        Measured.BOIL_START_GRAVITY: day.pot.boil_gravity_start,
        Measured.BOIL_END_VOLUME: day.boil_end_hot_l,
        Measured.BOIL_END_GRAVITY: day.pot.boil_gravity_end,
        Measured.COOLED: day.fermenter.cool_to_c,
        Measured.INTO_FERMENTER: day.fermenter.from_pot_l,
        Measured.TOPPED_UP: day.fermenter.batch_l,
        Measured.MIXED: day.fermenter.mixed_c,
        Measured.ORIGINAL_GRAVITY: day.beer.original_gravity,
    }


def planned_value(days, blank):
    """The figure of the day that a blank of a plan is to hold."""
    boil, vessel = days.boils[blank.boil - 1], days.fermenters[blank.fermenter - 1]
    pot, tank, day = boil.day.pot, vessel.day.fermenter, boil.day
    (poured,) = [each for each in vessel.poured if each.boil == blank.boil] or [None]
    before = [each for each in vessel.poured if each.boil <= blank.boil]
    is_last = poured is None or len(before) == len(vessel.poured)
    return {
        Measured.WATER_IN: lambda: boil.recipe.process.start_water.value,
        Measured.STRIKE: lambda: day.steep.strike_c,
        Measured.STEEP: lambda: day.steep.steeped_c,
        Measured.BOIL_START_VOLUME: lambda: next(
            each.pot_volume_l for each in day.moments if each.stage == "boil"
        ),
        Measured.BOIL_START_GRAVITY: lambda: pot.boil_gravity_start,
        Measured.BOIL_END_VOLUME: lambda: day.boil_end_hot_l,
        Measured.BOIL_END_GRAVITY: lambda: pot.boil_gravity_end,
        Measured.COOLED: lambda: day.fermenter.cool_to_c,
        Measured.INTO_FERMENTER: lambda: poured.from_pot_l,
        Measured.TOPPED_UP: lambda: (
            tank.batch_l if is_last else sum(each.filled_l for each in before)
        ),
        Measured.MIXED: lambda: tank.mixed_c,
        Measured.ORIGINAL_GRAVITY: lambda: vessel.day.beer.original_gravity,
    }[blank.what]()


@pytest.mark.parametrize("name", [*plans.FOUND, "unlike, on two days", "two days into one"])
def test_the_blanks_of_a_plan_hold_the_figures_of_their_boil_and_fermenter(name):
    recipe = plans.ALL[name]()
    outlook = look_ahead(recipe, ranges=False)
    for each in at_stove(recipe, outlook):
        for blank in each.blanks:
            if blank.what is Measured.TOPPED_UP and name == "two pots at once":
                continue  # the wort that is ready first is not topped up
            wanted = float(planned_value(outlook.plan, blank))
            assert blank.value == pytest.approx(wanted, rel=1e-9), (each.key, blank.what)


def test_what_is_expected_at_a_blank_is_what_stands_beside_it(brewed):
    """Of warm wort a little more: its marks are read as it is."""
    recipe, outlook = brewed
    for each in at_stove(recipe, outlook):
        for blank in each.blanks:
            found = expected(outlook, blank).value
            near = 0.01 if blank.kind is Kind.VOLUME else 1e-6
            assert found == pytest.approx(blank.value, rel=near), (each.key, blank.what)


def test_keys_last_when_amounts_times_and_names_change(example):
    recipe = example("harbour_lamp_porter")
    keys = {each.key for each in at_stove(recipe, look_ahead(recipe, ranges=False))}
    first, *others = recipe.hops
    later = When(Stage.BOIL, "45 min", 45.0)
    changed = replace(
        recipe,
        name="Another",
        hops=(replace(first, name="Fuggle", when=later), *others),
        fermentables=tuple(
            replace(each, amount=typed(Kind.MASS, 1.1 * each.amount.value))
            for each in recipe.fermentables
        ),
        process=replace(recipe.process, steep_time=typed(Kind.TIME, 35.0)),
    )
    found = {each.key for each in at_stove(changed, look_ahead(changed, ranges=False), "us", "fr")}
    assert found == keys


def test_what_goes_in_may_be_weighed_and_a_hop_has_the_alpha_acid_of_its_packet(example):
    recipe = example("harbour_lamp_porter")
    unknown = replace(recipe.hops[1], alpha=None)
    recipe = replace(recipe, hops=(recipe.hops[0], unknown))
    found = {
        (blank.what, blank.lines, blank.line_id): (each.title, blank.forecast, blank.value)
        for each in at_stove(recipe, look_ahead(recipe, ranges=False))
        for blank in each.portion_blanks
    }
    challenger, golding = recipe.hops
    title = "18 g Challenger, pellets"
    assert found[Measured.WEIGHT, "hops", challenger.line_id] == (
        title,
        "18 g",
        challenger.amount.value,
    )
    alpha = challenger.alpha.value
    assert found[Measured.ALPHA, "hops", challenger.line_id] == (title, "7.2 %", alpha)
    title = "20 g East Kent Golding, pellets"
    assert found[Measured.ALPHA, "hops", golding.line_id] == (title, "", 0.0)
    weighed = {key[1:] for key in found if key[0] is Measured.WEIGHT}
    assert weighed == {
        (lines, each.line_id)
        for lines in ("fermentables", "hops")
        for each in getattr(recipe, lines)
    }


def test_amount_and_name_are_what_is_read_from_afar(example):
    recipe = example("harbour_lamp_porter")
    read = {
        each.title: (each.mark, each.amount, each.name)
        for each in at_stove(recipe, look_ahead(recipe, ranges=False))
    }
    assert read["400 g Light dry malt extract"] == ("D", "400 g", "Light dry malt extract")
    assert read["Cool to 40 °C"] == ("13", "40 °C", "Cool the wort")
    assert read["Top up to 10 L"] == ("15", "10 L", "Top up with cold water")
    grain = "200 g Crystal malt 60 °L, 150 g Chocolate malt"
    assert read[grain] == ("A", "A", grain)


@many
@given(data=st.data())
def test_any_recipe_can_be_brewed_step_by_step(any_recipe, data):
    recipe = data.draw(planned_recipes(any_recipe(most=3)))
    units = data.draw(st.sampled_from(["metric", "us", "both"]))
    steps = at_stove(
        recipe, look_ahead(recipe, ranges=False), units, data.draw(st.sampled_from(list(LANGUAGES)))
    )
    assert len({each.key for each in steps}) == len(steps)
    assert all(each.title and each.name and each.do for each in steps)


def test_a_brew_day_goes_on_in_english_where_the_words_of_the_program_s_language_are_gone(
    monkeypatch,
):
    def no_words(name):
        raise FileNotFoundError(2, "No such file or directory", f"translations/{name}.po")

    recipe = plans.example(EXAMPLES[0])
    outlook = look_ahead(recipe, ranges=False)
    how = {"shown": ShownUnits.METRIC, "start": None, "brew_date": None}
    english = stove_steps(recipe, outlook, **how)
    monkeypatch.setattr("designer.sheet.language.catalogue_of", no_words)
    language.cache_clear()
    translation.use(PoCatalogue(), "de", PoCatalogue())
    assert [each.title for each in stove_steps(recipe, outlook, **how)] == [
        each.title for each in english
    ]
    language.cache_clear()
