"""Lines go between windows exactly, and to and from spreadsheets as text."""

from contextlib import suppress
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st
from PySide6.QtCore import QMimeData, QModelIndex, Qt

from designer.errors import RefusedInputError
from designer.window.compose.lines_clipboard import lines_mime, lines_text, pasting
from designer.window.compose.lines_columns import FERMENTABLES, HOPS, LINES_MIME
from designer.window.compose.lines_model import LinesModel


def text_mime(text):
    mime = QMimeData()
    mime.setText(text)
    return mime


def test_a_copied_line_is_pasted_exactly(opened, display):
    hops = list(opened.recipe.hops)
    edit = pasting(lines_mime(HOPS, hops, display), HOPS, display)
    after = edit.apply(opened.recipe)
    assert after.hops == (*hops, *hops)
    assert len({hop.line_id for hop in after.hops}) == 4
    assert edit.text.text == "paste 2 lines"


def test_hops_pasted_on_fermentables_go_where_they_belong(opened, display):
    edit = pasting(lines_mime(HOPS, [opened.recipe.hops[0]], display), FERMENTABLES, display)
    after = edit.apply(opened.recipe)
    assert len(after.hops) == 3
    assert after.fermentables == opened.recipe.fermentables


def test_text_for_a_spreadsheet_comes_back_as_the_same_lines(opened, display):
    lines = list(opened.recipe.fermentables)
    text = lines_text(FERMENTABLES, lines, display)
    assert text.splitlines()[0].split("\t")[:2] == ["1 kg", "Light liquid malt extract"]
    after = pasting(text_mime(text), FERMENTABLES, display).apply(opened.recipe)
    assert after.fermentables[4:] == tuple(lines)


@pytest.mark.parametrize(
    ("text", "name", "grams", "minutes"),
    [
        ("Fuggle\t20 g\t15 min\n", "Fuggle", 20.0, 15.0),
        ("1 oz;Fuggle;boil 60 min", "Fuggle", 28.349523125, 60.0),
        ("12 g Fuggle", "Fuggle", 12.0, 60.0),
        ("Fuggle\t4.5 %\t10 g\tflame-out", "Fuggle", 10.0, 0.0),
    ],
)
def test_rows_from_elsewhere_are_understood(opened, display, text, name, grams, minutes):
    hop = pasting(text_mime(text), HOPS, display).apply(opened.recipe).hops[-1]
    assert hop.name == name
    assert hop.amount.value * 1000 == pytest.approx(grams)
    assert hop.when.minutes == minutes


@pytest.mark.parametrize("name", ["=1+1", "'=1+1", "@sum", "-5", "Fuggle"])
def test_no_name_is_a_formula_where_lines_are_pasted(opened, display, name):
    """The characters are those of OWASP, "CSV Injection"."""
    text = lines_text(HOPS, [replace(opened.recipe.hops[0], name=name)], display)
    assert text.split("\t")[1][:1] not in ("=", "@")
    assert pasting(text_mime(text), HOPS, display).apply(opened.recipe).hops[-1].name == name


NAMES = st.text(
    st.one_of(st.sampled_from("=+-@'\" ,;%5gk"), st.characters(codec="utf-8")), min_size=1
)
SAME_PREFERENCES = settings(suppress_health_check=[HealthCheck.function_scoped_fixture])


@SAME_PREFERENCES
@given(NAMES)
@example('"Old" malt')
@example('"quoted"')
@example("2 kg")
@example("Hops:")
def test_any_name_comes_back_from_the_text_of_its_line(opened, display, name):
    told = " ".join(name.split())
    for spec, line in (
        (HOPS, opened.recipe.hops[0]),
        (FERMENTABLES, opened.recipe.fermentables[0]),
    ):
        text = lines_text(spec, [replace(line, name=name)], display)
        back = pasting(text_mime(text), spec, display)
        assert [(each.lines, each.line.name) for each in back.edits] == [(spec.lines, told)]
        assert (back.edits[0].line.amount, back.edits[0].line.when) == (line.amount, line.when)


@SAME_PREFERENCES
@given(st.text(), st.binary())
@example("\ud800\t5 g", b"{")
@example("5 g\tFuggle\r\x00\r\n\ufeff", b"\xff\xfe")
@example("5 g\t" + "x" * 140_000, b"[" * 2000)
def test_no_text_and_no_bytes_break_pasting(opened, display, text, raw):
    exact = QMimeData()
    exact.setData(LINES_MIME, raw)
    for mime in (text_mime(text), exact):
        with suppress(RefusedInputError):
            pasting(mime, HOPS, display)


@pytest.mark.parametrize(
    "text", ["10 g\tFuggle\r12 g\tBramling Cross\r", "10 g\tFuggle\r\n12 g\tBramling Cross\r"]
)
def test_lines_may_end_in_any_way(opened, display, text):
    after = pasting(text_mime(text), HOPS, display).apply(opened.recipe)
    assert [hop.name for hop in after.hops[-2:]] == ["Fuggle", "Bramling Cross"]


@pytest.mark.parametrize("text", ["", "\n\n", "\t\t"])
def test_nothing_is_refused_in_words(qtbot, opened, display, porter, text):
    model = LinesModel(opened, HOPS, display)
    with qtbot.waitSignal(model.refused) as refused:
        model.paste(text_mime(text))
    assert "clipboard" in refused.args[0]
    assert opened.recipe == porter


def test_a_line_dragged_in_its_table_moves(opened, display):
    model = LinesModel(opened, FERMENTABLES, display)
    mime = model.mimeData([model.index(0, 0), model.index(0, 1)])
    model.dropMimeData(mime, Qt.DropAction.MoveAction, 4, 0, QModelIndex())
    assert [line.name for line in opened.recipe.fermentables][-1] == "Light liquid malt extract"
    assert opened.undo_stack.undoText() == "move Light liquid malt extract"


def test_a_line_dragged_from_another_window_is_added(opened, display, porter):
    from designer.window.session.open_recipe import OpenRecipe

    other = LinesModel(OpenRecipe(porter), HOPS, display)
    model = LinesModel(opened, HOPS, display)
    mime = other.mimeData([other.index(1, 0)])
    model.dropMimeData(mime, Qt.DropAction.CopyAction, -1, -1, QModelIndex())
    assert [hop.name for hop in opened.recipe.hops][-1] == "East Kent Golding"
