"""Type on paper: what stays on one line, and how high a text is in its column."""

import pytest

from designer.paper.typography import INKS, Run, Text, ink, pt


def height(text, width):
    return Text([Run(text, 10.0)], width).height


@pytest.mark.parametrize("figure", ["6.5 L", "69 °C", "1 lb 3 oz", "40 IBU", "12 psi"])
def test_a_figure_and_its_unit_stay_on_one_line(qapp, figure):
    long = Text([Run("steep the grain at ", 10.0)], pt(400.0)).natural_width
    whole = Text([Run(f"steep the grain at {figure}", 10.0)], pt(400.0)).natural_width
    column = long + 0.6 * (whole - long)  # room for the figure, not for its unit
    narrow = Text([Run(f"steep the grain at {figure}", 10.0)], column)
    assert narrow.natural_width < long
    assert narrow.height > height("steep", column)


def test_a_line_feed_breaks_the_line(qapp):
    one, two = height("pitch", pt(400.0)), height("pitch\nthe yeast", pt(400.0))
    assert two == pytest.approx(2.0 * one)


def test_a_word_that_is_wider_than_its_column_is_broken_and_not_cut(qapp):
    text = Text([Run("x" * 300, 10.0)], pt(100.0))
    assert text.natural_width <= pt(100.0)
    assert text.height > 5.0 * height("x", pt(100.0))


def test_marks_beyond_the_first_plane_keep_their_size_and_that_of_what_follows(qapp):
    plain = Text([Run("mash", 10.0), Run("out", 20.0)], pt(400.0)).height
    assert Text([Run("\N{BEER MUG}mash", 10.0), Run("out", 20.0)], pt(400.0)).height >= plain


def test_inks_differ_in_grey_as_they_do_in_colour():
    greys = [ink(name).lightness() for name in ("ink", "accent", "soft", "faint", "ground")]
    assert greys == sorted(greys)
    assert ink("#123456").name() == "#123456"
    assert all(ink(name).isValid() for name in INKS)
