"""What a piece of advice says, by how much is off and by how many changes it takes."""

import pytest

from designer.brewday.measured.advice_words import button, more_extract, reason_of, title_of
from designer.brewday.results import Range
from designer.recipe.message import say

PLAN = {
    "original_gravity": 1.046,
    "final_gravity": 1.012,
    "abv_percent": 4.5,
    "bitterness_ibu": 30.0,
    "colour_srm": 20.0,
}


class Pull:
    """A lever of a test: it is said by its name and its steps."""

    def __init__(self, name):
        self.name = name

    def use(self, steps):
        return say("use", f"{self.name} by {steps}")

    def keep(self, steps):
        return say("keep", f"leave {self.name} of {steps}")


def around(**changed):
    return {key: Range(value, value, value) for key, value in {**PLAN, **changed}.items()}


def reason(now, after, off, extract_kg=0.0):
    def is_off(key, value, plan):
        return key in off and value != plan[key].value

    found = reason_of(around(), around(**now), {**PLAN, **after}, tuple(PLAN), is_off, extract_kg)
    return found.text


def test_several_changes_are_told_in_a_row():
    one, two, three = (say(each, each) for each in ("Boil on", "Stir it", "Cool it"))
    assert title_of([one]) is one
    assert title_of([one, two, three]).text == "Boil on. Stir it. Cool it"


@pytest.mark.parametrize(
    ("names", "takes", "leaves"),
    [
        (["water"], "water by 1", "leave water of 1"),
        (["water", "hops"], "Do both", "Keep the plan"),
        (["water", "hops", "ice"], "Do all", "Keep the plan"),
    ],
)
def test_the_buttons_tell_one_change_by_itself_and_more_together(names, takes, leaves):
    found = button([(Pull(each), steps) for steps, each in enumerate(names, 1)])
    assert [each.text for each in found] == [takes, leaves]


def test_more_extract_and_less_are_told_in_steps_of_ten_grams():
    assert "some 120 g more" in more_extract(0.123).text
    assert "some 120 g less" in more_extract(-0.123).text


def test_what_follows_from_the_strength_is_not_told_beside_it():
    now = {"original_gravity": 1.050, "final_gravity": 1.013, "bitterness_ibu": 33.0}
    text = reason(now, {}, {"original_gravity", "final_gravity", "bitterness_ibu"})
    assert "1.050, planned 1.046" in text
    assert "33" in text
    assert "1.013" not in text
    alone = reason({"abv_percent": 5.0}, {}, {"abv_percent"})
    assert "5.0" in alone
    assert "4.5" in alone
    assert "1.046" not in alone


def test_where_nothing_counts_as_off_the_strength_is_told():
    assert "1.047, planned 1.046" in reason({"original_gravity": 1.047}, {}, set())


def test_extract_is_the_reason_only_where_it_goes_the_same_way_and_is_two_spoons():
    strong, weak = {"original_gravity": 1.050}, {"original_gravity": 1.042}
    off = {"original_gravity"}
    assert "100 g more extract" in reason(strong, {}, off, 0.1)
    assert "100 g less extract" in reason(weak, {}, off, -0.1)
    for now, kg in ((strong, -0.1), (weak, 0.1), (strong, 0.019), (weak, 0.0)):
        assert "extract" not in reason(now, {}, off, kg)
    assert "20 g more" in reason(strong, {}, off, 0.02)
    assert "extract" not in reason({"bitterness_ibu": 33.0}, {}, {"bitterness_ibu"}, 0.1)


def test_what_is_led_away_from_the_plan_gives_way():
    off = {"original_gravity", "bitterness_ibu"}
    strong = {"original_gravity": 1.050, "bitterness_ibu": 30.0}
    assert "gives way" in reason(strong, {"bitterness_ibu": 27.0}, off)
    assert "27" in reason(strong, {"bitterness_ibu": 27.0}, off)
    for better in (30.0, 30.01):
        assert "gives way" not in reason(strong, {"bitterness_ibu": better}, off)
    was_off = {"original_gravity": 1.050, "bitterness_ibu": 34.0}
    assert "gives way" not in reason(was_off, {"bitterness_ibu": 32.0}, off)
    assert "gives way" not in reason(was_off, {"bitterness_ibu": 26.0}, off)  # as far as it was
    assert "gives way" in reason(was_off, {"bitterness_ibu": 25.0}, off)
