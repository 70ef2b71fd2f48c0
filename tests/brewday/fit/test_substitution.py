"""One ingredient in place of another: what is held, and what is said of the rest."""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.fit.answer import Compared
from designer.brewday.fit.changed_recipe import boil_left, line_kg, mass, with_amounts
from designer.brewday.fit.substitution import substitute
from designer.brewday.fit.substitution_words import beer_words, fermentable_words, hop_words
from designer.errors import RefusedInputError
from designer.library.catalogue import find_fermentable, find_hop, new_fermentable, new_hop
from designer.recipe.document import Fermentable, Hop
from designer.recipe.kind_defaults import colour_lovibond, real_fermentability
from designer.recipe.quantity import Kind, Quantity, Stage, When
from tests.brewday.quantities import q


def new(name):
    return new_fermentable(find_fermentable(name))


def line(recipe, name):
    return next(each for each in (*recipe.fermentables, *recipe.hops) if each.name == name)


def words(found):
    return " ".join(each.text for each in found.words)


def test_dry_for_liquid_extract_takes_the_same_solids(porter):
    """Mass balance of dissolved extract: kilograms times solids stay the same, but for the half
    per cent more that stays in a pot with less water in it."""
    old = line(porter, "Light liquid malt extract")
    found = substitute(porter, old.line_id, new("Light dry malt extract"))
    made = found.recipe.fermentables[0]
    solids = old.amount.value * old.extract.value
    assert made.amount.value * made.extract.value == pytest.approx(solids, rel=0.01)
    assert made.when == old.when
    assert found.held
    assert "dry extract keeps paler" in words(found)
    assert found.edit.apply(porter) == found.recipe


def test_liquid_for_dry_goes_the_other_way(porter):
    old = line(porter, "Light dry malt extract")
    found = substitute(porter, old.line_id, new("Light liquid malt extract"))
    assert line(found.recipe, "Light liquid malt extract").amount
    assert found.recipe.fermentables[1].amount.value > old.amount.value
    assert abs(found.forecasts["original_gravity"].change) < 5e-4
    assert "darkens with age" in words(found)


def test_a_hop_of_twice_the_alpha_takes_about_half_the_weight(porter):
    """IBU = utilisation x alpha x mass / volume (Tinseth): the product stays; less leaf holds less
    wort back."""
    old = line(porter, "Challenger")
    strong = Hop("Harbour hop", alpha=Quantity(2 * old.alpha.value, "14.4 %"))
    found = substitute(porter, old.line_id, strong)
    assert found.recipe.hops[0].amount.value == pytest.approx(old.amount.value / 2, rel=0.05)
    assert found.forecasts["bitterness_ibu"].change == pytest.approx(0.0, abs=0.6)
    assert "few will notice" in words(found)


def test_a_late_hop_is_said_to_bring_its_own_aroma(porter):
    old = line(porter, "East Kent Golding")
    found = substitute(porter, old.line_id, new_hop(find_hop("Cluster")))
    assert found.held
    assert "its own aroma" in words(found)


def test_a_dry_hop_keeps_its_weight(slipway_bitter):
    old = slipway_bitter.hops[-1]
    found = substitute(slipway_bitter, old.line_id, new_hop(find_hop("Cluster")))
    assert found.recipe.hops[-1].amount.value == old.amount.value
    assert found.forecasts["bitterness_ibu"].change == 0.0
    assert "its weight stays" in words(found)


def test_a_paler_extract_is_said_to_be_paler(porter):
    old = line(porter, "Light liquid malt extract")
    found = substitute(porter, old.line_id, new("Pilsner dry malt extract"))
    assert found.forecasts["colour_srm"].change < -0.5
    assert abs(found.forecasts["original_gravity"].change) < 5e-4
    assert abs(found.forecasts["bitterness_ibu"].change) < 0.6
    assert "Colour: " in words(found)
    darker = substitute(porter, old.line_id, new("Dark dry malt extract"))
    assert darker.forecasts["colour_srm"].change > 1.0
    assert "toast and body" in words(darker)


def test_sugar_for_extract_is_said_to_thin_the_beer(porter):
    old = line(porter, "Light dry malt extract")
    found = substitute(porter, old.line_id, new("Table sugar (sucrose)"))
    assert float(brew(found.recipe).beer.final_gravity) < float(brew(porter).beer.final_gravity)
    assert "thinner" in words(found)


def test_what_cannot_be_put_there_is_refused(porter, breakwater_red):
    hop = new_hop(find_hop("Cluster"))
    with pytest.raises(RefusedInputError, match="no line 99"):
        substitute(porter, 99, hop)
    with pytest.raises(RefusedInputError, match="A hop stands in for a hop"):
        substitute(porter, 1, hop)
    with pytest.raises(RefusedInputError, match="locked"):
        substitute(breakwater_red, 4, hop)


def test_what_cannot_be_held_is_said(porter):
    """No amount of a hop without alpha acid makes a beer bitter."""
    found = substitute(porter, 4, Hop("Old hop", alpha=Quantity(0.0, "0 %")))
    assert not found.held
    assert "Bitterness: " in words(found)
    kept = replace(porter, hops=porter.hops[:1])
    assert substitute(kept, 4, new_hop(find_hop("Cluster"))).held


HOP = Hop("Harbour hop", alpha=q(0.10), locked=True, amount=q(0.5, "kg"), when=boil_left(1))
DRY = Hop("Dry", alpha=q(0.10))


def nearest_step(recipe, line_id, step_kg, off):
    """Neither a step more nor a step less comes nearer."""
    kg = next(line_kg(each) for each in (*recipe.fermentables, *recipe.hops)
              if each.line_id == line_id)  # fmt: skip
    assert kg / step_kg == pytest.approx(round(kg / step_kg), abs=1e-6)
    here = off(brew(recipe))
    for other in (kg - step_kg, kg + step_kg):
        assert here <= off(brew(with_amounts(recipe, {line_id: round(other, 6)}))) + 1e-9


def test_a_new_hop_takes_time_and_place_of_the_old_and_is_weighed_to_the_half_gram(porter):
    old = porter.hops[0]
    found = substitute(porter, old.line_id, HOP)
    made = found.recipe.hops[0]
    assert (made.name, made.alpha, made.when) == ("Harbour hop", HOP.alpha, old.when)
    assert (made.line_id, made.locked) == (old.line_id, False)
    assert found.recipe.hops[1:] == porter.hops[1:]
    assert found.recipe.fermentables == porter.fermentables
    wanted = float(brew(porter).beer.bitterness_ibu)
    nearest_step(
        found.recipe, old.line_id, 0.0005, lambda day: abs(day.beer.bitterness_ibu - wanted)
    )
    assert found.edit.text.text == "Harbour hop in place of Challenger"


def test_a_hop_that_gives_half_an_ibu_or_less_keeps_its_weight(porter):
    """Only its aroma counts then: common practice, no source."""
    late = porter.hops[1]
    assert float(brew(porter).gives[late.line_id].bitterness_ibu) > 0.5
    assert substitute(porter, late.line_id, HOP).recipe.hops[1].amount != late.amount
    little = with_amounts(porter, {late.line_id: 0.005})
    assert 0.0 < float(brew(little).gives[late.line_id].bitterness_ibu) < 0.5
    found = substitute(little, late.line_id, HOP)
    assert found.recipe.hops[1].amount.value == 0.005
    assert "its weight stays" in found.words[1].text


def test_no_more_than_twenty_grams_a_litre_stand_in_for_a_hop(porter):
    """Beyond that they hold back more than they give; an estimate."""
    weak = replace(HOP, alpha=q(0.001))
    found = substitute(porter, porter.hops[0].line_id, weak)
    litres = float(brew(porter).fermenter.batch_l)
    assert found.recipe.hops[0].amount.value == pytest.approx(0.02 * litres, abs=0.0005)
    assert not found.held


def test_a_new_fermentable_is_weighed_to_five_grams_and_the_bitterest_hop_follows(porter):
    old = porter.fermentables[0]
    instead = replace(new("Light dry malt extract"), locked=True)
    found = substitute(porter, old.line_id, instead)
    made = found.recipe.fermentables[0]
    assert (made.line_id, made.when, made.locked) == (old.line_id, old.when, False)
    wanted = float(brew(porter).beer.original_gravity)
    nearest_step(
        found.recipe, old.line_id, 0.005, lambda day: abs(day.beer.original_gravity - wanted)
    )
    assert found.recipe.fermentables[1:] == porter.fermentables[1:]
    assert found.recipe.hops[1] == porter.hops[1]


def test_the_hop_that_bitters_most_makes_up_for_what_the_new_fermentable_takes(porter):
    """A kit brings bitterness of its own: the bitterest free hop is taken back."""
    kit = Fermentable("Hopped kit", "hopped kit extract", q(1.7, "kg"),
                      label_bitterness=q(10, "IBU"), label_volume=q(20, "L"))  # fmt: skip
    found = substitute(porter, porter.fermentables[0].line_id, kit)
    assert found.held
    assert found.recipe.hops[0].amount.value < porter.hops[0].amount.value - 0.001
    assert found.recipe.hops[1] == porter.hops[1]
    locked = replace(porter, hops=(replace(porter.hops[0], locked=True), porter.hops[1]))
    other = substitute(locked, porter.fermentables[0].line_id, kit)
    assert other.recipe.hops[0] == locked.hops[0]
    both = replace(porter, hops=tuple(replace(each, locked=True) for each in porter.hops))
    stuck = substitute(both, porter.fermentables[0].line_id, kit)
    assert stuck.recipe.hops == both.hops
    assert not stuck.held
    none = replace(porter, hops=())
    assert substitute(none, porter.fermentables[0].line_id, kit).recipe.hops == ()


def test_half_an_ibu_lost_is_not_worth_weighing_hops_anew(porter):
    found = substitute(porter, porter.fermentables[1].line_id, new("Pilsner dry malt extract"))
    assert found.recipe.hops == porter.hops
    assert abs(found.forecasts["bitterness_ibu"].change) <= 0.5


def test_a_fermentable_does_not_stand_in_for_a_hop(porter):
    with pytest.raises(RefusedInputError, match="A hop stands in for a hop"):
        substitute(porter, porter.hops[0].line_id, new("Light dry malt extract"))


def test_held_is_within_a_point_and_an_ibu(porter):
    """What no kitchen can tell: common practice, no source."""
    sugar = substitute(porter, porter.fermentables[1].line_id, new("Table sugar (sucrose)"))
    assert sugar.held
    assert sugar.forecasts["original_gravity"].original == pytest.approx(
        float(brew(porter).beer.original_gravity)
    )
    for shown in sugar.forecasts.values():
        assert shown.low <= shown.value <= shown.high
    huge = replace(new("Table sugar (sucrose)"), extract=q(0.0))
    assert not substitute(porter, porter.fermentables[1].line_id, huge).held


# Words.


def test_the_words_of_a_hop_tell_weights_and_alpha_acid_of_both(porter):
    old = porter.hops[0]
    made = with_amounts(porter, {old.line_id: 0.0145})
    said = hop_words(made, old, HOP, bitters=True)
    assert [kind for kind, _ in said[0].figures] == [Kind.MASS, Kind.FRACTION] * 2
    assert [value for _, value in said[0].figures] == pytest.approx([0.0145, 0.10, 0.020, 0.072])
    assert "g of Harbour hop at 10 % in place of 20 g of Challenger" in said[0].text


@pytest.mark.parametrize(
    ("when", "bitters", "words"),
    [
        (boil_left(45), True, "few will notice"),
        (boil_left(44), True, "will smell of it"),
        (When(Stage.STAND, "stand 60 min", 60.0, 80.0), True, "will smell of it"),
        (When(Stage.FLAME_OUT, "flame-out"), True, "will smell of it"),
        (boil_left(60), False, "only aroma changes"),
    ],
)
def test_three_quarters_of_an_hour_boil_off_a_hop_s_own_aroma(porter, when, bitters, words):
    """Common practice, no source."""
    old = replace(porter.hops[0], when=when)
    said = hop_words(porter, old, HOP, bitters=bitters)
    assert len(said) == 2
    assert words in said[1].text


def told(made, old, instead):
    return [each.text for each in fermentable_words(made, old, instead)]


def test_amounts_are_told_before_and_after(porter):
    syrup = porter.fermentables[0]
    after = with_amounts(porter, {syrup.line_id: 1.2})
    assert told(after, syrup, syrup) == [
        "1.2 kg of Light liquid malt extract in place of 1.5 kg of Light liquid malt extract."
    ]
    assert told(porter, syrup, syrup)[0].startswith("1.5 kg")
    gone = replace(porter, fermentables=porter.fermentables[1:])
    assert told(gone, syrup, syrup)[0].startswith("0 g of Light liquid malt extract")


def kind(kind_, colour=10.0, ferments=0.6):
    return Fermentable("Some", kind_, mass(1.0), colour=q(colour, "°L"), fermentability=q(ferments))


@pytest.mark.parametrize(
    ("old", "instead", "words"),
    [
        (kind("liquid extract"), kind("dry extract"), ["less water in it"]),
        (kind("dry extract"), kind("liquid extract"), ["with water in it"]),
        (kind("dry extract"), kind("dry extract"), []),
        (kind("dry extract"), kind("dry extract", colour=15.1), ["darker extract"]),
        (kind("dry extract"), kind("dry extract", colour=14.9), []),
        (kind("dry extract"), kind("dry extract", colour=6.6), ["paler extract"]),
        (kind("dry extract"), kind("dry extract", colour=6.7), []),
        (kind("dry extract"), kind("sugar", colour=100.0), []),
        (kind("dry extract"), kind("sugar", colour=0.0), []),
        (kind("dry extract"), kind("dry extract", ferments=0.71), ["drier, thinner"]),
        (kind("dry extract"), kind("dry extract", ferments=0.69), []),
        (kind("dry extract"), kind("dry extract", ferments=0.49), ["fuller, sweeter"]),
        (kind("dry extract"), kind("dry extract", ferments=0.51), []),
    ],
)
def test_what_a_change_does_to_the_taste_is_told_where_it_is_large(porter, old, instead, words):
    """Half as dark again, a tenth more fermented: common practice, no source."""
    said = told(porter, old, instead)[1:]
    assert len(said) == len(words)
    for text, each in zip(said, words, strict=True):
        assert each in text


def test_the_kinds_behind_the_words_are_read_off_the_lines():
    assert colour_lovibond(kind("dry extract", colour=12.0)) == 12.0
    assert real_fermentability(kind("dry extract", ferments=0.5)) == 0.5


def test_the_beer_is_told_of_where_it_is_not_as_it_was():
    def beer(**changes):
        base = {"original_gravity": 1.5, "final_gravity": 1.25, "bitterness_ibu": 30.0,
                "colour_srm": 10.0}  # fmt: skip
        return [
            each.text
            for each in beer_words(
                {key: Compared(base[key] + changes.get(key, 0.0), 0.0, 0.0, base[key])
                 for key in base}
            )
        ]  # fmt: skip

    assert beer() == []
    assert beer(original_gravity=0.0009, final_gravity=-0.0009) == []
    assert beer(bitterness_ibu=1.0, colour_srm=-0.5) == []
    assert beer(original_gravity=-0.0011) == ["Original gravity: 1.499 instead of 1.500."]
    assert beer(final_gravity=0.0011) == ["Final gravity: 1.251 instead of 1.250."]
    assert beer(bitterness_ibu=-1.01) == ["Bitterness: 29 IBU instead of 30 IBU."]
    assert beer(colour_srm=0.51) == ["Colour: 11 SRM instead of 10 SRM."]
