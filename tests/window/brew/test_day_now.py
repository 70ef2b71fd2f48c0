"""The day line of the page: now, the letters, and the curves as the day goes."""

import re
from datetime import datetime

import pytest

from designer.units import ShownUnits
from designer.window.brew import day_now
from tests.pictures_taken import texts_of


@pytest.fixture
def written(monkeypatch, page):
    texts = []
    draw = day_now.QPainter.drawText

    def seen(self, *args):
        texts.extend(each for each in args if isinstance(each, str))
        return draw(self, *args)

    monkeypatch.setattr(day_now.QPainter, "drawText", seen)

    def look():
        texts.clear()
        page.day.grab()
        return list(texts)

    return look


def test_before_the_day_begins_it_is_drawn_as_planned_without_now(page, written):
    said = written()
    assert {"A", "B", "C", "D", "E", "F", "09:00"} <= set(said)
    assert not any(each.startswith("now") for each in said)


def test_now_moves_with_the_minutes_and_the_day_grows_when_one_is_late(qtbot, page, clock, written):
    page.do()
    qtbot.waitUntil(lambda: page.day.now_min is not None)
    began = page.day.now_min
    ends = page.day.line.real[-1].end_min
    assert abs(began) < 1e-6
    clock.go_on(45 * 60)
    page._tick()
    qtbot.waitUntil(lambda: abs(page.day.now_min - 45.0) < 1e-6)
    assert abs(page.day.line.real[-1].end_min - (ends + 45.0)) < 0.1
    assert abs(page.day.line.planned[-1].end_min - ends) < 0.1
    assert any(each.startswith("now ") for each in written())


def test_now_does_not_lie_over_the_scale_when_the_day_begins(qtbot, page):
    page.do()
    qtbot.waitUntil(lambda: page.day.now_min is not None)
    assert page.day.now_min < 0.01
    box = page.day._now_box()
    assert box.left() >= page.day.scale.plot.left() - 1
    assert box.contains(page.day.scale.x(page.day.now_min), box.center().y())


def test_now_and_the_axis_are_told_by_the_clock_of_the_kitchen(qtbot, page, clock, written):
    clock.go_on(60.0 - clock.now().wall % 60.0 + 50.0)  # a brew begun late in its minute
    page.do()
    qtbot.waitUntil(lambda: page.day.now_min is not None)
    for seconds in (5.0, 10.0, 35.0, 11 * 60.0):
        clock.go_on(seconds)
        page._tick()
        page._show_brew(page.brew.brewing)
        at = page.day.line.at(clock.now().wall)
        qtbot.waitUntil(lambda at=at: abs(page.day.now_min - at) < 1e-6)
        assert f"now {datetime.fromtimestamp(clock.now().wall):%H:%M}" in written()
    began = datetime.fromtimestamp(page.brew.brewing.began.wall)
    ticks = [each for each in written() if re.fullmatch(r"\d\d:\d\d", each)]
    first = -(-(began.minute * 60 + began.second) // 600) * 10  # the next full ten minutes
    assert ticks[0] == f"{(began.hour + first // 60) % 24:02d}:{first % 60:02d}"


def test_a_screen_reader_is_told_when_each_stage_begins(page):
    assert "A in" in page.day.accessibleDescription()
    assert "steep" in page.day.accessibleDescription().lower()


def test_a_day_ticked_through_at_once_is_drawn_all_the_same(qtbot, page, clock, written):
    clock.go_on(61.0)
    page.do()
    while page.brew.brewing.now is not None:
        page.brew.done()
    qtbot.waitUntil(lambda: page.day.line.real[-1].end_min < 1.0)
    assert "A" in written()


def test_a_picture_of_the_day_under_way_has_the_letters_and_now(qtbot, page):
    page.do()
    qtbot.waitUntil(lambda: page.day.now_min is not None)
    texts = texts_of(page.day, page)
    assert {"Harbour Lamp Porter", "The day", "A", "B", "F"} <= set(texts)
    assert any(re.fullmatch(r"now \d\d:\d\d", each) for each in texts)


def test_the_names_of_rim_and_foam_line_are_whole_in_gallons_and_a_narrow_window(
    qtbot, page, written, settings
):
    settings.units = ShownUnits.US
    page.resize(800, 700)
    qtbot.waitUntil(lambda: page.width() == 800)
    page.refresh()
    said = written()
    assert any(each.startswith("foam line ") and not each.endswith("…") for each in said)
    assert any(each.startswith("pot rim ") and not each.endswith("…") for each in said)
