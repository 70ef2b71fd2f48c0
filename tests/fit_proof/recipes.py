"""Recipes of every sort, each as the text of a file, for kitchens of every sort.

Besides the examples: kits, late extract, strong and weak, much grain, dry hops, whole cones, sugar
in the fermenter, 5 to 60 L. Our own harbour town's; no recipe of anybody else.
"""

import json
from functools import cache

from designer.library.recipe_file import load, read_document
from designer.resource_files import resource_path
from tests.brewday.quantities import ONE_GRAIN_PORTER

EXAMPLES = ("breakwater_red", "foghorn_wheat", "harbour_lamp_porter", "slipway_bitter")
_PROCESS = {"evaporation": "1.2 L/h", "left_in_pot": "0.3 L", "cooling": "ice bath"}
_PELLETS = {"form": "pellets"}
_WHOLE = {"form": "whole"}
_SACHET = {"name": "Dry English ale yeast", "form": "dry", "amount": "11 g"}


def _line(kind, name, amount, when, **more):
    return {"name": name, "kind": kind, "amount": amount, "when": when, **more}


def _syrup(name, amount, when, **more):
    return _line("liquid extract", f"{name} liquid malt extract", amount, when, **more)


def _powder(name, amount, when, **more):
    return _line("dry extract", f"{name} dry malt extract", amount, when, **more)


def _grain(name, amount):
    return _line("steeping grain", name, amount, "steep")


def _sugar(name, amount, when):
    return _line("sugar", name, amount, when)


def _kit(name, amount, when, bitterness, litres, **more):
    label = {"label_bitterness": bitterness, "label_volume": litres, "locked": True}
    return _line("hopped kit extract", f"Hopped kit extract, {name}", amount, when, **label, **more)


def _hop(name, alpha, amount, when, **more):
    return {"name": name, "alpha": alpha, "amount": amount, "when": when, **(_PELLETS | more)}


def _written(name, pot, fermenter, process, fermentables, hops=(), yeast=None, extras=()):
    return {
        "hobwort": 2, "name": name,
        "pot": {"name": "Stock pot", **pot}, "fermenter": {"name": "Bucket", **fermenter},
        "process": _PROCESS | process, "fermentables": list(fermentables), "hops": list(hops),
        "yeast": yeast or _SACHET, "extras": list(extras),
    }  # fmt: skip


def _full(litres, **more):
    return {"start_water": litres, "top_up_to": litres, **more}


WRITTEN = (
    _written(
        "Quay Pale", {"volume": "30 L"}, {"volume": "25 L"},
        _full("19 L", evaporation="1.5 L/h", frozen_top_up="2 kg"),
        (_syrup("Pale", "3 kg", "boil 60 min"), _grain("Crystal malt 60 °L", "0.3 kg")),
        (_hop("Challenger", "7.5 %", "30 g", "boil 60 min"),
         _hop("Fuggle", "4.5 %", "20 g", "boil 10 min")),
    ),
    _written(
        "Pilot Cutter Stout", {"volume": "12 L"}, {"volume": "30 L"},
        {"start_water": "8 L", "top_up_to": "23 L", "boil_time": "15 min"},
        (_kit("stout", "1.7 kg", "flame-out", "32 IBU", "23 L"),
         _powder("Dark", "1 kg", "boil 15 min", locked=True),
         _sugar("Table sugar (sucrose)", "300 g", "flame-out")),
    ),
    _written(
        "Two Tins", {"volume": "10 L"}, {"volume": "25 L"},
        {"start_water": "5 L", "top_up_to": "20 L", "boil_time": "10 min"},
        (_kit("pale", "1.5 kg", "boil 10 min", "28 IBU", "20 L"),
         _kit("pale", "1.5 kg", "flame-out", "28 IBU", "20 L")),
        (_hop("Cascade", "6.2 %", "25 g", "dry hop 4 days"),),
    ),
    _written(
        "Winter Anchor", {"volume": "20 L"}, {"volume": "15 L"},
        {"start_water": "12 L", "top_up_to": "12 L", "boil_time": "90 min",
         "evaporation": "2.2 L/h"},
        (_syrup("Light", "3 kg", "boil 90 min"), _powder("Amber", "1.2 kg", "boil 60 min"),
         _sugar("Golden syrup", "350 g", "boil 15 min"), _grain("Crystal malt 80 °L", "0.35 kg")),
        (_hop("Target", "11 %", "40 g", "boil 90 min"),
         _hop("East Kent Golding", "5 %", "30 g", "boil 10 min")),
        {"name": "Dry English ale yeast", "form": "dry", "amount": "23 g"},
    ),
    _written(
        "Ebb Mild", {"volume": "15 L"}, {"volume": "30 L"},
        {"start_water": "9 L", "top_up_to": "23 L"},
        (_powder("Light", "1.1 kg", "boil 60 min"), _powder("Dark", "0.5 kg", "boil 15 min"),
         _grain("Crystal malt 120 °L", "250 g"), _grain("Chocolate malt", "120 g")),
        (_hop("Fuggle", "4.8 %", "28 g", "boil 60 min"),),
    ),
    _written(
        "Coal Quay Stout", {"volume": "16 L"}, {"volume": "20 L"},
        {"start_water": "11 L", "top_up_to": "15 L", "steep_temperature": "70 °C",
         "grain_absorption": "0.8 L/kg", "left_in_pot": "0.5 L"},
        (_powder("Light", "1.4 kg", "boil 60 min"), _grain("Roasted barley", "450 g"),
         _grain("Crystal malt 60 °L", "600 g"), _grain("Black (patent) malt", "200 g"),
         _line("mash grain", "Flaked oats", "400 g", "steep", extract="5 %")),
        (_hop("Northdown", "8 %", "35 g", "boil 60 min"),),
    ),
    _written(
        "Spring Tide", {"volume": "25 L"}, {"volume": "25 L"},
        {"start_water": "17 L", "top_up_to": "20 L", "cooling": "coil", "left_in_pot": "0.8 L"},
        (_powder("Extra light", "1 kg", "boil 60 min"),
         _syrup("Pale ale", "2.5 kg", "boil 15 min")),
        (_hop("Centennial", "10 %", "20 g", "boil 60 min"),
         _hop("Cascade", "6 %", "40 g", "boil 10 min"),
         _hop("Cascade", "6 %", "50 g", "stand 20 min at 80 °C"),
         _hop("Cascade", "6 %", "60 g", "dry hop 4 days")),
        extras=({"name": "Carrageenan finings", "amount": "1 tablet", "when": "boil 10 min"},),
    ),
    _written(
        "Loft Cones", {"volume": "12 L"}, {"volume": "12 L"},
        {"start_water": "8.5 L", "top_up_to": "10 L"},
        (_syrup("Munich", "1.6 kg", "first wort"), _grain("Crystal malt 40 °L", "200 g")),
        (_hop("East Kent Golding", "5 %", "25 g", "first wort", **_WHOLE),
         _hop("Fuggle", "4.5 %", "25 g", "boil 30 min", **_WHOLE),
         _hop("Fuggle", "4.5 %", "30 g", "flame-out", **_WHOLE)),
    ),
    _written(
        "Dinghy", {"volume": "6 L"}, {"volume": "6 L"},
        {"start_water": "3.5 L", "top_up_to": "5 L", "boil_time": "45 min",
         "evaporation": "0.7 L/h", "left_in_pot": "0.2 L"},
        (_powder("Pilsner", "0.55 kg", "boil 45 min"), _sugar("Honey", "120 g", "fermenter")),
        (_hop("Cashmere", "8 %", "6 g", "boil 45 min"),
         _hop("Cashmere", "8 %", "8 g", "boil 5 min")),
        {"name": "Dry English ale yeast", "form": "dry", "amount": "11 g"},
    ),
    _written(
        "Harbour Fair", {"volume": "75 L", "power": "5000 W"}, {"volume": "80 L"},
        {"start_water": "52 L", "top_up_to": "60 L", "evaporation": "4 L/h", "left_in_pot": "2 L"},
        (_syrup("Light", "8 kg", "boil 60 min"), _powder("Wheat", "1.5 kg", "boil 15 min"),
         _grain("Crystal malt 20 °L", "1 kg")),
        (_hop("Phoenix", "11 %", "60 g", "boil 60 min"),
         _hop("First Gold", "8 %", "60 g", "flame-out")),
        {"name": "Dry English ale yeast", "form": "dry", "amount": "33 g"},
    ),
    _written(
        "Full Sail", {"volume": "40 L", "stove": "gas", "power": "8000 W"}, {"volume": "30 L"},
        {"start_water": "27 L", "evaporation": "3 L/h", "left_in_pot": "1 L"},
        (_syrup("Amber", "3.3 lb", "boil 60 min"), _powder("Light", "3 lb", "boil 60 min"),
         _grain("Crystal malt 60 °L", "1 lb")),
        (_hop("Cluster", "7 %", "1 1/4 oz", "boil 60 min"),
         _hop("Willamette", "5 %", "1 oz", "boil 5 min")),
    ),
    _written(
        "Lighthouse Gold", {"volume": "9 L"}, {"volume": "15 L"},
        {"start_water": "6.5 L", "top_up_to": "12 L", "boil_time": "30 min"},
        (_powder("Wheat", "0.5 kg", "boil 30 min"), _syrup("Wheat", "1.5 kg", "boil 5 min")),
        (_hop("Liberty", "4.5 %", "30 g", "boil 30 min"),
         _hop("Liberty", "4.5 %", "15 g", "boil 5 min")),
    ),
    _written(
        "Bonded Store", {"volume": "15 L"}, {"volume": "20 L"},
        {"start_water": "10 L", "top_up_to": "15 L", "altitude": "1500 m"},
        (_syrup("Dark", "2 kg", "boil 60 min"), _sugar("Black treacle", "100 g", "boil 20 min"),
         _sugar("Lactose", "200 g", "boil 10 min"), _grain("Pale chocolate malt", "250 g")),
        (_hop("Admiral", "14.5 %", "14 g", "boil 60 min"),),
    ),
    _written(
        "No Hops Left", {"volume": "10 L"}, {"volume": "12 L"},
        {"start_water": "6 L", "top_up_to": "10 L", "boil_time": "20 min"},
        (_syrup("Light", "1 kg", "boil 20 min"),
         _sugar("Corn sugar (dextrose monohydrate)", "400 g", "boil 20 min")),
    ),
    _written(
        "Customs Bitter", {"volume": "18 L"}, {"volume": "25 L"},
        {"start_water": "12 L", "top_up_to": "21 L", "frozen_top_up": "3 kg"},
        (_syrup("Pale", "1.8 kg", "boil 60 min", price="9"),
         _powder("Light", "0.5 kg", "boil 60 min", price="6"),
         _grain("Crystal malt 80 °L", "250 g")),
        (_hop("Challenger", "7 %", "28 g", "boil 60 min"),
         _hop("East Kent Golding", "5.5 %", "20 g", "boil 15 min"),
         _hop("East Kent Golding", "5.5 %", "20 g", "dry hop 5 days")),
        {"name": "Dry English ale yeast", "form": "dry", "amount": "2 packets"},
    ),
)  # fmt: skip


@cache
def recipes():
    """Return the recipes by name."""
    found = [load(resource_path(f"examples/{name}.hobwort")) for name in EXAMPLES]
    found.append(load(ONE_GRAIN_PORTER))
    found += [read_document(json.dumps(each), each["name"]) for each in WRITTEN]
    return {each.name: each for each in found}
