"""More of a hop, or a hop in hand: which one, how much of it, and where there is not enough."""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.fit.changed_recipe import boil_left, mass, with_amounts, with_process
from designer.brewday.fit.draft_way import Draft, Kitchen
from designer.brewday.fit.more_hops import hop_ways
from designer.brewday.fit.one_boil import one_boil
from designer.brewday.fit.original import original_of
from designer.brewday.fit.wish import HopInHand, wish_for
from designer.brewday.outlook import look_ahead
from designer.recipe.edits import next_line_id
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind, Stage, When
from designer.units import read
from tests.brewday.days import with_figures
from tests.brewday.quantities import q

from .figures import figures_in


def kitchen(recipe, pot_l=12.0, **changes):
    """The recipe's own pot, counted as smaller: its losses are what is typed."""
    wish = replace(wish_for(recipe, pot_l, (25.0,)), counted_for=recipe.pot)
    return Kitchen(replace(wish, **changes), original_of(recipe))


def tried(here):
    return {each.key: each for each in hop_ways(here, one_boil(here))}


@pytest.fixture(scope="module")
def pale(quay_pale):
    """19 L of a full boil, without ice: Challenger 60 min, Fuggle 10 min."""
    return with_process(quay_pale, frozen_top_up=None)


def bitterness(recipe):
    return float(brew(recipe).beer.bitterness_ibu)


def test_no_hops_are_added_where_no_more_than_an_ibu_is_lost(pale):
    """Nobody tastes it: common practice, no source."""
    here = kitchen(pale)
    [made] = one_boil(here).recipes
    lost = here.original.day.beer.bitterness_ibu - bitterness(made)
    assert lost > 3.0

    def lacking(ibu):
        day = with_figures(here.original.day, bitterness_ibu=bitterness(made) + ibu)
        short = Kitchen(here.wish, replace(here.original, day=day))
        return hop_ways(short, one_boil(here))

    assert lacking(0.99) == ()
    assert lacking(1.01)
    assert hop_ways(kitchen(pale, 40.0), one_boil(kitchen(pale, 40.0))) == ()


def test_the_hop_that_boils_longest_gets_more_to_the_half_gram_that_comes_nearest(pale):
    here = kitchen(pale)
    base = one_boil(here)
    draft = tried(here)["more hops"]
    [made] = draft.recipes
    assert made.hops[1] == pale.hops[1]
    kg = made.hops[0].amount.value
    assert kg > pale.hops[0].amount.value
    assert kg / 0.0005 == pytest.approx(round(kg / 0.0005))
    wanted = here.original.day.beer.bitterness_ibu

    def off(more_kg):
        return abs(bitterness(with_amounts(made, {made.hops[0].line_id: kg + more_kg})) - wanted)

    assert off(0.0) <= off(0.0005)
    assert off(0.0) <= off(-0.0005)
    assert draft.effort == base.effort + 1
    [(kind, more)] = draft.steps[0].figures
    assert (kind, more) == (Kind.MASS, pytest.approx(kg - pale.hops[0].amount.value))
    assert draft.steps[0].text.endswith("more Challenger.")
    assert draft.must_buy == ()  # counted from the lines, once
    assert draft.gist.text.startswith("More hops make up for")


def test_of_hops_that_boil_as_long_the_one_with_most_alpha_acid_gets_more(pale):
    weak, strong = pale.hops[1], pale.hops[0]
    both = replace(pale, hops=(replace(weak, when=boil_left(60)), strong))
    [made] = tried(kitchen(both))["more hops"].recipes
    assert made.hops[0] == both.hops[0]
    assert made.hops[1].amount.value > strong.amount.value
    much_weak = replace(both, hops=(replace(both.hops[0], amount=q(0.06, "kg")), strong))
    [made] = tried(kitchen(much_weak))["more hops"].recipes
    assert made.hops[1] == strong


def test_a_first_wort_hop_boils_as_long_as_the_wort(pale):
    first = replace(pale.hops[1], when=When(Stage.FIRST_WORT, "first wort"))
    mixed = replace(pale, hops=(first, replace(pale.hops[0], when=boil_left(50))))
    [made] = tried(kitchen(mixed))["more hops"].recipes
    assert made.hops[0].amount.value > first.amount.value
    assert made.hops[1] == mixed.hops[1]


def test_a_late_hop_is_passed_over_for_one_that_boils(pale):
    stand = When(Stage.STAND, "stand 80 min at 80 °C", 80.0, 80.0)
    late = replace(pale.hops[0], when=stand, amount=q(0.05, "kg"))
    mixed = replace(pale, hops=(late, replace(pale.hops[1], when=boil_left(60))))
    [made] = tried(kitchen(mixed))["more hops"].recipes
    assert made.hops[0] == late
    assert made.hops[1].amount.value > pale.hops[1].amount.value


def test_without_a_hop_that_bitters_there_is_nothing_to_add_to(pale):
    here = kitchen(pale)
    base = one_boil(here)
    plain = replace(base, recipes=(replace(base.recipes[0], hops=()),))
    assert hop_ways(here, plain) == ()
    dry = replace(pale.hops[0], when=When(Stage.DRY_HOP, "dry hop 3 days", days=3.0))
    assert hop_ways(here, replace(base, recipes=(replace(pale, hops=(dry,)),))) == ()


def test_of_a_locked_kit_more_of_the_variety_is_bought_and_boiled_whole(pale):
    locked = replace(
        pale, hops=(replace(pale.hops[0], locked=True, price=q(3)), pale.hops[1])
    )  # fmt: skip
    draft = tried(kitchen(locked))["more hops"]
    [made] = draft.recipes
    assert made.hops[:2] == locked.hops
    new = made.hops[2]
    assert (new.name, new.alpha, new.form) == ("Challenger", pale.hops[0].alpha, "pellets")
    assert (new.when.stage, new.when.minutes) == (Stage.BOIL, 60.0)
    assert (new.locked, new.price) == (False, None)
    assert new.line_id == next_line_id(locked)
    [buy] = draft.must_buy
    assert (buy.what, buy.amount) == ("Challenger", new.amount)
    assert draft.steps[0].text.endswith("more Challenger for the whole boil.")
    assert draft.steps[0].figures[0][1] == pytest.approx(new.amount.value)


def test_more_than_twenty_grams_a_litre_are_sludge(pale):
    """An estimate. A hop of hardly any alpha acid cannot make up for what is lost."""
    old = replace(pale.hops[0], alpha=q(0.005), amount=q(0.3, "kg"))
    here = kitchen(replace(pale, hops=(old,)))
    found = tried(here)["more hops"]
    assert not isinstance(found, Draft)
    assert found.reason.text.startswith("Not even 312 g of Challenger make up")


def test_hops_fill_a_pot_up_to_twenty_grams_a_litre(pale):
    weak = replace(pale.hops[0], alpha=q(0.008), amount=q(0.28, "kg"))
    here = kitchen(replace(pale, hops=(weak,)), 18.5)
    found = tried(here)["more hops"]
    grams_a_litre = 1000 * found.recipes[0].hops[0].amount.value / 19.0
    assert 18.0 < grams_a_litre <= 20.0
    smaller = kitchen(replace(pale, hops=(weak,)), 14.0)
    assert not isinstance(tried(smaller)["more hops"], Draft)


HAND = HopInHand("Magnum", typed(Kind.FRACTION, 0.12), 0.05)


def test_the_strongest_hop_in_hand_is_taken_for_the_whole_boil(pale):
    mild = HopInHand("Hersbrucker", typed(Kind.FRACTION, 0.03), 0.2)
    here = kitchen(pale, hops_in_hand=(mild, HAND))
    draft = tried(here)["other hops"]
    [made] = draft.recipes
    assert made.hops[:2] == pale.hops
    new = made.hops[2]
    assert (new.name, new.alpha.value, new.alpha.text) == ("Magnum", 0.12, "12 %")
    assert (new.when.stage, new.when.minutes, new.form) == (Stage.BOIL, 60.0, "pellets")
    assert new.line_id == next_line_id(pale)
    assert abs(bitterness(made) - here.original.day.beer.bitterness_ibu) < 0.5
    assert draft.effort == one_boil(here).effort + 1
    assert figures_in(draft.steps[0]) == ((Kind.MASS, pytest.approx(new.amount.value)),)
    assert draft.must_buy == ()


def test_a_hop_in_hand_whose_bag_says_nothing_is_as_sure_as_its_variety(pale):
    usual = replace(HAND, alpha=read(Kind.FRACTION, "12 % (8-16 %)"))
    ranges = []
    for hand in (HAND, usual):
        [made] = tried(kitchen(pale, hops_in_hand=(hand,)))["other hops"].recipes
        assert made.hops[2].alpha == hand.alpha
        ranges.append(look_ahead(made).forecasts["bitterness_ibu"])
    said, unsaid = ranges
    assert unsaid.high - unsaid.low > said.high - said.low


def test_no_more_goes_in_than_lies_in_the_freezer(pale):
    needed = tried(kitchen(pale, hops_in_hand=(HAND,)))["other hops"].recipes[0].hops[2]
    short = replace(HAND, mass_kg=needed.amount.value - 0.0005)
    tight = tried(kitchen(pale, hops_in_hand=(short,)))["other hops"]
    assert tight.recipes[0].hops[2].amount.value <= short.mass_kg + 1e-9
    little = replace(HAND, mass_kg=0.002)
    none = tried(kitchen(pale, hops_in_hand=(little,)))["other hops"]
    assert not isinstance(none, Draft)
    assert figures_in(none.reason) == ((Kind.MASS, 0.002),)


def test_where_the_strongest_is_not_enough_all_of_it_and_some_of_the_next_goes_in(pale):
    mild = HopInHand("Hersbrucker", typed(Kind.FRACTION, 0.03), 0.2)
    little = replace(HAND, mass_kg=0.002)
    here = kitchen(pale, hops_in_hand=(mild, little))
    draft = tried(here)["other hops"]
    first, second = draft.recipes[0].hops[2:]
    assert (first.name, first.amount.value) == ("Magnum", 0.002)
    assert second.name == "Hersbrucker"
    assert first.line_id != second.line_id
    assert figures_in(draft.steps[0]) == (
        (Kind.MASS, 0.002), (Kind.MASS, pytest.approx(second.amount.value)),
    )  # fmt: skip
    assert "of your Magnum and" in draft.steps[0].text
    assert abs(bitterness(draft.recipes[0]) - here.original.day.beer.bitterness_ibu) < 0.5
    none = tried(kitchen(pale, hops_in_hand=(little, replace(mild, mass_kg=0.003))))["other hops"]
    assert figures_in(none.reason) == ((Kind.MASS, 0.002), (Kind.MASS, 0.003))
    assert "of Magnum and" in none.reason.text


def test_without_hops_in_hand_only_more_of_the_recipe_s_are_offered(pale):
    assert set(tried(kitchen(pale))) == {"more hops"}
    assert set(tried(kitchen(pale, hops_in_hand=(HAND,)))) == {"more hops", "other hops"}


def test_what_the_leaves_hold_back_is_made_up_for_by_less_water_on_top(pale):
    """Whole hops hold several litres a kilogram: gravity would fall with the same mark."""
    leaf = with_process(
        replace(pale, hops=(replace(pale.hops[0], form="whole", alpha=q(0.03), amount=q(0.1, "kg")),
                            replace(pale.hops[1], form="whole"))),
        hop_absorption=q(10, "L/kg"),
    )  # fmt: skip
    here = kitchen(leaf, 13.0)
    base = one_boil(here).recipes[0]
    [made] = tried(here)["more hops"].recipes
    assert made.process.top_up_to.value < base.process.top_up_to.value
    held = float(brew(made).beer.original_gravity) - float(here.original.day.beer.original_gravity)
    assert abs(held) < 0.001
    assert abs(bitterness(made) - here.original.day.beer.bitterness_ibu) < 0.5


def test_a_hop_is_weighed_from_what_the_recipe_has_of_it(pale):
    here = kitchen(pale)
    base = one_boil(here)
    plenty = with_amounts(base.recipes[0], {pale.hops[0].line_id: mass(0.03).value})
    draft = {d.key: d for d in hop_ways(here, replace(base, recipes=(plenty,)))}["more hops"]
    assert draft.recipes[0].hops[0].amount.value > 0.03
