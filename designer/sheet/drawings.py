"""Pot and fermenter with their levels, and the day as a line, as shapes for paper and HTML."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from designer.brewday.foam import foam_line_l
from designer.brewday.time_line import Moment
from designer.recipe.fields import number_or_none
from designer.sheet.blocks import Drawing, Drawings, Label, Shape
from designer.sheet.plan import Plan
from designer.sheet.planned import FERMENTER, POT, Brewed

HEIGHT = 90.0
VESSEL_WIDTH = 137.0
MOST_ABREAST = 4
"""So many vessels are drawn beside each other."""
LINE_WIDTH = 256.0
_LABEL = 7.5
_APART = 9.5
_Across = Callable[[float], float]
"""Where a minute of the day lies on the time line."""
_LETTERS_APART = 5.5
"""A bag that goes in closer to the one before is not lettered on the time line."""


def drawings(plan: Plan) -> Drawings:
    """Return the vessels and the time line."""
    return Drawings((vessels(plan), time_line(plan)))


@dataclass(frozen=True, slots=True)
class _Level:
    litres: float
    words: str
    dashed: bool = False
    over: bool = False


def vessels(plan: Plan) -> Drawing:
    """Return pot and fermenter, to one scale, with the levels to look for."""
    return _drawn(plan, [_pot(plan, plan.say("Pot")), _tank(plan, plan.say("Fermenter"))])


def drawn_of(made: Brewed, boils: Sequence[Plan], *, with_tanks: bool) -> list[Drawings]:
    """Return the pots of boils that are told together, the fermenters, and the first time line.

    All vessels are to one scale, so many beside each other.
    """
    pots, tanks = _pots(made, boils), _tanks(made) if with_tanks else []
    line = time_line(boils[0])
    if len(pots) + len(tanks) < MOST_ABREAST:
        return [Drawings((_drawn(made.plan, [*pots, *tanks]), line))]
    rows = [tanks[at : at + MOST_ABREAST] for at in range(0, len(tanks), MOST_ABREAST)]
    below = [Drawings((_drawn(made.plan, row),)) for row in rows]
    return [Drawings((_drawn(made.plan, pots[: MOST_ABREAST - 2]), line)), *below]


def _pots(made: Brewed, boils: Sequence[Plan]) -> list[_Vessel]:
    """The pots, each once."""
    word = made.plan.say("Pot")
    pots = [_pot(each, word) for each in boils]
    if all(each == pots[0] for each in pots):
        return pots[:1]
    return [
        replace(each, name=made.plan.say(POT, number=str(number)))
        for number, each in enumerate(pots, 1)
    ]


def _tanks(made: Brewed) -> list[_Vessel]:
    """The fermenters with their marks; of many that are alike, one."""
    plan, tanks = made.plan, []
    for fermenter, each in zip(made.days.fermenters, made.fermenters, strict=True):
        name = plan.say(FERMENTER, number=str(fermenter.number))
        tank = _tank(each, name if len(made.fermenters) > 1 else plan.say("Fermenter"))
        order = made.in_order(fermenter)
        if len(order) > 1 and not made.is_with_others(order[-1]):
            marks = {part.boil: part.filled_l for part in fermenter.poured}
            number = order[0].number
            words = plan.say("with boil {number} in", number=str(number))
            tank = replace(tank, levels=(tank.levels[0], _Level(marks[number], words)))
        tanks.append(tank)
    if len(tanks) >= MOST_ABREAST and all(
        replace(t, name="") == replace(tanks[0], name="") for t in tanks
    ):
        return [replace(tanks[0], name=plan.say(FERMENTER, number=f"1–{len(tanks)}"))]
    return tanks


@dataclass(frozen=True, slots=True)
class _Vessel:
    """A vessel to draw: its size if known, the most that is in it, the levels to look for."""

    name: str
    size: float
    most: float
    levels: tuple[_Level, ...]


def _pot(plan: Plan, name: str) -> _Vessel:
    rim, fullest = number_or_none(plan.recipe.pot, "volume"), float(plan.day.pot.fullest_l)
    size = rim if rim is not None else 1.25 * fullest
    return _Vessel(name, size, fullest, tuple(_pot_levels(plan, rim)))


def _tank(plan: Plan, name: str) -> _Vessel:
    brim, batch = number_or_none(plan.recipe.fermenter, "volume"), float(plan.day.fermenter.batch_l)
    size = brim if brim is not None else 1.2 * batch
    return _Vessel(name, size, batch, tuple(_tank_levels(plan, brim)))


def _drawn(plan: Plan, drawn: Sequence[_Vessel]) -> Drawing:
    """Vessels beside each other, to one scale."""
    most = max(0.1, *(max(each.size, each.most) for each in drawn))
    tall = HEIGHT - 26.0
    shapes: list[Shape | Label] = []
    told: list[str] = []
    for place, each in enumerate(drawn):
        height = max(each.size, 0.01 * most) / most * tall
        shapes += _vessel(plan, 8.0 + place * VESSEL_WIDTH, height, each)
        heights = (f"{level.words} {plan.figures.volume(level.litres)}" for level in each.levels)
        told.append(plan.labelled(each.name, ", ".join(heights)))
    width = VESSEL_WIDTH * len(drawn) - 6.0
    return Drawing(width, HEIGHT, tuple(shapes), plan.parted(told))


def _pot_levels(plan: Plan, rim_l: float | None) -> list[_Level]:
    fullest = float(plan.day.pot.fullest_l)
    levels = [
        _highest(plan, fullest, rim_l, plan.say("fullest")),
        _Level(plan.day.boil_end_hot_l, plan.say("after the boil")),
    ]
    foam_l = foam_line_l(plan.recipe.pot)
    if foam_l is not None:
        levels.append(_Level(foam_l, plan.say("foam line"), dashed=True))
    return levels


def _highest(plan: Plan, litres: float, brim_l: float | None, words: str) -> _Level:
    """The level that is the highest of a vessel, or goes over its rim."""
    over = brim_l is not None and litres > brim_l
    return _Level(litres, plan.say("overflows") if over else words, over=over)


def _tank_levels(plan: Plan, brim_l: float | None) -> list[_Level]:
    batch = float(plan.day.fermenter.batch_l)
    return [
        _highest(plan, batch, brim_l, plan.say("topped up")),
        _Level(float(plan.day.fermenter.from_pot_l), plan.say("from the pot")),
    ]


def _vessel(plan: Plan, x: float, tall: float, vessel: _Vessel) -> list[Shape | Label]:
    width, bottom = 46.0, HEIGHT - 14.0
    size, levels = vessel.size, vessel.levels
    right, top = x + width, bottom - tall

    def height(litres: float) -> float:
        return bottom - min(max(litres, 0.0) / max(size, 1e-9), 1.06) * tall

    filled = height(levels[0].litres)
    full = ((x, bottom), (x, filled), (right, filled), (right, bottom))
    shapes: list[Shape | Label] = [Shape(full, width=0.0, fill="wort")]
    if levels[0].over:
        shapes += _spilt(x, top, right, bottom)
    for level in levels:
        line = height(level.litres)
        ends = ((x, line), (right + 4.0, line))
        shapes.append(Shape(ends, width=0.7, dashed=level.dashed))
    walls = ((x, top), (x, bottom), (right, bottom), (right, top))
    shapes.append(Shape(walls, width=1.5))
    shapes += _named(plan, right + 4.0, levels, [height(level.litres) for level in levels])
    label = f"{vessel.name}, {plan.figures.volume(size)}"
    shapes.append(Label(x, HEIGHT - 3.0, label, _LABEL, bold=True))
    return shapes


def _spilt(x: float, top: float, right: float, bottom: float) -> list[Shape | Label]:
    """Wort that stands above the rim, runs down outside and lies about the vessel."""
    over = 6.0
    heap = ((x, top), (x + 3.0, top - over), (right - 3.0, top - over), (right, top))
    runs = [
        ((side, top), (side + out, top + 2.0), (side + out, bottom), (side, bottom))
        for side, out in ((x, -2.5), (right, 2.5))
    ]
    below = bottom + 2.4
    pool = ((x - 6.0, below), (x - 2.0, bottom), (right + 2.0, bottom), (right + 6.0, below))
    return [Shape(each, width=0.0, fill="care") for each in (heap, *runs, pool)]


def _named(
    plan: Plan, x: float, levels: Sequence[_Level], heights: list[float]
) -> list[Shape | Label]:
    """Names of levels, pushed apart where they would meet, tied to their lines."""
    found: list[tuple[float, float, _Level]] = []
    last = -100.0
    for line, level in sorted(zip(heights, levels, strict=True), key=lambda pair: pair[0]):
        at = max(line + 2.6, last + 2.0 * _APART)
        found.append((line, at, level))
        last = at
    overrun = max(last + _APART - (HEIGHT - 12.0), 0.0)
    shapes: list[Shape | Label] = []
    for line, at, level in found:
        y = at - overrun
        shapes.append(Shape(((x, line), (x + 6.0, y - 2.6)), width=0.5, tone="soft"))
        volume, below = plan.figures.volume(level.litres), y + _APART - 1.0
        tones = ("care", "care") if level.over else ("ink", "soft")
        shapes.append(Label(x + 8.0, y, volume, _LABEL, bold=True, tone=tones[0]))
        shapes.append(
            Label(x + 8.0, below, level.words, _LABEL - 0.5, bold=level.over, tone=tones[1])
        )
    return shapes


def time_line(plan: Plan) -> Drawing:
    """Return the temperature of the pot and what it holds, over the hours of the day."""
    moments = plan.day.moments
    left, right, top, bottom = 24.0, LINE_WIDTH - 2.0, 16.0, HEIGHT - 24.0
    end = max(float(plan.day.total_min), 1.0)
    hottest = max([100.0, *(m.temperature_c for m in moments)])
    fullest = max(
        [number_or_none(plan.recipe.pot, "volume") or 0.0, 0.01, *(m.pot_volume_l for m in moments)]
    )

    def x(minutes: float) -> float:
        return left + (right - left) * min(max(minutes / end, 0.0), 1.0)

    def at_temp(moment: Moment) -> tuple[float, float]:
        return x(moment.time_min), bottom - (bottom - top) * moment.temperature_c / hottest

    def at_volume(moment: Moment) -> tuple[float, float]:
        return x(moment.time_min), bottom - (bottom - top) * moment.pot_volume_l / fullest

    held = [at_volume(m) for m in moments if m.stage != "pitch"]
    shapes: list[Shape | Label] = []
    if held:
        area = ((held[0][0], bottom), *held, (held[-1][0], bottom))
        shapes.append(Shape(area, width=0.0, fill="wort"))
    shapes.append(Shape(((left, bottom), (right, bottom)), tone="soft"))
    if moments:
        shapes.append(Shape(tuple(at_temp(m) for m in moments), width=1.6))
    for temp in (0.0, 50.0, 100.0):
        y = bottom - (bottom - top) * temp / hottest
        shapes.append(Shape(((left - 3.0, y), (left, y)), tone="soft"))
        text = plan.figures.temperature(temp).split(" (")[0].replace(" ", "")
        shapes.append(Label(left - 4.0, y + 2.5, text, 6.5, "end", tone="soft"))
    shapes += _stages(plan, x, top, bottom) + _hours(plan, x, bottom, end)
    says = plan.say(
        "The day from {start} to {end}: temperature and volume of the pot",
        start=plan.clock(0.0),
        end=plan.clock(end),
    )
    return Drawing(LINE_WIDTH, HEIGHT, tuple(shapes), says)


def _stages(plan: Plan, x: _Across, top: float, bottom: float) -> list[Shape | Label]:
    shapes: list[Shape | Label] = []
    named = (
        ("steep", plan.say("steep")),
        ("boil", plan.say("boil")),
        ("cool", plan.say("cool")),
        ("move", plan.say("fill")),
    )
    for key, words in named:
        for span in plan.spans(key)[-1:]:
            start, end = x(span.start_min), x(span.end_min)
            shapes.append(
                Shape(((start, top - 4.0), (start, bottom)), tone="soft", width=0.5, dashed=True)
            )
            if end - start > 4.2 * len(words):
                shapes.append(Label(start + 3.0, top - 6.0, words, _LABEL, bold=True))
    last = -100.0
    for group in plan.going_in:
        at = x(group.time_min)
        if group.place != "dry hop" and at - last >= _LETTERS_APART:
            shapes.append(Label(at, bottom + 8.5, group.letter, 7.0, "middle", True))
            last = at
    return shapes


def _hours(plan: Plan, x: _Across, bottom: float, end: float) -> list[Shape | Label]:
    every = next((step for step in (30, 60, 120, 240, 720) if end / step <= 7.0), 1440)
    shapes: list[Shape | Label] = []
    first = -plan.start_min % every
    for minutes in range(first, int(end) + 1, every):
        at = x(float(minutes))
        shapes.append(Shape(((at, bottom), (at, bottom + 2.5)), tone="soft"))
        if at < LINE_WIDTH - 14.0 and at > 10.0:
            text = plan.clock(float(minutes)).split(" ")[0]
            shapes.append(Label(at, bottom + 18.5, text, _LABEL - 0.5, "middle", tone="soft"))
    return shapes
