"""What scale and packets say at a step is typed into its blanks, and is a reading of that line."""

from __future__ import annotations

import pytest

from designer.brewday.measured.readings import By, Measured
from designer.brewday.outlook import look_ahead
from designer.sheet.stove import stove_steps
from designer.units import ShownUnits, read
from designer.workbench.brew.blank_places import blank_of
from designer.workbench.brew.typed_reading import typed_reading


@pytest.mark.parametrize(
    ("what", "typed", "value", "by"),
    [(Measured.ALPHA, "6.1 %", 0.061, By.PACKET), (Measured.WEIGHT, "20 g", 0.02, By.SCALE)],
)
def test_a_packet_read_at_a_step_is_a_reading_of_its_hop(porter, what, typed, value, by):
    outlook = look_ahead(porter, ranges=False)
    steps = stove_steps(porter, outlook, shown=ShownUnits.METRIC, start=None, brew_date=None)
    challenger = porter.hops[0]
    (blank,) = [
        blank
        for each in steps
        for blank in each.portion_blanks
        if (blank.what, blank.lines, blank.line_id) == (what, "hops", challenger.line_id)
    ]
    found = typed_reading(blank, typed, porter, read)
    assert (found.what, found.lines, found.line_id) == (what, "hops", challenger.line_id)
    assert found.value == pytest.approx(value)
    assert found.by is by
    assert blank_of(found, steps) == blank
