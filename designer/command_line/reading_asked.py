"""What `hobwort reading` is asked: the reading, how it was taken, and what tests showed."""

from __future__ import annotations

import re
from argparse import Namespace
from dataclasses import replace

from designer.brewday.explaining.asked import (
    Answer,
    Asked,
    Drawn,
    GravitySample,
    Scale,
    Stirred,
    Taken,
    TestCode,
)
from designer.brewday.measured.readings import By
from designer.command_line.options import Options
from designer.errors import RefusedInputError
from designer.recipe.quantity import Kind
from designer.translation import message, tr
from designer.units.quoting import quoted

SCALES = {"sg": Scale.SG, "plato": Scale.PLATO, "brix": Scale.BRIX}
LOWEST_SG, HIGHEST_SG = 0.980, 1.200
MOST_OF_SCALE = {Scale.PLATO: 44.0, Scale.BRIX: 50.0}
MOST_L = 10_000.0
WAYS_OUT = {
    "--sg": message("Write the gravity in full, or take --plato or --brix."),
    "--plato": message("Write degrees Plato, or take --sg or --brix."),
    "--brix": message("Write degrees Brix, or take --sg or --plato."),
    "--at": message("Cool the sample and read again, or leave it out where nobody took it."),
    "--calibrated": message("It is printed on the hydrometer; left out, 20 °C."),
    "--in-water": message("Float it in plain water and read again, or leave it out."),
    "--hours": message("Write hours since the yeast went in, or leave it out."),
    "--correction": message("Usual is 1.00 to 1.06; left out, 1.04."),
    "--pot-volume": message("Leave it out where nobody read it."),
    "--mark": message("Leave it out where nobody read it."),
    "--answer": message("Or answer yes or no."),
}
"""What to do about an option that cannot be taken."""
YES_NO = {"yes": True, "no": False}
CHANGED_POINTS = 1.0
_UNIT_OF_SCALE = re.compile(r"\s*(?:°?\s*(?:plato|p|brix|bx)|%)\s*$", re.IGNORECASE)
_HOURS = re.compile(r"\s*(?:hours?|h)\s*$", re.IGNORECASE)


class ReadingOptions(Options):
    """Reads the options of `reading`."""

    def value(
        self, option: str, kind: Kind, typed: str | None, least: float, most: float
    ) -> float | None:
        """Return a value within its bounds, as others do; a way out is told with a fault."""
        faults = len(self.problems)
        found = super().value(option, kind, typed, least, most)
        hint = WAYS_OUT.get(option.split()[0])
        if hint is not None and len(self.problems) > faults:
            self.problems[-1] = f"{self.problems[-1]} {tr(hint)}"
        return found

    def number(self, option: str, typed: str | None, low: float, high: float) -> float | None:
        """Return a plain number within its bounds; None where none can be taken."""
        return self.value(option, Kind.NUMBER, typed, low, high)

    def read_off(self, chosen: Namespace) -> tuple[Scale, float | None]:
        """Return the scale that was read, and what it showed."""
        name = next(each for each in SCALES if getattr(chosen, each) is not None)
        return SCALES[name], self.on_scale(f"--{name}", SCALES[name], getattr(chosen, name))

    def on_scale(self, option: str, scale: Scale, typed: str) -> float | None:
        """Return what a scale showed."""
        if scale is Scale.SG:
            return self.value(option, Kind.GRAVITY, typed, LOWEST_SG, HIGHEST_SG)
        plain = _UNIT_OF_SCALE.sub("", typed)
        return self.number(option, plain, -1.0, MOST_OF_SCALE[scale])


def asked_of(chosen: Namespace, made_for_c: float) -> Asked:
    """Return what was asked; raises RefusedInputError with every fault of the words typed."""
    options = ReadingOptions()
    scale, shown = options.read_off(chosen)
    sample_c = options.value("--at", Kind.TEMPERATURE, chosen.at, -2.0, 100.0)
    calibrated = options.value("--calibrated", Kind.TEMPERATURE, chosen.calibrated, 0.0, 60.0)
    in_water = options.value("--in-water", Kind.GRAVITY, chosen.in_water, 0.98, 1.02)
    hours = options.number("--hours", chosen.hours and _HOURS.sub("", chosen.hours), 0.0, 9999.0)
    correction = options.number("--correction", chosen.correction, 0.9, 1.2)
    pot_l = options.value("--pot-volume", Kind.VOLUME, chosen.pot_volume, 0.1, MOST_L)
    mark_l = options.value("--mark", Kind.VOLUME, chosen.mark, 0.1, MOST_L)
    sample = GravitySample(
        1.0 if shown is None else shown,
        scale,
        By.REFRACTOMETER if scale is Scale.BRIX else By.HYDROMETER,
        sample_c,
        made_for_c if calibrated is None else calibrated,
        in_water,
        correction,
        Taken(chosen.when),
        Drawn(chosen.drawn),
        Stirred(chosen.stirred),
        chosen.fermenter,
        hours,
    )
    asked = Asked((sample,), pot_l, mark_l)
    for each in chosen.answer:
        asked = _answered(asked, each, options)
    if options.problems:
        raise RefusedInputError(options.problems)
    return asked


def _answered(asked: Asked, typed: str, options: ReadingOptions) -> Asked:
    """Return what is asked after an answer, `stir=no`, `stir=1.046` or `weigh=10.4 L`."""
    name, equals, what = typed.partition("=")
    name, what = name.strip().lower().replace("-", "_"), what.strip()
    if name not in list(TestCode) or not equals or not what:
        options.problems.append(
            tr(
                "--answer: {typed} is not read; write a test and what it showed, as in stir=no or "
                'weigh="10.4 L". Tests are {tests}.',
                typed=quoted(typed),
                tests=", ".join(TestCode),
            )
        )
        return asked
    test = TestCode(name)
    if what.lower() in YES_NO:
        return _with_answer(asked, Answer(test, changed=YES_NO[what.lower()]))
    return _with_figure(asked, test, what, options)


def _with_answer(asked: Asked, answer: Answer) -> Asked:
    return replace(asked, answers=(*asked.answers, answer))


def _with_figure(asked: Asked, test: TestCode, what: str, options: ReadingOptions) -> Asked:
    option, newest = f"--answer {test}", asked.samples[-1]
    if test is TestCode.WEIGH:
        litres = _weighed_l(what, newest, options, option)
        return asked if litres is None else _with_answer(asked, Answer(test, value=litres))
    if test is TestCode.WATER_CHECK:
        shows = options.value(option, Kind.GRAVITY, what, 0.98, 1.02)
        return asked if shows is None else _with_answer(asked, Answer(test, value=shows))
    if test is TestCode.TOP_AND_BOTTOM:
        points = options.number(option, re.sub(r"\s*points?$", "", what), 0.0, 200.0)
        return asked if points is None else _with_answer(asked, Answer(test, value=points))
    if test in (TestCode.COUNT_PACKETS, TestCode.SUM):
        options.problems.append(
            tr("{option}: {what} is not read; write yes or no.", option=option, what=quoted(what))
        )
        return asked
    return _read_again(asked, test, what, options)


def _weighed_l(
    what: str, newest: GravitySample, options: ReadingOptions, option: str
) -> float | None:
    """Return the litres of a level, or of what was weighed: a litre of wort has its gravity."""
    if re.search(r"(?:kg|g|lbs?|oz)\s*$", what):
        kg = options.value(option, Kind.MASS, what, 0.1, MOST_L)
        gravity = newest.shown if newest.scale is Scale.SG else 1.045
        return None if kg is None else kg / gravity
    return options.value(option, Kind.VOLUME, what, 0.1, MOST_L)


def _read_again(asked: Asked, test: TestCode, what: str, options: ReadingOptions) -> Asked:
    """Return what is asked once the wort was read again, on the same scale."""
    newest, option = asked.samples[-1], f"--answer {test}"
    shown = options.on_scale(option, newest.scale, what)
    if shown is None:
        return asked
    if test is TestCode.STIR:
        again = replace(newest, shown=shown, stirred=Stirred.HARD, drawn=Drawn.UNKNOWN)
        return replace(asked, samples=(*asked.samples, again))
    if test is TestCode.COOL:
        again = replace(newest, shown=shown, sample_c=newest.made_for_c)
        return replace(asked, samples=(*asked.samples, again))
    unit = 1000.0 if newest.scale is Scale.SG else 4.0  # points; a degree Plato is about four
    return _with_answer(
        asked, Answer(test, changed=unit * abs(shown - newest.shown) >= CHANGED_POINTS)
    )
