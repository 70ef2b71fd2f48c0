"""The recipe document: a tree of frozen values.

A recipe carries its own copy of each ingredient's figures, so that it predicts the same on another
machine, whatever that machine's catalogue says. `line_id` tells lines apart while a recipe is open;
it is not part of the recipe and is not compared or saved.
"""

# ruff: noqa: RUF009 - these calls declare dataclass fields and return what dataclasses.field returns
from __future__ import annotations

from dataclasses import dataclass, field
from functools import partial

from designer.recipe.choices import (
    Bottle,
    CoolingWay,
    Disinfectant,
    FermentableKind,
    FermenterKind,
    GrainBag,
    HopForm,
    HopKeeping,
    IntoFermenter,
    Metabisulfite,
    Package,
    PrimingSugar,
    Stove,
    SyrupTin,
    Turn,
    VolumeMarks,
    YeastForm,
)
from designer.recipe.fields import (
    InTable,
    clock_time,
    moment,
    part_or_none,
    parts,
    parts_or_none,
    quantity,
    whole_number,
    whole_part,
    words,
)
from designer.recipe.limits import MOST_BOILS, MOST_FERMENTERS, MOST_LINES
from designer.recipe.quantity import Kind, Quantity, Stage, When
from designer.translation import message

COMMON = "common practice, no source"
_ITS_SHARE = message("its share of the recipe's")
_AS_RECIPE = message("as the recipe says")

_mass = partial(quantity, kind=Kind.MASS, low=0.0, high=10_000.0)
_volume = partial(quantity, kind=Kind.VOLUME, low=0.0, high=100_000.0)
_temperature = partial(quantity, kind=Kind.TEMPERATURE, low=-30.0, high=110.0)
_share = partial(quantity, kind=Kind.FRACTION, low=0.0, high=1.0)
_minutes = partial(quantity, kind=Kind.TIME, low=0.0, high=1440.0)
_own_lines = partial(parts_or_none, most=MOST_LINES, default_text=_ITS_SHARE)

HIGHEST_YIELD = 1.003
"""What tables print of sugar in thin solutions, 386.7 L°/kg; more than all of it counts as all."""

FERMENTABLE_KINDS = tuple(map(str, FermentableKind))
HOP_FORMS = tuple(map(str, HopForm))
HOP_KEEPINGS = tuple(map(str, HopKeeping))
STOVES = tuple(map(str, Stove))
COOLING_WAYS = tuple(map(str, CoolingWay))
FERMENTER_KINDS = tuple(map(str, FermenterKind))
DISINFECTANTS = tuple(map(str, Disinfectant))
METABISULFITES = tuple(map(str, Metabisulfite))
PACKAGES = tuple(map(str, Package))
SYRUP_TINS = tuple(map(str, SyrupTin))
GRAIN_BAGS = tuple(map(str, GrainBag))
INTO_FERMENTER = tuple(map(str, IntoFermenter))
VOLUME_MARKS = tuple(map(str, VolumeMarks))
PRIMING_SUGARS = tuple(map(str, PrimingSugar))
BOTTLES = tuple(map(str, Bottle))
YEAST_FORMS = tuple(map(str, YeastForm))
TURNS = tuple(map(str, Turn))


@dataclass(frozen=True, slots=True)
class Pot:
    """The boiling pot and the stove below it."""

    name: str = words("Pot", default="Pot")
    volume: Quantity | None = _volume(
        "Pot volume", spread=0.02, relative=True, spread_source=COMMON
    )
    diameter: Quantity | None = quantity(
        "Pot diameter", Kind.LENGTH, low=0.01, high=20.0, default_text="not known"
    )
    stove: str = words("Stove", default=Stove.ELECTRIC.value, choices=STOVES)
    power: Quantity | None = quantity(
        "Stove power",
        Kind.POWER,
        low=0.0,
        high=1e6,
        default=2000.0,
        source=COMMON,
        spread=0.15,
        relative=True,
        spread_source="hob ratings; " + COMMON,
    )
    heat_loss: Quantity | None = quantity(
        "Heat lost by the pot",
        Kind.LOSS_RATE,
        low=0.0,
        high=1e4,
        default=4.0,
        source="0.2 to 0.4 kW at the boil for a 10 L open pot; a judgement",
        spread=1.0,
        spread_source="a judgement",
    )
    foam_room: Quantity | None = _share(
        "Room for foam", default=0.20, source="20 to 25 % of the pot; " + COMMON
    )
    coil: Quantity | None = _volume(
        "Volume of the cooling coil", default=0.0, source="no coil in the pot unless one is typed"
    )


@dataclass(frozen=True, slots=True)
class Fermenter:
    """The vessel the beer ferments in."""

    name: str = words("Fermenter", default="Fermenter")
    volume: Quantity | None = _volume("Fermenter volume")
    marks: str = words("Fermenter marks", default=VolumeMarks.PRINTED.value, choices=VOLUME_MARKS)
    marks_hold: Quantity | None = quantity(
        "True volume at its marks",
        Kind.FRACTION,
        low=0.5,
        high=2.0,
        default=1.0,
        source="a mark is taken to be right",
        likely=(0.85, 1.15),
    )
    kind: str = words(
        "Kind of fermenter", default=FermenterKind.PLASTIC_BUCKET.value, choices=FERMENTER_KINDS
    )
    headspace: Quantity | None = _share(
        "Room for krausen",
        default=0.15,
        source="about 20 % above the batch, that is 17 % of the vessel; " + COMMON,
    )


@dataclass(frozen=True, slots=True)
class Process:
    """How the day is brewed."""

    start_water: Quantity | None = _volume(
        "Water to start",
        spread=0.04,
        relative=True,
        spread_source="household measures ±5 % of every mark: ANSI Z61.1 (quoted); one jug",
    )
    steep_temperature: Quantity | None = _temperature(
        "Steep at",
        default=68.0,
        source="66 to 77 °C: Palmer, How to Brew, 1st ed., online, ch. 13",
        spread=2.0,
        spread_source="kitchen thermometer; " + COMMON,
    )
    steep_time: Quantity | None = _minutes(
        "Steep for", default=30.0, source="Palmer, How to Brew, 1st ed., online, ch. 13"
    )
    steep_yield: Quantity | None = quantity(
        "Steep yield, of the usual",
        Kind.FRACTION,
        low=0.1,
        high=2.0,
        default=1.0,
        source="as much as the figures of the grain say",
        likely=(0.6, 1.4),
    )
    extract_got: Quantity | None = quantity(
        "Extract, of what was weighed",
        Kind.FRACTION,
        low=0.5,
        high=1.5,
        default=1.0,
        source="as much as the figures of extract and sugar say",
        likely=(0.85, 1.1),
    )
    boil_time: Quantity | None = _minutes("Boil for", default=60.0, source=COMMON)
    evaporation: Quantity | None = quantity(
        "Evaporation",
        Kind.EVAPORATION,
        low=0.0,
        high=1000.0,
        default=1.8,
        source="1.5 to 3 L/h at an open rolling boil on a stove; " + COMMON + ": measure yours",
        spread=0.35,
        relative=True,
        spread_source="1.9 to 5.7 L/h seen at home, 10 to 24 % per hour (second-hand)",
    )
    cooling: str = words("Cool by", default=CoolingWay.COLD_WATER_BATH.value, choices=COOLING_WAYS)
    cooling_constant: Quantity | None = quantity(
        "Cooling constant",
        Kind.RATE,
        low=0.0001,
        high=5.0,
        default_text="by way and volume",
        spread=0.15,
        relative=True,
        spread_source="two readings of a kitchen thermometer; judgement",
    )
    cool_to: Quantity | None = _temperature("Cool in the pot to", default_text="worked out")
    left_in_pot: Quantity | None = _volume(
        "Left in the pot",
        default=0.3,
        source="0.5 to 1 L in a 19 L batch; " + COMMON,
        spread=0.6,
        relative=True,
        spread_source="a guess, off by a factor of nearly two; judgement",
    )
    syrup_tin: str = words("Syrup tin", default=SyrupTin.SCRAPED.value, choices=SYRUP_TINS)
    grain_bag: str = words("Grain bag", default=GrainBag.DRAINED.value, choices=GRAIN_BAGS)
    into_fermenter: str = words(
        "Into the fermenter", default=IntoFermenter.POURED.value, choices=INTO_FERMENTER
    )
    top_up_to: Quantity | None = _volume("Top-up mark")
    frozen_top_up: Quantity | None = _mass(
        "Frozen top-up water",
        default=0.0,
        default_text="none",
        source="no ice unless some is typed",
    )
    frozen_temperature: Quantity | None = quantity(
        "Freezer temperature",
        Kind.TEMPERATURE,
        low=-60.0,
        high=0.0,
        default=-18.0,
        source=COMMON,
        spread=4.0,
        spread_source=COMMON,
    )
    tap_temperature: Quantity | None = quantity(
        "Tap water temperature",
        Kind.TEMPERATURE,
        low=0.0,
        high=100.0,
        default=12.0,
        source=COMMON,
        spread=4.0,
        spread_source=COMMON,
    )
    room_temperature: Quantity | None = _temperature(
        "Kitchen temperature", default=20.0, source=COMMON
    )
    altitude: Quantity | None = quantity(
        "Altitude",
        Kind.LENGTH,
        low=-430.0,
        high=6000.0,
        default=0.0,
        bare="m",
        likely=(1.0, 4500.0),
        source="sea level unless another is typed",
    )
    grain_absorption: Quantity | None = quantity(
        "Water held by the grain",
        Kind.ABSORPTION,
        low=0.0,
        high=5.0,
        default=1.0,
        source="0.75 to 1.04 L/kg, drained: Oliver (ed.), The Oxford Companion to Beer, OUP 2012",
        spread=0.3,
        spread_source="squeezed 0.7, wet 1.1 L/kg; " + COMMON,
    )
    hop_absorption: Quantity | None = quantity(
        "Wort held by hops",
        Kind.ABSORPTION,
        low=0.0,
        high=30.0,
        default_text="by the form of the hops",
        spread=2.0,
        spread_source="5 to 10 L/kg at home; " + COMMON,
    )
    chlorine: Quantity | None = quantity(
        "Chlorine in the water", Kind.CONCENTRATION, low=0.0, high=50.0, default_text="not known"
    )
    disinfectant: str = words(
        "Disinfectant in the water", default=Disinfectant.CHLORINE.value, choices=DISINFECTANTS
    )
    metabisulfite: str = words(
        "Chlorine removed with", default=Metabisulfite.POTASSIUM.value, choices=METABISULFITES
    )
    pitch_temperature: Quantity | None = _temperature(
        "Pitch at", default=19.0, source="18 to 20 °C; " + COMMON
    )
    ferment_time: Quantity | None = quantity(
        "Ferment for",
        Kind.TIME,
        low=0.0,
        high=1440.0 * 365,
        default=14 * 1440.0,
        default_text="14 d",
        source=COMMON,
    )
    warmest_after: Quantity | None = _temperature(
        "Warmest since it fermented", default_text="as pitched"
    )
    package: str = words("Package in", default=Package.BOTTLES.value, choices=PACKAGES)
    carbonation: Quantity | None = quantity(
        "Carbonation", Kind.CARBONATION, low=0.0, high=6.0, default=2.3, source=COMMON
    )
    bottle: str = words("Kind of bottle", default=Bottle.UNKNOWN.value, choices=BOTTLES)
    priming_sugar: str = words(
        "Priming sugar", default=PrimingSugar.TABLE_SUGAR.value, choices=PRIMING_SUGARS
    )
    serving_temperature: Quantity | None = _temperature(
        "Keg temperature", default=6.0, source=COMMON
    )
    hydrometer_made_for: Quantity | None = quantity(
        "Hydrometer calibrated at",
        Kind.TEMPERATURE,
        low=0.0,
        high=60.0,
        default=20.0,
        source="printed on its scale: 20 °C, older ones 15 or 15.6 °C (60 °F); " + COMMON,
    )
    hydrometer_in_water: Quantity | None = quantity(
        "Hydrometer in plain water",
        Kind.GRAVITY,
        low=0.98,
        high=1.02,
        default=1.0,
        default_text="1.000",
        source="what it shows at the temperature it is made for",
        spread=0.002,
        spread_source="home instruments; " + COMMON,
    )
    wort_correction: Quantity | None = quantity(
        "Refractometer over extract",
        Kind.NUMBER,
        low=0.9,
        high=1.2,
        default=1.04,
        source="1.00 to 1.06; " + COMMON,
        likely=(0.98, 1.10),
    )
    start_time: str = clock_time("Start at", default="09:00")


@dataclass(frozen=True, slots=True)
class Methods:
    """Which published method each number is read by."""

    bitterness: str = words("Bitterness", default="Tinseth", choices=("Tinseth", "Rager", "Garetz"))
    colour: str = words("Colour", default="Morey", choices=("Morey", "Mosher", "Daniels"))
    alcohol: str = words(
        "Alcohol", default="Balling", choices=("Balling", "Cutaia", "Hall", "linear")
    )
    utilisation_constant: Quantity | None = quantity(
        "Utilisation constant",
        Kind.NUMBER,
        low=1.0,
        high=20.0,
        default=4.15,
        source="Tinseth, web page, 1995 to 1997; that 3.9 to 4.35 fit other kettles, as is told of "
        "handbooks, could not be verified",
    )
    pellet_factor: Quantity | None = quantity(
        "Pellet factor",
        Kind.NUMBER,
        low=1.0,
        high=2.0,
        default=1.10,
        source="1.00 to 1.25 times what whole hops give; " + COMMON,
    )


_FROM_THE_START = When(Stage.BOIL, "boil 60 min", 60.0)
_GOES_IN = InTable(
    "Goes in",
    tip=message(
        "When it goes in: steep, boil 60 min (minutes left), flame-out, stand 20 min at 80 °C …"
    ),
)


@dataclass(frozen=True, slots=True)
class Fermentable:
    """One line of the fermentables."""

    name: str = words("Name", table=InTable("Fermentable", "name"))
    kind: str = words(
        "Kind",
        default=FermentableKind.LIQUID_EXTRACT.value,
        choices=FERMENTABLE_KINDS,
        table=InTable("Kind"),
    )
    amount: Quantity | None = _mass(
        "Amount", spread=0.01, relative=True, spread_source=COMMON, table=InTable("Amount")
    )
    when: When = moment(_FROM_THE_START, table=_GOES_IN)
    colour: Quantity | None = quantity(
        "Colour",
        Kind.MALT_COLOUR,
        low=0.0,
        high=2000.0,
        spread=0.15,
        relative=True,
        spread_source="lots and labels differ; a judgement",
        table=InTable("Colour", "figure", tip=message("Colour of the ingredient, °L, EBC or SRM")),
    )
    extract: Quantity | None = quantity(
        "Extract yield",
        Kind.EXTRACT_YIELD,
        low=0.0,
        high=HIGHEST_YIELD,
    )
    fermentability: Quantity | None = _share("Real fermentability")
    label_bitterness: Quantity | None = quantity(
        "Bitterness on the label", Kind.BITTERNESS, low=0.0, high=10_000.0
    )
    label_volume: Quantity | None = _volume("Volume the label is for")
    label_amount: Quantity | None = _mass("Amount the label is for", default_text="all of it")
    price: Quantity | None = quantity("Price", Kind.MONEY, low=0.0, high=1e9)
    locked: bool = field(default=False, metadata={"label": "Locked"})
    line_id: int = field(default=0, compare=False)


@dataclass(frozen=True, slots=True)
class Hop:
    """One hop addition."""

    name: str = words("Variety", table=InTable("Hop", "name"))
    form: str = words(
        "Form", default=HopForm.PELLETS.value, choices=HOP_FORMS, table=InTable("Form", "kind")
    )
    alpha: Quantity | None = _share(
        "Alpha acid",
        spread=0.10,
        relative=True,
        spread_source="two laboratories on one lot differ by up to 5.7 % of it (EBC 7.7, quoted in "
        "Brauwelt), contracts allow 5 %, and labels are rounded",
        likely=(0.005, 0.30),
        table=InTable(
            "Alpha acid",
            "figure",
            on_sheet="{value} % alpha",
            tip=message("As printed on the packet; 7.2 % ± 0.5 % if you know how sure it is"),
        ),
    )
    amount: Quantity | None = _mass(
        "Amount",
        spread=0.0015,
        spread_source="kitchen scale; " + COMMON,
        likely=(0.0003, 3.0),
        table=InTable("Amount"),
    )
    when: When = moment(_FROM_THE_START, table=_GOES_IN)
    age: Quantity | None = quantity(
        "Age since harvest", Kind.TIME, low=0.0, high=1440.0 * 3660, default_text="not known",
        likely=(1440.0 * 20, 1440.0 * 1500),
    )  # fmt: skip
    kept: str = words("Kept", default=HopKeeping.NOT_KNOWN.value, choices=HOP_KEEPINGS)
    price: Quantity | None = quantity("Price", Kind.MONEY, low=0.0, high=1e9)
    locked: bool = field(default=False, metadata={"label": "Locked"})
    line_id: int = field(default=0, compare=False)


@dataclass(frozen=True, slots=True)
class Yeast:
    """The yeast that is pitched."""

    name: str = words("Yeast", default="")
    form: str = words("Form", default=YeastForm.DRY.value, choices=YEAST_FORMS)
    amount: Quantity | None = quantity("Amount", Kind.DOSE, low=0.0, high=1e7)
    attenuation: Quantity | None = quantity(
        "Apparent attenuation",
        Kind.FRACTION,
        low=0.0,
        high=1.0,
        default=0.75,
        source="medium class 73 to 77 %; " + COMMON,
        spread=0.04,
        spread_source="strains against their makers' figures in 44 batches: "
        '"Observations on attenuations", web article, 2017',
    )
    lowest: Quantity | None = _temperature("Coolest it works")
    highest: Quantity | None = _temperature("Warmest it likes")
    price: Quantity | None = quantity("Price of the yeast", Kind.MONEY, low=0.0, high=1e9)


@dataclass(frozen=True, slots=True)
class Extra:
    """Finings, nutrient, antifoam, water treatment and the like."""

    name: str = words("Name", table=InTable("Extra", "name"))
    purpose: str = words("Purpose", table=InTable("For", "kind"))
    amount: Quantity | None = quantity(
        "Amount", Kind.DOSE, low=0.0, high=1e7, table=InTable("Amount")
    )
    when: When = moment(When(Stage.BOIL, "boil 15 min", 15.0), table=_GOES_IN)
    price: Quantity | None = quantity("Price", Kind.MONEY, low=0.0, high=1e9)
    line_id: int = field(default=0, compare=False)


@dataclass(frozen=True, slots=True)
class PlannedBoil:
    """One boil of the plan by which a recipe is brewed.

    It takes its `share` of every line as written, or lists of lines of its own in place of that.
    What is left out of its water, time and losses is as the recipe says.
    """

    pot: Pot = whole_part("Pot", Pot, default=Pot)
    share: Quantity | None = quantity(
        "Share of the recipe", Kind.FRACTION, low=0.0, high=20.0, default_text="an equal share"
    )
    turn: str = words("Begins", default=Turn.AFTER.value, choices=TURNS)
    start_water: Quantity | None = _volume("Water to start", default_text=_ITS_SHARE)
    boil_time: Quantity | None = _minutes("Boil for", default_text=_AS_RECIPE)
    evaporation: Quantity | None = quantity(
        "Evaporation",
        Kind.EVAPORATION,
        low=0.0,
        high=1000.0,
        default_text=_AS_RECIPE,
    )
    left_in_pot: Quantity | None = _volume("Left in the pot", default_text=_AS_RECIPE)
    fermentables: tuple[Fermentable, ...] | None = _own_lines(
        "Fermentables of this boil", Fermentable
    )
    hops: tuple[Hop, ...] | None = _own_lines("Hops of this boil", Hop)
    extras: tuple[Extra, ...] | None = _own_lines("Extras of this boil", Extra)


@dataclass(frozen=True, slots=True)
class WortShare:
    """What a fermenter gets from one boil of the plan; boils are counted from 1."""

    boil: int = whole_number("Boil", default=1, low=1, high=MOST_BOILS)
    share: Quantity | None = _share("Share of its wort", default=1.0, default_text="100 %")


@dataclass(frozen=True, slots=True)
class PlannedFermenter:
    """One fermenter of the plan by which a recipe is brewed.

    Without `from` it takes an equal share of the wort of every boil. Yeast that is left out is the
    recipe's, as much in each fermenter.
    """

    fermenter: Fermenter = whole_part("Fermenter", Fermenter, default=Fermenter)
    wort_from: tuple[WortShare, ...] = parts(
        "Wort from",
        WortShare,
        most=MOST_BOILS,
        key="from",
        default_text=message("an equal share of every boil"),
    )
    top_up_to: Quantity | None = _volume("Top-up mark")
    frozen_top_up: Quantity | None = _mass("Frozen top-up water", default_text="none")
    yeast: Yeast | None = part_or_none("Yeast of this fermenter", Yeast, default_text=_AS_RECIPE)


@dataclass(frozen=True, slots=True)
class Leaflet:
    """What the leaflet of a kit promises of the beer; nothing is reckoned from it."""

    makes: Quantity | None = _volume("Makes, by the leaflet")
    original_gravity: Quantity | None = quantity(
        "Stated original gravity", Kind.GRAVITY, low=1.0, high=1.2
    )
    final_gravity: Quantity | None = quantity(
        "Stated final gravity", Kind.GRAVITY, low=0.98, high=1.2
    )
    alcohol: Quantity | None = _share("Stated alcohol", likely=(0.004, 0.2))
    bitterness: Quantity | None = quantity(
        "Stated bitterness", Kind.BITTERNESS, low=0.0, high=10_000.0
    )


@dataclass(frozen=True, slots=True)
class Recipe:
    """A whole recipe: the beer as it is written, and beside it, if planned, how it is brewed."""

    name: str = words("Name", default="Untitled brew")
    style: str = words("Style", default="")
    notes: str = words("Notes", default="")
    pot: Pot = field(default_factory=Pot)
    fermenter: Fermenter = field(default_factory=Fermenter)
    process: Process = field(default_factory=Process)
    methods: Methods = field(default_factory=Methods)
    fermentables: tuple[Fermentable, ...] = ()
    hops: tuple[Hop, ...] = ()
    yeast: Yeast = field(default_factory=Yeast)
    extras: tuple[Extra, ...] = ()
    leaflet: Leaflet = field(default_factory=Leaflet)
    boils: tuple[PlannedBoil, ...] = parts(
        "Boils", PlannedBoil, most=MOST_BOILS, default_text="one, as the recipe is written"
    )
    fermenters: tuple[PlannedFermenter, ...] = parts(
        "Fermenters", PlannedFermenter, most=MOST_FERMENTERS, default_text="one, that of the recipe"
    )


PART_TYPES: dict[str, type] = {
    "pot": Pot,
    "fermenter": Fermenter,
    "process": Process,
    "methods": Methods,
    "yeast": Yeast,
    "leaflet": Leaflet,
}
"""The parts of a recipe that are no lists, by the name of the field that holds them."""

LINE_TYPES: dict[str, type] = {"fermentables": Fermentable, "hops": Hop, "extras": Extra}
"""The lines of a recipe, by the name of the list that holds them."""

PLAN_TYPES: dict[str, type] = {"boils": PlannedBoil, "fermenters": PlannedFermenter}
"""How a recipe is brewed where that is planned, by the name of the field that holds it."""
