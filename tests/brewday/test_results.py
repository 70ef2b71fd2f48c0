"""What a day and a finding say: figures rounded as a brewer reads them, units worked by hand."""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.results import Cause, Contribution, Finding, Range
from designer.brewday.time_line import at_stage
from designer.recipe.message import plain_figure, say
from designer.recipe.place import Place
from designer.recipe.quantity import Kind, Stage, When
from designer.recipe.severity import Severity
from designer.wort.water import WATER_KG_PER_L
from tests.brewday.days import with_figures


@pytest.mark.parametrize(
    ("kind", "value", "text"),
    [
        (Kind.MASS, 1.0, "1 kg"),
        (Kind.MASS, 1.456, "1.456 kg"),
        (Kind.MASS, 0.9994, "999 g"),
        (Kind.MASS, 0.0206, "20.6 g"),
        (Kind.MASS, 0.4004, "400 g"),
        (Kind.MASS, 0.0, "0 g"),
        (Kind.VOLUME, 9.04, "9 L"),
        (Kind.VOLUME, 0.25, "0.25 L"),
        (Kind.TEMPERATURE, 66.6, "67 °C"),
        (Kind.TEMPERATURE, -18.0, "-18 °C"),
        (Kind.TEMPERATURE_DIFFERENCE, 4.4, "4 °C"),
        (Kind.TIME, 59.6, "60 min"),
        (Kind.GRAVITY, 1.0504, "1.050"),
        (Kind.BEER_COLOUR, 25.4, "25 SRM"),
        (Kind.BITTERNESS, 31.6, "32 IBU"),
        (Kind.FRACTION, 0.752, "75 %"),
        (Kind.FRACTION, 1.0, "100 %"),
        (Kind.FRACTION, 0.072, "7.2 %"),
        (Kind.FRACTION, 0.05, "5 %"),
        (Kind.MASS, 0.1206, "121 g"),
        (Kind.POWER, 1999.6, "2000 W"),
        (Kind.EVAPORATION, 0.94, "0.94 L/h"),
        (Kind.CARBONATION, 2.44, "2.4 vol"),
        (Kind.NUMBER, 12.3456, "12.35"),
        (Kind.NUMBER, 3.0, "3"),
    ],
    ids=str,
)
def test_a_figure_has_no_more_digits_than_a_kitchen_reads(kind, value, text):
    """Hydrometer to 0.001, jug to 0.1 L, thermometer to 1 °C, scale for hops to 0.1 g.

    Common practice, no source.
    """
    assert plain_figure(kind, value) == text


def test_a_finding_puts_its_figures_in_their_places():
    found = Finding(
        Severity.CARE,
        Place("process", "top_up_to"),
        say("code", "{1} will not go into {0}.", (Kind.VOLUME, 9.0), (Kind.VOLUME, 11.04)),
    )
    assert found.message.text == "11 L will not go into 9 L."
    assert found.message.said(lambda kind, value: f"{value / 3.785411784:.2f} gal") == (
        "2.92 gal will not go into 2.38 gal."
    )
    assert found.code == "code"
    assert found.fix is None


def test_colour_in_ebc_is_1_97_times_srm(harbour_porter):
    """ASBC and EBC read the same wort at 430 nm: 12.7 against 25 times the absorbance."""
    day = brew(harbour_porter)
    assert with_figures(day, colour_srm=10.0).beer.colour_ebc == pytest.approx(19.7)
    assert with_figures(day, colour_srm=10.0).beer.colour_ebc == pytest.approx(
        10 * 25 / 12.7, rel=1e-3
    )


def test_what_is_poured_is_the_top_up_less_what_is_frozen(harbour_porter):
    """A litre of water at 20 °C weighs 0.9982 kg (Bigg 1967)."""
    assert pytest.approx(0.9982, abs=1e-5) == WATER_KG_PER_L
    day = with_figures(brew(harbour_porter), top_up_l=4.0, frozen_kg=1.5)
    assert day.fermenter.liquid_top_up_l == pytest.approx(4.0 - 1.5 / 0.9982, rel=1e-5)
    assert with_figures(day, frozen_kg=0.0).fermenter.liquid_top_up_l == 4.0


def words_at_the_fullest(recipe):
    return at_stage(brew(recipe).pot.fullest_at).text


def with_line(recipe, place, **changes):
    lines = list(recipe.fermentables)
    lines[place] = replace(lines[place], **changes)
    return replace(recipe, fermentables=tuple(lines))


def test_a_brewer_is_told_in_words_when_the_pot_is_fullest(harbour_porter, kitchen):
    assert words_at_the_fullest(harbour_porter) == "coming to the boil"
    still = replace(
        harbour_porter,
        process=replace(harbour_porter.process, evaporation=kitchen.q(0, "L/h")),
    )
    late = with_line(still, 0, when=kitchen.boil(15))
    assert words_at_the_fullest(late) == "at the boil"
    last = with_line(still, 0, when=When(Stage.FLAME_OUT, "flame-out"))
    assert words_at_the_fullest(last) == "at flame-out"
    grainy = replace(harbour_porter, fermentables=harbour_porter.fermentables[2:])
    grainy = with_line(grainy, 0, amount=kitchen.q(3, "kg"))
    assert words_at_the_fullest(grainy) == "in the steep"
    no_stove = replace(
        harbour_porter,
        fermentables=(),
        pot=replace(harbour_porter.pot, power=kitchen.q(0, "W")),
        process=replace(harbour_porter.process, tap_temperature=kitchen.q(30, "°C")),
    )
    assert words_at_the_fullest(no_stove) == "at the start"
    stages = {moment.stage for moment in brew(harbour_porter).moments}
    assert {each for each in stages if at_stage(each).text == each} == {"cool", "move", "pitch"}


def test_what_is_left_out_is_nothing():
    assert Contribution() == Contribution(points=0.0, colour_mcu=0.0, bitterness_ibu=0.0)
    assert Range(1.0, 0.9, 1.1).causes == ()
    assert Cause("mark", 0.5, "", 0.9, 1.1).advice == ""
