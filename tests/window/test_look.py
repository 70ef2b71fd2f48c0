"""Colours can be told apart and read: WCAG 2.2, success criteria 1.4.3 and 1.4.11."""

import pytest
from PySide6.QtGui import QColor, QPalette

from designer.window.parts.inks import DARK, HIGH_DARK, HIGH_LIGHT, LIGHT, inks_for
from designer.window.parts.theme import inks_of_scheme, palette_of, style_sheet

INKS = pytest.mark.parametrize(
    "inks",
    [LIGHT, DARK, HIGH_LIGHT, HIGH_DARK],
    ids=["light", "dark", "black on white", "white on black"],
)


def luminance(value):
    """Relative luminance, WCAG 2.2 (W3C Recommendation, 2023), definitions."""
    shares = [QColor(value).redF(), QColor(value).greenF(), QColor(value).blueF()]
    linear = [s / 12.92 if s <= 0.04045 else ((s + 0.055) / 1.055) ** 2.4 for s in shares]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one, other):
    """Contrast ratio, WCAG 2.2, definitions."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_the_ratio_is_that_of_the_standard():
    """Black on white is 21 to 1; #767676 on white is the known edge of 4.5 to 1."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.01)


@INKS
@pytest.mark.parametrize(
    "ink", ["ink", "ink_soft", "heading", "green", "brass", "stop", "heat", "wort_edge", "foam"]
)
@pytest.mark.parametrize("ground", ["ground", "paper", "green_soft"])
def test_text_can_be_read(inks, ink, ground):
    assert contrast(getattr(inks, ink), getattr(inks, ground)) >= 4.5


@INKS
@pytest.mark.parametrize("band", ["steep_band", "boil_band", "cool_band", "care_band", "chosen"])
def test_text_on_bands_and_chosen_cells_can_be_read(inks, band):
    assert contrast(inks.ink, getattr(inks, band)) >= 4.5
    assert contrast(inks.ink_soft, inks.chosen) >= 4.5


@INKS
def test_text_on_the_page_button_can_be_read(inks):
    assert contrast(inks.on_green, inks.green) >= 4.5


@INKS
@pytest.mark.parametrize("ink", ["line_strong", "mark", "rim", "heat", "wort_edge", "green"])
@pytest.mark.parametrize("ground", ["ground", "paper"])
def test_lines_that_carry_meaning_stand_out(inks, ink, ground):
    assert contrast(getattr(inks, ink), getattr(inks, ground)) >= 3.0


@INKS
def test_a_palette_finds_its_inks_again(inks):
    assert inks_for(palette_of(inks)) is inks


@INKS
def test_placeholders_and_chosen_text_can_be_read(inks):
    palette = palette_of(inks)
    base = palette.color(QPalette.ColorRole.Base).name()
    assert contrast(palette.color(QPalette.ColorRole.PlaceholderText).name(), base) >= 4.5
    chosen = palette.color(QPalette.ColorRole.Highlight).name()
    assert contrast(palette.color(QPalette.ColorRole.HighlightedText).name(), chosen) >= 4.5


def test_schemes_have_their_inks(qapp):
    assert inks_of_scheme("dark") is DARK
    assert inks_of_scheme("light") is LIGHT
    assert inks_of_scheme("system") in (LIGHT, DARK)
    assert inks_of_scheme("dark", "high") is HIGH_DARK
    assert inks_of_scheme("light", "high") is HIGH_LIGHT
    assert "{" in style_sheet(LIGHT)


@pytest.mark.parametrize("inks", [HIGH_LIGHT, HIGH_DARK], ids=["light", "dark"])
def test_high_contrast_is_black_and_white(inks):
    assert {inks.ground, inks.ink} == {"#000000", "#ffffff"}
    assert contrast(inks.ink_soft, inks.paper) == pytest.approx(21.0)
    assert contrast(inks.brass, inks.paper) >= 7.0
