"""The steps of a way in words, with their figures in order, and the cautions at their edges."""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.fit.draft_way import Draft, Kitchen
from designer.brewday.fit.fermenters import Cellar
from designer.brewday.fit.original import original_of
from designer.brewday.fit.way_cautions import cautions_of
from designer.brewday.fit.way_steps import steps_of
from designer.brewday.fit.ways import ways
from designer.brewday.fit.wish import wish_for
from designer.recipe.document import Fermenter, Pot, Yeast
from designer.recipe.kinds import metric
from designer.recipe.message import word
from designer.recipe.quantity import Kind, Quantity, Stage, When
from designer.wort.bitterness import POT_CEILING_IBU
from tests.brewday.days import with_figures
from tests.brewday.quantities import q

from .figures import figures_in

BUCKET = Fermenter("Bucket", Quantity(12.0, "12 L"))


@pytest.fixture(scope="module")
def kitchen(porter):
    return Kitchen(wish_for(porter, 40.0, (12.0,)), original_of(porter))


@pytest.fixture(scope="module")
def boil(porter):
    """A boil with room to spare and no ice, its figures put where they are easy to read."""
    [boil] = ways(porter, wish_for(porter, 40.0, (12.0,))).ways[0].boils
    [filling] = boil.fillings
    filling = replace(
        filling, from_pot_l=6.0, liquid_top_up_l=4.0, frozen_kg=0.0, filled_l=10.0,
    )  # fmt: skip
    return replace(
        boil, start_water_l=6.5, fullest_l=8.0, fullest_at="boil", rim_l=40.0, foam_room_l=5.0,
        frozen_kg=0.0, pot_bitterness_ibu=50.0, fillings=(filling,),
        day=with_figures(boil.day, boil_gravity_end=1.080),
    )  # fmt: skip


def draft(kitchen, count=1, **changes):
    cellar = Cellar((BUCKET,) * count)
    return Draft("one boil", (kitchen.recipe,), (cellar,), 0, word("Boil it"), **changes)


WATERS = ("water-fullest", "pot-losses", "share-out", "top-up")


def told(kitchen, boils, changes, ids):
    said = steps_of(boils, draft(kitchen, **changes), kitchen)
    return [each for each in said if each.id.startswith(ids)]


def texts(kitchen, *boils, **changes):
    """What is said of water, shares and marks."""
    return [each.text for each in told(kitchen, boils, changes, WATERS)]


def figures(kitchen, *boils, **changes):
    return [figures_in(each) for each in told(kitchen, boils, changes, WATERS)]


def pitched(kitchen, *boils, **changes):
    return [each.text for each in told(kitchen, boils, changes, ("pitch",))]


def test_a_plain_boil_is_told_from_cold_water_to_pitched_yeast(kitchen, boil):
    """In the order of the day; what goes in has its weight where it does."""
    assert [each.text for each in steps_of((boil,), draft(kitchen), kitchen)] == PORTER


PORTER = [
    "Weigh everything out first, by when it goes in.",
    "Start with 6.5 L of water in the 40 L pot; at its fullest it holds 8 L of 40 L (at the boil).",
    "Heat it to 69 °C, burner off, hang 250 g of Medium crystal malt in it in a bag; 25 min at "
    "68 °C. Lift it out and let it drip.",
    "Heat it to the boil, burner off, stir in 1.5 kg of Light liquid malt extract until all is "
    "dissolved; back to the boil.",
    "Boil it for 60 min.",
    "As it boils, put in 20 g of Challenger.",
    "With 15 min left, burner off, stir in 500 g of Light dry malt extract until all is dissolved; "
    "back to the boil.",
    "With 5 min left, put in 0.5 tablet of Carrageenan finings.",
    "Burner off; stir in 20 g of East Kent Golding.",
    "Cool it to 40 °C, some 22 min (ice bath). From now on only what is sanitised touches the "
    "wort.",
    "Pour it through a strainer into the fermenter; leave 0.3 L of sludge behind.",
    "Top up to 10 L with 4 L of water; mix well.",
    "Stir hard for two minutes and read the hydrometer: some 1.063.",
    "Pitch the yeast (Dry English ale yeast); lid and airlock on.",
]
IN_ORDER = (
    ("weigh-first", "weigh-out", "two-parts"), ("water-fullest", "water-fullest-of"),
    ("into-cold-water",), ("steep-in-bag",), ("before-the-boil",),
    ("extract-at-start", "heat-to-boil"), ("boil-for",), ("as-it-boils",),
    ("extract-with-left", "hops-with-left"), ("at-the-end",), ("at-flame-out", "burner-off"),
    ("stir-in-off-boil",), ("heat-again",), ("keep-hot",), ("stand-at",),
    ("dissolve-in-bucket", "dissolve-in-buckets"), ("cool-to", "cool-with-ice"),
    ("stir-into-wort",), ("share-out", "pour", "pour-off"),
    ("pour-next", "top-up", "top-up-frozen", "top-up-all-frozen", "lid-and-wait"),
    ("stir-and-read", "stir-and-read-each", "wait-and-read"), ("wait-to-pitch",),
    ("pitch", "pitch-packets", "pitch-and-share", "pitch-so-many-into-each", "pitch-into-each",
     "pitch-so-many", "pitch-whole"),
    ("dry-hop", "with-the-yeast", "later-shared", "later-into-each", "later-of-boil"),
)  # fmt: skip
ALWAYS = ("boil-for", "cool-to", "stir-and-read", "pitch", "water-fullest")


@pytest.fixture(scope="module")
def all_ways(kitchens):
    return [
        (name, way)
        for name, (recipe, wish) in kitchens.items()
        for way in ways(recipe, wish).every_way
    ]


def place_of(step):
    return next((place for place, ids in enumerate(IN_ORDER) if step.id in ids), None)


def test_the_steps_of_every_way_are_in_the_order_of_the_day(all_ways):
    """Two boils that differ are each told through to the pouring; then what is common to both."""
    assert {way.key for _, way in all_ways} >= {"into the fermenter", "off the boil", "two boils"}
    for name, way in all_ways:
        places = [place for step in way.steps if (place := place_of(step)) is not None]
        begins = [n for n, place in enumerate(places) if place == 1]
        for start, end in zip(begins, [*begins[1:], len(places)], strict=True):
            assert places[start:end] == sorted(places[start:end]), (name, way.key)
        said = {step.id for step in way.steps}
        for each in ALWAYS:
            assert any(one.startswith(each.removesuffix("-to")) for one in said), (name, way.key)


def test_all_that_a_boil_gets_is_named_with_its_weight_in_its_steps(all_ways):
    for name, way in all_ways:
        said = " ".join(step.text for step in way.steps)
        for boil in way.boils:
            for line in (*boil.recipe.fermentables, *boil.recipe.hops):
                weight = metric(Kind.MASS, line.amount.value, rounded=True)
                assert f"{weight} of {line.name}" in said, (name, way.key)


def test_each_figure_of_temperature_volume_and_gravity_is_that_of_the_day(all_ways):
    for name, way in all_ways:
        said = " ".join(step.text for step in way.steps)
        for boil in way.boils:
            filled = boil.day.fermenter
            for kind, value in (
                (Kind.TEMPERATURE, filled.cool_to_c), (Kind.VOLUME, boil.start_water_l),
            ):  # fmt: skip
                assert metric(kind, float(value), rounded=True) in said, (name, way.key)
        gravity = metric(Kind.GRAVITY, way.forecasts["original_gravity"].value, rounded=True)
        assert f"hydrometer: some {gravity}" in said, (name, way.key)


def test_the_hot_water_of_a_tin_in_the_bucket_is_not_poured_twice(all_ways):
    [way] = [each for name, each in all_ways if name == "kit, tiny pot, large bucket"
             and each.key == "into the fermenter"]  # fmt: skip
    [boil] = way.boils
    [filling] = boil.fillings
    hot, cold = filling.hot_l, filling.cold_top_up_l
    assert hot == pytest.approx(1.7 / 0.9982, abs=0.01)
    assert cold == pytest.approx(boil.top_up_l - hot)
    said = " ".join(step.text for step in way.steps)
    assert f"pour {metric(Kind.VOLUME, hot, rounded=True)} of water just boiled on it" in said
    assert f"with {metric(Kind.VOLUME, cold, rounded=True)} of water; mix well" in said


def test_a_plain_boil_is_water_and_top_up(kitchen, boil):
    assert texts(kitchen, boil) == [
        "Start with 6.5 L of water in the 40 L pot; at its fullest it holds 8 L of 40 L "
        "(at the boil).",
        "Top up to 10 L with 4 L of water; mix well.",
    ]
    assert figures(kitchen, boil)[0] == (
        (Kind.VOLUME, 6.5), (Kind.VOLUME, 8.0), (Kind.VOLUME, 40.0),
    )  # fmt: skip


def test_a_pot_of_unknown_size_is_told_without_its_rim(kitchen, boil):
    [water, _] = texts(kitchen, replace(boil, rim_l=float("inf"), fullest_at="steep"))
    assert water == "Start with 6.5 L of water; at its fullest the pot holds 8 L (in the steep)."


def test_a_moment_that_has_no_words_is_told_by_its_own_name(kitchen, boil):
    assert "(stand)" in texts(kitchen, replace(boil, fullest_at="stand"))[0]


def topped_up(boil, litres, kg=0.0):
    filling = replace(boil.fillings[0], liquid_top_up_l=litres, frozen_kg=kg)
    return replace(boil, fillings=(filling,), frozen_kg=kg)


def test_a_pot_that_fills_the_fermenter_alone_is_not_topped_up(kitchen, boil):
    assert len(texts(kitchen, topped_up(boil, 0.0))) == 1
    assert len(texts(kitchen, topped_up(boil, 0.01))) == 1
    assert len(texts(kitchen, topped_up(boil, 0.011))) == 2


def test_frozen_water_goes_in_first_and_then_the_tap(kitchen, boil):
    iced = topped_up(boil, 2.5, 1.5)
    assert texts(kitchen, iced)[1] == (
        "Top up to 10 L: 1.5 kg of boiled and frozen water, then 2.5 L from the tap; mix well."
    )
    assert figures(kitchen, iced)[1] == (
        (Kind.VOLUME, 10.0), (Kind.MASS, 1.5), (Kind.VOLUME, 2.5),
    )  # fmt: skip


def test_wort_is_shared_out_with_each_fermenter_s_own_litres(kitchen, boil):
    first = boil.fillings[0]
    large = replace(first, from_pot_l=4.0, fermenter=BUCKET)
    small = replace(first, from_pot_l=2.0, fermenter=Fermenter("Jar", Quantity(6.0, "6 L")))
    unknown = replace(first, from_pot_l=1.0, fermenter=Fermenter("Carboy"))
    both = replace(boil, fillings=(large, small))
    assert sorted(figures(kitchen, both)[1]) == [
        (Kind.VOLUME, 2.0), (Kind.VOLUME, 4.0), (Kind.VOLUME, 6.0), (Kind.VOLUME, 12.0),
    ]  # fmt: skip
    assert texts(kitchen, both)[1] == (
        "Stir the cooled wort and share it out: 4 L into the 12 L fermenter, 2 L into the "
        "6 L fermenter."
    )
    assert texts(kitchen, both)[2].startswith("Top each up to")
    assert len(texts(kitchen, both)) == 3
    three = replace(boil, fillings=(large, small, unknown))
    assert texts(kitchen, three)[1].count("fermenter") == 3
    assert texts(kitchen, three)[1].endswith("1 L into the fermenter Carboy.")


def test_two_boils_that_are_alike_are_told_once_and_others_each(kitchen, boil):
    alike = texts(kitchen, boil, boil)
    assert len(alike) == 2
    assert alike[0].startswith("Start each boil with 6.5 L")
    other = replace(
        boil, recipe=replace(boil.recipe, name="Other"), start_water_l=5.0
    )  # fmt: skip
    both = texts(kitchen, boil, other)
    assert len(both) == 4
    assert both[0].startswith("Start boil 1 with 6.5 L of water")
    assert both[2].startswith("Start boil 2 with 5 L of water")


def test_fermenters_that_are_filled_to_different_marks_are_topped_up_each_to_its_own(kitchen, boil):
    large = replace(boil.fillings[0], fermenter=BUCKET)
    jar = Fermenter("Jar", Quantity(6.0, "6 L"))
    small = replace(large, fermenter=jar, filled_l=4.0, liquid_top_up_l=2.0, from_pot_l=2.0)
    assert texts(kitchen, replace(boil, fillings=(large, small)))[2:] == [
        "Top the 12 L fermenter up to 10 L with 4 L of water; mix well.",
        "Top the 6 L fermenter up to 4 L with 2 L of water; mix well.",
    ]
    nearly = replace(small, filled_l=9.96)
    assert texts(kitchen, replace(boil, fillings=(large, nearly)))[2].startswith("Top each up to")


def test_a_fermenter_that_takes_both_boils_has_a_mark_for_each(kitchen, boil):
    alike = texts(kitchen, boil, boil, one_fermenter=True)
    assert alike[0].startswith("Start each boil with 6.5 L")
    assert alike[1:] == [
        "With boil 1 in, top up to 10 L with 4 L of water; mix well.",
        "With boil 2 in, top up to 20 L with 4 L of water; mix well.",
    ]
    full = topped_up(replace(boil, recipe=replace(boil.recipe, name="Other")), 0.0)
    assert texts(kitchen, boil, full, one_fermenter=True)[1] == (
        "With boil 1 in, top up to 10 L with 4 L of water; mix well."
    )
    whole = [
        each.id for each in steps_of((boil, full), draft(kitchen, one_fermenter=True), kitchen)
    ]
    starts = [place for place, id in enumerate(whole) if id == "water-fullest-of"]
    assert starts[0] < whole.index("lid-and-wait") < starts[1] < whole.index("pour-next")


def dry_hopped(boil, grams, days=4.0):
    hop = replace(
        boil.recipe.hops[0],
        amount=Quantity(grams / 1000.0, f"{grams:g} g"),
        when=When(Stage.DRY_HOP, "dry hop", days=days),
        line_id=50,
    )
    recipe = replace(boil.recipe, name=f"With {grams}", hops=(hop,), extras=())
    return replace(boil, recipe=recipe, day=brew(recipe))


def later(kitchen, *boils, **changes):
    said = steps_of(boils, draft(kitchen, **changes), kitchen)
    pitched_at = next(place for place, each in enumerate(said) if each.id.startswith("pitch"))
    return [each.text for each in said[pitched_at + 1 :]]


def test_dry_hops_go_into_the_fermenter_of_their_boil_and_all_into_one(kitchen, boil):
    """Nothing of it is lost, and nothing goes in twice."""
    one, two = dry_hopped(boil, 6.0), dry_hopped(boil, 4.0)
    assert later(kitchen, one) == ["4 d before bottling put in 6 g of Challenger."]
    assert later(kitchen, dry_hopped(boil, 6.0, 0.0)) == [
        "With the yeast put in 6 g of Challenger."
    ]
    assert later(kitchen, one, two, one_fermenter=True) == [
        "4 d before bottling put in 10 g of Challenger."
    ]
    assert later(kitchen, one, two, count=2) == [
        "4 d before bottling put 6 g of Challenger into the fermenter of boil 1.",
        "4 d before bottling put 4 g of Challenger into the fermenter of boil 2.",
    ]
    assert later(kitchen, one, one, count=2) == [
        "4 d before bottling put 6 g of Challenger into each fermenter."
    ]
    shared = replace(one, fillings=one.fillings * 2)
    assert later(kitchen, shared, count=2) == [
        "4 d before bottling share 6 g of Challenger out between the fermenters."
    ]


def test_no_water_is_asked_for_from_the_tap_where_all_of_it_is_frozen(kitchen, boil):
    assert texts(kitchen, topped_up(boil, 0.0, 1.5))[1] == (
        "Top up to 10 L with 1.5 kg of boiled and frozen water; mix well."
    )


def test_water_that_is_poured_just_boiled_on_extract_is_not_poured_again(kitchen, boil):
    """Four litres in all, one and a half of them hot: two and a half from the tap."""
    hot = replace(boil.fillings[0], hot_l=1.5)
    assert texts(kitchen, replace(boil, fillings=(hot,)))[1] == (
        "Top up to 10 L with 2.5 L of water; mix well."
    )


def test_losses_of_two_pots_of_one_size_are_told_once(kitchen, boil):
    pot = replace(boil.recipe.pot, volume=Quantity(4.0, "4 L"))
    one = replace(boil, recipe=replace(boil.recipe, pot=pot))
    two = replace(one, recipe=replace(one.recipe, name="Other"))
    assert sum("a pot of this size loses" in each for each in texts(kitchen, one, two)) == 1


def test_each_fermenter_gets_a_whole_packet_and_one_alone_only_where_some_is_kept(kitchen, boil):
    """Yeast is never divided: an opened packet does not keep; common practice, no source."""
    assert pitched(kitchen, boil, count=2) == [
        "Pitch a whole packet of yeast into each fermenter (Dry English ale yeast)."
    ]
    [whole] = pitched(kitchen, boil, keeps_rest=True)
    assert whole.startswith("Pitch the whole packet of yeast")
    assert pitched(kitchen, boil) == [
        "Pitch the yeast (Dry English ale yeast); lid and airlock on."
    ]
    none = draft(kitchen)
    unnamed = tuple(replace(each, yeast=Yeast()) for each in none.recipes)
    said = steps_of((boil,), replace(none, recipes=unnamed), kitchen)
    assert "Pitch the yeast (as the recipe says); lid and airlock on." in [e.text for e in said]


def cautions(*boils):
    return [each.text for each in cautions_of(boils)]


def test_a_calm_boil_calls_for_no_caution(boil):
    assert cautions(boil, boil) == []


def test_a_pot_within_three_tenths_of_a_litre_of_its_foam_line_wants_watching(boil):
    """A judgement, no source. Boiling wort scalds."""
    assert cautions(replace(boil, foam_room_l=0.31)) == []
    [said] = cautions(boil, replace(boil, foam_room_l=0.29))
    assert "ready to turn the burner off" in said
    assert "Boiling wort scalds" in said


def test_more_bitterness_than_a_pot_carries_is_told_of_the_fuller_of_two(boil):
    assert cautions(replace(boil, pot_bitterness_ibu=POT_CEILING_IBU)) == []
    found = list(cautions_of((boil, replace(boil, pot_bitterness_ibu=120.0))))
    assert [figures_in(each) for each in found] == [
        ((Kind.BITTERNESS, 120.0), (Kind.BITTERNESS, POT_CEILING_IBU))
    ]
    assert "less bitter than forecast" in found[0].text


def test_ice_is_told_to_be_boiled_water_and_never_put_into_hot_glass(boil):
    [said] = cautions(boil, replace(boil, frozen_kg=0.1))
    assert "never into hot glass" in said


def test_a_boil_beyond_1_130_is_told_to_be_stirred(boil):
    """Tinseth's published table ends at boils of 1.130."""

    def ending(gravity):
        return replace(boil, day=with_figures(boil.day, boil_gravity_end=gravity))

    assert cautions(ending(1.1299)) == []
    [found] = cautions_of((boil, ending(1.131)))
    assert found.figures == ((Kind.GRAVITY, 1.131),)
    assert "it scorches" in found.text


def test_hops_that_go_in_with_extract_are_not_stirred_until_they_dissolve(porter):
    """Hops do not dissolve."""
    extract = next(each for each in porter.fermentables if each.when.minutes == 15.0)
    late = replace(porter.hops[0], when=extract.when)
    recipe = replace(porter, hops=(late, *porter.hops[1:]))
    steps = [said.text for said in ways(recipe, wish_for(recipe, 40.0, (12.0,))).ways[0].steps]
    [step] = [said for said in steps if said.startswith("With 15 min left")]
    assert step == (
        "With 15 min left, burner off, stir in 500 g of Light dry malt extract until all is "
        "dissolved; back to the boil, then put in 20 g of Challenger."
    )


def test_hops_of_the_first_wort_are_put_in_and_extract_alone_is_dissolved(porter):
    first_wort = When(Stage.FIRST_WORT, "first wort")
    hops = (replace(porter.hops[0], when=first_wort), *porter.hops[1:])
    in_the_steep = replace(porter.fermentables[0], when=When(Stage.STEEP, "steep"))
    lines = (in_the_steep, *porter.fermentables[1:])
    for recipe, put_in in (
        (replace(porter, hops=hops), ["Put in 20 g of Challenger before it comes to the boil."]),
        (
            replace(porter, hops=hops, fermentables=lines),
            [
                "Put in 1.5 kg of Light liquid malt extract before it comes to the boil; stir "
                "until all is dissolved.",
                "Put in 20 g of Challenger before it comes to the boil.",
            ],
        ),
    ):
        steps = [said.text for said in ways(recipe, wish_for(recipe, 40.0, (12.0,))).ways[0].steps]
        assert [said for said in steps if said.startswith("Put in")] == put_in


def test_dry_hops_of_each_boil_are_told(slipway_bitter):
    """Two pots that differ: each share of the dry hops goes in."""
    wish = replace(wish_for(slipway_bitter, 6.0, (10.0, 10.0)), second_pot=Pot("Old", q(5, "L")))
    [way] = [way for way in ways(slipway_bitter, wish).every_way if way.key == "second pot"]
    dry = [said.text for said in way.steps if "before bottling" in said.text]
    assert len(dry) == 2
    assert all("East Kent Golding" in said for said in dry)
