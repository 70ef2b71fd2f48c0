"""The forecast of a planned recipe on Compose, what differs from it, aiming and findings."""

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt

from designer.library.recipe_file import load
from designer.recipe.document import PlannedBoil, PlannedFermenter, WortShare
from designer.recipe.kinds import typed
from designer.recipe.message import say
from designer.recipe.plan import AS_WRITTEN, planning
from designer.recipe.quantity import Kind
from designer.resource_files import resource_path

USE = say("use", "use a way")


def litres(value):
    return typed(Kind.VOLUME, value)


@pytest.fixture
def red(window):
    red = load(resource_path("examples/breakwater_red.hobwort"))
    free = tuple(replace(line, locked=False) for line in red.fermentables)
    hops = tuple(replace(line, locked=False, alpha=line.alpha) for line in red.hops)
    window.opened.replace_by(replace(red, fermentables=free, hops=hops), None)
    return window.opened.recipe


@pytest.fixture
def plan(qtbot, window, red):
    """Let the red be brewed in boils and buckets filled to marks, each of its own boil."""

    def brew(*boils, marks=(10.0, 10.0), into=((1,), (2,))):
        half = PlannedBoil(red.pot, typed(Kind.FRACTION, 0.5), start_water=litres(6.3))
        made = tuple(replace(half, **each) for each in boils or ({}, {}))
        buckets = tuple(
            PlannedFermenter(red.fermenter, tuple(map(WortShare, of)), top_up_to=litres(mark))
            for mark, of in zip(marks, into, strict=True)
        )
        with qtbot.waitSignal(window.opened.outlook_changed):
            window.opened.make(planning(made, buckets, USE))
        return window.compose

    return brew


def row(page, key):
    return next(each for each in page.forecast.rows if each.key == key)


def test_the_forecast_is_that_of_the_plan_and_what_is_written_is_told_where_it_differs(
    window, red, plan
):
    as_written = window.opened.newest_outlook().forecasts["original_gravity"].value
    page = plan(marks=(9.0, 9.0))
    whole = window.opened.outlook.forecasts["original_gravity"].value
    assert row(page, "original_gravity").found.value == whole
    told = page.forecast.beers.text().splitlines()
    assert told[0].startswith(f"As written: OG {as_written:.3f}")
    assert len(told) == 1
    window.opened.make(AS_WRITTEN)
    window.opened.newest_outlook()
    assert page.forecast.beers.isHidden()
    assert row(page, "original_gravity").found.value == pytest.approx(as_written)


def test_buckets_that_differ_are_told_each(window, plan):
    page = plan(marks=(10.0, 8.0))
    found = window.opened.outlook.plan.fermenters
    told = page.forecast.beers.text()
    for each in found:
        gravity = each.forecasts["original_gravity"].value
        assert f"Fermenter {each.number}: OG {gravity:.3f}" in told
    assert "by itself" not in told


def test_boils_that_are_mixed_in_one_bucket_are_told_by_themselves(window, red, plan):
    strong = {"share": typed(Kind.FRACTION, 0.7)}
    weak = {"share": typed(Kind.FRACTION, 0.3)}
    page = plan(strong, weak, marks=(11.0,), into=((1, 2),))
    told = page.forecast.beers.text()
    boils = window.opened.outlook.plan.boils
    assert any(f"Boil {each.number} by itself: " in told for each in boils)


def test_making_it_brings_the_beer_of_the_plan_there(qtbot, window, red, plan):
    page = plan()
    qtbot.mouseClick(row(page, "original_gravity"), Qt.MouseButton.LeftButton)
    behind = page.forecast.behind
    behind.wanted.setText("1.050")
    behind.by.setCurrentText("Amber dry malt extract")
    behind.make_it()
    whole = window.opened.newest_outlook().forecasts["original_gravity"].value
    assert whole == pytest.approx(1.050, abs=3e-4)
    assert window.opened.undo_stack.count() == 2


def test_where_boils_have_amounts_of_their_own_making_it_is_off_and_says_why(
    qtbot, window, red, plan
):
    own = {"hops": tuple(replace(each, amount=typed(Kind.MASS, 0.01)) for each in red.hops)}
    page = plan(own, own)
    qtbot.mouseClick(row(page, "bitterness_ibu"), Qt.MouseButton.LeftButton)
    behind = page.forecast.behind
    assert not behind.press.isEnabled()
    assert not behind.wanted.isEnabled()
    assert behind.answer.isVisible()
    assert behind.answer.text().startswith("The boils of the plan have amounts of their own.")
    with qtbot.waitSignal(window.opened.outlook_changed):
        window.opened.make(AS_WRITTEN)
    assert behind.press.isEnabled()
    assert behind.answer.isHidden()


def test_a_finding_about_a_bucket_has_a_way_to_it_and_no_cure(qtbot, window, plan):
    page = plan(marks=(10.0, 11.5))
    cards = [
        each
        for each in page.watch_out.cards
        if each.isVisibleTo(page) and each.where is not None and "ferment" in each.where.text()
    ]
    (card,) = [each for each in cards if each.where.text() == "Show fermenter 2"][:1]
    assert card.cure.isHidden()
    assert card.where.accessibleName().startswith("Show fermenter 2, of which is said: ")
    qtbot.mouseClick(card.where, Qt.MouseButton.LeftButton)
    assert (page.worked_on.boil, page.worked_on.fermenter) == (2, 2)
    assert page.process.by_place["process.top_up_to"].text() == "11.5 L"


def test_without_a_plan_no_finding_leads_to_a_boil(window, red):
    window.opened.newest_outlook()
    assert all(card.where is None for card in window.compose.watch_out.cards)


def test_lines_pasted_while_a_boil_is_shown_go_into_that_boil(qtbot, window, plan):
    from PySide6.QtWidgets import QApplication

    page = plan()
    page.worked_on.choose_boil(2)
    QApplication.clipboard().setText("12 g Saaz 10 min")
    page.hops.view.paste_lines()
    boils = window.opened.recipe.boils
    assert boils[0].hops is None
    assert [line.name for line in boils[1].hops] == ["Fuggle", "Saaz"]


def test_another_hop_in_its_place_holds_the_bitterness_of_the_boil(window, plan):
    page = plan()
    page.worked_on.choose_boil(1)
    panel = page.hops
    panel.view.setCurrentIndex(panel.view.model().index(0, 0))
    panel.more_button.setChecked(True)
    before = window.opened.outlook.plan.boils[0].forecasts["bitterness_ibu"].value
    panel.details._instead.setText("Saaz")
    panel.details.put_instead()
    recipe = window.opened.recipe
    assert [line.name for line in recipe.boils[0].hops] == ["Saaz"]
    assert recipe.hops[0].name == "Fuggle"
    after = window.opened.newest_outlook().plan.boils[0].forecasts["bitterness_ibu"].value
    assert after == pytest.approx(before, abs=0.5)
