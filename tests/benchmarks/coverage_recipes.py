"""Unlike recipes for the coverage of the ranges: the examples, and kitchens unlike theirs."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from designer.library.recipe_file import load, read_document
from designer.recipe.document import Recipe

EXAMPLES = ("harbour_lamp_porter", "slipway_bitter", "foghorn_wheat", "breakwater_red")
_FOLDER = Path(__file__).parents[2] / "resources" / "examples"
_POTS = {"pot": {"volume": "30 L", "power": "3500 W"}, "fermenter": {"volume": "30 L"}}


def malt(name: str, kind: str, amount: str, when: str = "boil 60 min", **more: str) -> Any:
    """Return a fermentable of a recipe file."""
    return {"name": name, "kind": kind, "amount": amount, "when": when, **more}


def hop(name: str, alpha: str, amount: str, when: str, form: str = "pellets") -> Any:
    """Return a hop of a recipe file; without alpha acid where that is ""."""
    return {"name": name, "form": form, "amount": amount, "when": when} | (
        {"alpha": alpha} if alpha else {}
    )


def _process(start: str, boil: str, **more: str) -> dict[str, str]:
    return {"start_water": start, "boil_time": boil, **more}


PALE, DRY = "Light liquid malt extract", "Light dry malt extract"
_OWN: dict[str, dict[str, Any]] = {
    "full boil of a pale ale": _POTS | {
        "process": _process("22 L", "60 min", evaporation="2.5 L/h", cooling="coil"),
        "fermentables": [malt(DRY, "dry extract", "2.8 kg")],
        "hops": [hop("Cascade", "6 %", "30 g", "boil 60 min"), hop("Cascade", "6 %", "30 g",
                 "boil 15 min"), hop("Cascade", "6 %", "40 g", "boil 5 min")],
        "yeast": {"name": "Ale yeast", "attenuation": "77 %", "amount": "11 g"},
    },
    "barley wine from a small pot": _POTS | {
        "process": _process("7 L", "60 min", evaporation="1.5 L/h", top_up_to="12 L"),
        "fermentables": [malt(PALE, "liquid extract", "3 kg"), malt(DRY, "dry extract", "1 kg")],
        "hops": [hop("Magnum", "13 %", "30 g", "boil 60 min")],
        "yeast": {"name": "Ale yeast", "attenuation": "72 %", "amount": "7 g"},
    },
    "mild with its extract late": _POTS | {
        "process": _process("6 L", "60 min", evaporation="1.2 L/h", top_up_to="15 L"),
        "fermentables": [malt(PALE, "liquid extract", "1 kg", "boil 10 min"),
                         malt("Dark extract", "dry extract", "0.4 kg", "boil 60 min",
                              colour="30 °L")],
        "hops": [hop("Fuggle", "4.5 %", "25 g", "boil 60 min", "whole")],
        "yeast": {"name": "Mild ale", "attenuation": "69 %", "amount": "8 g"},
    },
    "kit and sugar": _POTS | {
        "process": _process("4 L", "5 min", top_up_to="23 L"),
        "fermentables": [malt("Bitter kit", "hopped kit extract", "1.7 kg", "boil 5 min",
                              label_bitterness="25 IBU", label_volume="23 L"),
                         malt("Table sugar", "sugar", "0.8 kg", "boil 5 min")],
        "yeast": {"name": "Kit sachet", "amount": "7 g"},
    },
    "hops in the stand": _POTS | {
        "process": _process("14 L", "30 min", evaporation="2 L/h", cooling="ice bath",
                            top_up_to="18 L"),
        "fermentables": [malt(DRY, "dry extract", "2.6 kg", "boil 30 min")],
        "hops": [hop("Citra", "12 %", "15 g", "boil 30 min"),
                 hop("Citra", "12 %", "60 g", "stand 30 min at 80 °C"),
                 hop("Cascade", "6 %", "40 g", "flame-out"),
                 hop("Citra", "12 %", "50 g", "dry hop 4 days")],
        "yeast": {"name": "Ale yeast", "attenuation": "76 %", "amount": "11 g"},
    },
    "lager with first wort hops": _POTS | {
        "process": _process("18 L", "75 min", evaporation="2 L/h", cooling="coil",
                            top_up_to="20 L", pitch_temperature="11 °C"),
        "fermentables": [malt(PALE, "liquid extract", "2.5 kg", "boil 75 min")],
        "hops": [hop("Saaz", "3.5 %", "60 g", "first wort", "whole"),
                 hop("Saaz", "3.5 %", "30 g", "boil 15 min", "whole")],
        "yeast": {"name": "Lager yeast", "attenuation": "74 %", "amount": "22 g"},
    },
    "full boil on a weak gas ring": {
        "pot": {"volume": "15 L", "stove": "gas", "power": "1800 W"},
        "fermenter": {"volume": "15 L"},
        "process": _process("9 L", "60 min", evaporation="1.5 L/h"),
        "fermentables": [malt(DRY, "dry extract", "1.2 kg")],
        "hops": [hop("Challenger", "7.5 %", "15 g", "boil 60 min")],
        "yeast": {"name": "Ale yeast", "attenuation": "75 %", "amount": "6 g"},
    },
    "stout with much steeped grain": _POTS | {
        "process": _process("10 L", "60 min", evaporation="1.8 L/h", top_up_to="19 L"),
        "fermentables": [malt("Dark syrup", "liquid extract", "2.4 kg", colour="20 °L"),
                         malt("Roast barley", "steeping grain", "0.5 kg", "steep",
                              extract="45 %", colour="500 °L", fermentability="35 %"),
                         malt("Chocolate malt", "steeping grain", "0.3 kg", "steep",
                              extract="32 %", colour="350 °L", fermentability="35 %"),
                         malt("Crystal malt", "steeping grain", "0.5 kg", "steep",
                              extract="39 %", colour="60 °L", fermentability="38 %")],
        "hops": [hop("Northdown", "8 %", "45 g", "boil 60 min", "whole")],
        "yeast": {"name": "Stout yeast", "attenuation": "73 %", "amount": "11 g"},
    },
    "strong ale with honey and syrup": _POTS | {
        "process": _process("12 L", "60 min", evaporation="1.8 L/h", top_up_to="18 L"),
        "fermentables": [malt(PALE, "liquid extract", "3 kg", "boil 20 min"),
                         malt("Honey", "sugar", "0.6 kg", "flame-out", extract="80 %",
                              fermentability="95 %"),
                         malt("Golden syrup", "sugar", "0.4 kg", "boil 10 min", extract="80 %",
                              fermentability="92 %")],
        "hops": [hop("Styrian Golding", "4.5 %", "50 g", "boil 60 min", "whole")],
        "yeast": {"name": "Abbey yeast", "attenuation": "78 %", "amount": "15 g"},
    },
    "more hops than dissolve": _POTS | {
        "process": _process("10 L", "60 min", evaporation="1.5 L/h", top_up_to="12 L"),
        "fermentables": [malt(PALE, "liquid extract", "2.6 kg")],
        "hops": [hop("Magnum", "12 %", "120 g", "boil 60 min")],
        "yeast": {"name": "Ale yeast", "attenuation": "75 %", "amount": "11 g"},
    },
    "unnamed malt, hops and yeast": _POTS | {
        "process": _process("8 L", "60 min", top_up_to="15 L"),
        "fermentables": [malt("Extract", "liquid extract", "2 kg"),
                         malt("Grain", "steeping grain", "0.3 kg", "steep")],
        "hops": [hop("From the garden", "", "40 g", "boil 60 min", "whole"),
                 hop("Cascade", "4.5-8.9 %", "20 g", "boil 10 min", "whole")],
        "yeast": {"amount": "11 g"},
    },
    "up a hill, left to stand": {
        "pot": {"volume": "12 L", "power": "2200 W"}, "fermenter": {"volume": "15 L"},
        "process": _process("8 L", "60 min", evaporation="1.2 L/h", top_up_to="10 L",
                            altitude="1600 m", cooling="standing in air",
                            pitch_temperature="15 °C"),
        "fermentables": [malt(DRY, "dry extract", "1.3 kg", colour="6 °L")],
        "hops": [hop("Golding", "5 %", "20 g", "boil 60 min", "whole"),
                 hop("Golding", "5 %", "25 g", "boil 5 min", "whole") | {
                     "age": "300 d", "kept": "sealed, in a cupboard"}],
        "yeast": {"name": "Ale yeast", "attenuation": "74 %", "amount": "8 g",
                  "lowest": "17 °C"},
    },
    "all that can be measured": _POTS | {
        "process": _process("9 L ± 0.05 L", "60 min", evaporation="1.6 L/h ± 0.19 L/h",
                            top_up_to="15 L ± 0.18 L", left_in_pot="0.5 L ± 0.1 L",
                            cooling_constant="0.05 /min"),
        "fermentables": [malt(PALE, "liquid extract", "1.7 kg ± 5 g", extract="80 % ± 0.5 %"),
                         malt(DRY, "dry extract", "0.5 kg ± 2 g", extract="96.5 % ± 0.5 %")],
        "hops": [hop("Challenger", "7.5 % ± 0.3 %", "25 g ± 0.2 g", "boil 60 min")],
        "yeast": {"name": "Ale yeast", "attenuation": "75 % ± 1.5 %", "amount": "11 g"},
    },
    "wheat and oats in the steep": _POTS | {
        "process": _process("9 L", "45 min", evaporation="1.5 L/h", top_up_to="12 L",
                            cooling="ice bath", steep_temperature="66 °C"),
        "fermentables": [malt("Wheat extract", "dry extract", "1.2 kg", "boil 45 min"),
                         malt("Pale malt", "mash grain", "0.4 kg", "steep"),
                         malt("Crystal malt", "steeping grain", "0.2 kg", "steep")],
        "hops": [hop("Hallertau", "4 %", "20 g", "boil 45 min")],
        "yeast": {"name": "Wheat yeast", "attenuation": "76 %", "amount": "11 g"},
    },
}  # fmt: skip


def recipes() -> dict[str, Recipe]:
    """Return the recipes by what they are called."""
    found = {name.replace("_", " "): load(_FOLDER / f"{name}.hobwort") for name in EXAMPLES}
    for name, parts in _OWN.items():
        document = {"hobwort": 2, "name": name, **parts}
        found[name] = read_document(json.dumps(document), name)
    return found
