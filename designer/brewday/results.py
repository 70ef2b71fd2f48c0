"""What a run of the brew day tells: the day itself, its forecasts with ranges, and findings.

All volumes are litres at 20 °C unless the name says hot; times are minutes from the start.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from designer.recipe.edits import Edit
from designer.recipe.message import Message, word
from designer.translation import message
from designer.wort.colour import ebc_from_srm
from designer.wort.numeric import Numeric

KG_PER_L = 0.998203
"""A litre of water at 20 °C weighs so many kilograms."""

STAGES = (
    message("fill"), message("heat water"), message("heat to boil"), message("steep"),
    message("lift"), message("extract in"), message("boil"),
    message("flame-out"), message("stand"), message("cool"),
)  # fmt: skip
"""The stages of the pot, by their names in a `Day`."""
_AT_STAGE = {
    "fill": message("at the start"),
    "heat water": message("heating"),
    "steep": message("in the steep"),
    "lift": message("lifting the grain"),
    "heat to boil": message("coming to the boil"),
    "extract in": message("with the extract in"),
    "boil": message("at the boil"),
    "flame-out": message("at flame-out"),
}


def at_stage(stage: str) -> Message:
    """Return a moment of the pot, in words, by its stage."""
    return word(_AT_STAGE.get(stage, stage))


@dataclass(frozen=True, slots=True)
class Moment:
    """Pot and fermenter at one instant of the time line.

    `pot_volume_l` is what the pot holds as it is, hot, with grain, coil and hops displaced;
    `wort_l` the wort alone at 20 °C; `bitterness_ibu` that of the wort in the pot.
    """

    time_min: float
    stage: str
    temperature_c: float
    pot_volume_l: float
    wort_l: float
    gravity_sg: float
    bitterness_ibu: float
    fermenter_volume_l: float


@dataclass(frozen=True, slots=True)
class Span:
    """One stage of the day: its key, what a brewer calls it, and from when to when."""

    key: str
    label: str
    start_min: float
    end_min: float


@dataclass(frozen=True, slots=True)
class Addition:
    """One thing going in: `lines` and `line_id` name the recipe line, `time_min` the instant.

    `boil_left_min` is the boil time left, None outside the boil.
    """

    lines: str
    line_id: int
    name: str
    stage: str
    time_min: float
    boil_left_min: float | None


@dataclass(frozen=True, slots=True)
class LineGives:
    """What one line brings to the beer: gravity points, colour units (MCU), bitterness."""

    points: float = 0.0
    colour_mcu: float = 0.0
    bitterness_ibu: float = 0.0


@dataclass(frozen=True, slots=True)
class Day:
    """One brew day, from cold water to pitched yeast, and the beer it makes.

    The numbers hold floats for a plain run, or arrays of one value a sample.
    """

    # water and steep
    start_water_l: Numeric
    strike_c: Numeric
    steeped_c: Numeric
    held_in_grain_l: Numeric
    # pot
    boil_start_l: Numeric
    boil_gravity_start: Numeric
    boil_gravity_end: Numeric
    boil_end_l: Numeric
    boiling_c: Numeric
    reached_boil: bool
    evaporated_l: Numeric
    pot_bitterness_ibu: Numeric
    fullest_l: Numeric
    fullest_at: str
    fullest_boiling_l: Numeric
    # cooling and moving
    cool_to_c: Numeric
    cooling_min: Numeric
    lost_to_trub_l: Numeric
    lost_to_hops_l: Numeric
    # fermenter
    from_pot_l: Numeric
    top_up_l: Numeric
    frozen_kg: Numeric
    frozen_melted: bool
    batch_l: Numeric
    mixed_c: Numeric
    # beer
    original_gravity: Numeric
    final_gravity: Numeric
    abv_percent: Numeric
    bitterness_ibu: Numeric
    colour_srm: Numeric
    kcal_per_100ml: Numeric
    co2_g_l: Numeric
    packaged_l: Numeric
    # what the brewer needs
    yeast_low_g: Numeric
    yeast_high_g: Numeric
    priming_sugar_g: Numeric
    priming_dextrose_g: Numeric
    keg_bar: Numeric
    water_treatment_g: Numeric
    total_min: Numeric
    spans: tuple[Span, ...] = ()
    additions: tuple[Addition, ...] = ()
    moments: tuple[Moment, ...] = ()
    gives: dict[int, LineGives] = field(default_factory=dict)

    @property
    def colour_ebc(self) -> Numeric:
        """Beer colour in EBC units, 1.97 times SRM."""
        return ebc_from_srm(self.colour_srm)

    @property
    def boil_end_hot_l(self) -> float:
        """Litres to read on the pot at flame-out, as hot as it is; `boil_end_l` is at 20 °C.

        A day without a time line knows the volume at 20 °C alone.
        """
        hot = (each.pot_volume_l for each in self.moments if each.stage == "flame-out")
        return next(hot, float(self.boil_end_l))

    @property
    def liquid_top_up_l(self) -> Numeric:
        """Top-up water to pour, litres, beside what is added frozen."""
        return self.top_up_l - self.frozen_kg / KG_PER_L


@dataclass(frozen=True, slots=True)
class Cause:
    """An input that makes a forecast doubtful.

    `share` is the part of the forecast's variance that it causes by itself, 0 to 1. Where the
    brewer can know it better, `advice` says how, and `low` to `high` is the range that is then
    left; else `advice` is empty and the range is that of the forecast.
    """

    key: str
    share: float
    advice: str
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Range:
    """A forecast: the value of the recipe as typed, its 5 to 95 % range, and what causes that.

    `causes` lists the inputs that cause at least a hundredth of the variance, the largest first.
    """

    value: float
    low: float
    high: float
    causes: tuple[Cause, ...] = ()


@dataclass(frozen=True, slots=True)
class Finding:
    """A doubt about a recipe.

    `severity` is "stop" (do not brew so), "care" or "note". `about` names the place, such as
    "process.top_up_to", "hops.3" (list and line_id) or "recipe". `fix` cures it as one undoable
    edit; its `text` is what the button says.
    """

    severity: str
    about: str
    message: Message
    fix: Edit | None = None

    @property
    def code(self) -> str:
        """What it is a finding of, whatever its words."""
        return self.message.id


@dataclass(frozen=True, slots=True)
class Outlook:
    """What is said of a recipe: the day, the forecasts by key, and findings, worst first."""

    day: Day
    forecasts: dict[str, Range]
    findings: tuple[Finding, ...]
