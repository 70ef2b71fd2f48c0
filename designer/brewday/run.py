"""The run of one day: its clock, the pot, the isomerisation, and what is noted on the way."""

from __future__ import annotations

from dataclasses import dataclass, field

from designer.brewday.extract_inputs import ExtractIn
from designer.brewday.hop_inputs import HopIn
from designer.brewday.inputs import Inputs
from designer.brewday.isomerisation import IsoClock
from designer.brewday.pot import Contents
from designer.brewday.schedule import Schedule
from designer.brewday.time_line import Addition, Moment, Span
from designer.recipe.message import Message
from designer.wort.numeric import Numeric, largest
from designer.wort.water import boiling_point

NEVER_MIN = 1440.0
"""The longest that the day waits for a temperature that is never reached."""


@dataclass
class Run:
    """A day under way. Stages change it; nothing else does.

    With `noting`, moments, spans and additions are kept (plain floats only); the vessels have books
    where it `keeps_books`, for those who check them. Every heating, boiling and cooling is reckoned
    in so many `parts`; one is enough.
    """

    inputs: Inputs
    plan: Schedule
    noting: bool
    clock: IsoClock
    keeps_books: bool = False
    parts: int = 1
    pot: Contents = field(init=False)
    fermenter: Contents = field(init=False)
    steam_kg: Numeric = 0.0
    bath_ice_kg: Numeric = 0.0
    now_min: Numeric = 0.0
    moments: list[Moment] = field(default_factory=list)
    spans: list[Span] = field(default_factory=list)
    additions: list[Addition] = field(default_factory=list)
    hop_positions: dict[int, int] = field(default_factory=dict)
    fullest_l: Numeric = 0.0
    fullest_at: str = ""
    fullest_boiling_l: Numeric = 0.0
    reached_boil: bool = True
    water_boils_c: float = field(init=False)

    def __post_init__(self) -> None:
        """Empty vessels; water that boils cooler up a hill."""
        self.pot, self.fermenter = (
            Contents(keeps_book=self.keeps_books),
            Contents(keeps_book=self.keeps_books),
        )
        self.water_boils_c = float(boiling_point(self.inputs.altitude_m))

    @property
    def watching(self) -> bool:
        """Whether moments within a stage are of interest: for the time line, or for the most."""
        return self.noting

    @property
    def draws_curves(self) -> bool:
        """Whether it is told how warm the pot is on the way from one temperature to another."""
        return self.noting

    @property
    def tells_additions(self) -> bool:
        """Whether it is told when each line of the recipe goes in."""
        return self.noting

    @property
    def counts_hops(self) -> bool:
        """Whether the clock is to run that turns their alpha acid into bitterness."""
        return True

    def note(
        self,
        stage: str,
        *,
        fermenter_l: float = 0.0,
        boiling: bool = False,
        coil: bool = False,
        temp_c: Numeric | None = None,
    ) -> None:
        """Keep this moment for the time line; `temp_c` where it is not the pot's.

        A `coil` lies in the pot from the boil on.
        """
        if not self.noting:
            return
        filled = self._seen_how_full(stage, boiling=boiling, coil=coil)
        wort = float(self.pot.volume_l)
        self.moments.append(
            Moment(
                time_min=float(self.now_min),
                stage=stage,
                temperature_c=float(self.pot.temp_c if temp_c is None else temp_c),
                pot_volume_l=filled,
                wort_l=wort,
                gravity_sg=float(self.pot.gravity_sg),
                bitterness_ibu=float(self.clock.iso_mg) / wort if wort > 0.0 else 0.0,
                fermenter_volume_l=fermenter_l,
            )
        )

    def _seen_how_full(self, stage: str, *, boiling: bool, coil: bool) -> float:
        """Return what the pot holds, hot; the most that it ever does is kept."""
        filled = float(self.pot.filled_l) + (self.inputs.coil_l if boiling or coil else 0.0)
        if filled > self.fullest_l:
            self.fullest_l, self.fullest_at = filled, stage
        if boiling:
            self.fullest_boiling_l = float(largest(self.fullest_boiling_l, filled))
        return filled

    @property
    def looks_in_at(self) -> frozenset[float]:
        """Minutes left of the boil at which the brewer looks into the pot."""
        return frozenset()

    def look(self, at: str, left_min: float = 0.0) -> None:
        """Let the brewer look at what is there: nothing is kept of it on a day that is forecast.

        `at` is "fill", "strike", "steep", "boil" as it starts, "boiling" with so many minutes left,
        "flame-out", "cooled", "moving" as the wort is to be moved, "move" once it is, or "pitch".
        """

    def span(self, key: str, label: str, start_min: Numeric, minutes: float | None = None) -> None:
        """Keep the stage that began at `start_min` and ends now; `minutes` go into its label."""
        if self.noting:
            names = () if minutes is None else (("minutes", f"{minutes:.0f}"),)
            said = Message(key, label, (), names)
            self.spans.append(Span(key, said, float(start_min), float(self.now_min)))

    def put_in_extract(self, line: ExtractIn, stage: str, boil_left: float | None = None) -> None:
        """Stir a fermentable in, at the temperature of the kitchen."""
        self.pot.pour_in(stage, line.name, line.extract_kg, line.water_kg, self.inputs.room_c)
        self.pot.colour_units = self.pot.colour_units + line.colour_units
        self.clock.add_iso(line.label_mg)
        self.noted("fermentables", line, stage, boil_left)

    def put_in_hops(self, hop: HopIn, stage: str, boil_left: float | None = None) -> None:
        """Throw hops in."""
        self.hop_positions[hop.line_id] = self.clock.add_hops(hop.counted_mg)
        self.noted("hops", hop, stage, boil_left)

    def note_addition(
        self, lines: str, line_id: int, name: str, stage: str, at_min: float, left: float | None
    ) -> None:
        """Keep an addition that the pot's reckoning does not depend on, such as finings."""
        self.additions.append(Addition(lines, line_id, name, stage, at_min, left))

    def noted(
        self, lines: str, line: ExtractIn | HopIn, stage: str, boil_left: float | None
    ) -> None:
        """Keep when a line of the recipe went in."""
        if self.tells_additions:
            self.note_addition(
                lines, line.line_id, line.name, stage, float(self.now_min), boil_left
            )
