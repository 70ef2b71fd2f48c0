"""Edits that cure: as much as is needed, no more than rounding asks, and none where none would."""

from dataclasses import replace

import pytest

from designer.brewday import cures
from designer.brewday.day import beer_of, brew, fullest_boiling_l, mixed_c
from designer.recipe.document import Fermentable, Pot, Process, Recipe
from designer.recipe.message import say
from designer.recipe.quantity import Stage, When


def with_process(recipe, kitchen, **litres):
    typed = {name: kitchen.q(value) for name, value in litres.items()}
    return replace(recipe, process=replace(recipe.process, **typed))


def test_a_day_cut_short_holds_as_much_as_the_whole_day(harbour_porter, kitchen):
    coil = replace(
        harbour_porter,
        pot=replace(harbour_porter.pot, coil=kitchen.q(0.4, "L")),
        process=replace(harbour_porter.process, cooling="coil"),
    )
    for recipe in (harbour_porter, coil):
        day = brew(recipe)
        assert fullest_boiling_l(recipe) == pytest.approx(day.pot.fullest_boiling_l, rel=1e-12)
        assert mixed_c(recipe) == pytest.approx(day.fermenter.mixed_c, rel=1e-12)
    assert fullest_boiling_l(coil) == pytest.approx(fullest_boiling_l(harbour_porter) + 0.4)


def test_a_cure_tried_from_a_day_that_is_known_is_what_a_day_of_its_own_tells(
    harbour_porter, kitchen
):
    whole = brew(harbour_porter).began
    # What a day after readings began with is no plain day that could be gone on with.
    for began in (whole, whole._replace(paused=None)):
        for litres in (2.0, 5.0, 9.0):
            other = with_process(harbour_porter, kitchen, start_water=litres)
            assert fullest_boiling_l(other, began) == fullest_boiling_l(other)
        for frozen_kg in (0.0, 1.0, 3.0):
            other = with_process(harbour_porter, kitchen, frozen_top_up=frozen_kg)
            assert mixed_c(other, began) == mixed_c(other)
    late = replace(harbour_porter.fermentables[0], when=When(Stage.BOIL, "boil 15 min", 15.0))
    other = replace(harbour_porter, fermentables=(late, *harbour_porter.fermentables[1:]))
    assert beer_of(other, whole._replace(paused=None)) == beer_of(other)
    assert beer_of(other, whole) == brew(other).beer
    bitterness = brew(other).beer.bitterness_ibu
    assert beer_of(other).bitterness_ibu == pytest.approx(bitterness, rel=1e-12)
    assert bitterness > brew(harbour_porter).beer.bitterness_ibu + 0.1


@pytest.mark.parametrize(("litres", "text"), [(6.0, "6 L"), (6.3, "6.3 L"), (5.7 + 0.6, "6.3 L")])
def test_what_a_cure_types_is_what_its_sentence_says(litres, text):
    edit = cures.set_volume("start_water", litres, say("start-with", "Start with {0}"))
    assert edit.value.text == text
    assert edit.text.text == f"Start with {text}"


def test_less_water_is_as_much_less_as_is_needed(harbour_porter):
    day = brew(harbour_porter)
    for surplus_l in (0.2, 1.0, 2.5):
        edit = cures.less_start_water(harbour_porter, day, surplus_l)
        fuller = float(day.pot.fullest_boiling_l) - fullest_boiling_l(edit.apply(harbour_porter))
        assert surplus_l <= fuller < surplus_l + 0.25
        litres = edit.apply(harbour_porter).process.start_water
        assert litres.text == f"{litres.value:g} L"
        assert edit.text.text == f"Start with {litres.text}"


def test_where_grain_drinks_most_of_the_water_it_is_tried_again(kitchen):
    """A bag of 2.5 kg in 4.4 L: the grain drinks a share, and 1.7 L less leave a drop too much."""
    recipe = kitchen.recipe(
        pot=Pot(volume=kitchen.q(9), power=kitchen.q(800)),
        process=Process(start_water=kitchen.q(4.4), evaporation=kitchen.q(4)),
        fermentables=(
            Fermentable("Grain", "steeping grain", kitchen.q(2.5), When(Stage.STEEP, "steep")),
            Fermentable("Extract", "liquid extract", kitchen.q(1.0), kitchen.boil(60)),
        ),
    )
    day = brew(recipe)
    edit = cures.less_start_water(recipe, day, 1.7)
    assert day.pot.fullest_boiling_l - fullest_boiling_l(edit.apply(recipe)) >= 1.7
    assert edit.value.value == pytest.approx(2.6)


def test_a_pot_that_no_start_would_fit_has_no_cure(harbour_porter):
    day = brew(harbour_porter)
    assert cures.less_start_water(harbour_porter, day, 6.0) is None
    assert cures.less_start_water(harbour_porter, day, 5.5).apply(
        harbour_porter
    ).process.start_water.value == pytest.approx(1.0)
    assert cures.less_start_water(Recipe(), brew(Recipe()), 1.0) is None


@pytest.mark.parametrize("pitch_c", [14.0, 17.0, 19.0])
def test_frozen_water_lands_the_mix_at_pitching(pitch_c, harbour_porter, kitchen):
    """By the heat balance, from a start that is too warm and from one too cold."""
    for frozen_kg in (0.0, 0.4, 2.5):
        recipe = with_process(
            harbour_porter, kitchen, cool_to=40.0, frozen_top_up=frozen_kg, top_up_to=12.0
        )
        edit = cures.frozen_water_for(recipe, brew(recipe), pitch_c)
        cured = edit.apply(recipe)
        frozen = cured.process.frozen_top_up
        # a tenth of a kilogram is worth nearly a degree
        assert mixed_c(cured) == pytest.approx(pitch_c, abs=0.55)
        assert frozen.text == f"{frozen.value:.1f} kg"
        assert frozen.value == round(frozen.value, 1)
        assert edit.text.text == f"Freeze {frozen.value:.1f} kg of it"


def test_the_frozen_kilogram_that_is_asked_for_may_be_small(harbour_porter, kitchen):
    recipe = with_process(harbour_porter, kitchen, cool_to=24.0, frozen_top_up=2.5)
    day = brew(with_process(recipe, kitchen, frozen_top_up=0.0))
    slightly_colder = float(day.fermenter.mixed_c) - 3.0
    edit = cures.frozen_water_for(recipe, brew(recipe), slightly_colder)
    assert 0.1 <= edit.apply(recipe).process.frozen_top_up.value < 1.0
    assert edit.text.text.startswith("Freeze 0.")


def test_where_poured_water_is_cold_enough_none_is_frozen(harbour_porter, kitchen):
    recipe = with_process(harbour_porter, kitchen, cool_to=19.0, frozen_top_up=2.5)
    landed = mixed_c(with_process(recipe, kitchen, frozen_top_up=0.0))
    edit = cures.frozen_water_for(recipe, brew(recipe), landed + 1.0)
    assert edit.text.text == "Freeze none of it"
    assert edit.apply(recipe).process.frozen_top_up.value == 0.0


def test_what_no_frozen_water_would_cure_has_no_cure(harbour_porter, kitchen):
    hot = with_process(harbour_porter, kitchen, cool_to=95.0, top_up_to=8.0)
    assert cures.frozen_water_for(hot, brew(hot), 19.0) is None
    cold = with_process(harbour_porter, kitchen, cool_to=5.0)
    assert cures.frozen_water_for(cold, brew(cold), 19.0) is None


def test_a_mix_within_a_degree_and_a_half_will_do(harbour_porter, kitchen):
    recipe = with_process(harbour_porter, kitchen, cool_to=19.0, frozen_top_up=2.5)
    landed = mixed_c(with_process(recipe, kitchen, frozen_top_up=0.0))
    assert cures.frozen_water_for(recipe, brew(recipe), landed + 1.4) is not None
    assert cures.frozen_water_for(recipe, brew(recipe), landed + 1.6) is None


@pytest.mark.parametrize(
    ("value", "down", "up"), [(1.24, 1.2, 1.3), (1.2, 1.2, 1.2), (0.3, 0.3, 0.3), (2.01, 2.0, 2.1)]
)
def test_rounding_goes_the_safe_way(value, down, up):
    assert cures.rounded_down(value, 0.1) == pytest.approx(down)
    assert cures.rounded_up(value, 0.1) == pytest.approx(up)


def test_edits_of_volume_and_temperature_say_what_they_set(harbour_porter):
    volume = cures.set_volume("top_up_to", 9.5, say("make-it", "Make it {0}"))
    assert volume.text.text == "Make it 9.5 L"
    assert volume.apply(harbour_porter).process.top_up_to.value == 9.5
    assert volume.apply(harbour_porter).process.top_up_to.text == "9.5 L"
    warmth = cures.steep_at(68.0)
    assert warmth.text.text == "Steep at 68 °C"
    assert warmth.apply(harbour_porter).process.steep_temperature.value == 68.0
    assert warmth.apply(harbour_porter).process.steep_temperature.text == "68 °C"
