"""What a run of the brew day tells: the day itself, its forecasts with ranges, and findings.

A day is made of its parts: what steep, pot, fermenter and beer tell, and the time line. All volumes
are litres at 20 °C unless the name says hot; times are minutes from the start.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from typing import Any, NamedTuple

from designer.brewday.bottles import Bottled
from designer.brewday.inputs import Inputs
from designer.brewday.pot import Contents
from designer.brewday.time_line import Addition, Moment, Span
from designer.brewday.tolerances import input_words
from designer.recipe.document import Fermenter, Recipe, Yeast
from designer.recipe.edits import Edit
from designer.recipe.message import Figure, Message, say
from designer.recipe.place import Place
from designer.recipe.severity import Severity
from designer.translation import message
from designer.wort.colour import ebc_from_srm
from designer.wort.fermentation import KJ_PER_KCAL
from designer.wort.numeric import Numeric, largest
from designer.wort.pitching import HIGH_PART, LOW_PART, packets
from designer.wort.water import WATER_KG_PER_L


@dataclass(frozen=True, slots=True)
class Contribution:
    """What one line brings to the beer: gravity points, colour units (MCU), bitterness."""

    points: float = 0.0
    colour_mcu: float = 0.0
    bitterness_ibu: float = 0.0


@dataclass(frozen=True, slots=True)
class Steeped:
    """The steep: water at the strike, what it reached with the grain in, what the grain keeps."""

    strike_c: Numeric
    steeped_c: Numeric
    held_in_grain_l: Numeric


@dataclass(frozen=True, slots=True)
class Boiled:
    """The pot from cold water to flame-out; the fullest is hot, with all that it displaces."""

    start_water_l: Numeric
    boil_start_l: Numeric
    boil_gravity_start: Numeric
    boil_gravity_end: Numeric
    boil_end_l: Numeric
    boiling_c: Numeric
    reached_boil: bool
    evaporated_l: Numeric
    fullest_l: Numeric
    fullest_at: str
    fullest_boiling_l: Numeric


class Hot(NamedTuple):
    """What a day tells until its pot is to be cooled, and the pot as it is then."""

    steeped: Steeped
    boil_start_l: Numeric
    boil_gravity_start: Numeric
    boil_end_l: Numeric
    boil_gravity_end: Numeric
    boiling_c: Numeric
    pot: Contents


@dataclass(frozen=True, slots=True)
class Filled:
    """The filled fermenter and how it came to be: cooled, moved, topped up, mixed.

    `bath_ice_kg` is the ice of a bath about the pot, 0 where it takes none; `hot_l` is what of the
    top-up is poured just boiled on extract in the fermenter; `moved_fraction` is the share of the
    pot's wort that was moved; `pot_ibu` its bitterness there; `iso_mg` and `colour_units` what the
    fermenter got of both.
    """

    cool_to_c: Numeric
    cooling_min: Numeric
    bath_ice_kg: Numeric
    lost_to_trub_l: Numeric
    lost_to_hops_l: Numeric
    moved_fraction: Numeric
    from_pot_l: Numeric
    top_up_l: Numeric
    frozen_kg: Numeric
    hot_l: Numeric
    frozen_melted: bool
    batch_l: Numeric
    mixed_c: Numeric
    pot_ibu: Numeric
    iso_mg: Numeric
    colour_units: Numeric

    @property
    def in_pot_l(self) -> Numeric:
        """Litres of wort in the pot before any was moved."""
        return self.from_pot_l + self.lost_to_trub_l + self.lost_to_hops_l

    @property
    def liquid_top_up_l(self) -> Numeric:
        """Top-up water to pour, litres, beside what is added frozen."""
        return self.top_up_l - self.frozen_kg / WATER_KG_PER_L

    @property
    def cold_top_up_l(self) -> Numeric:
        """Top-up water to pour cold, litres."""
        return largest(self.liquid_top_up_l - self.hot_l, 0.0)


@dataclass(frozen=True, slots=True)
class Beer:
    """The finished beer and what it takes to finish it; bitterness of each hop by line_id.

    `undissolved_ibu` is how much of a plain day's bitterness would be missing if no more alpha acid
    dissolves in the pot than a fit to measured beers says; 0 where all of it does. `priming_g` is
    what the bottles take, by the priming sugar: of none where `bottled` refuses it.
    """

    original_gravity: Numeric
    final_gravity: Numeric
    abv_percent: Numeric
    bitterness_ibu: Numeric
    hop_ibu: dict[int, Numeric]
    undissolved_ibu: float
    colour_srm: Numeric
    kcal_per_100ml: Numeric
    packaged_l: Numeric
    yeast_wanted_g: Numeric
    priming_g: dict[str, Numeric]
    bottled: Bottled | None
    keg_bar: Numeric
    water_l: Numeric
    water_treatment_g: Numeric

    @property
    def kj_per_100ml(self) -> Numeric:
        """The food value in kilojoules."""
        return KJ_PER_KCAL * self.kcal_per_100ml

    @property
    def yeast_low_g(self) -> Numeric:
        """The lowest usual dose of dry yeast, grams."""
        return LOW_PART * self.yeast_wanted_g

    @property
    def yeast_high_g(self) -> Numeric:
        """The highest usual dose of dry yeast, grams."""
        return HIGH_PART * self.yeast_wanted_g

    @property
    def yeast_packets(self) -> int:
        """Packets of dry yeast that bring what is wanted."""
        return packets(float(self.yeast_wanted_g))

    @property
    def colour_ebc(self) -> Numeric:
        """Beer colour in EBC units, 1.97 times SRM."""
        return ebc_from_srm(self.colour_srm)


class Began(NamedTuple):
    """What a day started from, and its pot as it was to be cooled: a cure is tried from there.

    Of a plain day of a recipe `paused` is all of it there, see `designer.brewday.tried`.
    """

    given: Inputs
    hot_pot: Contents
    paused: Any = None


@dataclass(frozen=True, slots=True)
class Day:
    """One brew day, from cold water to pitched yeast, and the beer it makes.

    The numbers hold floats for a plain run, or arrays of one value a sample; only a plain run has a
    time line, and tells what it `began` with.
    """

    steep: Steeped
    pot: Boiled
    fermenter: Filled
    beer: Beer
    total_min: Numeric
    spans: tuple[Span, ...] = ()
    additions: tuple[Addition, ...] = ()
    moments: tuple[Moment, ...] = ()
    gives: dict[int, Contribution] = field(default_factory=dict)
    began: Began | None = field(default=None, compare=False, repr=False)

    @property
    def boil_end_hot_l(self) -> float:
        """Litres to read on the pot at flame-out, as hot as it is; `boil_end_l` is at 20 °C.

        A day without a time line knows the volume at 20 °C alone.
        """
        hot = (each.pot_volume_l for each in self.moments if each.stage == "flame-out")
        return next(hot, float(self.pot.boil_end_l))


@dataclass(frozen=True, slots=True)
class Cause:
    """An input whose tolerance widens the range of a forecast.

    `share` is the part of the forecast's variance that it causes by itself, 0 to 1. Where the
    brewer can know it better, `advice` says how, and `low` to `high` is the range that is then
    left; else `advice` is empty and the range is that of the forecast. `rests_on` is how many brews
    taught what is known of it, 0 where none did.
    """

    key: str
    share: float
    advice: str
    low: float
    high: float
    rests_on: int = 0

    @property
    def words(self) -> Message:
        """What the input is called, and what is known of it rests on."""
        called = input_words(self.key)
        if not self.rests_on:
            return called
        if self.rests_on == 1:
            once = message("{input} (your kitchen taught it: 1 brew)")
            return say("input-taught-once", once, input=called)
        return say(
            "input-taught",
            "{input} (your kitchen taught it: {brews} brews)",
            input=called,
            brews=self.rests_on,
        )


@dataclass(frozen=True, slots=True)
class Range:
    """A forecast: the value of the recipe as typed, its 5 to 95 % range, and what causes that.

    `causes` lists the inputs that cause at least a hundredth of the variance, the largest first.
    Half of the draws lie from `first_quartile` to `third_quartile`, about their `middle`; they are
    the value itself where none were made.
    """

    value: float
    low: float
    high: float
    causes: tuple[Cause, ...] = ()
    first_quartile: float | None = None
    middle: float | None = None
    third_quartile: float | None = None

    def on_scale(self, of_one: float) -> Range:
        """Return the same forecast on a scale that begins at nothing too."""
        caused = tuple(
            replace(each, low=of_one * each.low, high=of_one * each.high) for each in self.causes
        )
        quartiles = (self.first_quartile, self.middle, self.third_quartile)
        return Range(
            of_one * self.value,
            of_one * self.low,
            of_one * self.high,
            caused,
            *(None if each is None else of_one * each for each in quartiles),
        )

    @property
    def leans(self) -> str:
        """Where the beer more likely lies: "higher" or "lower" than the value, "" where neither.

        It is so where the value lies outside the middle half of the draws.
        """
        if self.first_quartile is None or self.third_quartile is None:
            return ""
        rounding = 1e-9 * max(1.0, abs(self.value))
        if self.value < self.first_quartile - rounding:
            return "higher"
        return "lower" if self.value > self.third_quartile + rounding else ""

    def moved_to(self, value: float) -> Range:
        """Return the range moved along with its value: as wide as it is, but not below nothing."""
        by, least = value - self.value, min(0.0, value, self.low)

        def moved(at: float | None) -> float | None:
            return None if at is None else max(at + by, least)

        return replace(
            self,
            value=value,
            low=max(self.low + by, least),
            high=self.high + by,
            first_quartile=moved(self.first_quartile),
            middle=moved(self.middle),
            third_quartile=moved(self.third_quartile),
        )


@dataclass(frozen=True, slots=True)
class Finding:
    """A doubt about a recipe.

    `fix` cures it as one undoable edit, and `makes` says what that makes of the beer where it
    changes it. `leads_to` is the page on which other cures are found, "fit"; "" for none. A cure
    that `mends_typing` sets right what was typed, whatever then comes to light.

    Where the day has to be run for its cure or its words, a finding is told before that is done:
    `seeks` tells the cure then, and `says` the words. `in_words` and `with_cure` ask for them.
    """

    severity: Severity
    about: Place
    message: Message
    fix: Edit | None = None
    leads_to: str = ""
    makes: Message | None = None
    mends_typing: bool = False
    seeks: Callable[[], Edit | None] | None = field(default=None, compare=False, repr=False)
    says: Callable[[], Message] | None = field(default=None, compare=False, repr=False)

    @property
    def in_words(self) -> Finding:
        """The finding as it is said."""
        return self if self.says is None else replace(self, message=self.says(), says=None)

    @property
    def with_cure(self) -> Finding:
        """The finding as it is said, with the cure that is found by running the day, if any."""
        said = self.in_words
        return said if said.seeks is None else replace(said, fix=said.seeks(), seeks=None)

    @property
    def offer(self) -> Message | None:
        """What the button of its cure says; None where there is no cure."""
        if self.fix is None or self.makes is None:
            return None if self.fix is None else self.fix.text
        return say("cure-offered", "{cure}: {makes}", cure=self.fix.text, makes=self.makes)

    @property
    def code(self) -> str:
        """What it is a finding of, whatever its words."""
        return self.message.id


def doubt(
    severity: Severity,
    about: Place,
    id: str,
    template: str,
    /,
    *figures: Figure,
    fix: Edit | None = None,
    leads_to: str = "",
    mends_typing: bool = False,
    seeks: Callable[[], Edit | None] | None = None,
    **names: object,
) -> Finding:
    """Return a finding that says a message; its cure is given, or sought when it is asked for."""
    said = say(id, template, *figures, **names)
    return Finding(severity, about, said, fix, leads_to, mends_typing=mends_typing, seeks=seeks)


@dataclass(frozen=True, slots=True)
class BoilDay:
    """One boil of a plan, counted from 1: its plain recipe, its day, the beer of its wort alone.

    The recipe and the fermenter of the day are those of all its wort together, in however many
    vessels. The boil begins `starts_min` after the first of its day, which is `on_day` days later.
    """

    number: int
    recipe: Recipe
    day: Day
    forecasts: dict[str, Range]
    starts_min: float
    on_day: int


@dataclass(frozen=True, slots=True)
class Poured:
    """What goes of one boil into one fermenter, in litres at 20 °C, and with it as top-up."""

    boil: int
    share: float
    from_pot_l: float
    top_up_l: float
    frozen_kg: float
    filled_l: float

    @property
    def liquid_top_up_l(self) -> float:
        """Top-up water to pour, litres, beside what is added frozen."""
        return self.top_up_l - self.frozen_kg / WATER_KG_PER_L


@dataclass(frozen=True, slots=True)
class FermenterDay:
    """One fermenter of a plan, counted from 1: what it is filled with, and its beer.

    The day is that of the first boil poured into it, with the fermenter and the beer of this vessel
    alone. Yeast is pitched when the last wort is in: `pitched_min` after the start of that day.
    """

    number: int
    vessel: Fermenter
    yeast: Yeast
    poured: tuple[Poured, ...]
    day: Day
    forecasts: dict[str, Range]
    pitched_min: float
    on_day: int

    @property
    def from_pot_l(self) -> float:
        """Litres of wort from all boils."""
        return sum(each.from_pot_l for each in self.poured)

    @property
    def top_up_l(self) -> float:
        """Litres of water on top, frozen water included."""
        return sum(each.top_up_l for each in self.poured)

    @property
    def frozen_kg(self) -> float:
        """Kilograms of it that are frozen."""
        return sum(each.frozen_kg for each in self.poured)

    @property
    def total_l(self) -> float:
        """Litres in it when the yeast is pitched."""
        return float(self.day.fermenter.batch_l)

    @property
    def brim_l(self) -> float | None:
        """What it holds to the brim; None where its size is not known."""
        return None if self.vessel.volume is None else self.vessel.volume.value


@dataclass(frozen=True, slots=True)
class PlanDays:
    """The boils and the fermenters by which a planned recipe is brewed."""

    boils: tuple[BoilDay, ...]
    fermenters: tuple[FermenterDay, ...]

    @property
    def boils_alike(self) -> bool:
        """Whether all boils are the same: then one is done again."""
        first = self.boils[0].recipe
        return all(replace(each.recipe, fermenter=first.fermenter) == first for each in self.boils)


@dataclass(frozen=True, slots=True)
class Outlook:
    """What is said of a recipe: the day, the forecasts by key, and findings, worst first.

    Of a recipe that is brewed by a plan, day and forecasts are those of the whole. `recipe` is what
    was looked at, and `expects` tells what there is to read at any place of a day after readings,
    `wort_in` what is in a fermenter then; see `designer.brewday.measured.expecting`.
    """

    day: Day
    forecasts: dict[str, Range]
    findings: tuple[Finding, ...]
    plan: PlanDays | None = None
    recipe: Recipe | None = field(default=None, compare=False, repr=False)
    expects: Callable[[Any], Range] | None = field(default=None, compare=False, repr=False)
    wort_in: Callable[[int], Any] | None = field(default=None, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Glimpse:
    """The day of a recipe as typed, while its ranges and findings are not known yet.

    The forecasts hold its values; their ranges are earlier ones, moved along with them. Of a plan
    `brewed` are the plain recipes that it comes to, each with its day.
    """

    day: Day
    forecasts: dict[str, Range]
    plan: PlanDays | None = None
    brewed: tuple[tuple[Recipe, Day], ...] = field(default=(), compare=False, repr=False)
