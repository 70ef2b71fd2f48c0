"""Which slips of typing are thought of, what each would have been, and how likely it is held.

A pound is 0.45359237 kg, a US gallon 3.785411784 L (NIST SP 811), an imperial gallon 4.54609 L
(Weights and Measures Act 1985). How likely a slip is beside others is judgement, no source.
"""

from dataclasses import replace

import pytest

from designer.brewday.leaflet_slips import slips
from designer.recipe.document import Fermentable, Leaflet, Process, Recipe
from designer.recipe.edits import with_line_ids
from designer.recipe.place import Place
from designer.recipe.quantity import Kind, Stage, When
from designer.units import read

POUND, GALLON, IMPERIAL = 0.45359237, 3.785411784, 4.54609


def line(kind, amount, name="", **figures):
    amount = read(Kind.MASS, amount) if amount else None
    return Fermentable(name or kind, kind, amount, When(Stage.BOIL, "boil", 5.0), **figures)


def kit(*lines, makes=""):
    makes = read(Kind.VOLUME, makes) if makes else None
    return with_line_ids(
        Recipe(
            process=Process(top_up_to=makes),
            leaflet=Leaflet(makes=makes),
            fermentables=lines,
        )
    )


def evenly(recipe, share=None):
    lines = recipe.fermentables
    return {each.line_id: share or 1.0 / len(lines) for each in lines}


def found(recipe, code, shares=None):
    shares = evenly(recipe) if shares is None else shares
    return [each for each in slips(recipe, shares) if each.asks.id == code]


def volumes(makes):
    return {
        each.edit.apply(kit(makes=makes)).leaflet.makes.text: each
        for each in found(kit(makes=makes), "slip-volume")
    }


def test_a_volume_may_have_been_meant_in_another_unit_or_with_another_point():
    meant = volumes("5 gal")
    assert set(meant) == {"5 L", "5 imp gal"}  # 50 gallons and half a one are no kit
    assert meant["5 L"].makes_l == pytest.approx(5.0)
    assert meant["5 imp gal"].makes_l == pytest.approx(5.0 * IMPERIAL)
    assert meant["5 imp gal"].unlikely < meant["5 L"].unlikely == pytest.approx(0.1)
    meant = volumes("5 L")
    assert set(meant) == {"5 gal", "5 imp gal", "50 L"}
    assert meant["5 gal"].makes_l == pytest.approx(5.0 * GALLON)
    assert meant["50 L"].makes_l == pytest.approx(50.0)
    assert meant["50 L"].unlikely == pytest.approx(0.3)
    assert meant["5 gal"].unlikely == meant["5 imp gal"].unlikely == pytest.approx(0.1)
    assert volumes("40 gal")["4 gal"].makes_l == pytest.approx(4.0 * GALLON)


@pytest.mark.parametrize(
    ("makes", "meant"),
    [("20 litres", "20 gal"), ("20 L", "20 gal"), ("5 US gallons", "5 L"), ("5.5 gal", "5.5 L")],
)
def test_a_unit_is_known_by_its_long_name_too(makes, meant):
    assert meant in volumes(makes)


def test_only_a_volume_that_a_kit_may_make_is_thought_of():
    """From 3 to 80 L."""
    assert set(volumes("3.01 gal")) == {"3.01 L", "3.01 imp gal"}
    assert set(volumes("2.9 gal")) == {"2.9 imp gal"}
    assert set(volumes("80 imp gal")) == {"80 L", "8 imp gal"}
    assert set(volumes("81 imp gal")) == {"8.1 imp gal"}
    assert set(volumes("8 L")) == {"8 gal", "8 imp gal", "80 L"}
    assert "21.3 gal" not in volumes("21.3 L")
    assert not volumes("")


def test_another_volume_is_that_of_leaflet_mark_and_label_alike():
    tin = line("hopped kit extract", "1.7 kg", label_volume=read(Kind.VOLUME, "20 L"))
    other = replace(tin, label_volume=read(Kind.VOLUME, "23 L"))
    recipe = kit(tin, other, makes="20 L")
    slip = next(each for each in found(recipe, "slip-volume") if "gal" in each.asks.text)
    assert slip.asks.text == "Does the kit make 20 gal, not 20 L?"
    assert slip.about == Place("process", "top_up_to")
    after = slip.edit.apply(recipe)
    assert after.leaflet.makes.text == after.process.top_up_to.text == "20 gal"
    assert [each.label_volume.text for each in after.fermentables] == ["20 gal", "23 L"]


def masses(amount, kind="dry extract", share=0.5):
    recipe = kit(line(kind, amount))
    return {
        each.edit.apply(recipe).fermentables[0].amount.text: each
        for each in found(recipe, "slip-amount", evenly(recipe, share))
    }


def test_a_mass_may_have_been_meant_in_another_unit_or_with_another_point():
    meant = masses("3 lb")
    assert set(meant) == {"3 kg", "0.3 lb"}
    assert meant["3 kg"].unlikely == pytest.approx(0.1)
    assert meant["0.3 lb"].unlikely == pytest.approx(0.3)
    assert set(masses("0.5 kg")) == {"5 kg", "0.05 kg", "0.5 lb"}
    assert set(masses("500 g")) == {"5000 g", "50 g"}
    assert set(masses("7 kg")) == {"0.7 kg", "7 lb"}
    assert set(masses("6 lb")) == {"6 kg", "0.6 lb"}
    assert set(masses("6.1 lb")) == {"0.61 lb"}
    assert set(masses("2 pounds")) == {"2 kg", "0.2 lb"}
    assert masses("8 oz") == {}


def test_a_slip_moves_the_gravity_by_the_share_of_its_line():
    """Half of the extract, ten times as much: 1 + 0.5 × 9 of the gravity points."""
    assert masses("0.5 kg")["5 kg"].points == pytest.approx(5.5)
    assert masses("0.5 kg")["0.05 kg"].points == pytest.approx(0.55)
    assert masses("0.5 kg", share=0.2)["0.5 lb"].points == pytest.approx(0.8 + 0.2 * POUND)
    assert masses("3 lb")["3 kg"].points == pytest.approx(0.5 + 0.5 / POUND)


def test_a_mass_that_was_meant_is_asked_for_by_name():
    slip = masses("3 lb")["3 kg"]
    assert slip.asks.text == "Did you mean 3 kg of dry extract, not 3 lb?"
    assert (slip.about.of, slip.about.field) == ("fermentables", "amount")
    assert slip.makes_l is None


def test_one_tin_more_or_half_of_one_may_have_been_meant():
    grain = line("steeping grain", "200 g")
    recipe = kit(grain, line("dry extract", "1 lb"), line("sugar", "500 g"))
    shares = {recipe.fermentables[1].line_id: 0.4, recipe.fermentables[2].line_id: 0.6}
    tin, sugar = found(recipe, "slip-forgotten", shares)
    assert tin.asks.text == "Is another 1 lb of dry extract missing?"
    assert (tin.points, tin.unlikely) == (pytest.approx(1.4), 0.5)
    assert sugar.points == pytest.approx(1.6)
    after = tin.edit.apply(recipe).fermentables
    assert [each.kind for each in after[1:]] == ["dry extract", "dry extract", "sugar"]
    halved, _ = found(recipe, "slip-doubled", shares)
    assert halved.asks.text == "Does the kit hold 0.5 lb of dry extract, not 1 lb?"
    assert halved.edit.apply(recipe).fermentables[1].amount.value == pytest.approx(POUND / 2.0)
    assert (halved.points, halved.unlikely) == (pytest.approx(0.8), pytest.approx(0.6))
    assert found(recipe, "slip-twice", shares) == []


def test_of_tins_alike_one_more_or_one_fewer_is_asked_once():
    recipe = kit(*2 * [line("dry extract", "1 lb")], line("dry extract", "2 lb"))
    shares = evenly(recipe, 0.25)
    ids = [each.line_id for each in recipe.fermentables]
    more = found(recipe, "slip-forgotten", shares)
    assert [each.about.line for each in more] == [ids[0], ids[2]]
    fewer = found(recipe, "slip-twice", shares)
    assert [each.about.line for each in fewer] == [ids[1]]
    assert fewer[0].asks.text == "Is 1 lb of dry extract there twice?"
    assert (fewer[0].points, fewer[0].unlikely) == (pytest.approx(0.75), pytest.approx(0.2))
    left = fewer[0].edit.apply(recipe).fermentables
    assert [each.line_id for each in left] == [ids[0], ids[2]]
    halved = found(recipe, "slip-doubled", shares)
    assert [each.about.line for each in halved] == [ids[2]]


def test_half_of_very_little_is_not_thought_of_nor_grain_counted():
    """Below 50 g nobody packs extract."""
    assert found(kit(line("dry extract", "98 g")), "slip-doubled") == []
    assert len(found(kit(line("dry extract", "100 g")), "slip-doubled")) == 1
    assert found(kit(line("dry extract", "8 oz")), "slip-doubled") == []
    grain = kit(line("steeping grain", "0.5 kg"))
    assert {each.asks.id for each in slips(grain, evenly(grain))} == {"slip-amount"}


def test_what_gives_nothing_or_has_no_amount_is_not_asked_about():
    recipe = kit(line("dry extract", "1 kg"), line("sugar", ""), line("sugar", "0 kg"))
    assert {each.about.line for each in slips(recipe, evenly(recipe))} == {
        recipe.fermentables[0].line_id
    }
    assert list(slips(recipe, {})) == []


def test_a_tin_by_itself_may_want_a_kilogram_of_sugar():
    """Common practice, no source: most leaflets ask for a kilogram; four fifths of a tin ferment
    into gravity as sugar would."""
    recipe = kit(line("hopped kit extract", "1.7 kg", "Tin"))
    (slip,) = found(recipe, "slip-sugar")
    assert slip.asks.text == "Is the 1 kg of sugar to be added missing?"
    assert (slip.points, slip.unlikely) == (pytest.approx(1.735, abs=0.001), pytest.approx(0.4))
    sugar = slip.edit.apply(recipe).fermentables[-1]
    assert (sugar.kind, sugar.amount.value, sugar.when.minutes) == ("sugar", 1.0, 5.0)
    assert sugar.locked
    assert slip.about.line == recipe.fermentables[0].line_id
    beside = kit(line("hopped kit extract", "1.7 kg"), line("sugar", "0.5 kg"))
    assert found(beside, "slip-sugar") == []
    only_tin = {beside.fermentables[0].line_id: 1.0}
    assert len(found(beside, "slip-sugar", only_tin)) == 1
    assert found(kit(line("dry extract", "1 kg")), "slip-sugar") == []
