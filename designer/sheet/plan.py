"""What all parts of the sheet are written from: recipe, day, figures, and what goes in when."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from functools import cached_property, reduce

from designer.brewday.fit.packets import packets_of
from designer.brewday.results import Day, Outlook
from designer.brewday.time_line import Addition, Span
from designer.brewday.yeast_doubts import pitched_dry_g
from designer.library.packs import PackSize
from designer.recipe.choices import HopForm, YeastForm, is_grain
from designer.recipe.document import Fermenter, Hop, Recipe
from designer.recipe.fields import number, number_or_none
from designer.recipe.named import Line, lines_of
from designer.recipe.quantity import Kind, Quantity, Stage
from designer.sheet.blocks import Portion, Words
from designer.sheet.clock import clock, day_text
from designer.sheet.figures import Figures
from designer.sheet.language import Language, message
from designer.units.clock import DAY_MIN

NAMELESS = message("(no name)")
LONGEST_NAME = 120


@dataclass(frozen=True, slots=True)
class GoingIn:
    """What goes in together: at which place of the day, with what letter, and when in words.

    `place` is "water", "steep", "extract after steep", "first wort", "extract in", "boil",
    "flame-out", "stand", "fermenter" or "dry hop".
    """

    place: str
    time_min: float
    boil_left_min: float
    letter: str
    words: str
    portions: tuple[Portion, ...]
    fermentable: bool


ALL_PLACES = (
    "water",
    "steep",
    "extract after steep",
    "first wort",
    "extract in",
    "boil",
    "flame-out",
    "stand",
    "fermenter",
    "dry hop",
)
IN_POT = ALL_PLACES[:8]
IN_FERMENTER = ALL_PLACES[8:]
_PLACES = {
    "water": message("into the cold water"),
    "steep": message("steep"),
    "extract after steep": message("after the steep"),
    "first wort": message("before the boil"),
    "extract in": message("start of boil"),
    "flame-out": message("flame-out"),
    "fermenter": message("into the fermenter"),
}
_HOP_FORMS: dict[str, str] = {HopForm.PELLETS: message("pellets"), HopForm.WHOLE: message("whole")}


@dataclass(frozen=True)
class Plan:
    """The recipe and the day that came of it, with the ways to write figures."""

    recipe: Recipe
    outlook: Outlook
    figures: Figures
    start_min: int
    brew_date: date | None
    places: tuple[str, ...] = ALL_PLACES
    """Where what this part of the sheet is about goes in; of a boil alone, the pot."""
    first_letter: int = 0
    vessels: tuple[Fermenter, ...] | None = None
    """What is sanitised for its wort; None for the fermenter of the recipe."""
    tools_again: bool = False
    """Whether strainer and jar are sanitised once more where no fermenter is."""
    on_day: int = 0
    """Days after the first brew day."""
    boil_number: int = 1
    fermenter_number: int = 1
    """Which boil and which fermenter of a plan it is about."""
    packs: tuple[PackSize, ...] = ()
    """The sizes in which the shop sells."""

    @property
    def day(self) -> Day:
        """The day that all numbers are read off."""
        return self.outlook.day

    def clock(self, minutes: float) -> str:
        """Return the clock time so many minutes into the day."""
        return clock(self.start_min, minutes, self.language)

    def day_in(self, days: int) -> str:
        """Return the day so many after the wort was pitched, with its date where that is known."""
        return day_text(self.brew_date, days + self.on_day, self.language)

    @property
    def language(self) -> Language:
        """The language of the sheet."""
        return self.figures.language

    def say(self, message: str, /, **parts: str) -> str:
        """Return a message in the language of the sheet."""
        return self.language.say(message, **parts)

    def words(self, message: str, /, **parts: str | Words) -> Words:
        """Return a message with what stands out in it."""
        return self.language.words(message, **parts)

    def labelled(self, label: str, said: str) -> str:
        """Return what is said of something behind its name, with the colon of the language."""
        return f"{self.say('{label}:', label=label)} {said}"

    def parted(self, texts: Iterable[str]) -> str:
        """Return texts as one, with semicolons between them as the language sets them."""
        first, *others = [*texts] or [""]
        return reduce(
            lambda one, each: self.say("{one}; {next}", one=one, next=each), others, first
        )

    def spans(self, key: str) -> list[Span]:
        """Return the stages of that key, in order."""
        return [each for each in self.day.spans if each.key == key]

    @property
    def ferment_days(self) -> int:
        """Days in the fermenter as the recipe says, to the day."""
        return round(number(self.recipe.process, "ferment_time") / DAY_MIN)

    @cached_property
    def going_in(self) -> tuple[GoingIn, ...]:
        """Return all that goes in, by when it does; each line of the recipe is in one of them."""
        gathered: dict[tuple[int, float, float], list[tuple[Addition, Portion]]] = {}
        for addition in self.day.additions:
            place, time_min = self._place(addition)
            if place not in self.places:
                continue
            key = (ALL_PLACES.index(place), time_min, -(addition.boil_left_min or 0.0))
            gathered.setdefault(key, []).append((addition, self._portion(addition)))
        return tuple(
            self._group(number, *key, gathered[key]) for number, key in enumerate(sorted(gathered))
        )

    def at(self, place: str) -> list[GoingIn]:
        """Return what goes in at that place of the day."""
        return [each for each in self.going_in if each.place == place]

    def _group(
        self,
        number: int,
        order: int,
        time_min: float,
        minus_left: float,
        members: list[tuple[Addition, Portion]],
    ) -> GoingIn:
        place = ALL_PLACES[order]
        return GoingIn(
            place,
            time_min,
            -minus_left,
            letters(self.first_letter + number),
            self._words(place, -minus_left, time_min),
            tuple(portion for _, portion in members),
            any(addition.lines == "fermentables" for addition, _ in members),
        )

    def _words(self, place: str, left_min: float, time_min: float) -> str:
        if place == "boil":
            return self.left(left_min) if left_min > 0.0 else self.say("end of the boil")
        if place == "dry hop":
            days = round((time_min - float(self.day.total_min)) / DAY_MIN)
            return self.say("day {days}", days=str(days + self.on_day))
        if place == "stand":
            return self.say("stand, {time}", time=self.clock(time_min))
        return self.say(_PLACES[place])

    def left(self, minutes: float) -> str:
        """Return the countdown beside a step of the boil."""
        return self.say("{minutes} min left", minutes=self.figures.number(minutes, "g"))

    def _place(self, addition: Addition) -> tuple[str, float]:
        """Where on the sheet an addition stands, and its minute."""
        if addition.lines == "extras":
            return self._place_of_extra(addition)
        if addition.lines == "hops" and addition.stage == Stage.DRY_HOP:
            return "dry hop", self._dry_hop_min(addition.line_id)
        if addition.stage == Stage.STEEP and not self._is_grain(addition.line_id):
            return "extract after steep", addition.time_min
        return addition.stage, addition.time_min

    def _place_of_extra(self, addition: Addition) -> tuple[str, float]:
        extra = next(each for each in self.recipe.extras if each.line_id == addition.line_id)
        stage = extra.when.stage
        if stage in (Stage.STEEP, Stage.FIRST_WORT):
            return "water", 0.0
        if stage is Stage.STAND:
            return "flame-out", addition.time_min
        if stage is Stage.FERMENTER and extra.when.days == 0.0:
            return "fermenter", self._fermenter_min
        if stage in (Stage.FERMENTER, Stage.DRY_HOP):
            return "dry hop", self._fermenting_min(extra.when.days)
        return str(stage), addition.time_min

    @property
    def _fermenter_min(self) -> float:
        return self.spans("move")[-1].end_min

    def _fermenting_min(self, days_before_packaging: float) -> float:
        """The minute of the day that is so long before packaging, not before pitching."""
        days = max(round(self.ferment_days - days_before_packaging), 0)
        return float(self.day.total_min) + days * DAY_MIN

    def _dry_hop_min(self, line_id: int) -> float:
        when = next(each.when for each in self.recipe.hops if each.line_id == line_id)
        with_yeast = when.stage is Stage.FERMENTER and when.days == 0.0
        return self._fermenting_min(self.ferment_days if with_yeast else when.days)

    def _is_grain(self, line_id: int) -> bool:
        line = next(each for each in self.recipe.fermentables if each.line_id == line_id)
        return is_grain(line.kind)

    def _portion(self, addition: Addition) -> Portion:
        lines = lines_of(self.recipe, addition.lines)
        line = next(each for each in lines if each.line_id == addition.line_id)
        kind = Kind.DOSE if addition.lines == "extras" else Kind.MASS
        amount: Quantity | None = line.amount
        return Portion(
            addition.lines,
            addition.line_id,
            self.full_name(line),
            self.figures.amount(amount, kind),
            0.0 if amount is None else amount.value,
        )

    def full_name(self, line: Line) -> str:
        """Return the name of a line as one buys it: hops with their form."""
        name = self.name_of(line.name) or self.say(NAMELESS)
        if not isinstance(line, Hop):
            return name
        return f"{name}, {self.say(_HOP_FORMS.get(line.form, line.form))}"

    def name_of(self, text: str) -> str:
        """Return a name as it is shown: in the language of the sheet, in one line, not too long."""
        return name_of(self.language.named(text))

    @property
    def yeast(self) -> Portion:
        """The yeast, as it goes in; with no amount typed, the dose the batch needs."""
        yeast, day = self.recipe.yeast, self.day
        if yeast.amount is not None:
            amount = self.figures.amount(yeast.amount, Kind.DOSE)
        elif self.is_yeast_dosed:
            doses = (day.beer.yeast_low_g, day.beer.yeast_high_g)
            low, high = (self.figures.mass(round(float(g), 1) / 1000.0) for g in doses)
            amount = self.say("{low} to {high}", low=low, high=high)
        else:
            amount = self.say("as its label says")
        value = 0.0 if yeast.amount is None else yeast.amount.value
        return Portion("yeast", 0, self.name_of(yeast.name) or self.say("Yeast"), amount, value)

    @property
    def is_yeast_dosed(self) -> bool:
        """Whether it is known how much yeast goes in: typed, or of dry yeast what a batch wants."""
        yeast = self.recipe.yeast
        is_dry = yeast.form == YeastForm.DRY and float(self.day.beer.yeast_high_g) > 0.0
        return yeast.amount is not None or is_dry

    @property
    def yeast_packets(self) -> str:
        """The packets of dry yeast to buy: as typed, or what the batch wants; "" of other yeast."""
        return self.packets(self.packets_to_buy)

    @property
    def packets_to_buy(self) -> int:
        """How many packets of dry yeast that is; 0 of other yeast."""
        yeast = self.recipe.yeast
        pitched = pitched_dry_g(yeast)
        if yeast.form != YeastForm.DRY or (pitched is None and yeast.amount is not None):
            return 0
        return self.day.beer.yeast_packets if pitched is None else packets_of(yeast)

    def packets(self, count: int) -> str:
        """Return so many packets; "" of none."""
        return self.language.count("{number} packet", "{number} packets", count) if count else ""

    @property
    def yeast_band_c(self) -> tuple[float, float]:
        """The temperatures the yeast likes, °C; about the pitching temperature if not known."""
        return yeast_band_c(self.recipe)


def yeast_band_c(recipe: Recipe) -> tuple[float, float]:
    """Return the temperatures a recipe's yeast likes, °C; about that of pitching if not known."""
    pitch = number(recipe.process, "pitch_temperature")
    low = number_or_none(recipe.yeast, "lowest")
    high = number_or_none(recipe.yeast, "highest")
    low = min(pitch - 2.0, high if high is not None else pitch) if low is None else low
    high = max(pitch + 2.0, low) if high is None else high
    return (low, high) if low <= high else (high, low)


def letters(number: int) -> str:
    """Return A, B ... Z, AA, AB ... for 0, 1 ..."""
    text = ""
    number += 1
    while number > 0:
        number, digit = divmod(number - 1, 26)
        text = chr(ord("A") + digit) + text
    return text


def one_line(text: str) -> str:
    """Return typed text without line breaks or other controls, which no cell of the sheet takes."""
    return " ".join("".join(sign if sign.isprintable() else " " for sign in text).split())


def name_of(text: str) -> str:
    """Return a typed name in one line, cut where it would fill a page by itself."""
    name = one_line(text)
    return name if len(name) <= LONGEST_NAME else name[: LONGEST_NAME - 1].rstrip() + "…"
