"""The steps of a way in words, read off its day, and the cautions that belong to them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from designer.brewday.fit.answer import Boil, Filling, named
from designer.brewday.fit.draft_way import Draft, Kitchen
from designer.brewday.fit.pot_losses import losses_said
from designer.brewday.fit.sachets import pitching
from designer.brewday.hot_wort import HOT_TO_LIFT_KG
from designer.brewday.time_line import at_stage
from designer.recipe.message import Message, in_a_row, say
from designer.recipe.quantity import Kind
from designer.wort.bitterness import POT_CEILING_IBU, TABLE_SG

_TIGHT_L = 0.3
_SAME_L = 0.05
"""Fermenters that are filled so nearly alike have one mark; what a mark shows, a judgement."""
_LEAST_TOP_UP_L = 0.01


def steps_of(boils: Sequence[Boil], draft: Draft, kitchen: Kitchen) -> tuple[Message, ...]:
    """Return what is done, in order: water, topping up, sharing out, yeast."""
    alike, into_one = _alike(boils), len(boils) > 1 and draft.one_fermenter
    said: list[Message] = []
    for number, boil in enumerate(boils[:1] if alike else boils, 1):
        losses = () if kitchen.wish.measured else losses_said(kitchen.recipe, boil.recipe.pot)
        said.append(_water(boil, _start(boil, len(boils), None if alike else number)))
        said += [each for each in losses if each not in said]
        said += () if into_one else _filling(boil)
    said += _into_one(boils) if into_one else ()
    fermenters, yeast = len(draft.fermenters), draft.recipes[0].yeast
    return (*said, *pitching(yeast, fermenters, keeps_rest=draft.keeps_rest))


def _alike(boils: Sequence[Boil]) -> bool:
    return all(boil.recipe == boils[0].recipe for boil in boils)


def _start(boil: Boil, boils: int, number: int | None) -> Message:
    water = (Kind.VOLUME, boil.start_water_l)
    if boils == 1:
        return say("start-with-water", "Start with {0} of water", water)
    if number is None:
        return say("start-each-with", "Start each boil with {0} of water", water)
    return say("start-boil-with", "Start boil {n} with {0} of water", water, n=number)


def _water(boil: Boil, start: Message) -> Message:
    if boil.rim_l == float("inf"):
        return say(
            "water-fullest",
            "{start}; at its fullest the pot holds {0} ({when}).",
            (Kind.VOLUME, boil.fullest_l),
            start=start,
            when=at_stage(boil.fullest_at),
        )
    return say(
        "water-fullest-of",
        "{start} in the {pot}; at its fullest it holds {0} of {1} ({when}).",
        (Kind.VOLUME, boil.fullest_l),
        (Kind.VOLUME, boil.rim_l),
        start=start,
        pot=named(boil.recipe.pot.name),
        when=at_stage(boil.fullest_at),
    )


def _filling(boil: Boil) -> Iterator[Message]:
    """Yield how one boil is shared out and topped up, fermenter by fermenter where they differ."""
    first = boil.fillings[0]
    mark = (Kind.VOLUME, first.filled_l)
    if len(boil.fillings) == 1:
        yield from _topped_up(first, say("top-up-to", "Top up to {0}", mark))
        return
    yield say(
        "share-out",
        "Stir the cooled wort and share it out: {shares}.",
        shares=in_a_row([_share(each) for each in boil.fillings]),
    )
    if all(abs(each.filled_l - first.filled_l) < _SAME_L for each in boil.fillings):
        yield from _topped_up(first, say("top-each-up-to", "Top each up to {0}", mark))
        return
    for each in boil.fillings:
        size, mark = (Kind.VOLUME, _brim_l(each)), (Kind.VOLUME, each.filled_l)
        head = say("top-that-up-to", "Top the {0} fermenter up to {1}", size, mark)
        yield from _topped_up(each, head)


def _into_one(boils: Sequence[Boil]) -> Iterator[Message]:
    """Yield how far each boil fills the one fermenter that takes them all."""
    filled_l = 0.0
    for number, boil in enumerate(boils, 1):
        [filling] = boil.fillings
        filled_l += filling.filled_l
        mark = (Kind.VOLUME, filled_l)
        head = say("top-up-after", "With boil {n} in, top up to {0}", mark, n=number)
        yield from _topped_up(filling, head)


def _topped_up(filling: Filling, head: Message) -> Iterator[Message]:
    """Yield with what a fermenter is topped up; nothing where it is full without."""
    tap_l = filling.liquid_top_up_l - filling.hot_l
    frozen, water = (Kind.MASS, filling.frozen_kg), (Kind.VOLUME, tap_l)
    tap = tap_l > _LEAST_TOP_UP_L
    if filling.frozen_kg > 0.0 and tap:
        yield say(
            "top-up-frozen",
            "{top_up}: {0} of boiled and frozen water, then {1} from the tap; mix well.",
            frozen,
            water,
            top_up=head,
        )
    elif filling.frozen_kg > 0.0:
        yield say(
            "top-up-all-frozen",
            "{top_up} with {0} of boiled and frozen water; mix well.",
            frozen,
            top_up=head,
        )
    elif tap:
        yield say("top-up", "{top_up} with {0} of water; mix well.", water, top_up=head)


def _share(filling: Filling) -> Message:
    poured, size = (Kind.VOLUME, filling.from_pot_l), (Kind.VOLUME, _brim_l(filling))
    return say("share", "{0} into the {1} fermenter", poured, size)


def _brim_l(filling: Filling) -> float:
    brim = filling.fermenter.volume
    return brim.value if brim is not None else 0.0


def cautions_of(boils: Sequence[Boil]) -> Iterator[Message]:
    """Yield the cautions that this way's figures call for."""
    tightest = min(boils, key=lambda boil: boil.foam_room_l)
    if tightest.foam_room_l < _TIGHT_L:
        yield say(
            "full-pot",
            "The pot is as full as it may be: stay with it as it comes to the boil and as hops and "
            "extract go in, ready to turn the burner off. Boiling wort scalds.",
        )
    if max(boil.pot_bitterness_ibu for boil in boils) > POT_CEILING_IBU:
        yield say(
            "pot-bitterness-way",
            "{0} in the pot is more than the {1} that a pot carries in practice: the beer may be "
            "less bitter than forecast.",
            (Kind.BITTERNESS, max(boil.pot_bitterness_ibu for boil in boils)),
            (Kind.BITTERNESS, POT_CEILING_IBU),
        )
    if any(boil.frozen_kg > 0.0 for boil in boils):
        yield say(
            "freeze-boiled",
            "Freeze water that was boiled, in a clean closed box; put it into plastic or steel, "
            "never into hot glass.",
        )
    yield from _unboiled(boils)
    strongest = max(float(boil.day.pot.boil_gravity_end) for boil in boils)
    if strongest > TABLE_SG[1]:
        yield say(
            "strong-boil",
            "The boil ends at {0}: stir it, it scorches, and take its bitterness as rough.",
            (Kind.GRAVITY, strongest),
        )


def _unboiled(boils: Sequence[Boil]) -> Iterator[Message]:
    """Yield what extract asks for that goes into hot wort or hot water."""
    if any(_stirred_in(boil) for boil in boils):
        yield say(
            "extract-off-boil",
            "Extract stirred into wort that still bubbles boils over: burner off first, and wait. "
            "Hot syrup sticks to the skin and scalds.",
        )
    heaviest = max((_hot_kg(boil) for boil in boils if _stirred_in(boil)), default=0.0)
    if heaviest > HOT_TO_LIFT_KG:
        yield say(
            "hot-heavy-pot",
            "With the extract in, some {0} are in the pot, scalding: do not lift it, let it cool "
            "where it stands.",
            (Kind.MASS, float(round(heaviest))),
        )
    if any(float(boil.day.fermenter.hot_l) > 0.0 for boil in boils):
        yield say(
            "hot-water-in-fermenter",
            "Water just boiled goes into plastic or steel that takes it, never into glass. It "
            "scalds: do not lift the fermenter until the cold water is in. A clean tin is nearly "
            "sterile and no more: wipe it, sanitise the opener, pour it at once.",
        )


def _stirred_in(boil: Boil) -> bool:
    return any(span.key == "kept hot" for span in boil.day.spans)


def _hot_kg(boil: Boil) -> float:
    """Return what the wort weighs with all in it, as the pot is to be cooled."""
    began = boil.day.began
    return 0.0 if began is None else float(began.hot_pot.extract_kg + began.hot_pot.water_kg)
