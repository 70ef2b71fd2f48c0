"""What is to be done with the beer, as a calendar file. Source: RFC 5545."""

from datetime import UTC, date, datetime, timedelta, timezone

from hypothesis import given, settings
from hypothesis import strategies as st

from designer.brewday.packaging.packaged import BottleSize, Packing
from designer.brewday.packaging.packed import packaged
from designer.recipe.message import say
from designer.workbench.brew.calendar_file import CalendarEvent, calendar_text, events_of
from tests.workbench.brew.calendar_reader import read_calendar

NOW = datetime(2026, 4, 8, 18, 30, tzinfo=timezone(timedelta(hours=2)))
PACKING = Packing(9.6, 2.3, 21.0, 0.002, bottles=(BottleSize(0.5, 19),))


def events(content):
    calendar = read_calendar(content.encode("utf-8"))
    assert (calendar["name"], calendar["VERSION"]) == ("VCALENDAR", "2.0")
    assert calendar["PRODID"].startswith("-//Hobwort//")
    return calendar["parts"]


def test_days_of_an_unfinished_beer_become_events_with_reminders():
    dates = packaged(PACKING, date(2026, 4, 8)).dates
    found = events(calendar_text(events_of("brew-1", "Harbour Lamp Porter", dates), NOW))
    assert [(each["SUMMARY"], each["DTSTART"]) for each in found] == [
        ("Harbour Lamp Porter: read it again, gas shaken out", "20260411"),
        ("Harbour Lamp Porter: package it, if it has not fallen", "20260411"),
        ("Harbour Lamp Porter: chill one bottle and taste it", "20260425"),
        ("Harbour Lamp Porter: best from now on", "20260425"),
        ("Harbour Lamp Porter: best drunk by now", "20261008"),
    ]
    assert {each["DTSTART;"] for each in found} == {";VALUE=DATE"}
    assert found[0]["DTEND"] == "20260412"  # 3.6.1: the day after the last
    assert {each["DTSTAMP"] for each in found} == {"20260408T163000Z"}
    for each in found:
        (alarm,) = each["parts"]
        assert (alarm["name"], alarm["ACTION"], alarm["TRIGGER"]) == ("VALARM", "DISPLAY", "PT9H")
    assert "burst" in found[1]["DESCRIPTION"]
    assert not any(" g " in each["DESCRIPTION"] for each in found if "DESCRIPTION" in each)


def test_a_file_written_again_moves_its_events_and_doubles_none():
    first, later = (
        events_of("brew-1", "Porter", packaged(PACKING, day).dates)
        for day in (date(2026, 4, 8), date(2026, 4, 11))
    )
    assert [each.uid for each in first] == [each.uid for each in later]
    assert len({each.uid for each in first}) == len(first)
    assert [each.day for each in first] != [each.day for each in later]
    numbers = [
        int(events(calendar_text(each, NOW + timedelta(days=days)))[0]["SEQUENCE"])
        for days, each in enumerate((first, later))
    ]
    assert numbers[0] < numbers[1]
    (once,) = events_of("brew-1", "Porter", [(date(2026, 4, 9), say("beer-read-first", "read"))])
    assert once.uid == first[0].uid  # whoever tells it
    second = events_of("brew-1", "Porter", packaged(PACKING, date(2026, 4, 8)).dates, 2)
    assert {each.uid for each in second}.isdisjoint(each.uid for each in first)
    others = events_of("brew-2", "Porter", packaged(PACKING, date(2026, 4, 8)).dates)
    assert {each.uid for each in others}.isdisjoint(each.uid for each in first)


def test_what_is_done_twice_is_two_events_and_on_one_day_one():
    read = say("beer-read-again", "read again")
    days = (date(2026, 4, 9), date(2026, 4, 12), date(2026, 4, 9))
    found = events_of("brew-1", "Porter", [(day, read) for day in days])
    assert [each.day for each in found] == [date(2026, 4, 9), date(2026, 4, 12)]
    assert len({each.uid for each in found}) == 2


@settings(max_examples=60, deadline=None)
@given(
    st.lists(
        st.tuples(st.dates(), st.text(max_size=120), st.text(max_size=300)), min_size=0, max_size=3
    )
)
def test_whatever_a_beer_is_called_the_file_can_be_read(many):
    made = [
        CalendarEvent(f"brew-{number}", day, title, notes)
        for number, (day, title, notes) in enumerate(many)
    ]
    found = events(calendar_text(made, datetime(2026, 4, 8, tzinfo=UTC)))
    assert len(found) == len(made)
    for each, event in zip(found, made, strict=True):
        kept = "".join(sign for sign in event.title if sign.isalnum() or sign in ",;\\")
        assert "".join(sign for sign in each["SUMMARY"] if sign.isalnum() or sign in ",;\\") == kept
