"""Reading the day at one instant, and putting its additions where they can be told apart."""

from __future__ import annotations

from dataclasses import dataclass, replace

from designer.brewday.results import Day
from designer.brewday.time_line import Addition, Moment
from designer.translation import named, tr, trn
from designer.units.clock import USUAL_START_MIN, minutes_of, time_after


def start_minutes(text: str) -> int:
    """Return minutes after midnight of a clock time such as "09:00"; nine o'clock for others."""
    found = minutes_of(text)
    return USUAL_START_MIN if found is None else found


def clock(start_min: int, after_min: float) -> str:
    """Return the clock time some minutes after the start, "09:25"."""
    return time_after(start_min, after_min)[1]


def clock_and_day(start_min: int, after_min: float) -> str:
    """Return the clock time some minutes after the start, and how many days later if it is."""
    days, text = time_after(start_min, after_min)
    if days == 0:
        return text
    return trn("{clock} a day later", "{clock} {number} days later", days, clock=text)


def at_time(day: Day, time_min: float) -> Moment | None:
    """Return pot and fermenter at any instant, straight between the moments that are kept."""
    moments = day.moments
    if not moments:
        return None
    later = next((n for n, each in enumerate(moments) if each.time_min > time_min), len(moments))
    before = moments[max(later - 1, 0)]
    if later >= len(moments) or later == 0:
        return replace(before, time_min=time_min)
    after = moments[later]
    share = (time_min - before.time_min) / (after.time_min - before.time_min)

    def between(name: str) -> float:
        first, last = getattr(before, name), getattr(after, name)
        return float(first + share * (last - first))

    return Moment(
        time_min,
        after.stage,
        between("temperature_c"),
        between("pot_volume_l"),
        between("wort_l"),
        between("gravity_sg"),
        between("bitterness_ibu"),
        between("fermenter_volume_l"),
    )


@dataclass(frozen=True, slots=True)
class Marker:
    """All that goes in at one instant, of one kind; of several boils, `run` counts them from 0."""

    time_min: float
    lines: str
    additions: tuple[Addition, ...]
    run: int = 0

    @property
    def names(self) -> str:
        """The names of what goes in."""
        return ", ".join(named(each.name) or tr("unnamed") for each in self.additions)


def markers(day: Day, at_min: float = 0.0, run: int = 0) -> tuple[Marker, ...]:
    """Return the additions of a day, those of a list at the same minute together.

    The day stands `at_min` after the beginning of the time line.
    """
    groups: dict[tuple[str, int], list[Addition]] = {}
    for each in day.additions:
        groups.setdefault((each.lines, round(each.time_min)), []).append(each)
    return tuple(
        Marker(at_min + group[0].time_min, lines, tuple(group), run)
        for (lines, _), group in groups.items()
    )


def boil_span(day: Day) -> tuple[float, float]:
    """Return start and end of the boil, minutes."""
    spans = [each for each in day.spans if each.key == "boil"]
    return (spans[0].start_min, spans[-1].end_min) if spans else (0.0, 0.0)
