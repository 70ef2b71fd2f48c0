"""Alpha acid that laboratories found in hops, beside that which a recipe is forecast with.

It is read off the bitterness: that of the day over that of the same day with an alpha acid that is
known, so that all else cancels.
"""

from collections.abc import Iterator

from tests.proof.measurement import Band, Measurement, bitterness, compared, recipe_of, wort

BRAUWELT = "Brauwelt, note on the hop report 1995/96, baled hops of October"
SAAZ = "Kvasny Prumysl 62, 2016, doi 10.18832/kp2016016, 2.15 % of dry matter"
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
        _alpha_percent("Hop", "10 %"), "figure on the packet",
    )  # fmt: skip


def _alpha_percent(variety: str, told: str | None) -> Band:
    known = _day(variety, "10 % ± 0 %")
    return Band(*(10.0 * each for each in compared(_day(variety, told), known, bitterness)))


def _day(variety: str, alpha: str | None):
    water, extract = wort(1.050, 20.0)
    hops = {"name": variety, "form": "pellets", "amount": "50 g", "when": "boil 60 min"}
    return recipe_of(
        process={"start_water": water},
        pot={"volume": "30 L", "power": "5 kW"},
        fermentables=[extract],
        hops=[hops if alpha is None else {**hops, "alpha": alpha}],
    )
