"""Spellings of units by dimension, with what one of them is in the base unit.

What kitchens and shops write is here, so that it is known at once; `rare` looks up the rest.

Constants: US gallon 231 cubic inches, avoirdupois pound 0.45359237 kg (exact, international); US
bushel 2150.42 cubic inches, international table Btu, horsepower of 550 foot-pounds a second. An
English firkin is nine imperial gallons, a beer barrel 31 US gallons; tons are metric ones.
"""

from __future__ import annotations

from designer.recipe.quantity import Kind

POUND_KG = 0.45359237
US_GALLON_L = 3.785411784
IMPERIAL_GALLON_L = 4.54609
US_BUSHEL_L = 2150.42 * 0.0254**3 * 1000.0
BTU_J = 1055.05585262
HORSEPOWER_W = 745.69987158227022


def _all(*groups: tuple[str, float]) -> dict[str, float]:
    return {word: factor for words, factor in groups for word in words.split("|")}


MASS = _all(
    ("kg|kilo|kilos|kilogram|kilograms|kilogramme|kilogrammes", 1.0),
    ("g|gr|gram|grams|gramme|grammes|gm", 1e-3),
    ("mg|milligram|milligrams", 1e-6),
    ("lb|lbs|pound|pounds|#", POUND_KG),
    ("oz|ozs|ounce|ounces", POUND_KG / 16.0),
    ("dag|deka|dekagram|dekagrams|decagram|decagrams", 0.01),
    ("stone|stones|st", 14.0 * POUND_KG),
    ("dram|drams|dr", POUND_KG / 256.0),
    ("grain|grains", POUND_KG / 7000.0),
    ("tonne|tonnes|metric ton|metric tons|ton|tons|t", 1000.0),
)
VOLUME = _all(
    ("l|litre|litres|liter|liters|ltr", 1.0),
    ("ml|millilitre|millilitres|milliliter|milliliters", 1e-3),
    ("cl|centilitre|centilitres", 1e-2),
    ("dl|decilitre|decilitres", 0.1),
    ("hl|hectolitre|hectolitres", 100.0),
    ("gal|gals|gallon|gallons|us gal|us gallon|us gallons", US_GALLON_L),
    ("qt|qts|quart|quarts|us qt", US_GALLON_L / 4.0),
    ("pt|pint|pints|us pt|us pint", US_GALLON_L / 8.0),
    ("cup|cups|us cup|us cups", US_GALLON_L / 16.0),
    ("gill|gills|us gill|us gills", US_GALLON_L / 32.0),
    ("fl oz|floz|fluid ounce|fluid ounces|us fl oz", US_GALLON_L / 128.0),
    ("tbsp|tbsps|tbs|tablespoon|tablespoons|tablespoonful|tablespoonfuls", US_GALLON_L / 256.0),
    ("tsp|tsps|teaspoon|teaspoons|teaspoonful|teaspoonfuls", US_GALLON_L / 768.0),
    ("bbl|bbls|barrel|barrels|us barrel|us barrels|us_barrel", 31.0 * US_GALLON_L),
    ("peck|pecks|us peck|us pecks", US_BUSHEL_L / 4.0),
    ("bushel|bushels|us bushel|us bushels", US_BUSHEL_L),
    ("imp gal|imperial gal|imperial gallon|imperial gallons|uk gal", IMPERIAL_GALLON_L),
    ("imp qt|imperial qt|imperial quart|imperial quarts|uk qt", IMPERIAL_GALLON_L / 4.0),
    ("imp pt|imperial pt|imperial pint|imperial pints|uk pt|uk pint", IMPERIAL_GALLON_L / 8.0),
    ("imp fl oz|imperial fl oz|uk fl oz", IMPERIAL_GALLON_L / 160.0),
    ("firkin|firkins", 9.0 * IMPERIAL_GALLON_L),
    ("cc|ccm|cm3|cm³|cm**3", 1e-3),
    ("m3|m³|m**3", 1000.0),
)
TIME = _all(
    ("min|mins|minute|minutes|m|'", 1.0),
    ("h|hr|hrs|hour|hours", 60.0),
    ("s|sec|secs|second|seconds", 1.0 / 60.0),
    ("d|day|days", 1440.0),
    ("wk|week|weeks", 7.0 * 1440.0),
)
POWER = _all(
    ("w|watt|watts", 1.0),
    ("kw|kilowatt|kilowatts", 1000.0),
    ("hp|horsepower", HORSEPOWER_W),
    ("btu/h|btu/hr|btu/hour|btu per hour", BTU_J / 3600.0),
)
LENGTH = _all(
    ("m|metre|metres|meter|meters", 1.0),
    ("cm|centimetre|centimetres|centimeter|centimeters", 0.01),
    ("mm|millimetre|millimetres|millimeter|millimeters", 0.001),
    ("km", 1000.0),
    ('in|inch|inches|"', 0.0254),
    ("ft|foot|feet", 0.3048),
    ("yd|yard|yards", 0.9144),
)
EVAPORATION = _all(
    ("l/h|l/hr|l/hour|litres/h|litre/hour|litres/hour|l per hour|litres per hour", 1.0),
    ("gal/h|gal/hr|gal/hour|gallons/hour|gallons per hour|gal per hour", US_GALLON_L),
    ("qt/h|qt/hr|quarts per hour", US_GALLON_L / 4.0),
    ("ml/min", 0.06),
)
FRACTION = _all(("%|percent|per cent|pct", 0.01))
CONCENTRATION = _all(("mg/l|ppm", 1.0), ("g/l", 1000.0))
CARBONATION = _all(("vol|vols|volume|volumes|volumes co2|vol co2", 1.0), ("g/l", 1.0 / 1.9635))
ABSORPTION = _all(
    ("l/kg|ml/g", 1.0),
    ("qt/lb", US_GALLON_L / 4.0 / POUND_KG),
    ("fl oz/oz", US_GALLON_L / 128.0 / (POUND_KG / 16.0)),
    ("gal/lb", US_GALLON_L / POUND_KG),
)
LOSS_RATE = _all(("w/k|w/°c|w/c", 1.0))
RATE = _all(("/min|per min|per minute|1/min", 1.0), ("/h|per hour|1/h", 1.0 / 60.0))
BITTERNESS = _all(("ibu|ibus|ebu|mg/kg|mg/l", 1.0))
POINTS_YIELD = _all(("ppg", 1.0), ("l°/kg|l deg/kg", 1.0 / 8.3454))
NUMBER: dict[str, float] = {}

FACTORS: dict[Kind, dict[str, float]] = {
    Kind.MASS: MASS,
    Kind.VOLUME: VOLUME,
    Kind.TIME: TIME,
    Kind.POWER: POWER,
    Kind.LENGTH: LENGTH,
    Kind.EVAPORATION: EVAPORATION,
    Kind.FRACTION: FRACTION,
    Kind.CONCENTRATION: CONCENTRATION,
    Kind.CARBONATION: CARBONATION,
    Kind.ABSORPTION: ABSORPTION,
    Kind.LOSS_RATE: LOSS_RATE,
    Kind.RATE: RATE,
    Kind.BITTERNESS: BITTERNESS,
    Kind.POINTS_YIELD: POINTS_YIELD,
    Kind.NUMBER: NUMBER,
}
"""Kinds that are converted by a factor. Temperatures, gravities, colours, doses: see `reading`."""

SUMS = (Kind.MASS, Kind.VOLUME, Kind.TIME, Kind.LENGTH)
"""Kinds typed in two steps: `2 lb 4 oz`, `1 h 15 min`."""

ACCEPTED = {
    Kind.MASS: "a mass, such as 250 g, 1.5 kg, 1 1/2 oz or 2 lb 4 oz",
    Kind.VOLUME: "a volume, such as 6.5 L, 500 mL, 5 gal or 2 imp gal",
    Kind.TEMPERATURE: "a temperature, such as 68 °C or 155 F",
    Kind.TEMPERATURE_DIFFERENCE: "a difference of temperature, such as 5 °C or 9 °F",
    Kind.TIME: "a time, such as 25 min or 1 h 15 min",
    Kind.GRAVITY: "a gravity, such as 1.050, 1050, 12.4 °P or 50 points",
    Kind.MALT_COLOUR: "a malt colour, such as 60 °L, 120 EBC or 40 SRM",
    Kind.BEER_COLOUR: "a beer colour, such as 12 SRM or 24 EBC",
    Kind.EVAPORATION: "an evaporation, such as 0.9 L/h or 0.5 gal/h",
    Kind.BITTERNESS: "a bitterness, such as 35 IBU",
    Kind.FRACTION: "a percentage, such as 7.2 %",
    Kind.POWER: "a power, such as 2000 W or 2.2 kW",
    Kind.LOSS_RATE: "a heat loss, such as 4 W/K",
    Kind.ABSORPTION: "litres a kilogram, such as 1 L/kg",
    Kind.LENGTH: "a length, such as 24 cm or 10 in",
    Kind.MONEY: "a price, such as 3.20",
    Kind.CONCENTRATION: "a concentration, such as 1 mg/L",
    Kind.CARBONATION: "a carbonation, such as 2.4 vol",
    Kind.RATE: "a cooling constant, such as 0.06 /min",
    Kind.POINTS_YIELD: "a yield, such as 36 ppg",
    Kind.DOSE: "an amount, such as 11 g, 5 mL or 0.5 tablet",
    Kind.NUMBER: "a number",
}
"""What each kind of field takes, in words."""

BARE_METRIC = {
    Kind.MASS: "kg",
    Kind.VOLUME: "l",
    Kind.TIME: "min",
    Kind.POWER: "w",
    Kind.LENGTH: "cm",
    Kind.EVAPORATION: "l/h",
    Kind.FRACTION: "%",
    Kind.CONCENTRATION: "mg/l",
    Kind.CARBONATION: "vol",
    Kind.ABSORPTION: "l/kg",
    Kind.LOSS_RATE: "w/k",
    Kind.RATE: "/min",
    Kind.BITTERNESS: "ibu",
    Kind.POINTS_YIELD: "ppg",
}
BARE_US = {
    **BARE_METRIC,
    Kind.MASS: "lb",
    Kind.VOLUME: "gal",
    Kind.LENGTH: "in",
    Kind.EVAPORATION: "gal/h",
}
"""The unit that a bare number takes, by what is shown."""
