"""Every key of `forecast --json` is read back against the day, and told in its schema."""

from dataclasses import replace

import pytest

from designer.brewday.outlook import look_ahead
from designer.library.recipe_file import load
from designer.recipe.choices import Package
from designer.recipe.document import LINE_TYPES, Leaflet
from designer.recipe.quantity import Kind, Quantity
from designer.resource_files import resource_path
from designer.units import read
from designer.workbench.forecast_document import FORM, forecast_document
from designer.workbench.what_if import columns, what_if_document
from designer.wort.carbonation import residual_co2, warm_bottle_bar
from tests.schema_keys import told_keys

NO_GRAVITIES = ("abv_", "bitterness_", "colour_", "kcal_", "kj_")
EXAMPLES = ("harbour_lamp_porter", "slipway_bitter", "foghorn_wheat", "breakwater_red")


def example(name):
    return load(resource_path(f"examples/{name}.hobwort"))


@pytest.fixture
def bitter():
    return example("slipway_bitter")


def document(recipe):
    outlook = look_ahead(recipe)
    return forecast_document(recipe, outlook), outlook


def keys_of(value, path=""):
    """The keys of a document, as the schema tells them."""
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from keys_of(inner, f"{path}.{key}" if path else key)
    elif isinstance(value, list):
        for inner in value:
            yield from keys_of(inner, f"{path}[]")
    else:
        yield path


def as_told(key, known):
    """A key as the schema tells it, `*` for what is named by the recipe or by a method."""
    parts = key.split(".")
    for at in range(len(parts)):
        name, brackets = (parts[at][:-2], "[]") if parts[at].endswith("[]") else (parts[at], "")
        starred = ".".join([*parts[:at], f"*{brackets}", *parts[at + 1 :]])
        if name and starred in known:
            return starred
    return key


def test_the_schema_tells_every_key_and_none_that_is_not_there(bitter):
    of_a_kit = {"fits[]", "written"}
    not_of_gravities = {
        key
        for key in told_keys("forecast", "forecast")
        if ".reading." in f".{key}" and key.startswith(NO_GRAVITIES)
    }
    known = told_keys("forecast", "forecast") - of_a_kit - not_of_gravities
    in_keg = replace(bitter.process, package=Package.KEG)
    keg = replace(bitter, process=in_keg, style="Irish Stout")
    no_grain = replace(bitter, fermentables=bitter.fermentables[:2], style="")
    stated = Leaflet(read(Kind.VOLUME, "10 L"), read(Kind.GRAVITY, "1.050 to 1.055"))
    odd = (no_grain, replace(bitter, leaflet=stated))
    found = {
        as_told(key, known)
        for recipe in (*map(example, EXAMPLES), keg, chloraminated(bitter), *odd)
        for key in keys_of(document(recipe)[0])
    }
    overflowing = replace(bitter, pot=replace(bitter.pot, volume=read(Kind.VOLUME, "4 L")))
    variants = {"what_if": what_if_document(columns(bitter, [overflowing]))}
    found |= {as_told(key, known) for key in keys_of(variants)}
    assert found == known


def test_the_form_is_the_first_key_and_its_number_is_two(bitter):
    """Scripts that read form 2 go on reading it: raise it with whatever they would misread."""
    found, _ = document(bitter)
    assert next(iter(found)) == "form"
    assert found["form"] == FORM == 2


def test_each_line_tells_its_points_its_colour_and_its_bitterness(bitter):
    found, outlook = document(bitter)
    listed = [f"{lines}.{at}" for lines in ("fermentables", "hops")
              for at in range(1, len(getattr(bitter, lines)) + 1)]  # fmt: skip
    assert [each["place"] for each in found["lines"]] == listed
    for each in found["lines"]:
        lines, number = each["place"].split(".")
        line = getattr(bitter, lines)[int(number) - 1]
        gives = outlook.day.gives[line.line_id]
        assert each["name"] == line.name
        assert (each["points"], each["colour_mcu"], each["bitterness_ibu"]) == (
            gives.points, gives.colour_mcu, gives.bitterness_ibu
        )  # fmt: skip
    points = sum(each["points"] for each in found["lines"])
    assert points == pytest.approx(1000 * (found["original_gravity"]["value"] - 1.0))
    bitterness = sum(each["bitterness_ibu"] for each in found["lines"])
    assert bitterness == pytest.approx(found["bitterness_ibu"]["value"])


def test_steep_and_vessels_and_cooling_are_those_of_the_day(bitter):
    found, outlook = document(bitter)
    day = outlook.day
    assert found["steep"] == {
        "strike_c": day.steep.strike_c,
        "steeped_c": day.steep.steeped_c,
        "held_in_grain_l": day.steep.held_in_grain_l,
    }
    assert found["steep"]["strike_c"] > found["steep"]["steeped_c"]
    assert found["boil_gravity_start"] == day.pot.boil_gravity_start
    assert found["boil_gravity_end"] == day.pot.boil_gravity_end
    assert found["pot"] == {
        "start_l": day.pot.start_water_l,
        "fullest_l": day.pot.fullest_l,
        "fullest_at": day.pot.fullest_at,
        "end_l": day.pot.boil_end_l,
        "rim_l": bitter.pot.volume.value,
    }
    assert found["fermenter"] == {
        "from_pot_l": day.fermenter.from_pot_l,
        "top_up_l": day.fermenter.top_up_l,
        "hot_l": day.fermenter.hot_l,
        "total_l": day.fermenter.batch_l,
        "brim_l": bitter.fermenter.volume.value,
    }
    assert found["cooling"] == {
        "mixed_c": day.fermenter.mixed_c,
        "pour_at_c": day.fermenter.cool_to_c,
        "minutes": day.fermenter.cooling_min,
    }
    assert found["ice"]["top_up_kg"] == day.fermenter.frozen_kg > 0.0
    assert found["ice"]["bath_kg"] == day.fermenter.bath_ice_kg
    assert found["yeast"] == {
        "low_g": day.beer.yeast_low_g,
        "high_g": day.beer.yeast_high_g,
        "packets": 1,
    }
    no_grain = replace(bitter, fermentables=bitter.fermentables[:2])
    assert document(no_grain)[0]["steep"] is None


def chloraminated(recipe):
    process = replace(
        recipe.process,
        chlorine=read(Kind.CONCENTRATION, "2 mg/L"),
        disinfectant="chloramine, as NH2Cl",
        metabisulfite="sodium metabisulfite",
    )
    return replace(recipe, process=process)


def test_treated_water_has_its_salt_and_its_dose(bitter):
    found, outlook = document(bitter)
    assert found["water"] == {"total_l": outlook.day.beer.water_l, "treatment": None}
    found, outlook = document(chloraminated(bitter))
    assert found["water"]["treatment"] == {
        "salt": "sodium metabisulfite",
        "g": outlook.day.beer.water_treatment_g,
        "against": "chloramine, as NH2Cl",
    }


def test_stages_have_their_times_of_the_day(bitter):
    late = replace(bitter, process=replace(bitter.process, start_time="22:30"))
    found, outlook = document(late)
    spans = outlook.day.spans
    assert [(each["stage"], each["start_min"], each["end_min"]) for each in found["stages"]] == [
        (span.key, span.start_min, span.end_min) for span in spans
    ]
    assert [each["name"] for each in found["stages"]] == [span.label.text for span in spans]
    for each in found["stages"]:
        for end in ("start", "end"):
            whole = (22 * 60 + 30 + int(each[f"{end}_min"] + 0.5)) % 1440
            assert each[end] == f"{whole // 60:02d}:{whole % 60:02d}"
    assert found["stages"][0]["start"] == "22:30"
    assert found["stages"][-1]["end"] < "02:00", "past midnight"
    assert found["total_min"] == outlook.day.total_min == found["stages"][-1]["end_min"]


def test_what_goes_in_has_its_place_and_its_time(bitter):
    found, outlook = document(bitter)
    assert [each["at_min"] for each in found["goes_in"]] == [
        each.time_min for each in outlook.day.additions
    ]
    for each, added in zip(found["goes_in"], outlook.day.additions, strict=True):
        lines, number = each["place"].split(".")
        line = getattr(bitter, lines)[int(number) - 1]
        assert line.line_id == added.line_id
        assert each["name"] == line.name
        assert each["stage"] == added.stage
        assert each["boil_left_min"] == added.boil_left_min
        minutes = 9 * 60 + int(added.time_min + 0.5)
        assert each["at"] == f"{minutes // 60:02d}:{minutes % 60:02d}"


def test_bottles_have_their_sugar_and_a_keg_its_pressure(bitter):
    found, outlook = document(bitter)
    beer = outlook.day.beer
    assert found["packaging"] == {
        "in": "bottles",
        "beer_l": beer.packaged_l,
        "priming": {
            "sugar": "table sugar",
            "g": beer.priming_g["table sugar"],
            "warmest_c": 19.0,
            "residual_vol": residual_co2(19.0),
            "vol": 2.1,
            "low_vol": pytest.approx(1.8),
            "high_vol": pytest.approx(2.4),
            "instead_g": {
                sugar: beer.priming_g[sugar]
                for sugar in (
                    "dextrose monohydrate",
                    "dextrose anhydrous",
                    "dry malt extract",
                    "honey",
                )
            },
        },
        "bottle": {
            "kind": "heavy refillable beer bottles",
            "most_bar": pytest.approx(warm_bottle_bar(2.1)),
            "comfortable_bar": 3.7,
            "never_bar": 4.5,
            "refused": False,
        },
        "keg_bar": None,
    }
    unfit = replace(bitter.process, bottle="still-wine bottles, jars, growlers")
    found, _ = document(replace(bitter, process=unfit))
    assert found["packaging"]["priming"] is None
    assert found["packaging"]["bottle"]["refused"] is True
    with_extract = replace(bitter.process, priming_sugar="dry malt extract")
    found, _ = document(replace(bitter, process=with_extract))
    priming = found["packaging"]["priming"]
    assert (priming["sugar"], priming["g"]) == (
        "dry malt extract", beer.priming_g["dry malt extract"]
    )  # fmt: skip
    assert priming["instead_g"]["table sugar"] == beer.priming_g["table sugar"]
    keg = replace(bitter, process=replace(bitter.process, package=Package.KEG))
    found, outlook = document(keg)
    assert found["packaging"]["priming"] is None
    assert found["packaging"]["keg_bar"] == outlook.day.beer.keg_bar


def test_the_cost_is_that_of_what_goes_in_once_all_of_it_is_priced(bitter):
    assert document(bitter)[0]["cost"] is None
    price = read(Kind.MONEY, "2.50")
    priced = {
        lines: tuple(
            replace(line, price=price, amount=line.amount or Quantity(1.0, "1 g", unit="g"))
            for line in getattr(bitter, lines)
        )
        for lines in LINE_TYPES
    }
    yeast = replace(bitter.yeast, price=read(Kind.MONEY, "4"))
    whole = replace(bitter, **priced, yeast=yeast)
    count = sum(map(len, priced.values()))
    found, outlook = document(whole)
    assert found["cost"] == pytest.approx(2.5 * count + 4.0)
    litres = float(outlook.day.fermenter.batch_l)
    assert found["cost_per_litre"] == pytest.approx(found["cost"] / litres)
    assert document(bitter)[0]["cost_per_litre"] is None


def test_each_finding_says_how_grave_it_is_and_what_it_is_about():
    red = example("breakwater_red")
    found, outlook = document(red)
    assert len(found["watch_out"]) == len(outlook.findings) > 1
    places = set()
    for told_of, finding in zip(found["watch_out"], outlook.findings, strict=True):
        assert told_of["severity"] == finding.severity.value
        assert told_of["code"] == finding.code
        assert told_of["message"] == finding.message.text
        assert told_of["fix"] == (finding.offer.text if finding.fix is not None else None)
        assert told_of["leads_to"] == ("fit" if finding.code == "fermenter-overflows" else None)
        places.add(told_of["place"])
        if finding.about.line is not None:
            lines, number, *_ = told_of["place"].split(".")
            line = getattr(red, lines)[int(number) - 1]
            assert line.line_id == finding.about.line
        else:
            assert told_of["place"] == str(finding.about)
    assert "stop" in {each["severity"] for each in found["watch_out"]}
    assert len(places) > 1
