"""Less boiling away: when a lid or a shorter boil is offered, and what they change."""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.fit.boil_off import boiled_for, covered, shorter_boil
from designer.brewday.fit.changed_recipe import boil_left, mass, with_process
from designer.brewday.fit.draft_way import Kitchen
from designer.brewday.fit.fermenters import cellar_for
from designer.brewday.fit.one_boil import one_boil
from designer.brewday.fit.original import original_of
from designer.brewday.fit.wish import wish_for
from designer.recipe.quantity import Kind, Stage, When
from designer.wort.heat import STOVE_EFFICIENCY, evaporation_kg_h
from designer.wort.water import WATER_KG_PER_L
from tests.brewday.quantities import q


def kitchen(recipe, pot_l=9.0, fermenters=(25.0,), **changes):
    """The recipe's own pot, counted as smaller: its steam is what is typed."""
    wish = replace(wish_for(recipe, pot_l, fermenters), counted_for=recipe.pot)
    return Kitchen(replace(wish, **changes), original_of(recipe))


def lid(here, *, alone=False):
    base = None if alone else one_boil(here)
    return covered(here, base, cellar_for(here.wish, here.original.batch_l))


@pytest.fixture(scope="module")
def weak_stove(porter):
    """1200 W carry a boil, but not 2.5 L/h of steam."""
    pot = replace(porter.pot, power=q(1200, "W"))
    return replace(with_process(porter, evaporation=q(2.5, "L/h")), pot=pot)


def test_a_lid_halves_what_boils_away_and_asks_for_room_for_foam(weak_stove):
    """About half of the steam stays, and it foams higher: common practice, no source.

    Of what is typed, no more boils away than the stove drives off.
    """
    driven_off = stove_limit_l_h(weak_stove) / WATER_KG_PER_L
    here = kitchen(weak_stove)
    draft = lid(here)
    [made] = draft.recipes
    assert made.process.evaporation.value == pytest.approx(driven_off / 2, abs=1e-3)
    assert (made.pot.foam_room.value, made.pot.foam_room.text) == (0.25, "25 %")
    [(first, after), (second, before)] = draft.steps[0].figures
    assert (first, second) == (Kind.EVAPORATION, Kind.EVAPORATION)
    assert (after, before) == pytest.approx((driven_off / 2, driven_off), rel=1e-3)
    strong = replace(weak_stove, pot=replace(weak_stove.pot, power=q(4000, "W")))
    strong = with_process(strong, start_water=q(3.5, "L"))
    assert lid(kitchen(strong)).recipes[0].process.evaporation == q(1.25, "L/h")
    assert draft.effort > one_boil(here).effort
    assert draft.fermenters == here.wish.fermenters


def test_more_room_for_foam_than_a_lid_asks_for_stays(weak_stove):
    roomy = replace(weak_stove, pot=replace(weak_stove.pot, foam_room=q(0.3)))
    assert lid(kitchen(roomy, 12.0)).recipes[0].pot.foam_room.value == 0.3


def test_no_lid_where_the_brewer_will_not_or_no_fermenter_holds_the_batch(weak_stove):
    assert lid(kitchen(weak_stove, lid_may_be_used=False)) is None
    here = kitchen(weak_stove)
    assert covered(here, one_boil(here), None) is None


def test_a_lid_is_tried_where_one_boil_does_not_go(weak_stove):
    """It starts from the kitchen itself then, topped up to the whole batch."""
    draft = lid(kitchen(weak_stove), alone=True)
    assert draft.recipes[0].process.top_up_to.value == pytest.approx(10.0)
    assert draft.recipes[0].pot.volume.value == 9.0


def stove_limit_l_h(recipe):
    """What the burner drives off: its heat less what the pot loses, handbook heat of steam."""
    pot = recipe.pot
    lost = 4.0 * (float(brew(recipe).pot.boiling_c) - 20.0)
    return float(evaporation_kg_h(STOVE_EFFICIENCY[pot.stove] * pot.power.value - lost))


def test_a_stove_is_weak_where_it_falls_a_tenth_short_of_what_is_typed(porter):
    """A lid is of no use to a mild wort on a stove that does all that is typed."""
    pot = replace(porter.pot, power=q(1200, "W"))
    mild = (replace(porter.fermentables[0], amount=q(0.5, "kg")),)
    recipe = replace(porter, pot=pot, fermentables=mild)
    does = stove_limit_l_h(recipe)
    for times, offered in ((1.05, False), (1.09, False), (1.12, True), (1.5, True)):
        typed = with_process(recipe, evaporation=q(round(times * does, 3), "L/h"))
        here = kitchen(typed, 20.0)
        assert (lid(here) is not None) == offered, times


@pytest.fixture(scope="module")
def strong(quay_pale):
    """19 L boiled in a small pot that leaves three tenths for foam; a strong burner below it."""
    pot = replace(quay_pale.pot, power=q(4000, "W"), foam_room=q(0.3))
    return replace(with_process(quay_pale, frozen_top_up=None), pot=pot)


@pytest.mark.parametrize(
    ("steam_l_h", "offered"), [(0.5, False), (0.58, False), (0.62, False), (0.7, True), (1.5, True)]
)
def test_a_strong_boil_gains_from_a_lid_that_saves_three_tenths_of_a_litre(
    strong, steam_l_h, offered
):
    """It ends fuller and weaker and draws more from the hops; half of the hour's steam stays."""
    here = kitchen(with_process(strong, evaporation=q(steam_l_h, "L/h")), 13.0)
    before = brew(one_boil(here).recipes[0])
    assert before.pot.boil_gravity_end > 1.090
    draft = lid(here)
    assert (draft is not None) == offered
    if draft is not None:
        after = brew(draft.recipes[0])
        assert after.pot.boil_gravity_end < before.pot.boil_gravity_end - 0.005
        assert after.beer.bitterness_ibu > before.beer.bitterness_ibu


@pytest.mark.parametrize(("steam_l_h", "offered"), [(0.58, False), (0.62, True)])
def test_less_than_three_tenths_of_a_litre_are_not_worth_a_lid(porter, steam_l_h, offered):
    """Half of an hour's steam stays. A small boil gains from less, but a lid wants watching."""
    pot = replace(porter.pot, power=q(4000, "W"), foam_room=q(0.3), diameter=None)
    recipe = with_process(porter, evaporation=q(steam_l_h, "L/h"), frozen_top_up=None)
    here = kitchen(replace(recipe, pot=pot), 7.5)
    assert (lid(here) is not None) == offered


def test_a_lid_is_no_use_to_a_boil_that_is_weak_already(strong):
    for pot_l, offered in ((18.0, True), (20.0, False), (28.0, False)):
        here = kitchen(with_process(strong, evaporation=q(2, "L/h")), pot_l)
        weak = brew(one_boil(here).recipes[0]).pot.boil_gravity_end < 1.090
        assert weak != offered
        assert (lid(here) is not None) == offered


def test_a_lid_that_only_fills_the_pot_with_foam_is_not_offered(strong):
    """A quarter for foam instead of a fifth takes more here than the steam gives back."""
    brim = replace(strong, pot=replace(strong.pot, foam_room=None))
    here = kitchen(brim, 12.0)
    before = brew(one_boil(here).recipes[0])
    assert before.pot.boil_gravity_end > 1.090
    assert before.pot.evaporated_l > 0.6
    assert lid(here) is None


def test_a_lid_can_keep_from_boiling_to_a_syrup(strong):
    here = kitchen(with_process(strong, evaporation=q(3, "L/h")), 13.0)
    assert not hasattr(one_boil(here), "recipes")
    [made] = lid(here, alone=True).recipes
    assert brew(made).pot.boil_gravity_end <= 1.150


def test_a_pot_that_never_boils_is_offered_a_lid_only_if_it_boils_then(porter):
    cold = replace(porter, pot=replace(porter.pot, power=q(250, "W")))
    assert not brew(cold).pot.reached_boil
    here = kitchen(cold, 12.0)
    draft = lid(here)
    assert draft is None or brew(draft.recipes[0]).pot.reached_boil


# A shorter boil.


def hops(recipe, *whens, kg=0.02):
    one = recipe.hops[0]
    return replace(
        recipe,
        hops=tuple(
            replace(one, when=when, amount=mass(kg), line_id=20 + i) for i, when in enumerate(whens)
        ),
    )


def shortened(recipe, **changes):
    here = kitchen(recipe, 7.0, **changes)
    base = one_boil(here)
    return base, shorter_boil(here, base)


FLAME_OUT = When(Stage.FLAME_OUT, "flame-out")
DRY = When(Stage.DRY_HOP, "dry hop 3 days", days=3.0)


@pytest.mark.parametrize(
    ("whens", "minutes"),
    [
        ((boil_left(30), boil_left(20)), 30.0),
        ((boil_left(50),), 50.0),
        ((boil_left(51),), None),
        ((boil_left(60),), None),
        ((boil_left(90),), None),
        ((boil_left(5), FLAME_OUT), 15.0),
        ((FLAME_OUT, DRY), 15.0),
        ((), 15.0),
        ((boil_left(20), When(Stage.FIRST_WORT, "first wort")), None),
        ((boil_left(20), When(Stage.STEEP, "steep")), None),
    ],
)
def test_a_boil_is_as_short_as_the_longest_hop_and_no_shorter_than_a_quarter_of_an_hour(
    porter, whens, minutes
):
    """A quarter kills what is in malt extract, and ten minutes are worth saving: common practice,
    no source. First-wort hops boil as long as the wort."""
    base, draft = shortened(hops(porter, *whens))
    if minutes is None:
        assert draft is None
        return
    assert draft.recipes[0].process.boil_time == q(minutes, "min")
    assert draft.steps[0].figures == ((Kind.TIME, minutes), (Kind.TIME, 60.0))
    assert draft.effort == base.effort + 1
    assert draft.key == "shorter boil"


def test_a_hop_without_weight_boils_for_nothing(porter):
    recipe = hops(porter, boil_left(60), kg=0.0)
    assert shortened(recipe)[1].recipes[0].process.boil_time.value == 15.0


def test_a_boil_stays_as_long_as_the_brewer_wants_it(porter):
    recipe = hops(porter, boil_left(20))
    assert shortened(recipe, boil_time_may_change=False)[1] is None


def test_a_shorter_boil_keeps_gravity_and_the_pot(porter):
    here = kitchen(hops(porter, boil_left(20)), 7.0)
    [made] = shorter_boil(here, one_boil(here)).recipes
    day = brew(made)
    assert (
        abs(float(day.beer.original_gravity) - float(here.original.day.beer.original_gravity))
        < 0.001
    )
    assert day.pot.fullest_boiling_l <= 0.8 * 7.0
    assert float(day.beer.bitterness_ibu) <= here.original.most_ibu


def test_what_was_to_boil_longer_goes_in_at_the_start_and_the_rest_when_it_was(porter):
    long_extra = replace(porter.extras[0], when=boil_left(45))
    recipe = replace(porter, extras=(long_extra, porter.extras[0]))
    made = boiled_for(recipe, 15.0)
    assert made.process.boil_time == q(15, "min")
    assert [each.when.minutes for each in made.fermentables[:2]] == [15.0, 15.0]
    assert made.fermentables[1] is recipe.fermentables[1]  # was to boil 15 min as it is
    assert made.fermentables[2] is recipe.fermentables[2]  # steeped
    assert [each.when.text for each in made.hops] == ["boil 15 min", porter.hops[1].when.text]
    assert [each.when.minutes for each in made.extras] == [15.0, 5.0]


def test_a_stand_is_no_boil_however_long(porter):
    stand = When(Stage.STAND, "stand 20 min at 80 °C", 20.0, 80.0)
    recipe = hops(porter, stand)
    assert boiled_for(recipe, 15.0).hops == recipe.hops
