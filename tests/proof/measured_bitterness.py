"""Bitterness that laboratories found, beside the forecast of the brew."""

from collections.abc import Iterator

from designer.brewday.day import brew
from designer.recipe.document import Recipe
from designer.wort.extract import extract_for
from tests.proof.measurement import (
    Band,
    Measurement,
    bitterness,
    compared,
    forecast,
    hop,
    recipe_of,
    wort,
)

MAGAZINE = "laboratory test of a magazine and its broadcast, told in a brewers' forum"
HOME_LABORATORY = "Hosom, article on the web, brew measured in a laboratory"
STAND_95 = "brew of a 20 L plant measured by the laboratory method, told in a brewers' forum"
JUSTUS = "Justus, MBAA Technical Quarterly 55(3), 2018, abstract"
KAPPLER = "Kappler, meeting of the ASBC, 2011, abstract O-41"
HOSOM_63 = "Hosom, article on the web, hops steeped at 63 °C"
FIRST_WORT = "Preis and Mitter, Brauwelt International, 1995 (from memory)"
MALOWICKI = "Malowicki, thesis, Oregon State University, 2004, abstract"

EXACT = {"left_in_pot": "0 L", "hop_absorption": "0 L/kg", "evaporation": "0 L/h"}
"""A laboratory's pot: nothing is left in it, nothing boils away."""


def rows() -> Iterator[Measurement]:
    yield _small_pot_against_large()
    yield _boil_and_stand()
    yield _stand_at_95()
    yield from _large_brewery()
    yield _steeped_at_63()
    yield _first_wort()
    yield _sugar_in_water()


def _small_pot_against_large() -> Measurement:
    whole_l = 20.0
    small_l = whole_l * float(extract_for(1.068, 1.0)) / float(extract_for(1.127, 1.0))

    def day(gravity_sg: float, litres: float, grams: float) -> Recipe:
        hops = hop("boil 60 min", grams, "10 %")
        nothing_lost = {"left_in_pot": "0 L", "hop_absorption": "0 L/kg"}
        return _hopped(gravity_sg, litres, hops, top_up_to="18.5 L", **nothing_lost)

    grams = 60.0 * 66.0 / float(brew(day(1.068, whole_l, 60.0)).beer.bitterness_ibu)
    small, whole = day(1.127, small_l, grams), day(1.068, whole_l, grams)
    return Measurement(
        MAGAZINE, "61 IBU boiled at 1.127 and thinned over 66 IBU boiled whole at 1.068", "61/66",
        compared(small, whole, bitterness),
        "20 L, pellets of 10 % boiled for 60 min, as many as are forecast to give the 66, both of "
        "the same extract and made up to 18.5 L",
    )  # fmt: skip


def _boil_and_stand() -> Measurement:
    """The hops are so many as make the 13 IBU that its brewer had predicted of the boil alone."""

    with_coil = {**EXACT, "cooling": "coil"}
    boiled = _hopped(
        1.050, 20.0, hop("boil 10 min", 100.0, "10 %"), cooling_constant="5 /min", **with_coil
    )
    grams = 100.0 * 13.0 / float(brew(boiled).beer.bitterness_ibu)
    early, none = hop("boil 10 min", grams, "10 %"), hop("stand 30 min at 93 °C", 1.0, "0.001 %")
    stood = _hopped(1.050, 20.0, early, none, **with_coil)
    return Measurement(
        HOME_LABORATORY, "13 IBU predicted of the boil alone, then 30 min of standing, IBU", "35",
        forecast(stood, bitterness),
        "20 L at 1.050, all hops 10 min before the end, 93 °C on average while it stands",
    )  # fmt: skip


def _stand_at_95() -> Measurement:
    hops = hop("stand 15 min at 95 °C", 80.0, "12.5 %")
    recipe = _hopped(1.050, 20.0, hops, cooling="coil", evaporation="0 L/h", left_in_pot="0 L")
    return Measurement(
        STAND_95, "80 g in 20 L for 15 min at 95 °C, IBU more", "15", forecast(recipe, bitterness),
        "alpha acid 12.5 %, of which 15 IBU are the 3 % that was told; wort of 1.050, pellets",
        "a third of what the published rate gives at 95 °C, though another stand gave more than it "
        "does; the alpha acid is ours, worked back from a share that was told as about so much",
    )  # fmt: skip


def _large_brewery() -> Iterator[Measurement]:
    supposed = "wort of 12 °P, pellets of a known alpha acid"
    early = _hopped(1.048, 20.0, _known("boil 60 min"), cooling="coil", **EXACT)
    share = forecast(early, bitterness)
    added = 20.0 * 0.10 * 1000.0 / float(brew(early).fermenter.batch_l)
    in_beer = Band(*(100.0 * each / added for each in share))
    what = "share of alpha acid boiled for 60 min that is in the beer, %"
    in_wort = "44.0 % in the wort, less 33.7 % lost in cellar and filter"
    yield Measurement(JUSTUS, what, "29", in_beer, f"{in_wort}; {supposed}")
    yield Measurement(KAPPLER, f"usual {what}", "30", in_beer, supposed)
    late = _hopped(1.048, 20.0, _known("stand 30 min at 97 °C"), cooling="coil", **EXACT)
    yield Measurement(
        JUSTUS, "share of alpha acid of the whirlpool, %, over that of 60 min", "29.9/44.0",
        compared(late, early, bitterness), "30 min at 97 °C; " + supposed,
    )  # fmt: skip


def _known(when: str) -> dict[str, str]:
    """Hops as a brewery has them: analysed on the day."""
    return {**hop(when, 20.0, "10 % ± 0 %"), "age": "0 d"}


def _steeped_at_63() -> Measurement:
    steeped, boiled = (
        _hopped(1.050, 20.0, hop(when, 40.0, "10 %"), cooling="coil", **EXACT)
        for when in ("stand 15 min at 63 °C", "boil 15 min")
    )
    return Measurement(
        HOSOM_63, "bitterness of hops steeped at 63 °C over that of as long a boil", "0.5",
        compared(steeped, boiled, bitterness), "15 min, 20 L at 1.050",
        "most of what was measured is no iso-alpha acid; the program counts nothing else",
    )  # fmt: skip


def _first_wort() -> Measurement:
    first, early = (
        _hopped(1.050, 20.0, hop(when, 40.0, "10 %"), left_in_pot="0 L")
        for when in ("first wort", "boil 60 min")
    )
    return Measurement(
        FIRST_WORT, "bitterness of first wort hops over those of 60 min", "1.1",
        compared(first, early, bitterness), "20 L at 1.050; our value is taken from it",
    )  # fmt: skip


def _sugar_in_water() -> Measurement:
    hops = hop("boil 60 min", 20.0, "10 %", "whole")
    sugared = _hopped(1.040, 10.0, hops, **EXACT)
    water = recipe_of(process={"start_water": "10 L", **EXACT}, hops=[hops])
    return Measurement(
        MALOWICKI, "bitterness made in sugar of 10 °P over that in water", "1.0",
        compared(sugared, water, bitterness),
        "one hour's boil; rates alike, printed to two figures, give bitterness alike",
    )  # fmt: skip


def _hopped(gravity_sg: float, litres: float, *hops: dict[str, str], **process: str) -> Recipe:
    water, extract = wort(gravity_sg, litres)
    return recipe_of(
        pot={"volume": "40 L", "power": "8 kW"},
        fermenter={"volume": "40 L"},
        process={"start_water": water, **process},
        fermentables=[extract],
        hops=list(hops),
    )
