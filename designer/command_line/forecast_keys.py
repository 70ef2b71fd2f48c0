"""What each key of `hobwort forecast --json` holds, as `hobwort forecast --help` tells it.

Written for the version of the document that `designer.workbench.forecast_document` makes. A key in
a list stands behind `[]`, one that a recipe gives its name behind `*`.
"""

from __future__ import annotations

FORECASTS = (
    "original_gravity", "final_gravity", "abv_percent", "bitterness_ibu", "colour_srm",
    "colour_ebc", "kcal_per_100ml", "kj_per_100ml",
)  # fmt: skip
"""The keys of forecasts: each holds what `OF_A_FORECAST` says."""

OF_A_FORECAST = {
    "value": "of the recipe as it is typed, by the published formulas",
    "low": "nine brews in ten lie between it and `high`",
    "high": "see `low`",
    "middle": "half of the brews are below it",
    "leans": '"higher" or "lower", where the beer more likely lies than `value`; else null',
    "causes[].input": "what makes it doubtful",
    "causes[].share": "the part of the doubt that it causes, 0 to 1",
    "causes[].advice": "how to know it better; null where nothing helps",
    "causes[].low": "the range that is then left, to `causes[].high`",
    "causes[].high": "see `causes[].low`",
}
OF_A_GRAVITY = {
    "reading.low": "what the hydrometer shows, corrected, to `reading.high`",
    "reading.high": "see `reading.low`",
}

KEYS = {
    "form": "number of this form: keys may be added to it; one changed or gone raises it",
    "lines[].place": 'a fermentable or hop by its place, as --set takes it: "hops.2"',
    "lines[].name": "its name",
    "lines[].points": "gravity points that it brings to the beer",
    "lines[].colour_mcu": "malt colour units that it brings",
    "lines[].bitterness_ibu": "bitterness that it brings",
    "steep": "null where nothing is steeped",
    "steep.strike_c": "temperature of the water before the grain goes in",
    "steep.steeped_c": "temperature with the grain in",
    "steep.held_in_grain_l": "water that the grain keeps",
    "water.total_l": "all water of the day, to start with and to top up",
    "water.treatment": "null where no chlorine is typed",
    "water.treatment.salt": "the metabisulfite that takes it out",
    "water.treatment.g": "how much of that for all the water",
    "water.treatment.against": "what the water carries",
    "boil_gravity_start": "gravity as the boil starts",
    "boil_gravity_end": "gravity at flame-out",
    "pot.start_l": "water at the start",
    "pot.fullest_l": "the most that the pot holds, hot",
    "pot.fullest_at": "the stage at which that is",
    "pot.end_l": "wort at flame-out",
    "pot.rim_l": "volume of the pot; null where it is not typed",
    "cooling.mixed_c": "temperature in the fermenter, topped up and mixed",
    "cooling.pour_at_c": "temperature to cool to in the pot",
    "cooling.minutes": "how long that takes",
    "ice.top_up_kg": "top-up water to freeze",
    "ice.bath_kg": "ice for the bath round the pot, 0 where there is none",
    "fermenter.from_pot_l": "wort out of the pot",
    "fermenter.top_up_l": "water on top of it, frozen water included",
    "fermenter.hot_l": "of that, water just boiled in which extract is dissolved in the fermenter",
    "fermenter.total_l": "both together",
    "fermenter.brim_l": "volume of the fermenter; null where it is not typed",
    "stages[].stage": "a stage of the day",
    "stages[].name": "what it is called",
    "stages[].start": "time of the day at which it starts",
    "stages[].end": "time of the day at which it ends",
    "stages[].start_min": "minutes from the start of the day",
    "stages[].end_min": "the same of its end",
    "goes_in[].place": "a line by its place",
    "goes_in[].name": "its name",
    "goes_in[].stage": "the stage at which it goes in",
    "goes_in[].at": "time of the day",
    "goes_in[].at_min": "minutes from the start of the day",
    "goes_in[].boil_left_min": "boil time then left; null outside the boil",
    "total_min": "minutes from the start to pitched yeast",
    "yeast.low_g": "least usual dose of dry yeast",
    "yeast.high_g": "largest usual dose",
    "yeast.packets": "packets that bring what is wanted",
    "packaging.in": '"bottles" or "keg"',
    "packaging.beer_l": "beer to package",
    "packaging.priming": "null where the beer goes into a keg, or bottles would burst",
    "packaging.priming.sugar": "the priming sugar",
    "packaging.priming.g": "how much of it for all of the beer",
    "packaging.priming.warmest_c": "warmest temperature of the beer since it fermented",
    "packaging.priming.residual_vol": "volumes of carbon dioxide left in it then",
    "packaging.priming.vol": "volumes aimed at",
    "packaging.priming.low_vol": "the least that the bottles may hold",
    "packaging.priming.high_vol": "the most that they may hold",
    "packaging.priming.instead_g.*": "how much of another sugar in its place",
    "packaging.bottle": "null where the beer goes into a keg",
    "packaging.bottle.kind": "the kind of bottle",
    "packaging.bottle.most_bar": "pressure of the fullest bottle in twenty at 30 °C",
    "packaging.bottle.comfortable_bar": "what such bottles bear with ease",
    "packaging.bottle.never_bar": "what they must never come to",
    "packaging.bottle.refused": "whether beer so lively never goes into them",
    "packaging.keg_bar": "pressure of the keg; null for bottles",
    "cost": "price of what goes in; null where a price is not typed",
    "cost_per_litre": "that of a litre in the fermenter; null where the cost is not known",
    "methods.*[].method": "a method for that number",
    "methods.*[].value": "what it says",
    "methods.*[].default": "whether it is taken where nothing is chosen",
    "methods.*[].chosen": "whether it is the one taken here",
    "methods.*[].source": "who published it",
    "methods.*[].why": "what speaks for it",
    "methods.*[].outside": "what lies outside the range it was published for",
    "watch_out[].code": "what is found, whatever its words",
    "watch_out[].severity": '"stop", "care" or "note"',
    "watch_out[].place": "the place in the recipe that it is about",
    "watch_out[].message": "what is found, in words",
    "watch_out[].fix": "what would cure it, and what that makes of the beer; null for nothing",
    "watch_out[].leads_to": 'the command that finds other ways, "fit"; null for none',
}


def told() -> str:
    """Return the keys as lines for the help of the command."""
    width = max(map(len, KEYS))
    lines = [
        "keys of the JSON; litres are at 20 °C, but pot.fullest_l:",
        "",
        "  " + ",\n  ".join((", ".join(FORECASTS[:4]), ", ".join(FORECASTS[4:]))) + ": each with",
        *(f"    {key:<{width - 2}}  {says}" for key, says in OF_A_FORECAST.items()),
        *(f"    {key:<{width - 2}}  {says}; of gravities" for key, says in OF_A_GRAVITY.items()),
        *(f"  {key:<{width}}  {says}" for key, says in KEYS.items()),
    ]
    return "\n".join(lines)
