"""The sheet of a planned recipe: it adds up to the recipe, and can be brewed from in its order."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise

import pytest

from designer.brewday.outlook import look_ahead
from designer.recipe.kinds import typed
from designer.recipe.plan import whole_recipe
from designer.recipe.quantity import Kind
from designer.sheet.blocks import Drawings, SideBySide, Table, plain_words
from designer.sheet.content import VARIANTS
from designer.sheet.html import sheet_html
from designer.sheet.plain import sheet_text
from designer.spoken_language import LANGUAGES

from . import plans

IN_KG, IN_L = {"kg": 1.0, "g": 0.001}, {"L": 1.0}


@pytest.fixture(params=plans.ALL)
def planned(request):
    return plans.ALL[request.param]()


def lists_of(sheet):
    (lists,) = [each for each in sheet.sections[0].blocks if isinstance(each, SideBySide)]
    return (*lists.left, *lists.right)


def step_saying(sheet, words):
    return next(step for step in sheet.steps if re.search(words, plain_words(step.do)))


def cautions(step):
    return " ".join(aside.text for aside in step.asides if aside.kind in ("care", "stop"))


def worth(text, units):
    """The value of an amount as it is printed."""
    figure, unit = re.fullmatch(r"([\d.]+) (\w+)", text).groups()
    return float(figure) * units[unit]


def in_the_text(text, head, units):
    """What is listed under a head in the text, by name: amount times boxes."""
    found = {}
    for part in re.findall(rf"{head}[^\n]*:\n((?:  \[ \].*\n)+)", text):
        for boxes, amount, name in re.findall(
            rf"  ((?:\[ \])+) (?:\w+: )?([\d.]+ (?:{'|'.join(units)})) ([^(\n]*\w)", part
        ):
            times = boxes.count("[") if head.startswith("Weigh") else 1
            found[name] = found.get(name, 0.0) + times * worth(amount, units)
    return found


def test_what_is_weighed_out_for_all_boils_adds_up_to_what_is_bought(planned, sheet_of):
    text = sheet_text(sheet_of(planned, ranges=False))
    bought, weighed = (in_the_text(text, head, IN_KG) for head in ("Buy", "Weigh"))
    wanted = {line.name: line.amount.value for line in planned.fermentables}
    wanted |= {f"{line.name}, pellets": line.amount.value for line in planned.hops}
    # each part is shown to the gram, of six parts the last gram may be missing
    assert {name: weighed[name] for name in wanted} == pytest.approx(wanted, rel=0.006)
    assert {name: bought[name] for name in wanted} == pytest.approx(wanted, rel=0.006)


def test_what_goes_in_at_the_steps_adds_up_to_the_recipe(planned, sheet_of):
    """Fermenters that differ have their own steps; of those that are alike one stands for all."""
    sheet = sheet_of(planned, ranges=False)
    whole = whole_recipe(planned)
    for name in ("fermentables", "hops"):
        on_sheet = sum(
            part.value * max(len(step.turns), 1)
            for step in sheet.steps
            for part in step.portions
            if part.lines == name
        )
        billed = sum(line.amount.value for line in getattr(whole, name))
        # each part is rounded to a tenth of a gram
        assert on_sheet == pytest.approx(billed, abs=5e-4)


def test_each_fermenter_gets_its_own_yeast_and_the_packets_add_up(planned, sheet_of):
    text = sheet_text(sheet_of(planned, ranges=False))
    bought = sum(
        int(each) for each in re.findall(r"\[ \] .*?(\d+) packets?\b", text.split("Clean")[0])
    )
    pitched = 0
    for line in re.findall(r".*At \d+ to \d+ °C add .*", text):
        count = int(re.search(r"(\d+) packets?\b", line)[1])
        pitched += count * max(line.count("[ ]"), 1)
    assert bought == pitched >= len(planned.fermenters)


def test_the_water_put_ready_is_what_goes_into_pots_and_fermenters(planned, sheet_of):
    sheet = sheet_of(planned, ranges=False)
    water = in_the_text(sheet_text(sheet), "Water", IN_L)
    days = look_ahead(planned, ranges=False).plan
    start = sum(each.recipe.process.start_water.value for each in days.boils)
    assert water["cold water for the pot"] == pytest.approx(start, abs=0.05)
    top_up = sum(each.top_up_l for each in days.fermenters)
    # each part is put ready to a tenth of a litre
    poured = water["water to top up with, boiled, kept cold and covered"]
    hot = water.get("water to boil in a kettle, for extract in the fermenter", 0.0)
    assert poured + hot == pytest.approx(top_up, abs=0.06 * len(days.fermenters) + 0.06)


def test_every_fermenter_is_topped_up_to_its_mark_and_read_and_pitched(planned, sheet_of):
    sheet = sheet_of(planned, ranges=False)
    count = len(planned.fermenters)
    topped = [each for each in sheet.steps if "Top up with cold water" in plain_words(each.do)]
    for number, each in enumerate(planned.fermenters, 1):
        mark = each.top_up_to.value
        assert any(
            f"to {mark:g} L" in plain_words(step.do)
            and (not step.turns or number in [turn.number for turn in step.turns] or count == 1)
            for step in topped
        )
    for words in ("Fill the sample jar", "At .* add .*", "airlock on"):
        steps = [
            each
            for each in sheet.steps
            if re.search(words, plain_words(each.do)) and "No yeast yet" not in plain_words(each.do)
        ]
        assert sum(max(len(each.turns), 1) for each in steps) == count


def test_yeast_goes_in_when_all_wort_is_in(planned, sheet_of):
    sheet = sheet_of(planned, ranges=False)
    days = look_ahead(planned, ranges=False).plan
    said = [plain_words(each.do) for each in sheet.steps]
    for words in ("siphon it through", "Top up with", "Stir hard", "Fill the sample jar"):
        assert any(words in each for each in said)
    last_into_one = len(days.fermenters) == 1
    if last_into_one:
        pitched = next(n for n, each in enumerate(said) if re.search("At .* add", each))
        poured = max(n for n, each in enumerate(said) if "siphon it through" in each)
        waits = [n for n, each in enumerate(said) if "No yeast yet" in each]
        assert len(waits) == len(days.boils) - 1
        assert poured < pitched
        assert all(n < pitched for n in waits)
        for n in waits:
            assert "never overnight" in cautions(sheet.steps[n]) or "fridge" in said[n]


def test_each_step_has_its_time_and_times_follow_each_other(planned, sheet_of):
    sheet = sheet_of(planned, ranges=False)
    for section in sheet.sections:
        timed = [each for each in section.steps if all(turn.when for turn in each.turns)]
        for before, after in pairwise(timed):
            pairs = list(zip(before.turns, after.turns, strict=False))
            if [each.number for each in before.turns] == [each.number for each in after.turns]:
                assert all(_minute(one.when) <= _minute(next_.when) for one, next_ in pairs)
    assert all(each.when == each.turns[0].when for each in sheet.steps if each.turns)


def _minute(when):
    clock = re.match(r"(\d\d):(\d\d)( next day)?", when)
    if clock is None:
        return int((re.search(r"\d+", when) or [0])[0])
    return int(clock[1]) * 60 + int(clock[2]) + (1440 if clock[3] else 0)


def test_alike_boils_are_told_once_with_two_boxes_times_and_blanks(sheet_of):
    sheet = sheet_of(plans.two_boils(), ranges=False)
    days = look_ahead(plans.two_boils(), ranges=False).plan
    boiling = step_saying(sheet, "set a timer")
    assert [turn.number for turn in boiling.turns] == [1, 2]
    first, second = (_minute(turn.when) for turn in boiling.turns)
    assert second - first == pytest.approx(days.boils[1].starts_min, abs=1.0)
    read = step_saying(sheet, "Fill the sample jar")
    assert read.readings[0].turns == (1, 2)
    text = sheet_text(sheet)
    assert "Do all of this twice" in text
    assert text.count("set a timer") == 1
    assert "Weigh this out twice" in text
    assert "1 ________ at ________ °C, 2 ________ at ________ °C" in text


def test_wort_shared_out_is_stirred_and_poured_by_turns(sheet_of):
    sheet = sheet_of(plans.two_buckets(), ranges=False)
    said = [plain_words(each.do) for each in sheet.steps]
    stirred = next(n for n, each in enumerate(said) if each.startswith("Stir the wort in the pot"))
    assert "by turns" in said[stirred + 1]
    assert "3.2 L into fermenter 1, 3.2 L into fermenter 2" in said[stirred + 1]
    assert len(sheet.steps[stirred + 1].readings) == 2


def test_pots_at_once_are_told_in_order_of_time_each_by_its_number(sheet_of):
    sheet = sheet_of(plans.two_pots(), ranges=False)
    (day,) = [each for each in sheet.sections if each.key == "brew"]
    minutes = [each.minutes for each in day.steps]
    assert minutes == sorted(minutes)
    timers = [each for each in day.steps if "set a timer" in plain_words(each.do)]
    assert {plain_words(each.do)[:6] for each in timers} == {"Pot 1:", "Pot 2:"}
    letters = [each.bag for each in day.steps if each.bag]
    assert len(letters) == len(set(letters)) == 8
    assert "Light the second pot 15 min later" in sheet_text(sheet)


def test_two_days_have_a_section_each_and_the_weeks_count_from_the_first(sheet_of):
    sheet = sheet_of(plans.unlike(), ranges=False)
    first, second = [each for each in sheet.sections if each.key.startswith("brew")]
    assert (first.title, second.title) == ("Boil 1", "Boil 2")
    assert second.lead.startswith("09:00 next day")
    assert second.steps[0].when == "09:00"
    assert second.steps[0].minutes == 1440.0
    assert [turn.when for turn in step_saying(sheet, "both readings").turns] == ["Day 14", "Day 15"]


def test_a_vessel_of_glass_among_others_is_never_poured_into_hot(sheet_of):
    sheet = sheet_of(plans.three_ways(), ranges=False)
    poured = step_saying(sheet, "by turns")
    assert "Stop" not in plain_words(poured.do)
    assert "Glass cracks" in cautions(poured)
    assert step_saying(sheet, "Stand the pot").readings[0].forecast == "30 °C"
    recipe = plans.three_ways()
    hot = replace(recipe.process, cool_to=typed(Kind.TEMPERATURE, 45.0))
    stopped = step_saying(sheet_of(replace(recipe, process=hot), ranges=False), "by turns")
    assert "Stop: at 45 °C it must not go into glass" in plain_words(stopped.do)
    assert "Stop: Wort at 45 °C goes into glass" in cautions(stopped)
    sanitised = step_saying(sheet, "Sanitise")
    assert {"bucket", "carboy"} <= set(re.findall(r"\w+", plain_words(sanitised.do)))


def test_dry_hops_are_weighed_out_for_each_fermenter_by_its_share(sheet_of):
    text = sheet_text(sheet_of(plans.three_ways(), ranges=False))
    assert re.search(r"Weigh out for fermenter 1:\n  \[ \] E: 20 g East Kent Golding", text)
    assert re.search(r"2 \[ \] 3 \[ \] Day 10: F: Fermenter 2, 3: Put 10 g East Kent", text)


def test_every_vessel_is_drawn_with_its_mark(planned, sheet_of):
    sheet = sheet_of(planned, ranges=False)
    drawn = " ".join(
        each.says
        for section in sheet.sections
        for block in section.blocks
        if isinstance(block, Drawings)
        for each in block.drawings
    )
    for number, each in enumerate(planned.fermenters, 1):
        name = rf"Fermenter ({number}|1–6):" if len(planned.fermenters) > 1 else "Fermenter:"
        assert re.search(rf"{name} topped up {each.top_up_to.value:g} L", drawn)


def test_priming_sugar_is_weighed_for_each_fermenter(planned, sheet_of):
    text = sheet_text(sheet_of(planned, ranges=False))
    whole = float(re.search(r"\[ \] (\d+) g table sugar for the bottles", text)[1])
    parts = 0.0
    for line in re.findall(r".*Boil \d+ g table sugar.*", text):
        parts += max(line.count("[ ]"), 1) * float(re.search(r"Boil (\d+) g", line)[1])
    assert parts == pytest.approx(whole, abs=0.6 * len(planned.fermenters) + 0.6)


@pytest.mark.parametrize("variant", VARIANTS)
@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("units", ["metric", "us", "both"])
def test_any_plan_can_be_said_in_any_language_and_units(
    planned, sheet_of, variant, language, units
):
    sheet = sheet_of(planned, units, ranges=False, variant=variant, language=language)
    text, page = sheet_text(sheet), sheet_html(sheet)
    assert page.count('<li class="step">') == len(sheet.steps)
    for step in sheet.steps:
        assert plain_words(step.do) in text
    assert sum(isinstance(b, Table) for s in sheet.sections for b in s.blocks) == 1


@pytest.mark.parametrize("variant", VARIANTS)
@pytest.mark.parametrize("number", [1, 2])
def test_a_stop_of_one_boil_stands_at_its_step_and_says_whose_it_is(sheet_of, variant, number):
    recipe = plans.unlike()
    over = replace(recipe.boils[number - 1], start_water=typed(Kind.VOLUME, 9.5))
    boils = (over, recipe.boils[1]) if number == 1 else (recipe.boils[0], over)
    recipe = replace(recipe, boils=boils)
    sheet = sheet_of(recipe, ranges=False, variant=variant)
    stopped = [
        (section.title, plain_words(step.do))
        for section in sheet.sections
        for step in section.steps
        if any(aside.kind == "stop" for aside in step.asides)
    ]
    assert [title for title, _ in stopped] == [f"Boil {number}"]
    assert "cold water" in stopped[0][1]
    if variant == "full":
        assert re.search(rf"!! Boil {number}: .*(9.5 L|pot)", sheet_text(sheet))


@pytest.mark.parametrize("variant", VARIANTS)
def test_a_fermenter_that_overflows_is_stopped_at_its_own_top_up(sheet_of, variant):
    recipe = plans.two_buckets()
    first, second = recipe.fermenters
    over = replace(second, top_up_to=typed(Kind.VOLUME, 13.0))
    sheet = sheet_of(replace(recipe, fermenters=(first, over)), ranges=False, variant=variant)
    (stopped,) = [each for each in sheet.steps if any(a.kind == "stop" for a in each.asides)]
    assert plain_words(stopped.do).startswith("Fermenter 2: Top up with cold water to 13 L")
    assert [turn.number for turn in stopped.turns] == [2]


@pytest.mark.parametrize("variant", VARIANTS)
def test_bottles_that_would_burst_get_no_sugar_for_any_fermenter(sheet_of, variant):
    recipe = plans.two_boils()
    weak = replace(
        recipe.process, bottle="one-way or unknown glass",
        carbonation=typed(Kind.CARBONATION, 4.0),
    )  # fmt: skip
    text = sheet_text(sheet_of(replace(recipe, process=weak), ranges=False, variant=variant))
    assert not re.search(r"\d\s*g (table sugar|dextrose)", text)
    assert "Stop: Bottles: one-way or unknown glass" in text


def test_yeast_of_which_no_amount_is_given_is_bought_for_each_fermenter(sheet_of):
    recipe = plans.two_boils()
    bare = replace(recipe, yeast=replace(recipe.yeast, amount=None))
    bare = replace(bare, fermenters=tuple(replace(each, yeast=None) for each in bare.fermenters))
    text = sheet_text(sheet_of(bare, ranges=False))
    assert re.search(r"\[ \] 2 × [\d.]+ g to [\d.]+ g Kit ale yeast, unnamed \(2 packets\)", text)


def test_two_amounts_of_one_yeast_are_both_bought(sheet_of):
    recipe = plans.two_boils()
    first, second = recipe.fermenters
    more = replace(recipe.yeast, amount=typed(Kind.DOSE, 2.0, unit="packet"))
    fermenters = (first, replace(second, yeast=more))
    text = sheet_text(sheet_of(replace(recipe, fermenters=fermenters), ranges=False))
    assert "10 g Kit ale yeast, unnamed (1 packet)" in text
    assert "2 packets Kit ale yeast, unnamed" in text


@pytest.mark.parametrize(
    ("name", "says"),
    [
        ("two buckets", "numbered with tape: Kitchen pot; Fermenter 1–2: Small bucket"),
        ("two pots at once", "Pot 1: Kitchen pot; Pot 2: 7 L pot; 25 L fermenter"),
        ("two boils into one", "all of them: Kitchen pot; 25 L fermenter"),
    ],
)
def test_what_is_told_by_its_number_is_numbered_the_day_before(sheet_of, name, says):
    text = sheet_text(sheet_of(plans.ALL[name](), ranges=False))
    assert says in text.split("Weigh")[0]
