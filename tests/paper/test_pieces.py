"""What a sheet is made of on paper: warnings as large as steps, columns that line up."""

import pytest

from designer.brewday.outlook import look_ahead
from designer.library.recipe_file import load
from designer.paper.block_rows import table_row
from designer.paper.head import _Blanks
from designer.paper.pieces import (
    ACTION,
    AMOUNT_GAP,
    BOX,
    RAIL,
    AsidePiece,
    ItemPiece,
    amount_text,
    clock_text,
    width_of_amounts,
)
from designer.paper.typesetter import typesetters_for
from designer.paper.typography import Run, Text, pt
from designer.resource_files import resource_path
from designer.sheet.blocks import Aside, Item, Step, Table
from designer.sheet.content import brew_sheet
from designer.sheet.language import language
from designer.spoken_language import LANGUAGES
from designer.units import ShownUnits


@pytest.mark.parametrize("kind", ["care", "stop"])
def test_a_warning_is_set_as_large_as_a_step(qapp, kind):
    step = Text([Run("hot", 10.0)], pt(200.0))
    warning = AsidePiece(Aside(kind, "hot"), pt(200.0), 7.5, 10.0)
    reason = AsidePiece(Aside("why", "hot"), pt(200.0), 7.5, 10.0)
    assert warning.text.height == step.height
    assert reason.text.height < step.height


@pytest.mark.parametrize("code", LANGUAGES)
@pytest.mark.parametrize("minutes", ["0", "5", "10", "60", "90"])
def test_the_countdown_stays_on_one_line(qapp, code, minutes):
    left = language(code).say("{minutes} min left", minutes=minutes)
    one = clock_text(Step("09:00", "x", 0.0, ()), 10.0).height
    assert clock_text(Step("09:00", left, 0.0, ()), 10.0).height <= one
    column = RAIL - 0.5 * BOX - pt(1.5)
    assert clock_text(Step("09:00", left, 0.0, ()), 10.0).natural_width <= column


def test_amounts_of_a_list_line_up(qapp):
    items = [Item("", amount, "malt") for amount in ("1.2 kg", "18 g", "")]
    column = width_of_amounts([each.amount for each in items], 10.0, pt(200.0))
    names = {
        ItemPiece(each, pt(250.0), 10.0, False, column).name_in for each in items if each.amount
    }
    assert names == {column}
    assert column == amount_text("1.2 kg", 10.0).natural_width + AMOUNT_GAP


def test_one_long_amount_does_not_push_the_others_aside(qapp):
    long = "a pinch on the point of a knife"
    column = width_of_amounts(["18 g", long], 10.0, pt(60.0))
    assert column == amount_text("18 g", 10.0).natural_width + AMOUNT_GAP
    assert ItemPiece(Item("", long, "salt"), pt(250.0), 10.0, False, column).name_in == 0.0
    assert width_of_amounts(["", ""], 10.0, pt(60.0)) == 0.0


def test_the_heads_of_a_table_never_touch(qapp, monkeypatch):
    """A head that is as wide as its column is broken, for a gap stays free beside each cell."""
    made = []

    class Recorded(Text):
        def __init__(self, parts, width, **how):
            super().__init__(parts, width, **how)
            made.append((self.natural_width, width))

    monkeypatch.setattr("designer.paper.block_rows.Text", Recorded)
    heads = tuple(f"{each} °C ({each} °F)" for each in range(10, 70, 10))
    width = pt(530.0)
    table_row(Table("add", ("Sample at", *heads), ()), width, 9.0, large=False)
    columns = (width - ACTION - pt(100.0)) / len(heads)
    for natural, room in made[1:7]:
        assert natural <= room + 1.0
        assert room <= columns - pt(4.0)


def test_long_warnings_stand_below_a_short_step_and_short_ones_beside_it(qapp, example_sheet):
    """Whichever makes the step less high."""
    setter = typesetters_for(example_sheet, pt(530.0))[-1]
    line = Text([Run("x", setter.body)], pt(200.0)).height

    def height(warning):
        step = Step("", "", 0.0, ("Burner on.",), asides=(Aside("care", warning),))
        (row,) = setter._step(step)
        return row.height

    assert height("Hot.") < 1.5 * line
    assert height("It boils over in seconds: stay with it. If foam climbs: heat off, stir.") < (
        2.5 * line
    )


@pytest.fixture
def example_sheet():
    recipe = load(resource_path("examples/harbour_lamp_porter.hobwort"))
    outlook = look_ahead(recipe, ranges=False)
    return brew_sheet(recipe, outlook, shown=ShownUnits("metric"), start=None, brew_date=None)


@pytest.mark.parametrize("width", [330.0, 380.0, 530.0])
def test_a_long_date_pushes_the_blank_beside_it_and_is_not_written_over(qapp, width):
    day = "Sa, 28. November 2026"
    blanks = _Blanks((("Gebraut am", day), ("von", ""), ("Beginn", "09:00")), pt(width))
    (_, dated), (rule, rule_end), (start, _) = blanks.places()
    date = Text([Run("Gebraut am", 9.5)], pt(200.0)).natural_width
    date += Text([Run(day, 10.5, True)], pt(300.0)).natural_width
    assert dated >= date
    assert rule >= dated + pt(9.0)
    assert start >= rule_end
