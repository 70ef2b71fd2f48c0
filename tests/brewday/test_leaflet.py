"""What a leaflet states, beside the day, and the slips of typing it in.

The beers are worked out by hand from 300 L°/kg for syrup of 78 % and 384 for sugar: 300 × 1.7 / 20
is 25.5 points a tin, 384 × 0.5 / 20 is 9.6 points (handbook arithmetic); what the leaflets state is
these sums, a few points wide.
"""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.leaflet import Verdict, checked
from designer.brewday.outlook import look_ahead
from designer.recipe.document import Fermentable, Fermenter, Leaflet, Pot, Process, Recipe, Yeast
from designer.recipe.edits import with_line_ids
from designer.recipe.quantity import Kind, Stage, When
from designer.units import read

ABOUT_LEAFLETS = ("leaflet-differs", "leaflet-gravities")


def line(kind, amount, name=""):
    when = When(Stage.BOIL, "boil 5 min", 5.0)
    figures = {} if kind == "sugar" else {"extract": read(Kind.EXTRACT_YIELD, "78 %")}
    return Fermentable(
        name or kind.title(), kind, read(Kind.MASS, amount), when, locked=True, **figures
    )


def kit(*lines, makes="20 L", og="1.058 to 1.063", water="3 L", **stated):
    """A kit of two tins and half a kilogram of sugar in 20 L, with changes."""
    makes = read(Kind.VOLUME, makes)
    lines = lines or (*2 * [line("hopped kit extract", "1.7 kg")], line("sugar", "500 g"))
    return with_line_ids(
        Recipe(
            name="Breakwater Red",
            pot=Pot(volume=read(Kind.VOLUME, "9 L")),
            fermenter=Fermenter(volume=read(Kind.VOLUME, "25 L")),
            process=Process(
                start_water=read(Kind.VOLUME, water),
                boil_time=read(Kind.TIME, "10 min"),
                left_in_pot=read(Kind.VOLUME, "0 L"),
                top_up_to=makes,
            ),
            fermentables=lines,
            yeast=Yeast("Kit sachet", amount=read(Kind.DOSE, "11 g")),
            leaflet=Leaflet(
                makes=makes, original_gravity=read(Kind.GRAVITY, og) if og else None, **stated
            ),
        )
    )


def doubts(recipe):
    return [each for each in look_ahead(recipe).findings if each.code in ABOUT_LEAFLETS]


def gravity(recipe):
    return brew(recipe).beer.original_gravity


def stated(recipe):
    outlook = look_ahead(recipe)
    return checked(recipe, outlook.forecasts, outlook.day.fermenter.batch_l)


def test_a_leaflet_typed_as_it_reads_agrees_and_nothing_is_asked():
    recipe = kit()
    assert gravity(recipe) == pytest.approx(1.0606, abs=0.001)
    (found,) = stated(recipe)
    assert found.verdict is Verdict.AGREES
    assert found.said.text.startswith("OG: stated 1.058 to 1.063; here 1.06")
    assert doubts(recipe) == []


@pytest.mark.parametrize(
    ("og", "verdict"),
    [
        ("1.058 to 1.063", Verdict.AGREES),
        ("1.061", Verdict.AGREES),
        ("1.062 to 1.068", Verdict.PARTLY),
        ("1.075 to 1.080", Verdict.DIFFERS),
        ("14.5-15.3 °P", Verdict.AGREES),
    ],
)
def test_ours_lies_in_the_band_or_meets_it_or_does_not(og, verdict):
    (found,) = stated(kit(og=og))
    assert found.verdict is verdict


def test_alcohol_and_bitterness_are_set_beside_it_too():
    recipe = kit(
        og="",
        alcohol=read(Kind.FRACTION, "5.5-6.5 %"),
        bitterness=read(Kind.BITTERNESS, "20-30 IBU"),
    )
    alcohol, bitter = stated(recipe)
    assert (alcohol.low, alcohol.high) == pytest.approx((5.5, 6.5))
    assert alcohol.said.text.startswith("Alcohol: stated 5.5-6.5 %; here 6")
    assert bitter.verdict is Verdict.DIFFERS  # no bitterness of the tins is typed


def test_brewed_to_another_volume_the_leaflet_is_told_and_not_judged():
    recipe = kit()
    half = replace(recipe, process=replace(recipe.process, top_up_to=read(Kind.VOLUME, "12 L")))
    (found,) = stated(half)
    assert found.verdict is Verdict.OTHER_VOLUME
    assert "stated 1.058 to 1.063 in 20 L" in found.said.text
    assert doubts(half) == []


TINS = (*2 * [line("hopped kit extract", "1.7 kg")], line("sugar", "500 g"))
POUNDS = (line("liquid extract", "3.3 lb"), line("dry extract", "2 lb"))
SLIPS = {
    "gallons typed as litres": (kit(makes="5 L", og="1.061 to 1.066"), "make 5 gal, not 5 L"),
    "litres typed as gallons": (kit(makes="20 gal"), "make 20 L, not 20 gal"),
    "imperial gallons typed as US": (
        kit(makes="5 gal", og="1.051 to 1.056"),
        "make 5 imp gal, not 5 gal",
    ),
    "US gallons typed as imperial": (
        kit(makes="5 imp gal", og="1.062 to 1.066"),
        "make 5 gal, not 5 imp gal",
    ),
    "pounds typed as kilograms": (
        kit(line("liquid extract", "3.3 kg"), POUNDS[1], og="1.034 to 1.038"),
        "3.3 lb of Liquid Extract, not 3.3 kg",
    ),
    "kilograms typed as pounds": (
        kit(line("hopped kit extract", "3 lb"), og="1.043 to 1.047"),
        "3 kg of Hopped Kit Extract, not 3 lb",
    ),
    "a tin forgotten": (kit(*TINS[1:]), "another 1.7 kg of Hopped Kit Extract missing"),
    "a tin twice": (
        kit(*TINS[:2], TINS[1], TINS[2]),
        "1.7 kg of Hopped Kit Extract there twice",
    ),
    "two tins typed as one": (
        kit(line("hopped kit extract", "3.4 kg"), TINS[2], og="1.033 to 1.037"),
        "1.7 kg of Hopped Kit Extract, not 3.4 kg",
    ),
    "the sugar forgotten": (
        kit(line("hopped kit extract", "1.5 kg"), og="1.040 to 1.044"),
        "1 kg of sugar to be added missing",
    ),
    "5 typed for 0.5": (
        kit(*TINS[:2], line("sugar", "5 kg")),
        "0.5 kg of Sugar, not 5 kg",
    ),
    "0.17 typed for 1.7": (
        kit(TINS[0], line("hopped kit extract", "0.17 kg", "Second tin"), TINS[2]),
        "1.7 kg of Second tin, not 0.17 kg",
    ),
    "the final gravity typed as the original one": (
        kit(og="1.012 to 1.016"),
        "1.012 to 1.016, is what is left when done",
    ),
    "the original gravity typed as the final one": (
        kit(og="", final_gravity=read(Kind.GRAVITY, "1.058 to 1.063")),
        "1.058 to 1.063, is that before yeast",
    ),
}  # fmt: skip


@pytest.mark.parametrize("slip", SLIPS)
def test_a_slip_is_named_once_and_mildly_and_its_cure_makes_the_leaflet_agree(slip):
    recipe, words = SLIPS[slip]
    (found,) = doubts(recipe)
    assert words in found.message.text
    assert str(found.severity) == "note"
    cured = found.fix.apply(recipe)
    assert all(
        each.verdict in (Verdict.AGREES, Verdict.PARTLY)
        for each in stated(cured)
        if each.key == "original_gravity"
    )
    assert stated(cured)
    assert doubts(cured) == []


def test_a_volume_put_right_puts_right_what_the_tins_are_labelled_for():
    recipe = kit(makes="20 gal")
    tin = replace(
        recipe.fermentables[0],
        label_volume=recipe.leaflet.makes,
        label_bitterness=read(Kind.BITTERNESS, "24 IBU"),
    )
    recipe = replace(recipe, fermentables=(tin, *recipe.fermentables[1:]))
    (found,) = doubts(recipe)
    cured = found.fix.apply(recipe)
    assert cured.fermentables[0].label_volume.text == "20 L"
    assert cured.process.top_up_to.text == "20 L"


def test_the_cure_is_offered_though_a_small_fermenter_then_overflows():
    recipe = kit(makes="5 L", og="1.061 to 1.066")
    small = replace(recipe, fermenter=Fermenter(volume=read(Kind.VOLUME, "12 L")))
    (found,) = doubts(small)
    assert found.fix is not None
    codes = {each.code for each in look_ahead(found.fix.apply(small)).findings}
    assert "fermenter-overflows" in codes


def test_what_no_slip_explains_is_said_without_a_cure():
    (found,) = doubts(kit(og="1.110 to 1.112"))
    assert found.fix is None
    assert "Look at amounts and volume again" in found.message.text


def test_a_leaflet_that_says_alcohol_alone_is_compared_by_that():
    recipe = kit(*TINS[1:], og="", alcohol=read(Kind.FRACTION, "5.8-6.4 %"))
    (found,) = doubts(recipe)
    assert "5.8-6.4 % alcohol" in found.message.text
    assert "missing" in found.message.text
