"""The steps of a way in words, read off its day, from cold water to pitched yeast."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from designer.brewday.fit.answer import Boil, Filling, named
from designer.brewday.fit.boil_steps import PotSteps
from designer.brewday.fit.cooling_plan import LANDS_WITHIN_C
from designer.brewday.fit.draft_way import Draft, Kitchen
from designer.brewday.fit.later_steps import later_steps
from designer.brewday.fit.packets import packets_of, pitching
from designer.brewday.fit.pot_losses import losses_said
from designer.brewday.hot_wort import HOTTEST_TO_SPLASH_C, too_hot_to_splash
from designer.brewday.time_line import at_stage
from designer.recipe.document import Yeast
from designer.recipe.fields import number
from designer.recipe.message import Figure, Message, in_a_row, say
from designer.recipe.quantity import Kind
from designer.translation import message

_SAME_L = 0.05
"""Fermenters that are filled so nearly alike have one mark; what a mark shows, a judgement."""
_LEAST_TOP_UP_L = 0.01
_WEIGH = message("Weigh everything out first, by when it goes in.")


def steps_of(boils: Sequence[Boil], draft: Draft, kitchen: Kitchen) -> tuple[Message, ...]:
    """Return all that is done, in the order of the day, from cold water to pitched yeast."""
    alike, into_one = _alike(boils), len(boils) > 1 and draft.one_fermenter
    said: list[Message] = [] if _weighed(draft) else [say("weigh-first", _WEIGH)]
    for place, boil in enumerate(boils[:1] if alike else boils, 1):
        at_pot, pot = PotSteps(boil), boil.recipe.pot
        losses = losses_said(kitchen.recipe, pot, kitchen.wish.measured_in(pot))
        said.append(_water(boil, _start(boil, len(boils), None if alike else place)))
        said += [each for each in losses if each not in said]
        said += [*at_pot.to_the_boil(), *at_pot.boil(), *at_pot.cool()]
        if not into_one:
            said += _filling(boil)
        elif not alike:
            said += _into_one(boils, place)
    if into_one and alike:
        said += [each for place, _ in enumerate(boils, 1) for each in _into_one(boils, place)]
    said.append(_read(boils, draft))
    said += _pitched(boils, draft)
    return (*said, *later_steps(boils, into_one=into_one, alike=alike))


def _read(boils: Sequence[Boil], draft: Draft) -> Message:
    """Return that it is mixed and measured, once it is cool enough for that."""
    litres = [float(boil.day.fermenter.batch_l) for boil in boils]
    points = [float(boil.day.beer.original_gravity) - 1.0 for boil in boils]
    mixed = sum(each * litre for each, litre in zip(points, litres, strict=True)) / sum(litres)
    gravity: Figure = (Kind.GRAVITY, 1.0 + mixed)
    warmest = max(float(boil.day.fermenter.mixed_c) for boil in boils)
    if too_hot_to_splash(warmest):
        return say(
            "wait-and-read",
            "Lid on, wait until it is at {1}. Then stir hard for two minutes and read the "
            "hydrometer: some {0}.",
            gravity,
            (Kind.TEMPERATURE, HOTTEST_TO_SPLASH_C),
        )
    if len(draft.filled_first) > 1:
        return say(
            "stir-and-read-each",
            "Stir each hard for two minutes and read the hydrometer: some {0}.",
            gravity,
        )
    return say(
        "stir-and-read", "Stir hard for two minutes and read the hydrometer: some {0}.", gravity
    )


def _pitched(boils: Sequence[Boil], draft: Draft) -> Iterator[Message]:
    """Yield how warm it is to be for the yeast, and which packets go where."""
    recipe = draft.recipes[0]
    pitch_c = number(recipe.process, "pitch_temperature")
    warmest = max(float(boil.day.fermenter.mixed_c) for boil in boils)
    if warmest > pitch_c + LANDS_WITHIN_C:
        yield say("wait-to-pitch", "Lid on, wait until it is at {0}.", (Kind.TEMPERATURE, pitch_c))
    yeast = recipe.yeast
    said = tuple(_packets(boils, draft))
    yield from said
    if not said:
        name, count = yeast.name or say("the-yeast", "as the recipe says"), packets_of(yeast)
        yield (
            say("pitch", "Pitch the yeast ({name}); lid and airlock on.", name=name)
            if count == 1
            else say(
                "pitch-packets",
                "Pitch {count} packets of yeast ({name}); lid and airlock on.",
                count=count,
                name=name,
            )
        )


def _packets(boils: Sequence[Boil], draft: Draft) -> Iterator[Message]:
    fermenters, yeast = len(draft.fermenters), draft.recipes[0].yeast
    if draft.another_day and yeast.name and fermenters == len(boils):
        return iter([_pitch_each_time(yeast, len(boils))])
    return pitching(yeast, fermenters, keeps_rest=draft.keeps_rest)


def _pitch_each_time(yeast: Yeast, brews: int) -> Message:
    """Return how the packets are pitched in brews on several days."""
    each = max(packets_of(yeast) // brews, 1)
    if each == 1:
        return say(
            "pitch-each-time",
            "Pitch a whole packet of yeast each time ({name}): an opened one does not keep.",
            name=yeast.name,
        )
    return say(
        "pitch-so-many-each-time",
        "Pitch {each} whole packets of yeast each time ({name}): an opened one does not keep.",
        each=each,
        name=yeast.name,
    )


def _alike(boils: Sequence[Boil]) -> bool:
    return all(boil.recipe == boils[0].recipe for boil in boils)


def _start(boil: Boil, boils: int, place: int | None) -> Message:
    water = (Kind.VOLUME, boil.start_water_l)
    if boils == 1:
        return say("start-with-water", "Start with {0} of water", water)
    if place is None:
        return say("start-each-with", "Start each boil with {0} of water", water)
    return say("start-boil-with", "Start boil {n} with {0} of water", water, n=place)


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
        yield _poured(boil)
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
        mark = (Kind.VOLUME, each.filled_l)
        head = say("top-that-up-to", "Top {vessel} up to {0}", mark, vessel=_vessel(each))
        yield from _topped_up(each, head)


def _poured(boil: Boil) -> Message:
    """Return that the wort is poured into the one fermenter there is for it."""
    left_l = float(boil.day.fermenter.lost_to_trub_l)
    if left_l < _LEAST_TOP_UP_L:
        return say("pour", "Pour it through a strainer into the fermenter.")
    return say(
        "pour-off",
        "Pour it through a strainer into the fermenter; leave {0} of sludge behind.",
        (Kind.VOLUME, left_l),
    )


def _weighed(draft: Draft) -> bool:
    return any(each.id in ("weigh-out", "two-parts", "brew-half") for each in draft.steps)


def _into_one(boils: Sequence[Boil], place: int) -> Iterator[Message]:
    """Yield how far a boil fills the one fermenter that takes them all."""
    boil = boils[place - 1]
    [filling] = boil.fillings
    yield _poured(boil) if place == 1 else say("pour-next", "Pour boil {n} in as well.", n=place)
    filled_l = sum(each.fillings[0].filled_l for each in boils[:place])
    mark = (Kind.VOLUME, filled_l)
    head = say("top-up-after", "With boil {n} in, top up to {0}", mark, n=place)
    yield from _topped_up(filling, head)
    if place < len(boils):
        yield say("lid-and-wait", "Lid on: it waits for boil {n}.", n=place + 1)


def _topped_up(filling: Filling, head: Message) -> Iterator[Message]:
    """Yield with what a fermenter is topped up; nothing where it is full without."""
    frozen, water = (Kind.MASS, filling.frozen_kg), (Kind.VOLUME, filling.cold_top_up_l)
    tap = filling.cold_top_up_l > _LEAST_TOP_UP_L
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
    poured = (Kind.VOLUME, filling.from_pot_l)
    return say("share", "{0} into {vessel}", poured, vessel=_vessel(filling))


def _vessel(filling: Filling) -> Message:
    """Return a fermenter as it is told from another: by its size, else by its name."""
    brim = filling.fermenter.volume
    if brim is None:
        return say("fermenter-by-name", "the fermenter {name}", name=named(filling.fermenter.name))
    return say("fermenter-by-size", "the {0} fermenter", (Kind.VOLUME, brim.value))
