"""Everything about a kind of quantity but its unit words, one entry a kind.

The words and what they are worth stand in `resources/units.txt`; scales that no factor turns into
one another (°P, EBC) in `designer.units.scales`. What is written here of a unit is its sign and how
it is rounded. Usual figures are wide and from memory: what home brewers' kettles, packets and days
come to.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import inf
from typing import NamedTuple

from designer.recipe.quantity import Kind, Quantity

_NO_STEPS: Mapping[str, float] = {}


class Form(NamedTuple):
    """One unit that a value is written in.

    `places` are its decimals, of which closing zeros are left off unless they are `fixed`; of a
    price they go `together` or not at all, as shops write 3, 3.20 and 3.25. It is taken where the
    rounded figure is `below` a limit, else the next form is. The base unit is `per_base` of it; 0
    where the table of unit words tells.
    """

    unit: str
    places: int
    below: float = inf
    per_base: float = 1.0
    fixed: bool = False
    together: bool = False


class KindFacts(NamedTuple):
    """The declaration of one kind.

    `accepted` says what a field takes. `metric` and `us` are the forms in which values are shown,
    `rounded` those of figures that were worked out, in sentences and pictures, where they are not
    `metric`; a kind without `us` looks alike in both systems. The last metric form is the unit of
    the values themselves (a share is told in per cent); `pint` is that unit in pint's words,
    nothing where no factor turns units of the kind into one another. `bare` and `bare_us` are the
    units that a bare number takes, `sums` whether several figures make one quantity (`2 lb 4 oz`),
    `likely` the range of usual figures, beyond which one is asked about, `steps` how far a key
    moves a figure in a unit. A text with one of the `us_words` was typed by somebody who measures
    so.
    """

    accepted: str
    metric: tuple[Form, ...]
    pint: str = ""
    us: tuple[Form, ...] = ()
    rounded: tuple[Form, ...] = ()
    bare: str = ""
    bare_us: str = ""
    sums: bool = False
    likely: tuple[float, float] | None = None
    steps: Mapping[str, float] = _NO_STEPS
    us_words: str = ""

    def bare_in(self, *, us: bool) -> str:
        """Return the unit that a bare number takes; nothing where it needs none."""
        return (self.bare_us if us else "") or self.bare


KINDS: dict[Kind, KindFacts] = {
    Kind.MASS: KindFacts(
        "a mass, such as 250 g, 1.5 kg, 1 1/2 oz or 2 lb 4 oz",
        metric=(Form("g", 1, 100.0, 1000.0), Form("g", 0, 1000.0, 1000.0), Form("kg", 3)),
        us=(Form("oz", 2, 16.0, per_base=0.0), Form("lb", 2, per_base=0.0)),
        pint="kilogram",
        bare="kg",
        bare_us="lb",
        sums=True,
        likely=(0.003, 60.0),
        steps={"kg": 0.05, "g": 5.0, "lb": 0.25, "oz": 0.25},
        us_words="lbs? oz ounces? pounds?",
    ),
    Kind.VOLUME: KindFacts(
        "a volume, such as 6.5 L, 500 mL, 5 gal or 2 imp gal",
        metric=(Form("mL", 0, 100.0, 1000.0), Form("L", 2)),
        us=(
            Form("fl oz", 1, 25.6, per_base=0.0),
            Form("qt", 2, 4.0, per_base=0.0),
            Form("gal", 2, per_base=0.0),
        ),
        rounded=(Form("mL", 0, 100.0, 1000.0), Form("L", 2, 1.0), Form("L", 1)),
        pint="liter",
        bare="L",
        bare_us="gal",
        sums=True,
        likely=(0.01, 300.0),
        steps={"L": 0.1, "mL": 50.0, "gal": 0.1, "qt": 0.25},
        us_words="gals? gallons? qts? quarts? pts? pints? cups? floz",
    ),
    Kind.TEMPERATURE: KindFacts(
        "a temperature, such as 68 °C or 155 F",
        metric=(Form("°C", 1),),
        us=(Form("°F", 0, per_base=0.0),),
        rounded=(Form("°C", 0),),
        pint="degree_Celsius",
        bare="°C",
        bare_us="°F",
        steps={"°C": 1.0, "°F": 1.0},
        us_words="f °f",
    ),
    Kind.TEMPERATURE_DIFFERENCE: KindFacts(
        "a difference of temperature, such as 5 °C or 9 °F",
        metric=(Form("°C", 1),),
        us=(Form("°F", 0, per_base=0.0),),
        rounded=(Form("°C", 0),),
        pint="delta_degree_Celsius",
        bare="°C",
        bare_us="°F",
    ),
    Kind.TIME: KindFacts(
        "a time, such as 25 min or 1 h 15 min",
        metric=(Form("min", 1, 10.0), Form("min", 0)),
        rounded=(Form("min", 1, 1.0), Form("min", 0)),
        pint="minute",
        bare="min",
        sums=True,
        likely=(0.5, 90.0 * 1440.0),
        steps={"min": 5.0, "h": 0.25, "d": 1.0},
    ),
    Kind.GRAVITY: KindFacts(
        "a gravity, such as 1.050, 1050, 12.4 °P or 50 points", metric=(Form("", 3, fixed=True),)
    ),
    Kind.MALT_COLOUR: KindFacts(
        "a malt colour, such as 60 °L, 120 EBC or 40 SRM",
        metric=(Form("°L", 1),),
        bare="°L",
        likely=(0.4, 800.0),
        steps={"°L": 1.0, "EBC": 2.0},
    ),
    Kind.BEER_COLOUR: KindFacts(
        "a beer colour, such as 12 SRM or 24 EBC",
        metric=(Form("SRM", 1),),
        rounded=(Form("SRM", 0),),
        bare="SRM",
        steps={"SRM": 1.0, "EBC": 2.0},
    ),
    Kind.EVAPORATION: KindFacts(
        "an evaporation, such as 0.9 L/h or 0.5 gal/h",
        metric=(Form("L/h", 2),),
        us=(Form("gal/h", 2, per_base=0.0),),
        pint="liter / hour",
        bare="L/h",
        bare_us="gal/h",
        likely=(0.05, 40.0),
        steps={"L/h": 0.1, "gal/h": 0.05},
        us_words="gal/h qt/h",
    ),
    Kind.BITTERNESS: KindFacts(
        "a bitterness, such as 35 IBU",
        metric=(Form("IBU", 0),),
        pint="international_bitterness_unit",
        bare="IBU",
        likely=(1.0, 600.0),
        steps={"IBU": 1.0},
    ),
    Kind.FRACTION: KindFacts(
        "a percentage, such as 7.2 %",
        metric=(Form("%", 1, per_base=100.0),),
        rounded=(Form("%", 1, 20.0, 100.0), Form("%", 0, per_base=100.0)),
        pint="dimensionless",
        bare="%",
        likely=(0.004, 1.0),
        steps={"%": 0.1},
    ),
    Kind.POWER: KindFacts(
        "a power, such as 2000 W or 2.2 kW",
        metric=(Form("W", 0),),
        pint="watt",
        bare="W",
        likely=(200.0, 20_000.0),
        steps={"W": 100.0},
    ),
    Kind.LOSS_RATE: KindFacts(
        "a heat loss, such as 4 W/K",
        metric=(Form("W/K", 1),),
        pint="watt / kelvin",
        bare="W/K",
        likely=(0.3, 100.0),
        steps={"W/K": 0.5},
    ),
    Kind.ABSORPTION: KindFacts(
        "litres a kilogram, such as 1 L/kg",
        metric=(Form("L/kg", 2),),
        pint="liter / kilogram",
        bare="L/kg",
        likely=(0.1, 20.0),
        steps={"L/kg": 0.1},
    ),
    Kind.LENGTH: KindFacts(
        "a length, such as 24 cm or 10 in",
        metric=(Form("cm", 1, 300.0, 100.0), Form("m", 0)),
        us=(Form("in", 1, 120.0, per_base=0.0), Form("ft", 0, per_base=0.0)),
        pint="meter",
        bare="cm",
        bare_us="in",
        sums=True,
        likely=(0.08, 1.5),
        steps={"cm": 1.0, "in": 0.5, "m": 50.0},
        us_words="in inch inches ft feet",
    ),
    Kind.PRESSURE: KindFacts(
        "a pressure, such as 0.8 bar or 12 psi",
        metric=(Form("bar", 1, fixed=True),),
        us=(Form("psi", 0, per_base=0.0),),
        pint="bar",
        bare="bar",
        bare_us="psi",
    ),
    Kind.MONEY: KindFacts(
        "a price, such as 3.20", metric=(Form("", 2, together=True),), likely=(0.0, 500.0)
    ),
    Kind.CONCENTRATION: KindFacts(
        "a concentration, such as 1 mg/L",
        metric=(Form("mg/L", 2),),
        pint="milligram / liter",
        bare="mg/L",
        likely=(0.01, 20.0),
        steps={"mg/L": 0.1},
    ),
    Kind.CARBONATION: KindFacts(
        "a carbonation, such as 2.4 vol",
        metric=(Form("vol", 2),),
        rounded=(Form("vol", 1),),
        pint="volume_of_carbon_dioxide",
        bare="vol",
        likely=(0.4, 5.0),
        steps={"vol": 0.1},
    ),
    Kind.RATE: KindFacts(
        "a cooling constant, such as 0.06 /min",
        metric=(Form("/min", 4),),
        pint="1 / minute",
        bare="/min",
        likely=(0.0005, 1.0),
    ),
    Kind.EXTRACT_YIELD: KindFacts(
        "an extract yield, such as 78 %, 36 ppg or 300 L°/kg",
        metric=(Form("%", 1, per_base=100.0),),
        us=(Form("ppg", 1, per_base=0.0),),
        pint="extract_yield",
        bare="%",
        bare_us="ppg",
        likely=(0.004, 1.0),
        steps={"%": 0.1, "ppg": 1.0, "L°/kg": 1.0},
        us_words="ppg",
    ),
    Kind.DOSE: KindFacts(
        "an amount, such as 11 g, 5 mL or 0.5 tablet",
        metric=(Form("", 3),),
        likely=(0.0, 2000.0),
        steps={"tablet": 0.5},
    ),
    Kind.NUMBER: KindFacts("a number", metric=(Form("", 3),), rounded=(Form("", 2),)),
}


def metric(kind: Kind, value: float, *, rounded: bool = False) -> str:
    """Return a value of a kind with its unit, such as "6.5 L" or "1.052".

    A figure that was worked out is `rounded` as a kitchen reads it: a jug to 0.1 L, a thermometer
    to the degree.
    """
    facts = KINDS[kind]
    if kind is Kind.TIME and round(value) >= 180:
        return _long_time(value)
    return written(value, (facts.rounded if rounded else ()) or facts.metric)


def _long_time(minutes: float) -> str:
    whole = round(minutes)
    if whole >= 2880:
        return written(max(minutes / 1440.0, 2.0), (Form("d", 1),))
    hours, rest = divmod(whole, 60)
    return f"{hours} h {rest} min" if rest else f"{hours} h"


def written(value: float, forms: tuple[Form, ...]) -> str:
    """Return a value in the first form in which its rounded figure is small enough.

    The rounded figure decides, so that 999.9 g is "1 kg" and not a "1000 g" which, typed back,
    would be shown otherwise.
    """
    least, text = 0.0, ""
    for unit, places, below, per_base, fixed, together in forms:
        figure = max(round(abs(value) * per_base, places), round(least * per_base, places))
        text = f"{-figure if value < 0.0 and figure else figure:.{places}f}"
        if together:
            text = text.removesuffix("." + "0" * places)
        elif places and not fixed:
            text = text.rstrip("0").rstrip(".")
        text = f"{text} {unit}".rstrip()
        if figure < below:
            break
        least = below / per_base
    return text


def typed(kind: Kind, value: float, form: str = "g", unit: str | None = None) -> Quantity:
    """Return a value in the kind's base unit as a quantity with the text that would be typed.

    `form` is how its figure is written, `unit` in which unit: that of the kind's metric forms which
    the others lead to, but grams for less than a kilogram. A dose has no unit but its own.
    """
    if kind is Kind.DOSE:
        return Quantity(value, f"{value:{form}} {unit or ''}".strip(), unit=unit or "")
    forms = {each.unit: each.per_base for each in KINDS[kind].metric}
    if unit is None:
        unit = "g" if kind is Kind.MASS and value < 1.0 else KINDS[kind].metric[-1].unit
    return Quantity(value, f"{value * forms[unit]:{form}} {unit}".rstrip())
