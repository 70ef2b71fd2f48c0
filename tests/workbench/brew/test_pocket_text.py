"""The text that a phone hands a log over in: found, checked, and made entries of.

What the page itself writes is taken in by `tests/sheet/pocket`; here it is what may become of it.
"""

from __future__ import annotations

import re
import textwrap

import pytest

from designer.brewday.measured.readings import By, Measured
from designer.errors import RefusedInputError
from designer.workbench.brew.brewing import brewing_of
from designer.workbench.brew.entries import What
from designer.workbench.brew.pocket_entries import pocket_brew, pocket_entries
from designer.workbench.brew.pocket_text import read_pocket
from tests.workbench.brew.pocket_texts import OG, ROWS, WATER, pasted


@pytest.mark.parametrize("packed", [True, False])
def test_a_log_is_taken_in_with_its_times_readings_and_corrections(porter, packed):
    log = read_pocket(pasted(porter, ROWS, packed=packed))
    entries = pocket_entries(log)
    brewing = brewing_of(porter, (), entries)
    assert [each.at.wall - 1_795_000_000 for each in entries] == [0, 5.5, 5.5, 9, 12, 20, 30]
    [water] = brewing.readings
    assert (water.reading.what, water.reading.by) == (Measured.WATER_IN, By.MARK)
    assert water.reading.value == pytest.approx(6.2)
    assert (water.typed, water.was) == ("6.2 L", ("6,1 L",))
    assert brewing.notes == ()
    assert brewing.start_min == 540
    assert log.recipe == porter


MANGLED = {
    "quoted in a mail": lambda text: textwrap.indent(text, "> > "),
    "broken anew": lambda text: "\r\n".join(textwrap.wrap(re.sub(r"\s", "", text), 17)),
    "in one line": lambda text: " ".join(text.split()),
    "without any blank": lambda text: re.sub(r"\s", "", text),
    "in small letters": str.lower,
    "with odd blanks": lambda text: text.replace("\n", "\u00a0\u200b\u2028"),
    "between other words": lambda text: f"Hi!\n\nmy brew of 10 L:\n{text}\n-- \nsent from 0815",
    "without its last line": lambda text: text.rsplit("0", 1)[0],
    "pasted twice": lambda text: text + text,
}


@pytest.mark.parametrize("way", MANGLED)
def test_what_mail_and_messages_do_to_a_text_changes_nothing(porter, way):
    text = pasted(porter, ROWS)
    assert read_pocket(MANGLED[way](text)) == read_pocket(text)


def test_a_text_that_did_not_come_whole_is_refused_with_a_way_out(porter):
    text = pasted(porter, ROWS)
    signs = [place for place, sign in enumerate(text) if place > 20 and sign.isalnum()][:-5]
    for place in signs[::37]:
        other = "A" if text[place] != "A" else "B"
        for changed in (text[:place] + other + text[place + 1 :], text[:place] + text[place + 1 :]):
            with pytest.raises(RefusedInputError, match="Copy all of it once more"):
                read_pocket(changed)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "no log of a phone"),
        ("my log: HOBWORT", "no log of a phone"),
        ("HOBWORT BREW 1\n0 END", "missing or was changed"),
        ("HOBWORT BREW 1\nZAAAA\n0 END", "missing or was changed"),
        ("HOBWORT BREW 2\nQ!7\n0 END", "newer Hobwort"),
    ],
)
def test_what_is_no_log_of_ours_is_refused(text, said):
    with pytest.raises(RefusedInputError, match=said):
        read_pocket(text)


def test_a_log_in_which_nothing_was_done_is_refused(porter):
    with pytest.raises(RefusedInputError, match="Nothing has been done"):
        read_pocket(pasted(porter, []))


def test_a_text_that_unpacks_to_far_too_much_is_refused(porter):
    with pytest.raises(RefusedInputError, match="missing or was changed"):
        read_pocket(pasted(porter, ROWS, filler=" " * 3_000_000))


def test_what_a_later_page_writes_is_kept_as_a_note(porter):
    rows = [*ROWS, [8, 40, "weighed", {"name": "grain", "kg": 1.5}], [9, 41, "hummed", "a tune"]]
    told = pocket_entries(read_pocket(pasted(porter, rows)))[-2:]
    assert [each.what for each in told] == [What.NOTE, What.NOTE]
    assert [each.values["text"] for each in told] == [
        "weighed: name grain, kg 1.5", "hummed: told a tune",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("of", "typed", "text"),
    [
        (WATER, "a lot", "water in the pot: a lot"),
        ({**WATER, "what": "depth of foam"}, "3 cm", "depth of foam: 3 cm"),
        (OG, "1.046", "original gravity: 1.046 at 95 °C"),
    ],
)
def test_a_reading_that_cannot_be_read_is_kept_as_a_note(porter, of, typed, text):
    sample = "95 °C" if of is OG else ""
    rows = [*ROWS, [8, 40, "reading", {"typed": typed, "sample": sample, "of": of}]]
    told = pocket_entries(read_pocket(pasted(porter, rows)))[-1]
    assert (told.what, told.values["text"]) == (What.NOTE, text)


def test_a_gravity_is_set_right_by_the_warmth_of_its_sample(porter):
    rows = [*ROWS, [8, 40, "reading", {"typed": "1,044", "sample": "30 °C", "of": OG}]]
    [*_, gravity] = brewing_of(
        porter, (), pocket_entries(read_pocket(pasted(porter, rows)))
    ).readings
    assert gravity.typed == "1,044 at 30 °C"
    assert 1.0455 < gravity.reading.value < 1.0475  # some 0.0025 at 30 °C, common tables


def test_pasting_again_later_brings_only_what_is_new(porter):
    early, late = (read_pocket(pasted(porter, ROWS[:count])) for count in (4, 7))
    assert pocket_entries(late)[:4] == pocket_entries(early)
    assert pocket_brew(late).uid == pocket_brew(early).uid
    twice = brewing_of(porter, (), (*pocket_entries(early), *pocket_entries(late)))
    assert twice == brewing_of(porter, (), pocket_entries(late))


def test_a_log_that_joins_a_brew_brings_no_start_of_its_own(porter):
    log = read_pocket(pasted(porter, ROWS))
    assert What.BEGAN in {each.what for each in pocket_entries(log)}
    assert What.BEGAN not in {each.what for each in pocket_entries(log, joins=True)}
