"""Handbook examples brewed as whole days: first as the handbook assumes, then as a kitchen is.

Handbooks work with one gravity for the whole boil and count nothing before or after it. Given a
still kitchen (nothing evaporates, nothing stays behind, cooling takes a minute) the day gives the
handbook's figure; given a real one it says what the assumption costs.
"""

from collections.abc import Iterator
from math import inf

from designer.brewday.day import brew
from designer.recipe.document import Fermentable, Fermenter, Hop, Pot, Process, Recipe
from designer.recipe.edits import with_line_ids
from designer.recipe.quantity import Quantity, Stage, When
from designer.wort.bitterness import alpha_added_mg_l, tinseth_ibu, tinseth_utilisation
from designer.wort.extract import extract_for, water_for_volume
from tests.proof.row import Kind, Row

GALLON_L, OUNCE_KG, POUND_KG, KG_PER_L = 3.785412, 0.028349523, 0.45359237, 0.998203
PALMER_5 = (Kind.QUOTED, "Palmer, How to Brew, ch. 5; quoted in forum posts")
TINSETH = (Kind.COMPUTED, "Tinseth's equation, web page, 1995 to 1997")
IN_PIECES = (
    Kind.COMPUTED,
    "Tinseth's equation, cut into pieces of one gravity each by this project",
)
MASS = (Kind.LAW, "mass balance; sucrose density, ICUMSA SPS-4 (1998)")
TABLE_9 = (Kind.PRINTED, "Palmer, How to Brew, 1st ed., table 9")
MIXED = (Kind.LAW, "heat balance; malt takes 0.40 of water's (Pauls & Whites, 1984/85)")
BUBNIK = (
    Kind.LAW,
    "heat over power; specific heat, Bubník et al., Sugar Technologists Manual, 1995",
)
LABEL = (Kind.PRACTICE, "a label's bitterness times its litres over one's own, no source")

STILL = {"evaporation": 0.0, "left_in_pot": 0.0, "hop_absorption": 0.0, "cooling_constant": 5.0,
         "tap_temperature": 20.0}  # fmt: skip
"""A kitchen without evaporation, losses or time to cool."""


def rows() -> Iterator[Row]:
    yield from _small_pot()
    yield from _gravity_of_the_boil()
    yield from _late_extract()
    yield from _dissolving()
    yield from _steep_and_heat()
    yield from _hopped_kit()


def q(value: float, unit: str = "") -> Quantity:
    """A quantity as typed."""
    return Quantity(float(value), f"{value:g} {unit}".strip())


def boil(minutes: float) -> When:
    """Minutes left of the boil."""
    return When(Stage.BOIL, f"boil {minutes:g} min", float(minutes))


def all_extract(kilograms: float, minutes: float = 60.0) -> Fermentable:
    """Sugar without water in it, so that a gravity can be set exactly."""
    return Fermentable(f"Extract {minutes}", "sugar", q(kilograms, "kg"), boil(minutes),
                       extract=q(1.0), colour=q(0.0))  # fmt: skip


def day_of(
    pot_sg: float, pot_l: float, final_l: float, *hops: Hop, late: float = 0.0, **changes: float
):
    """The day of a pot of `pot_l` litres at `pot_sg`, a share `late` of its extract at 15 min."""
    kilograms = float(extract_for(pot_sg, pot_l))
    start_l = float(water_for_volume(kilograms, pot_l)) / KG_PER_L
    process = Process(
        start_water=q(start_l, "L"),
        top_up_to=q(final_l, "L"),
        cooling="ice bath",
        **{name: q(value) for name, value in {**STILL, **changes}.items() if value != inf},
    )
    lines = [all_extract((1.0 - late) * kilograms)]
    if late:
        lines.append(all_extract(late * kilograms, 15.0))
    return brew(
        with_line_ids(
            Recipe(
                pot=Pot(volume=q(60, "L"), power=q(1e6, "W")),
                fermenter=Fermenter(volume=q(60, "L")),
                process=process,
                fermentables=tuple(lines),
                hops=hops,
            )
        )
    )


REAL = {"evaporation": 1.8, "left_in_pot": 0.3, "hop_absorption": inf, "cooling_constant": inf,
        "tap_temperature": 12.0}  # fmt: skip
"""The usual kitchen: 1.8 L/h off, 0.3 L left and what the hops hold, half an hour in ice."""


def _small_pot() -> Iterator[Row]:
    hops = (
        Hop("Bitter", "whole", q(0.064), q(1.5 * OUNCE_KG, "kg"), boil(60)),
        Hop("Late", "whole", q(0.046), q(OUNCE_KG, "kg"), boil(15)),
    )
    what = "3 gal pot at 1.080, 5 gal of beer, 1.5 oz 60 min and 1 oz 15 min, IBU"
    still = day_of(1.080, 3 * GALLON_L, 5 * GALLON_L, *hops)
    real = day_of(1.080, 3 * GALLON_L, 5 * GALLON_L, *hops, **REAL)
    yield Row(*PALMER_5, f"{what}, still kitchen", 31.0, float(still.beer.bitterness_ibu), 0.7)
    yield Row(
        *PALMER_5, f"{what}, real kitchen", 31.0, float(real.beer.bitterness_ibu), 4.0,
        "the boil gets stronger, wort stays in pot and hops, hops go on working while it cools",
        of_the_day=True,
    )  # fmt: skip


def _gravity_of_the_boil() -> Iterator[Row]:
    """Original gravity taken for that of the boil: what it costs in a small pot."""
    hop = Hop("Bitter", "whole", q(0.08), q(0.030, "kg"), boil(60))
    day = day_of(1.110, 10.0, 19.0, hop)
    original = float(day.beer.original_gravity)
    by_original = tinseth_ibu(0.030, 0.08, 60, original, 19.0)
    by_boil = tinseth_ibu(0.030, 0.08, 60, 1.110, 19.0)
    what = "30 g of 8 %, 60 min, 10 L pot topped up to 19 L, IBU"
    yield Row(*TINSETH, f"{what}: gravity of the pot", by_boil, float(day.beer.bitterness_ibu), 0.2)
    yield Row(
        *TINSETH, f"{what}: original gravity taken for the boil's", by_original,
        float(day.beer.bitterness_ibu), 11.0,
        "the pot boils at 1.110, not at the gravity of the beer", of_the_day=True,
    )  # fmt: skip


def _late_extract() -> Iterator[Row]:
    hop = Hop("Bitter", "whole", q(0.08), q(0.030, "kg"), boil(60))
    ibu = float(day_of(1.110, 10.0, 19.0, hop, late=2 / 3).beer.bitterness_ibu)
    pieces = tinseth_utilisation(1.0367, 45.0)
    pieces += tinseth_utilisation(1.110, 60.0) - tinseth_utilisation(1.110, 45.0)
    by_pieces = pieces * alpha_added_mg_l(0.030, 0.08, 19.0)
    what = (
        "30 g of 8 %, 60 min, 10 L pot topped up to 19 L, two thirds of the extract at 15 min, IBU"
    )
    yield Row(
        *TINSETH, f"{what}: as if all went in at the start", 17.0, ibu, 15.0,
        "three quarters of the hour are boiled in thin wort", of_the_day=True,
    )  # fmt: skip
    yield Row(*IN_PIECES, f"{what}: the pot always 10 L", 31.5, by_pieces, 0.06)
    yield Row(
        *IN_PIECES, f"{what}: in the pot as it is", 31.5, ibu, 1.5,
        "the late extract fills the pot only when it is in: 8 L at first, and those are stronger",
        of_the_day=True,
    )  # fmt: skip


def _dissolving() -> Iterator[Row]:
    for kind, kilograms, solids, water_l, printed_sg, printed_l in (
        ("liquid extract", 1.5, 0.80, 5.0, 1.0763, 6.042),
        ("dry extract", 2.0, 0.965, 8.0, 1.0800, 9.263),
        ("sugar", POUND_KG, 1.0, GALLON_L, 1.0430, 4.065),
    ):
        line = Fermentable("Extract", kind, q(kilograms, "kg"), boil(0), extract=q(solids))
        process = Process(start_water=q(water_l, "L"), boil_time=q(0, "min"),
                          **{name: q(value) for name, value in STILL.items()})  # fmt: skip
        day = brew(with_line_ids(Recipe(process=process, fermentables=(line,))))
        what = f"{kilograms:.3g} kg of {kind} into {water_l:.3g} L of water"
        yield Row(*MASS, f"{what}, gravity", printed_sg, float(day.beer.original_gravity), 1.01e-4)
        yield Row(*MASS, f"{what}, litres", printed_l, float(day.fermenter.batch_l), 0.005)
    yield Row(
        *TABLE_9, "a pound of sugar into a US gallon of water, points", 46.0,
        1000.0 * (float(day.beer.original_gravity) - 1.0), 3.1,
        "46 is for a gallon in the end; the sugar itself takes room", of_the_day=True,
    )  # fmt: skip


def _steep_and_heat() -> Iterator[Row]:
    grain = Fermentable("Crystal malt", "steeping grain", q(0.5, "kg"), When(Stage.STEEP, "steep"))
    still = {name: q(value) for name, value in STILL.items()}
    process = Process(start_water=q(5 / KG_PER_L, "L"), steep_temperature=q(68.08, "°C"), **still)
    day = brew(with_line_ids(Recipe(process=process, fermentables=(grain,))))
    yield Row(
        *MIXED, "strike for 0.5 kg in 5 kg at 68.08 °C", 70.0, float(day.steep.strike_c), 0.01
    )
    pot = Pot(power=q(2000, "W"), heat_loss=q(0, "W/K"))
    process = Process(start_water=q(10, "L"), **still)
    spans = {each.key: each for each in brew(Recipe(pot=pot, process=process)).spans}
    heat = spans["heat to boil"]
    what = "10 L from 20 to 100 °C with 2 kW at 0.74, min"
    yield Row(*BUBNIK, what, 37.7, heat.end_min - heat.start_min, 0.06)


def _hopped_kit() -> Iterator[Row]:
    kit = Fermentable(
        "Hopped kit extract", "hopped kit extract", q(1.7, "kg"), boil(10),
        label_bitterness=q(25, "IBU"), label_volume=q(23, "L"),
    )  # fmt: skip
    process = Process(start_water=q(8, "L"), top_up_to=q(19, "L"),
                      **{name: q(value) for name, value in STILL.items()})  # fmt: skip
    day = brew(with_line_ids(Recipe(process=process, fermentables=(kit,))))
    yield Row(*LABEL, "25 IBU for 23 L on the label, made to 19 L", 30.3,
              float(day.beer.bitterness_ibu), 0.05)  # fmt: skip
