"""Alpha acid that laboratories found in hops, beside that which a recipe is forecast with.

It is read off the bitterness: that of the day over that of the same day with an alpha acid that is
known, or with fresh hops, so that all else cancels.
"""

from collections.abc import Iterator

from designer.recipe.document import Recipe
from designer.wort.hop_age import OF_BITTERNESS
from tests.proof.measurement import Band, Measurement, bitterness, compared, recipe_of, wort

BRAUWELT = "Brauwelt, note on the hop report 1995/96, baled hops of October"
SAAZ = "Kvasny Prumysl 62, 2016, doi 10.18832/kp2016016, 2.15 % of dry matter"
BALES = "Brauwelt, note on the hop report 1995/96, baled hops from October to December"
PELLETS = "thesis, Purdue University, 2020, pellets of Cascade and Chinook, abstract"
SHEETS = "descriptions of hop varieties, alpha acid lost in six months at 20 °C, open"
BALE = "bales as open hops"
ANALYSIS = "a hop merchant in Brauwelt, Interpretation of hop analysis results"


def rows() -> Iterator[Measurement]:
    for source, variety, told, crop in (
        (BRAUWELT, "Hersbrucker", "2.3", "1995"), (BRAUWELT, "Perle", "5.1", "1995"),
        (SAAZ, "Saaz", "1.97", "2015"),
    ):  # fmt: skip
        what = f"alpha acid of {variety}, crop of {crop}, %, as the recipe names no figure"
        supposed = "sold with 8 to 9 % of water: 2.15 / 1.09" if source == SAAZ else ""
        yield Measurement(source, what, told, _alpha_percent(variety, None), supposed)
    yield Measurement(
        ANALYSIS, "alpha acid of pellets of 10 %, what another laboratory may find, %", "10.57",
        _alpha_percent("Hop", "10 %", age="0 d"), "figure on the packet, of the same day",
    )  # fmt: skip
    yield from _aged()


def _aged() -> Iterator[Measurement]:
    open_, cold, warm = "opened, not cold", "sealed, in a refrigerator", "sealed, in a cupboard"
    for source, what, told, age, kept, supposed in (
        (BALES, "Hersbrucker, from 2.3 to 1.8 %", "1.8/2.3", "60 d", open_, BALE),
        (BALES, "Perle, from 5.1 to 4.8 %", "4.8/5.1", "60 d", open_, BALE),
        (PELLETS, "168 days, what lost least", "0.855", "168 d", cold, "4 °C, in nitrogen"),
        (PELLETS, "168 days, what lost most", "0.766", "168 d", warm, "25 °C, in air"),
        (SHEETS, "Cascade, the least", "0.48", "180 d", open_, ""),
        (SHEETS, "Cascade, the most", "0.52", "180 d", open_, ""),
        (SHEETS, "Northern Brewer, the least", "0.70", "180 d", open_, ""),
        (SHEETS, "Northern Brewer, the most", "0.85", "180 d", open_, ""),
        (SHEETS, "Cluster, the least", "0.80", "180 d", open_, ""),
        (SHEETS, "Cluster, the most", "0.85", "180 d", open_, ""),
    ):  # fmt: skip
        new, old = (_day("Hop", "10 % ± 0 %", age=days, kept=kept) for days in ("0 d", age))
        share = compared(old, new, bitterness)
        alpha = Band(*(1.0 - (1.0 - each) / OF_BITTERNESS for each in share))
        yield Measurement(source, f"alpha acid kept, share of it, {what}", told, alpha, supposed)


def _alpha_percent(variety: str, told: str | None, **keeping: str) -> Band:
    known = _day(variety, "10 % ± 0 %", age="0 d")
    day = _day(variety, told, **keeping)
    return Band(*(10.0 * each for each in compared(day, known, bitterness)))


def _day(variety: str, alpha: str | None, **keeping: str) -> Recipe:
    water, extract = wort(1.050, 20.0)
    hops = {"name": variety, "form": "pellets", "amount": "50 g", "when": "boil 60 min", **keeping}
    return recipe_of(
        process={"start_water": water},
        pot={"volume": "30 L", "power": "5 kW"},
        fermentables=[extract],
        hops=[hops if alpha is None else {**hops, "alpha": alpha}],
    )
