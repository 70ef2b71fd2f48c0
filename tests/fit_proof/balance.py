"""What a way says of its boils and fermenters, beside what mass balance makes of what goes in."""

from dataclasses import dataclass

from designer.recipe.quantity import Kind
from designer.units import read
from designer.workbench.fit_text import fit_document
from tests.fit_proof.reckoning import PutIn, Stated, Vessel, reckoned
from tests.fit_proof.sucrose import litres, water_kg_l

MOST_L, MOST_POINT = 0.05, 0.001


@dataclass(frozen=True)
class Compared:
    """One figure as the way says it, and as reckoned."""

    what: str
    said: float
    reckoned: float
    most: float

    @property
    def agrees(self):
        return abs(self.said - self.reckoned) <= self.most

    def __str__(self):
        return f"{self.what}: said {self.said:.4f}, reckoned {self.reckoned:.4f}"


def typed_value(part, name):
    """Return what was typed in a field, in its base unit; None where nothing was."""
    found = getattr(part, name)
    return None if found is None else found.value


def stated(boil, said):
    """Return what a boil's weighing-out list and its fields state, for the reckoning."""
    recipe = boil.recipe
    process, pot = recipe.process, recipe.pot
    given = {
        "boil_min": typed_value(process, "boil_time"),
        "tap_c": typed_value(process, "tap_temperature"),
        "room_c": typed_value(process, "room_temperature"),
        "steep_c": typed_value(process, "steep_temperature"),
        "grain_absorption_l_kg": typed_value(process, "grain_absorption"),
        "heat_loss_w_k": typed_value(pot, "heat_loss"),
        "coil_l": typed_value(pot, "coil") if process.cooling == "coil" else None,
    }
    evaporation = process.evaporation
    return Stated(
        start_water_l=said["start_water_l"],
        put_in=tuple(_put_in(boil, said)),
        evaporation_l_h=None if evaporation is None else evaporation.value,
        measured_evaporation=evaporation is not None and evaporation.spread is not None,
        left_in_pot_l=typed_value(process, "left_in_pot"),
        hop_absorption_l_kg=typed_value(process, "hop_absorption"),
        top_up_to_l=typed_value(process, "top_up_to"),
        stove=pot.stove,
        power_w=typed_value(pot, "power"),
        frozen_kg=said["frozen_kg"],
        **{name: value for name, value in given.items() if value is not None},
    )


def _put_in(boil, said):
    """Yield each line with the amount that is printed for it."""
    lines = {
        (name, line.line_id): line
        for name in ("fermentables", "hops")
        for line in getattr(boil.recipe, name)
    }
    for addition, printed in zip(boil.goes_in, said["goes_in"], strict=True):
        line = lines.get((addition.lines, addition.line_id))
        if line is None:
            continue
        is_hop = addition.lines == "hops"
        yield PutIn(
            name=printed["name"],
            kind=line.form if is_hop else line.kind,
            kg=read(Kind.MASS, printed["amount"]).value if printed["amount"] else 0.0,
            stage=str(line.when.stage),
            boil_left_min=line.when.minutes or 0.0,
            solids=None if is_hop else typed_value(line, "extract"),
        )


def compared(answer):
    """Return, for each way by its key, its figures beside the reckoned ones."""
    return {
        way.key: list(_of_way(way, said))
        for way, said in zip(answer.every_way, every_way(fit_document(answer)), strict=True)
    }


def every_way(document):
    """Return what is printed of each way, with those that another one stands for at the end."""
    shown = document["ways"]
    return [*shown, *(each for said in shown for each in said["much_the_same"])]


def _of_way(way, said):
    whole = Vessel()
    for boil, each in zip(way.boils, said["boils"], strict=True):
        came = reckoned(stated(boil, each))
        yield from of_boil(each, came)
        whole.add(came.fermenter.extract_kg, came.fermenter.water_kg)
    yield Compared("beer, L", said["batch_l"], whole.litres(), MOST_L)
    gravity = said["forecasts"]["original_gravity"]["value"]
    yield Compared("original gravity", gravity, whole.gravity, MOST_POINT)


def of_boil(said, came):
    for what, ours in (
        ("fullest_l", came.fullest_hot_l),
        ("from_pot_l", came.from_pot_l),
        ("top_up_l", came.top_up_l),
        ("batch_l", came.fermenter.litres()),
    ):
        yield Compared(what, said[what], ours, MOST_L)
    for what, ours in (
        ("boil_gravity_start", came.boil_gravity_start),
        ("boil_gravity_end", came.boil_gravity_end),
    ):
        yield Compared(what, said[what], ours, MOST_POINT)
    filled = said["fermenters"]
    poured = sum(each["from_pot_l"] for each in filled)
    water = sum(each["liquid_top_up_l"] + each["frozen_kg"] / water_kg_l(20.0) for each in filled)
    yield Compared("poured into all fermenters, L", poured, came.from_pot_l, MOST_L)
    yield Compared("water into all fermenters, L", water, came.top_up_l, MOST_L)
    for each in filled:
        share = each["from_pot_l"] / poured if poured else 0.0
        inside = came.fermenter
        own_kg = each["liquid_top_up_l"] * water_kg_l(20.0) + each["frozen_kg"]
        wort_kg = inside.water_kg - came.top_up_l * water_kg_l(20.0)
        ours = litres(share * inside.extract_kg, share * wort_kg + own_kg)
        yield Compared(f"filled: {each['name']}", each["filled_l"], ours, MOST_L)
