"""What a first recipe is to become: answers, and for what was left out the middle of its style."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from designer.brewday.first.larder import Aim, Band
from designer.brewday.in_words import bitterness_in_words
from designer.library import catalogue
from designer.library.catalogue import StyleEntry
from designer.library.style_grists import StyleGrist, grist_of, style_grists
from designer.recipe.message import Number, refused, say, word
from designer.recipe.quantity import Kind, Quantity
from designer.translation import message
from designer.workbench.first_answers import Answers, Wished
from designer.workbench.first_words import Understood, understood
from designer.wort.fermentation import alcohol_by_volume

FORECASTS = ("original_gravity", "final_gravity", "abv_percent", "bitterness_ibu", "colour_srm")
LIMITS: Mapping[str, tuple[Kind, Band, str]] = {
    "original_gravity": (Kind.GRAVITY, (1.020, 1.130), message("Original gravity")),
    "abv_percent": (Kind.NUMBER, (1.5, 14.0), message("Alcohol")),
    "bitterness_ibu": (Kind.BITTERNESS, (1.0, 120.0), message("Bitterness")),
    "colour_srm": (Kind.BEER_COLOUR, (1.5, 60.0), message("Colour")),
}
"""What extract beer can be asked for; judgement."""
VESSELS: Mapping[str, tuple[Band, str]] = {
    "pot": ((3.0, 1000.0), message("Pot")),
    "fermenter": ((1.5, 1000.0), message("Fermenter")),
    "batch": ((0.8, 1000.0), message("Batch")),
}
USUAL_OG, USUAL_IBU_A_POINT, USUAL_SRM = 1.044, 0.6, 10.0
USUAL_LEFT, LEFT_BY_TILT = 0.25, 0.08
"""Share of the gravity that is left where no style is named, common practice, no source; and from
the driest to the roundest."""
STRENGTHS = ("original_gravity", "abv_percent")
FERMENTED = (*STRENGTHS, "final_gravity")
DARK_AT = 0.38
"""Place in the range of colours: extract beers come out darker than is reckoned; judgement."""
IBU_ENDS, SRM_ENDS = (5.0, 100.0), (2.0, 45.0)


@dataclass(frozen=True, slots=True)
class Tilt:
    """Which way one of the alternatives leans: places in a range, from 0 to 1, added to its middle.

    `end` is that of the final gravity, `crystal` and `sugar` how much of what is usual goes in.
    """

    end: float = 0.5
    bitterness: float = 0.0
    colour: float = 0.0
    crystal: float = 0.5
    sugar: float = 0.5
    late: float = 1.0
    is_hoppy: bool = False


EVEN = Tilt()
TILTS = {
    "drier": Tilt(end=0.15, bitterness=0.1, colour=-0.1, crystal=0.2, sugar=1.0, late=0.8),
    "rounder": Tilt(end=0.85, bitterness=-0.15, colour=0.15, crystal=0.85, sugar=0.0, late=0.7),
    "hoppier": Tilt(
        end=0.5, bitterness=0.1, colour=-0.1, crystal=0.35, sugar=0.5, late=1.35, is_hoppy=True
    ),
    "study": EVEN,
}


@dataclass(frozen=True, slots=True)
class Wanted:
    """The answers, understood: the style if one is named, and the one whose grist is taken."""

    answers: Answers
    words: Understood
    style: StyleEntry | None
    grist: StyleGrist
    flavours: tuple[str, ...]

    @property
    def bands(self) -> dict[str, Band]:
        """The ranges of the style that is named."""
        return {} if self.style is None else {key: getattr(self.style, key) for key in FORECASTS}


def wanted(answers: Answers) -> Wanted:
    """Return the answers as they are understood.

    Raises RefusedInputError, one message for each, for what no recipe can be.
    """
    words = understood(answers.words)
    answers = _with_figures(answers, words)
    _check(answers)
    flavours = tuple(dict.fromkeys((*answers.flavours, *words.flavours)))
    style = words.style
    named = style if style is not None else _nearest_style(_alone(answers, words, EVEN))
    return Wanted(answers, words, style, grist_of(named.name), flavours)


def _with_figures(answers: Answers, words: Understood) -> Answers:
    """The answers with figures out of the words, where their own fields were left out."""
    is_strength_said = answers.original_gravity is not None or answers.abv_percent is not None
    figures: dict[str, Any] = {
        key: value
        for key, value in words.figures.items()
        if getattr(answers, key) is None
        and not (is_strength_said and key in ("original_gravity", "abv_percent"))
    }
    return replace(answers, **figures) if figures else answers


def _check(answers: Answers) -> None:
    faults: list[object] = []
    for key, (kind, (low, high), name) in LIMITS.items():
        value = getattr(answers, key)
        if value is not None and not low <= value <= high:
            faults += refused(
                "wish-beyond-limits",
                "{name}: {0} is outside {1} to {2}; type one in between, or leave it out.",
                (kind, value),
                (kind, low),
                (kind, high),
                name=word(name),
            ).messages
    for key, ((low, high), name) in VESSELS.items():
        size: Quantity | None = getattr(answers, key)
        if size is not None and not low <= size.value <= high:
            faults += refused(
                "vessel-beyond-limits",
                "{name}: {0} is outside {1} to {2}; type what it holds to the brim."
                if key != "batch"
                else "{name}: {0} is outside {1} to {2}; type less, or leave it out.",
                (Kind.VOLUME, size),
                (Kind.VOLUME, low),
                (Kind.VOLUME, high),
                name=word(name),
            ).messages
    if faults:
        from designer.errors import RefusedInputError

        raise RefusedInputError(faults)


def aim_of(asked: Wanted, tilt: Tilt) -> Aim:
    """Return what one of the alternatives aims at."""
    answers = asked.answers
    near = (
        _alone(answers, asked.words, tilt)
        if asked.style is None
        else _in_style(answers, asked.words, asked.style, tilt)
    )
    steps = asked.words.steps
    return Aim(
        near,
        _bands_to_hold(asked),
        original_gravity=answers.original_gravity,
        abv_percent=answers.abv_percent if answers.original_gravity is None else None,
        asked=frozenset(key for key in LIMITS if getattr(answers, key) is not None),
        crystal_at=min(max(tilt.crystal + 0.2 * steps.get("sweetness", 0.0), 0.05), 0.95),
        sugar_at=tilt.sugar,
        late_times=tilt.late * (1.0 + 0.4 * steps.get("hops", 0.0)),
        dry_hopped=tilt.is_hoppy,
        is_simple=answers.is_simple,
    )


def _bands_to_hold(asked: Wanted) -> dict[str, Band]:
    """The ranges of the style, without those that what was asked for is out of.

    A strength outside of them takes the end of the fermentation along.
    """
    bands = dict(asked.bands)
    for key in tuple(bands):
        typed = getattr(asked.answers, key, None)
        if typed is not None and not bands[key][0] <= typed <= bands[key][1]:
            del bands[key]
    if any(key in asked.bands and key not in bands for key in STRENGTHS):
        bands = {key: band for key, band in bands.items() if key not in FERMENTED}
    return bands


def _in_style(
    answers: Answers, words: Understood, style: StyleEntry, tilt: Tilt
) -> dict[str, float]:
    steps = words.steps

    def at(key: str, place: float) -> float:
        low, high = getattr(style, key)
        return float(low + min(max(place, 0.08), 0.92) * (high - low))

    place = tilt.end + 0.25 * steps.get("sweetness", 0.0)
    end = at("final_gravity", place)
    gravity = answers.original_gravity or at(
        "original_gravity", 0.5 + 0.35 * steps.get("strength", 0.0)
    )
    if answers.original_gravity is None and answers.abv_percent is not None:
        gravity = _gravity_for(answers.abv_percent, end)
    low, high = style.original_gravity
    if not low <= gravity <= high:  # it ends as much higher or lower as it begins
        usual = (at("final_gravity", 0.5) - 1.0) / (at("original_gravity", 0.5) - 1.0)
        end = 1.0 + (usual + LEFT_BY_TILT * (place - 0.5)) * (gravity - 1.0)
    bitter = 0.5 + 0.35 * steps.get("bitterness", 0.0) + tilt.bitterness
    dark = DARK_AT + 0.35 * steps.get("colour", 0.0) + tilt.colour
    return {
        "original_gravity": gravity,
        "final_gravity": end,
        "abv_percent": answers.abv_percent or float(alcohol_by_volume(gravity, end)),
        "bitterness_ibu": answers.bitterness_ibu or at("bitterness_ibu", bitter),
        "colour_srm": answers.colour_srm or at("colour_srm", dark),
    }


def _gravity_for(abv_percent: float, final: float) -> float:
    """Return the gravity that comes to a strength where it ends so."""
    gravity = final + abv_percent / 131.0
    for _ in range(3):
        found = float(alcohol_by_volume(gravity, final))
        gravity = final + (gravity - final) * abv_percent / max(found, 1e-6)
    return gravity


def _alone(answers: Answers, words: Understood, tilt: Tilt) -> dict[str, float]:
    """What is aimed at where no style is named: answers, words, else usual figures."""
    steps, alone = words.steps, words.alone
    left = USUAL_LEFT + LEFT_BY_TILT * (tilt.end - 0.5) + 0.03 * steps.get("sweetness", 0.0)
    abv = answers.abv_percent or alone.get("strength")
    gravity = answers.original_gravity or USUAL_OG
    if answers.original_gravity is None and abv is not None:
        gravity = 1.0 + abv / 131.0 / (1.0 - left)
    end = 1.0 + left * (gravity - 1.0)
    usual_ibu = USUAL_IBU_A_POINT * 1000.0 * (gravity - 1.0)
    bitter = alone.get("bitterness", usual_ibu * (1.0 + 0.35 * steps.get("bitterness", 0.0)))
    dark = alone.get("colour", USUAL_SRM * (1.0 + 0.4 * steps.get("colour", 0.0)))
    return {
        "original_gravity": gravity,
        "final_gravity": end,
        "abv_percent": answers.abv_percent or float(alcohol_by_volume(gravity, end)),
        "bitterness_ibu": answers.bitterness_ibu or bitter * (1.0 + 0.5 * tilt.bitterness),
        "colour_srm": answers.colour_srm or dark * (1.0 + 0.5 * tilt.colour),
    }


def _nearest_style(near: Mapping[str, float]) -> StyleEntry:
    """Return the style of plain ale that such a beer is most like: what may go in is its."""

    def off(style: StyleEntry) -> float:
        total = 0.0
        for key in ("original_gravity", "bitterness_ibu", "colour_srm"):
            low, high = getattr(style, key)
            half = max((high - low) / 2.0, 1e-6)
            total += max(abs(near[key] - (low + high) / 2.0) / half - 0.5, 0.0)
        return total

    plain = [each.name for each in style_grists() if each.yeast[0] in PLAIN_ALE_YEASTS]
    known = (catalogue.find_style(name) for name in plain)
    return min((each for each in known if each is not None), key=off)


PLAIN_ALE_YEASTS = (("Dry English ale yeast", "dry"), ("American ale, neutral", "dry"))


def wished_of(asked: Wanted, batch_l: float) -> Wished:
    """Return what is aimed at, with the words that stand beside the fields."""
    near = aim_of(asked, EVEN).near
    gravity, ibu = near["original_gravity"], near["bitterness_ibu"]
    if asked.answers.original_gravity is None:
        strength = say("og-near", "OG near {0}", (Kind.GRAVITY, gravity))
    else:
        strength = say("abv-near", "near {abv} %", abv=Number(f"{near['abv_percent']:.1f}"))
    bands = asked.bands
    return Wished(
        gravity,
        near["final_gravity"],
        near["abv_percent"],
        ibu,
        near["colour_srm"],
        batch_l,
        strength,
        say(
            "bitterness-in-words",
            "{balance}, {0}",
            (Kind.BITTERNESS, ibu),
            balance=word(bitterness_in_words(ibu, gravity)),
        ),
        bands.get("bitterness_ibu", IBU_ENDS),
        bands.get("colour_srm", SRM_ENDS),
    )
