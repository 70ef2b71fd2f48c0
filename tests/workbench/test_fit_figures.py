"""No text of any way has more digits than a kitchen reads, whatever the units."""

import re
from collections.abc import Iterator

import pytest

from designer.brewday.fit.ways import ways
from designer.units import ShownUnits
from designer.workbench.figures import Figures
from designer.workbench.fit_text import fit_document, fit_lines
from tests.brewday.fit.kitchens import pairs

PLACES = {
    "kg": 3, "g": 1, "L": 2, "mL": 0, "L/h": 2, "mL/h": 0, "lb": 2, "oz": 2, "gal": 2, "qt": 2,
    "pt": 2, "fl oz": 1, "gal/h": 2, "qt/h": 2, "min": 0, "h": 0, "d": 1, "%": 0, "°C": 0, "°F": 0,
    "IBU": 0, "SRM": 0, "EBC": 0, "kcal": 0, "kJ": 0,
}  # fmt: skip
"""Decimals that a scale, a jug, a clock or a thermometer of a kitchen shows: common practice."""
MOST_DIGITS = 4
"""1.005 kg is read off a scale, 12.255 kg is not."""
_UNITS = "|".join(re.escape(unit) for unit in sorted(PLACES, key=len, reverse=True))
FIGURE = re.compile(rf"(?<![\w.])(\d+)(?:\.(\d+))? ({_UNITS})(?![\w/])")
SMALL_SHARES = re.compile(r"Alcohol by volume")


def too_fine(text: str) -> Iterator[str]:
    """Yield the figures of a text that nobody in a kitchen reads so closely."""
    for found in FIGURE.finditer(text):
        whole, decimals, unit = found[1], found[2] or "", found[3]
        digits = len(whole.lstrip("0") + decimals)
        over_a_hundred = len(whole) > 2 and unit in ("g", "L", "lb", "oz") and decimals
        if len(decimals) > PLACES[unit] or digits > MOST_DIGITS or over_a_hundred:
            yield found[0]


def test_what_is_too_fine_is_found():
    for text in ("596.9 g", "2.1766 kg", "a 15.1416 L pot", "50.6 % of the kit", "167.2 min"):
        assert list(too_fine(text)), text
    for text in ("21.3 g", "1.005 kg", "9.5 L", "0.25 L", "0.61 L/h", "78 min", "49 %"):
        assert not list(too_fine(text)), text


@pytest.fixture(scope="module")
def answers():
    """Pots of 7 L and of 4 gal, and fermenters for half of it or all."""
    return {
        name: (recipe, ways(recipe, wish))
        for name, (recipe, wish) in pairs((7.0, 15.1416), (0.55, 1.2)).items()
    }


@pytest.mark.parametrize("units", ShownUnits)
def test_every_line_of_the_ways_has_figures_of_a_kitchen(answers, units):
    for name, (recipe, answer) in answers.items():
        for line in fit_lines(recipe, answer, Figures(units)):
            if not SMALL_SHARES.search(line):
                assert list(too_fine(line)) == [], f"{name}: {line}"


def texts(value: object) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for each in value.values():
            yield from texts(each)
    elif isinstance(value, list):
        for each in value:
            yield from texts(each)


def test_every_text_of_the_document_has_figures_of_a_kitchen(answers):
    for name, (_, answer) in answers.items():
        for text in texts(fit_document(answer)):
            assert list(too_fine(text)) == [], f"{name}: {text}"


def test_nothing_that_goes_in_days_later_has_a_minute_of_the_day(answers):
    seen = 0
    for name, (recipe, answer) in answers.items():
        for way in fit_document(answer)["ways"]:
            for boil in way["boils"]:
                for each in boil["goes_in"]:
                    if each["stage"] in ("dry hop", "fermenter"):
                        seen += 1
                        assert each["time_min"] is None, name
        for line in fit_lines(recipe, answer):
            if re.search(r", (dry hop|fermenter)$", line):
                assert not re.search(r"\b(min|h)\b", line), f"{name}: {line}"
    assert seen > 20
