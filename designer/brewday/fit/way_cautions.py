"""The cautions that the figures of a way call for, beside those of its own."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from designer.brewday.fit.answer import Boil
from designer.brewday.hot_wort import HOT_TO_LIFT_KG
from designer.recipe.message import Message, say
from designer.recipe.quantity import Kind
from designer.wort.bitterness import POT_CEILING_IBU, TABLE_SG

_TIGHT_L = 0.3


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
