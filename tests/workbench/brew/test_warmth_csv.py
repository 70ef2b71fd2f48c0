"""Temperatures out of tables that thermometers write, in whatever form."""

from __future__ import annotations

from datetime import datetime, timedelta

import pytest

from designer.errors import DesignerError
from designer.workbench.brew.warmth_csv import MOST_KEPT, warmth_in, warmth_in_file

FIRST = datetime(2026, 3, 28, 11, 43)


def wall(when):
    return when.timestamp()


def table(head, times, values, sign=";", decimal="."):
    rows = [
        sign.join((when, f"{value:.1f}".replace(".", decimal)))
        for when, value in zip(times, values, strict=True)
    ]
    return "\n".join(([head] if head else []) + rows) + "\n"


@pytest.mark.parametrize(
    ("form", "sign", "decimal"),
    [
        ("%Y-%m-%d %H:%M", ";", ","),
        ("%Y-%m-%dT%H:%M:%S", ",", "."),
        ("%d.%m.%Y %H:%M", "\t", ","),
        ("%d/%m/%Y %H:%M", ";", "."),
        ("%m/%d/%Y %I:%M %p", ",", "."),
        ("%m/%d/%y %H:%M", ",", "."),
        ("%d %b %Y %H:%M", ";", "."),
        ("%Y/%m/%d %H:%M:%S", "|", "."),
    ],
)
@pytest.mark.parametrize("head", ["", "time{}temperature"])
def test_times_in_many_forms_with_or_without_a_heading(form, sign, decimal, head):
    times = [FIRST + timedelta(hours=9 * at) for at in range(12)]
    text = table(
        head.format(sign), [f"{each:{form}}" for each in times], [19.5] * 12, sign, decimal
    )
    found = warmth_in(text)
    assert found.temperatures == tuple((wall(each), 19.5) for each in times)


def test_a_decimal_comma_within_quotation_marks_between_commas_is_read():
    found = warmth_in('time,temp\n2026-03-28 11:43,"19,5"\n2026-03-28 12:43,"20,5"\n')
    assert [degrees for _, degrees in found.temperatures] == [19.5, 20.5]


def test_a_zone_is_heeded_and_seconds_since_1970_are_too():
    found = warmth_in("2026-03-28T11:43:00Z;19\n2026-03-28T14:43:00+02:00;20\n")
    assert found.temperatures[1][0] - found.temperatures[0][0] == 3600.0
    assert warmth_in("1774698180,19.0\n1774698240,19.1\n").temperatures[0][0] == 1774698180.0
    assert warmth_in("1774698180000,19.0\n").temperatures[0][0] == 1774698180.0


@pytest.mark.parametrize(
    "text",
    [
        "time;temp °F\n2026-03-28 11:43;68.0\n",
        "time;temperature\n2026-03-28 11:43;68.0 °F\n",
        "2026-03-28 11:43;68.0\n",
        "time;Beer (F)\n2026-03-28 11:43;68\n",
    ],
)
def test_fahrenheit_is_told_by_heading_unit_or_what_beer_can_be(text):
    found = warmth_in(text)
    assert found.temperatures[0][1] == pytest.approx(20.0)


def test_the_beer_is_taken_and_not_the_room_or_what_is_aimed_at():
    text = (
        "cellar of the lamp house\n"
        "Date,Time,Target temp,Room temp,Beer temp,Battery\n"
        "28/03/2026,11:43,18.0,15.5,19.5,88\n"
        "29/03/2026,11:43,18.0,15.0,20.5,87\n"
    )
    found = warmth_in(text)
    assert [degrees for _, degrees in found.temperatures] == [19.5, 20.5]
    assert found.temperatures[0][0] == wall(FIRST)


def test_day_and_month_are_told_apart_by_all_of_the_table():
    # 3/4 then 4/4 and 5/4: a day apart each only if the day comes first
    found = warmth_in("3/4/2026 08:00;19\n4/4/2026 08:00;19\n5/4/2026 08:00;19\n")
    assert found.temperatures[0][0] == wall(datetime(2026, 4, 3, 8))
    found = warmth_in("4/3/2026 08:00;19\n4/4/2026 08:00;19\n4/5/2026 08:00;19\n")
    assert found.temperatures[0][0] == wall(datetime(2026, 4, 3, 8))


def test_lines_without_a_figure_are_passed_over_and_broken_probes_left_out():
    found = warmth_in("2026-03-28 11:43;19\n2026-03-28 12:43;\n2026-03-28 13:43;-127\n")
    assert len(found.temperatures) == 1
    assert (found.rows, found.left_out) == (2, 1)


def test_what_cannot_be_read_is_refused_with_its_line():
    good = "".join(f"2026-03-{day} 11:43;19\n" for day in range(10, 20))
    with pytest.raises(DesignerError, match=r"Line 11: .*yesterday.* is no time"):
        warmth_in(f"{good}yesterday;19\n")
    with pytest.raises(DesignerError, match=r"Line 12: .*lukewarm.* is no temperature"):
        warmth_in(f"time;temp\n{good}2026-03-20 11:43;lukewarm\n")
    with pytest.raises(DesignerError, match="no table of times"):
        warmth_in("a letter to the brewer\n")
    with pytest.raises(DesignerError, match="No line of the table"):
        warmth_in("2026-03-28 11:43;-127\n")


def test_thousands_of_lines_are_drawn_together_and_keep_their_mean(tmp_path):
    times = [FIRST + timedelta(minutes=5 * at) for at in range(6000)]
    values = [18.0 + (at % 12) / 6 for at in range(6000)]
    path = tmp_path / "cellar.csv"
    text = table("when,temp", [f"{each:%Y-%m-%d %H:%M}" for each in times], values, ",")
    path.write_bytes(text.encode("utf-16"))
    found = warmth_in_file(path)
    assert found.rows == 6000
    assert 100 < len(found.temperatures) <= MOST_KEPT
    degrees = [each for _, each in found.temperatures]
    assert sum(degrees) / len(degrees) == pytest.approx(sum(values) / len(values), abs=0.05)
    assert "6000 lines" in str(found.words)


def test_a_file_that_is_not_there_is_named(tmp_path):
    with pytest.raises(DesignerError, match=r"none\.csv"):
        warmth_in_file(tmp_path / "none.csv")
