"""Forecast and day leave the window: as text by Ctrl+C, as pictures to clipboard and disk."""

import re
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QGuiApplication, QImage

from designer.window.parts.inks import DARK, LIGHT
from designer.window.parts.theme import apply_scheme
from tests.pictures_taken import ask_for_menu, choose, texts_in


def clipboard():
    return QGuiApplication.clipboard()


def entry(window, words):
    """Return the entry of a menu that has those words."""
    (found,) = [each for each in window.menus.actions if words in each.text().replace("&", "")]
    return found


def test_ctrl_c_on_the_forecast_copies_its_figures_as_a_spreadsheet_takes_them(qtbot, window):
    row = next(each for each in window.compose.forecast.rows if each.key == "bitterness_ibu")
    row.setFocus()
    qtbot.keyClick(row, Qt.Key.Key_C, Qt.KeyboardModifier.ControlModifier)
    name, heads, *rows = [line.split("\t") for line in clipboard().text().splitlines()]
    assert name == ["Harbour Lamp Porter"]
    assert heads == ["Forecast", "Value", "Lowest likely", "Highest likely", "Unit"]
    found = window.opened.newest_outlook().forecasts
    told = {row[0]: row[1:] for row in rows}
    bitterness = found["bitterness_ibu"]
    figures = [bitterness.value, bitterness.low, bitterness.high]
    assert told["Bitterness"] == [*(f"{each:.0f}" for each in figures), "IBU"]
    assert told["Original gravity (OG)"][3] == "SG"
    assert len(rows) == len(window.compose.forecast.rows)
    assert "on the clipboard" in window.messages.text.text()
    window.settings.gravity = "plato"
    entry(window, "Copy the forecast as text").trigger()
    told = dict(line.split("\t", 1) for line in clipboard().text().splitlines()[1:])
    assert told["Original gravity (OG)"].endswith("\t°P")


def test_pointed_at_a_figure_is_copied_with_its_range(qtbot, window):
    row = next(each for each in window.compose.forecast.rows if each.key == "abv_percent")
    choose(ask_for_menu(row, QPoint(20, 20)), "Copy Alcohol")
    assert re.fullmatch(r"Alcohol \d\.\d %, likely \d\.\d % to \d\.\d %", clipboard().text())


@pytest.mark.parametrize("wears_paper", [True, False])
def test_out_of_a_dark_window_a_picture_is_on_paper_unless_asked_otherwise(
    qtbot, qapp, window, wears_paper
):
    apply_scheme(qapp, "dark")
    row = window.compose.forecast.rows[0]
    if not wears_paper:
        choose(ask_for_menu(row), "Pictures in the window's colours")
    choose(ask_for_menu(row), "Copy the picture")
    image = clipboard().image()
    ground = LIGHT.paper if wears_paper else DARK.paper
    assert image.pixelColor(3, 3).name() == ground
    inks = {
        image.pixelColor(x, y).name()
        for x in range(0, image.width(), 2)
        for y in range(0, image.height(), 2)
    }
    worn, other = (LIGHT, DARK) if wears_paper else (DARK, LIGHT)
    assert {worn.span, worn.mark, worn.ink} <= inks
    assert not {other.span, other.ink} & inks
    texts = texts_in(bytes(clipboard().mimeData().data("image/svg+xml").data()))
    assert {"Harbour Lamp Porter", "Forecast", "How strong", "4.4 %"} <= set(texts)
    assert qapp.palette().window().color().name() == DARK.ground  # the window itself stays


def test_the_day_is_saved_as_pixels_and_as_a_drawing_with_every_addition(
    qtbot, window, answers, tmp_path
):
    save = entry(window, "Save a picture of the day")
    for name in ("day.png", "day.svg"):
        answers.file = tmp_path / name
        save.trigger()
        qtbot.waitUntil(answers.file.exists)
    assert Path(answers.asked[-1]).name == "harbour_lamp_porter_the_day.png"
    image = QImage(str(tmp_path / "day.png"))
    assert image.width() > 2000
    texts = texts_in((tmp_path / "day.svg").read_bytes())
    together = " ".join(texts)
    recipe = window.opened.recipe
    for line in (*recipe.fermentables, *recipe.hops, *recipe.extras):
        assert line.name in together
    assert "starts 09:00" in together


def test_a_picture_of_a_kind_that_is_not_written_is_refused_with_what_is(
    qtbot, window, answers, tmp_path
):
    answers.file = tmp_path / "forecast.gif"
    entry(window, "Save a picture of the forecast").trigger()
    assert ".png or as .svg" in window.messages.text.text()
    assert not answers.file.exists()
