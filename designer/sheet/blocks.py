"""The brew sheet as plain values: what it says, not how it is laid out.

Paper, HTML and plain text walk the same blocks, so all of them say the same. Words are runs of
text, some of them strong; no run holds markup, so nothing a brewer typed can be taken for it.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from designer.sheet.blanks import Blank, Countdown


@dataclass(frozen=True, slots=True)
class Strong:
    """Text that stands out: an amount, a temperature, a warning."""

    text: str


Words = tuple[str | Strong, ...]


def plain_words(words: Words) -> str:
    """Return the text of all runs."""
    return "".join(run.text if isinstance(run, Strong) else run for run in words)


@dataclass(frozen=True, slots=True)
class Portion:
    """One line of the recipe going in: `lines` and `line_id` name it (yeast: "yeast", 0).

    `value` is the amount in kg, or in the unit of the dose; 0 if none is given.
    """

    lines: str
    line_id: int
    name: str
    amount: str
    value: float


@dataclass(frozen=True, slots=True)
class Reading:
    """A blank to fill in: what is read, and the forecast beside it.

    `also` names a second blank that belongs to it, such as the temperature of the sample, and
    `unit` the unit written after that. Where it is read several times, `turns` are the numbers of
    the boxes of its step, with a blank for each.
    """

    label: str
    forecast: str
    unit: str = ""
    also: str = ""
    turns: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Aside:
    """Said beside a step: `kind` is "why", "if" (something goes wrong), "care" (danger) or "stop".

    At a stop the day must not go on as it is planned.
    """

    kind: str
    text: str


@dataclass(frozen=True, slots=True)
class Doing:
    """What is done for one box of a step: what it is at the stove, whatever its words.

    `key` is its lasting name and `kind` what is done: see `StoveStep`. `amount` and `name` are read
    from afar, `title` is both in a line of a list. `do` is what the step says of this alone.
    `boil` and `fermenter` count from 1, 0 for none. `blanks` are those of the sheet and those that
    paper has no room for, `portion_blanks` what scale and packets say of what goes in; `asides` are
    said at the stove alone.
    """

    key: str
    kind: str
    amount: str
    name: str
    title: str
    do: Words = ()
    left_min: float | None = None
    boil: int = 0
    fermenter: int = 0
    blanks: tuple[Blank, ...] = ()
    portion_blanks: tuple[Blank, ...] = ()
    starts: Countdown | None = None
    asides: tuple[Aside, ...] = ()


@dataclass(frozen=True, slots=True)
class Turn:
    """One of several times, pots or fermenters that a step is for: its number, and when.

    `doings` are the step's for this box: what is alike on paper may differ in them.
    """

    number: int
    when: str
    minutes: float = field(default=0.0, compare=False)
    doings: tuple[Doing, ...] = field(default=(), compare=False)


@dataclass(frozen=True, slots=True)
class Step:
    """One thing to do, with a box to tick, or a box for each of its `turns`.

    `when` is the clock time or the day, `left` what is left of the boil or of a stand. `minutes`
    counts from the start of the day. `bag` is the letter of what goes in, `portions` its content: a
    single one is named in `do` already, several are listed below it. With turns, `when` and
    `minutes` are those of the first. `doings` is what it is at the stove: one thing, or several
    that paper tells in one step; what goes in and what is said beside it belong to the last.
    """

    when: str
    left: str
    minutes: float
    do: Words
    bag: str = ""
    portions: tuple[Portion, ...] = ()
    readings: tuple[Reading, ...] = ()
    asides: tuple[Aside, ...] = ()
    turns: tuple[Turn, ...] = ()
    doings: tuple[Doing, ...] = field(default=(), compare=False)

    def later(self, minutes: float) -> Step:
        """Return the step so many minutes later in the day, its words as they are."""
        turns = tuple(replace(each, minutes=each.minutes + minutes) for each in self.turns)
        return replace(self, minutes=self.minutes + minutes, turns=turns)

    @property
    def whens(self) -> tuple[str, ...]:
        """When it is done: once, or the time of each turn where they are not the same."""
        return tuple(dict.fromkeys(each.when for each in self.turns)) or (self.when,)

    @property
    def listed(self) -> tuple[Portion, ...]:
        """The portions that `do` does not name."""
        return self.portions if len(self.portions) > 1 else ()


@dataclass(frozen=True, slots=True)
class Item:
    """A line of a list with so many boxes to tick: `mark` is a bag's letter, `group` its head."""

    group: str
    amount: str
    name: str
    note: str = ""
    mark: str = ""
    boxes: int = 1


@dataclass(frozen=True, slots=True)
class ItemList:
    """A list of things to have or to weigh."""

    title: str
    items: tuple[Item, ...]


@dataclass(frozen=True, slots=True)
class SideBySide:
    """Lists that stand in two columns on paper; read down the left one first."""

    left: tuple[ItemList, ...]
    right: tuple[ItemList, ...]


@dataclass(frozen=True, slots=True)
class Steps:
    """Steps in order."""

    steps: tuple[Step, ...]

    @property
    def columns(self) -> int:
        """Boxes beside each other: the highest number of a turn, at least 1."""
        return max((turn.number for step in self.steps for turn in step.turns), default=1)


@dataclass(frozen=True, slots=True)
class Paragraph:
    """A few sentences; `kind` is "plain", "care" or "stop"."""

    words: Words
    kind: str = "plain"


@dataclass(frozen=True, slots=True)
class Table:
    """A small table of figures; the first cell of each row is its head."""

    caption: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class Lines:
    """Ruled lines to write on: at least so many, more where there is room."""

    count: int


# Drawings: shapes in points, y downwards, drawn in order.


@dataclass(frozen=True, slots=True)
class Shape:
    """A line through `points`, or with `fill` the area within.

    `tone` and `fill` name an ink: "ink", "soft", "faint", "care", "water", or a colour "#rrggbb".
    `width` 0 draws no line.
    """

    points: tuple[tuple[float, float], ...]
    tone: str = "ink"
    width: float = 0.8
    dashed: bool = False
    fill: str = ""


@dataclass(frozen=True, slots=True)
class Label:
    """Text in a drawing; `anchor` "start", "middle" or "end" of it is at `x`, its baseline `y`."""

    x: float
    y: float
    text: str
    size: float = 8.0
    anchor: str = "start"
    bold: bool = False
    tone: str = "ink"


@dataclass(frozen=True, slots=True)
class Drawing:
    """A drawing with what it shows in words, for those who cannot see it."""

    width: float
    height: float
    shapes: tuple[Shape | Label, ...]
    says: str


@dataclass(frozen=True, slots=True)
class Drawings:
    """Drawings beside each other."""

    drawings: tuple[Drawing, ...]


Block = SideBySide | Steps | Paragraph | Table | Lines | Drawings


@dataclass(frozen=True, slots=True)
class Section:
    """A part of the sheet with its head; `lead` is a line beside the head."""

    key: str
    title: str
    lead: str
    blocks: tuple[Block, ...]

    @property
    def steps(self) -> tuple[Step, ...]:
        """All steps of the part, in order."""
        return tuple(
            step for block in self.blocks if isinstance(block, Steps) for step in block.steps
        )


@dataclass(frozen=True, slots=True)
class Figure:
    """A forecast at the head: what it is, the figure, its likely range, what it means in words."""

    label: str
    value: str
    span: str
    means: str


@dataclass(frozen=True, slots=True)
class Head:
    """The head of the first page; `blanks` are written on by hand, label and what is known.

    `shop` is the name of whoever hands the sheet out, "" for nobody. `credit` tells whose the style
    is; it is "" for one of the brewer's own.
    """

    title: str
    subtitle: str
    vessels: str
    blanks: tuple[tuple[str, str], ...]
    figures: tuple[Figure, ...]
    glass: Drawing | None
    shop: str = ""
    credit: str = ""


@dataclass(frozen=True, slots=True)
class Form:
    """How a sheet is wanted: in large print, and on how many pages if it can be.

    Type is as large as that many `pages` allow; where the sheet cannot be got into them without
    type too small to brew from, as large as the fewest pages do.
    """

    large: bool = False
    pages: int = 1


DEFAULT_FORM = Form()


@dataclass(frozen=True, slots=True)
class Sheet:
    """A whole brew sheet; `variant` is "full" or "bench" (one page for the stove).

    `language` is the code of the language that it is written in.
    """

    variant: str
    head: Head
    sections: tuple[Section, ...]
    foot: str
    language: str = "en"
    form: Form = DEFAULT_FORM

    @property
    def steps(self) -> tuple[Step, ...]:
        """All steps of all sections, in order."""
        return tuple(step for section in self.sections for step in section.steps)
