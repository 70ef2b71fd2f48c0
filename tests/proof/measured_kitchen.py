"""Kitchens measured: what boils off, how fast a pot cools, what is held back, what marks say."""

from collections.abc import Iterator

from tests.proof.measurement import Band, Measurement, forecast, recipe_of, wort

HOB = "wiki of brewers, a glass-top electric hob"
POT_19 = "thread of a brewers' forum, a pot of 19 L"
ICE = "threads of a brewers' forum, pots in ice"
HOSOM_AIR = "Hosom, article on the web, fit to kettles that cooled by themselves"
LEAF = "thread Leaf hop absorption measured, 2011"
PELLETS = "one home brewer's record"
SPENT_GRAIN = "Oxford Companion to Beer, spent grain, wet weight at 75 to 80 % of water"
BAG = "one home brewer's measurement, steeped crystal malt in a squeezed bag"
STICKER = "home test of a bucket with a stuck-on scale"
BUCKETS = "home test of graduated buckets"
CUPS = "test of bought measuring cups in one kitchen"
LAYERS = "three threads of a brewers' forum, gravity before the wort was mixed"


def rows() -> Iterator[Measurement]:
    yield from _evaporation()
    yield from _ice_baths()
    yield from _in_air()
    yield from _held_back()
    yield from _marks()
    yield from _layers()


def _evaporation() -> Iterator[Measurement]:
    for source, what, told, pot, water, supposed, why in (
        (HOB, "11 L in a pot of 19 L", "1.9", {}, "11 L", "hob of 2 kW", ""),
        (POT_19, "gentle boil", "2", {}, "12 L", "12 L on an electric hob of 2 kW", ""),
        (POT_19, "hard boil", "5", {"stove": "gas", "power": "8 kW"}, "15 L", "15 L, gas of 8 kW",
         "twice what a stove's open boil takes off: a hard boil has to be measured and typed"),
    ):  # fmt: skip
        recipe = recipe_of(
            pot={"volume": "19 L", **pot},
            process={"start_water": water, "boil_time": "60 min"},
        )
        band = forecast(recipe, lambda day: day.pot.evaporated_l)
        yield Measurement(
            source, f"boiled off in an hour, litres, {what}", told, band, supposed, why
        )


def _ice_baths() -> Iterator[Measurement]:
    for litres, target, told, end in (
        (9.5, "12 °C", "30", ""), (9.5, "21 °C", "30", ", the fastest"),
        (9.5, "21 °C", "40", ", the slowest"), (19.0, "20 °C", "15", ", the fastest"),
        (19.0, "20 °C", "60", ", the slowest"),
    ):  # fmt: skip
        water, extract = wort(1.050, litres)
        recipe = recipe_of(
            pot={"volume": "30 L", "power": "5 kW"},
            process={"start_water": water, "boil_time": "0 min", "cooling": "ice bath",
                     "cool_to": target},
            fermentables=[extract],
        )  # fmt: skip
        what = f"{litres:g} L from the boil to {target} in an ice bath, min{end}"
        supposed = "wort of 1.050" + ("; down to 20 °C" if litres > 10 else "")
        fast = "no home brewer says how: a coil in it, or ice in the wort, would do it"
        yield Measurement(ICE, what, told, forecast(recipe, lambda day: day.fermenter.cooling_min),
                          supposed, fast if told == "15" else "")  # fmt: skip


def _in_air() -> Iterator[Measurement]:
    """Minutes from the boil to 80 °C, by T = 46.4 + 53.7 exp(-b t), b rising with the opening."""
    water, extract = wort(1.050, 8.0)
    recipe = recipe_of(
        pot={"volume": "10 L", "diameter": "24 cm"},
        process={"start_water": water, "boil_time": "0 min", "cooling": "standing in air",
                 "cool_to": "80 °C"},
        fermentables=[extract],
    )  # fmt: skip
    band = forecast(recipe, lambda day: day.fermenter.cooling_min)
    for lid, told in (("open", "21"), ("closed", "87")):
        what = f"8 L in a pot of 24 cm, {lid}, from the boil to 80 °C in air, min"
        yield Measurement(HOSOM_AIR, what, told, band, "wort of 1.050, kitchen of 20 °C")


def _held_back() -> Iterator[Measurement]:
    held = _held_by_hops("whole", 11.06)
    yield Measurement(LEAF, "11.06 g of whole hops, 65 g wet, L/kg", "4.9", held)
    litres = forecast(
        _brew_of(100.0, "pellets"),
        lambda day: day.fermenter.lost_to_hops_l + day.fermenter.lost_to_trub_l,
    )
    yield Measurement(PELLETS, "100 g of pellets with their deposit, litres left behind", "1.0",
                      litres, "20 L at 1.050")  # fmt: skip
    grain = recipe_of(
        process={"start_water": "5 L"},
        fermentables=[{"name": "Grain", "kind": "steeping grain", "amount": "1 kg",
                       "when": "steep"}],
    )  # fmt: skip
    band = forecast(grain, lambda day: day.steep.held_in_grain_l)
    for source, told, what in (
        (SPENT_GRAIN, "0.75", ", the least"), (SPENT_GRAIN, "1.04", ", the most"), (BAG, "1.1", ""),
    ):  # fmt: skip
        yield Measurement(
            source, f"water held by a kilogram of dry grain, litres{what}", told, band
        )


def _held_by_hops(form: str, grams: float) -> Band:
    litres = forecast(_brew_of(grams, form), lambda day: day.fermenter.lost_to_hops_l)
    return Band(*(1000.0 * each / grams for each in litres))


def _brew_of(grams: float, form: str):
    water, extract = wort(1.050, 20.0)
    hops = {"name": "Hop", "form": form, "alpha": "5 %", "amount": f"{grams} g",
            "when": "boil 60 min"}  # fmt: skip
    return recipe_of(
        process={"start_water": water},
        pot={"volume": "30 L", "power": "5 kW"},
        fermentables=[extract],
        hops=[hops],
    )


def _marks() -> Iterator[Measurement]:
    water, extract = wort(1.090, 10.0)
    worse = "most were worse than a mark is taken for; weighing the bucket full tells"
    for source, marks, told, what, why in (
        (STICKER, "stuck on", "23", "2 L out", ""),
        (BUCKETS, "moulded or printed", "23.75", "5 % out", worse),
        (BUCKETS, "moulded or printed", "22.5", "10 % out", worse),
    ):
        bucket = recipe_of(
            fermenter={"volume": "30 L", "marks": marks},
            process={"start_water": water, "top_up_to": "25 L"},
            fermentables=[extract],
        )
        band = forecast(bucket, lambda day: day.fermenter.batch_l)
        yield Measurement(
            source, f"litres in a bucket at its mark of 25 L, {what}", told, band,
            "less than it says", why,
        )  # fmt: skip
    jugged = recipe_of(
        process={"start_water": "10 L", "boil_time": "0 min", "left_in_pot": "0 L"},
    )
    band = forecast(jugged, lambda day: day.pot.start_water_l)
    for told, what in (("8.8", "the smallest"), ("11.0", "the largest")):
        yield Measurement(
            CUPS,
            f"litres in 10 L of cups, {what}",
            told,
            band,
            "all of one cup",
            "one end of a set of bought cups; a jug is filled less often",
        )


def _layers() -> Iterator[Measurement]:
    """A sample of wort that was topped up and not stirred: somewhere between water and pot."""
    for true, told, pot_sg, supposed in (
        (1.065, "1.104", 1.115, "pot of 1.115"),
        (1.079, "1.100", 1.130, "pot of 1.130; after one stir"),
        (1.048, "1.054", 1.095, "pot of 1.095"),
    ):
        share = (true - 1.0) / (pot_sg - 1.0)
        water, extract = wort(pot_sg, 20.0 * share)
        recipe = recipe_of(
            pot={"volume": "30 L", "power": "5 kW"},
            process={"start_water": water, "boil_time": "0 min", "top_up_to": "20 L",
                     "left_in_pot": "0 L"},
            fermentables=[extract],
        )  # fmt: skip
        pot = forecast(recipe, lambda day: day.pot.boil_gravity_end)
        mixed = forecast(recipe, lambda day: day.beer.original_gravity)
        band = Band(mixed.value, 1.0 + 0.05 * (pot.low - 1.0), 1.0 + 0.95 * (pot.high - 1.0))
        yield Measurement(
            LAYERS, f"reading of an unmixed brew of {true:.3f} in truth", told, band,
            f"{supposed}; a twentieth to all but a twentieth of the instrument in the lower layer",
        )  # fmt: skip
