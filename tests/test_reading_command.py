"""`hobwort reading`: from an odd reading to the cured beer, with a recipe and on the phone."""

import json

import pytest

from designer.brewday.explaining.asked import Answer
from designer.brewday.explaining.explained import TestCode
from designer.brewday.predictions import PREDICTIONS
from designer.command_line import run
from designer.command_line.reading_asked import asked_of
from designer.command_line.usage import parser
from designer.resource_files import resource_path
from tests.schema_keys import told_keys

PORTER = str(resource_path("examples/harbour_lamp_porter.hobwort"))
BITTER = str(resource_path("examples/slipway_bitter.hobwort"))
ODD = ["--sg", "1.037", "--at", "24 °C"]
KIT = ["--band", "1.044 to 1.048", "--batch", "20 L", "--pot", "9 L", "--extract",
       "1 kg + 400 g dry"]  # fmt: skip
KEYS = {"form", "reading_sg_20c", "expected", "verdict", "causes", "test", "cures"}


@pytest.fixture
def told(capsys):
    """The values of `reading --json`."""

    def ask(*words):
        assert run(["reading", *words, "--json"]) == 0, capsys.readouterr().err
        return json.loads(capsys.readouterr().out)

    return ask


@pytest.fixture
def refused(capsys):
    def ask(*words):
        code = run(["reading", *words])
        return code, capsys.readouterr().err.splitlines()

    return ask


@pytest.fixture
def forecast(capsys):
    def ask(*words):
        assert run(["forecast", *words, "--json"]) == 0
        return json.loads(capsys.readouterr().out)

    return ask


def test_the_documents_keys_are_those_that_scripts_read(told):
    found = told(PORTER, *ODD, "--from", "top", "--stirred", "unknown")
    assert set(found) == KEYS
    assert set(found["expected"]) == {"value", "low", "high"}
    assert found["reading_sg_20c"] == pytest.approx(1.038, abs=2e-4)
    assert found["verdict"] == "not_mixed"
    assert set(found["test"]) == {"code", "message", "minutes"}
    assert found["test"]["code"] == "stir"
    single = {"code", "probability", "original_gravity", "abv_percent", "bitterness_ibu"}
    assert set(found["causes"][0]) == single
    assert any(set(each) == single | {"with"} for each in found["causes"])
    assert sum(each["probability"] for each in found["causes"]) == pytest.approx(1.0)
    assert all({"message", "set"} <= set(each) for each in found["cures"])


def test_stirred_and_read_again_as_forecast_the_beer_is_pitched(told, capsys):
    found = told(PORTER, *ODD, "--from", "top", "--answer", "stir=1.045")
    assert found["verdict"] == "fine"
    assert found["test"] is None
    assert [each["code"] for each in found["cures"]] == ["pitch"]
    assert run(["reading", PORTER, *ODD, "--from", "top", "--answer", "stir=1.045"]) == 0
    assert "Fine: as forecast.\nPitch the yeast: there is nothing to cure." in (
        capsys.readouterr().out
    )


def test_a_level_over_the_mark_is_found_and_extract_brings_the_beer_back(told, forecast):
    words = ["--set", "fermenter.volume=15 L", *ODD, "--stirred", "hard", "--mark", "11.8 L"]
    found = told(PORTER, *words, "--answer", "weigh=11.8 L")
    assert found["verdict"] == "volume"
    adds, leaves = found["cures"]
    assert adds["code"] == "add_extract:volume"
    assert adds["off"] is None
    assert "Never add sugar or extract on one reading." in adds["message"]
    assert "Hot sugar burns" in adds["message"]
    assert adds["after"]["original_gravity"] == pytest.approx(1.0458, abs=1e-3)
    assert leaves["after"]["original_gravity"] == pytest.approx(1.0388, abs=1e-3)
    for each in (adds, leaves):
        sets = [word for pair in each["set"].items() for word in ("--set", "=".join(pair))]
        made = forecast(PORTER, "--set", "fermenter.volume=15 L", *sets)
        for prediction in PREDICTIONS:
            if prediction.key in each["after"]:
                said, done = each["after"][prediction.key], made[prediction.key]["value"]
                assert f"{said:.{prediction.decimals}f}" == f"{done:.{prediction.decimals}f}"


def test_from_an_odd_reading_to_the_cured_beer(told):
    bucket = ["--set", "fermenter.volume=15 L"]
    low = [PORTER, *bucket, "--sg", "1.032", "--at", "20 °C", "--from", "top"]
    asked, answers = told(*low), []
    shows = {"stir": "1.033", "count_packets": "yes", "water_check": "1.000", "weigh": "10 L",
             "top_and_bottom": "no", "cool": "no", "settle": "no"}  # fmt: skip
    assert asked["test"]["code"] == "stir"
    while asked["test"] is not None:
        code = asked["test"]["code"]
        assert f"{code}={shows[code]}" not in answers
        answers += ["--answer", f"{code}={shows[code]}"]
        asked = told(*low, *answers)
    assert asked["verdict"] == "missing_extract"
    cure = asked["cures"][0]
    assert cure["code"] == "put_in:missing_extract"
    assert "400 g of Light dry malt extract" in cure["message"]
    sets = [word for pair in cure["set"].items() for word in ("--set", "=".join(pair))]
    again = ["--sg", "1.045", "--at", "20 °C", "--stirred", "hard"]
    cured = told(PORTER, *bucket, *sets, *again)
    assert cured["verdict"] == "fine"
    assert [each["code"] for each in cured["cures"]] == ["pitch"]


def test_nothing_is_added_before_mixing_and_warmth_are_settled(told):
    told_at = ["--mark", "11.8 L", "--set", "fermenter.volume=15 L", "--answer", "weigh=11.8 L"]
    for words, why in (
        (["--sg", "1.037", "--stirred", "hard"], "First say how warm the sample is."),
        ([*ODD, "--stirred", "little"], "First stir hard and read again."),
    ):
        adding = [
            each
            for each in told(PORTER, *words, *told_at)["cures"]
            if each["code"].startswith("add")
        ]
        assert adding
        assert all(each["off"] == why for each in adding)


def test_a_kit_on_the_phone_is_told_the_same_as_lines(capsys):
    assert run(["reading", *KIT, *ODD, "--from", "top", "--stirred", "no"]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert lines[0] == "Read: 1.037 at 24 °C; at 20 °C that is 1.038."
    assert lines[1] == "8 points low, most likely not mixed."
    assert any(each.startswith("First, the cheapest test (5 min): Stir hard") for each in lines)
    assert any(each.startswith("  Not yet: ") and ": Add " in each for each in lines)
    assert not any("--set" in each for each in lines)


def test_other_scales_and_units_are_taken_and_told(told, capsys):
    by_sg = told(PORTER, "--sg", "1.040", "--at", "20 °C")
    by_plato = told(PORTER, "--plato", "10 °P", "--at", "68 F")
    assert by_plato["reading_sg_20c"] == pytest.approx(by_sg["reading_sg_20c"], abs=1e-4)
    by_brix = told(PORTER, "--brix", "10.4 Bx", "--correction", "1.04")
    assert by_brix["reading_sg_20c"] == pytest.approx(1.040, abs=2e-4)
    assert run(["reading", PORTER, "--plato", "9.3", "--at", "24 °C", "--units", "us"]) == 0
    said = capsys.readouterr().out
    assert "Read: 9.3 °P at 75 °F" in said
    assert "gal in the fermenter instead of 2.64 gal" in said
    in_pot = ["--sg", "1.070", "--at", "60 F", "--when", "pot", "--pot-volume", "5.5 L"]
    assert run(["reading", PORTER, *in_pot, "--units", "us"]) == 0
    said = capsys.readouterr().out
    assert "the forecast is 1.079 to 1.09" in said
    assert "Stir it into the pot" in said
    assert "oz of Light dry malt extract that is left" in said


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ([PORTER, "--sg", "1.5"], "--sg: “1.5” is outside 0.980 to 1.200. Write the gravity"),
        ([PORTER, "--sg", "1.04", "--at", "warm"], "--at: “warm” is not a temperature"),
        ([PORTER, "--sg", "1.04", "--at", "150 C"], "leave it out where nobody took it."),
        ([PORTER, "--sg", "1.04", "--answer", "taste=yes"], "Tests are stir, top_and_bottom"),
        ([PORTER, "--sg", "1.04", "--answer", "weigh=much"], "Or answer yes or no."),
        ([PORTER, "--sg", "1.04", "--fermenter", "3"], "counted from 1 to 1."),
        (["--sg", "1.04", "--batch", "20 L", "--extract", "1 kg rice"], "--extract: “1 kg rice”"),
        (["--sg", "1.04", "--batch", "20 L", "--band", "2"], "--band: “2”"),
        (["missing.hobwort", "--sg", "1.04"], "missing.hobwort"),
    ],
)
def test_words_that_cannot_be_read_are_refused_with_a_way_out(refused, words, says):
    code, lines = refused(*words)
    assert code == 1
    assert any(says in each for each in lines), lines


@pytest.mark.parametrize(
    "words",
    [
        [PORTER],
        ["--sg", "1.04"],
        ["--sg", "1.04", "--batch", "20 L"],
        [PORTER, "--sg", "1.04", "--brix", "10"],
        [PORTER, "--sg", "1.04", "--batch", "20 L"],
        [PORTER, "--sg", "1.04", "--from", "bucket"],
        ["--sg", "1.04", "--batch", "20 L", "--band", "1.04", "--set", "name=x"],
    ],
)
def test_wrong_usage_is_told_apart_from_refused_words(refused, words):
    assert refused(*words)[0] == 2


def test_the_schema_tells_every_key_of_the_document(told):
    parts = [key.split(".") for key in told_keys("reading")]
    said = {".".join(each[:end]) for each in parts for end in range(1, len(each) + 1)}
    said |= {each.removesuffix("[]") for each in said}
    found = told(PORTER, *ODD, "--from", "top")
    for key in (*found, *(f"causes[].{each}" for each in found["causes"][0])):
        assert key in said
    for key in (*(f"test.{each}" for each in found["test"]), "causes[].with"):
        assert key in said
    for key in found["cures"][0]:
        assert f"cures[].{key}" in said


@pytest.mark.parametrize(
    ("typed", "answer"),
    [
        ("weigh=20.8 kg", Answer(TestCode.WEIGH, value=20.0)),  # a litre of 1.040 weighs 1.040 kg
        ("weigh=20 L", Answer(TestCode.WEIGH, value=20.0)),
        ("water-check=1.003", Answer(TestCode.WATER_CHECK, value=1.003)),
        ("top_and_bottom=40 points", Answer(TestCode.TOP_AND_BOTTOM, value=40.0)),
        ("settle=1.0405", Answer(TestCode.SETTLE, changed=False)),
        ("settle=1.042", Answer(TestCode.SETTLE, changed=True)),
        ("count_packets=no", Answer(TestCode.COUNT_PACKETS, changed=False)),
    ],
)
def test_what_a_test_showed_is_read_as_a_figure_or_as_yes_and_no(typed, answer):
    words = ["reading", PORTER, "--sg", "1.040", "--at", "20 °C", "--answer", typed]
    (found,) = asked_of(parser("reading").parse_args(words), 20.0).answers
    assert (found.test, found.changed) == (answer.test, answer.changed)
    assert found.value == pytest.approx(answer.value)


def test_a_fermenter_that_there_is_not_is_refused(refused):
    code, said = refused(PORTER, *ODD, "--fermenter", "2")
    assert (code, said) == (1, ["--fermenter 2: fermenters are counted from 1 to 1."])
