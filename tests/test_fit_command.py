"""`hobwort fit`: what a brewer reads, what a program reads, and what is refused."""

import json
import re
from pathlib import Path

import pytest

from designer.brewday.outlook import look_ahead
from designer.command_line import run
from designer.library.recipe_file import load
from designer.recipe.plan import as_written, is_planned
from designer.recipe.plan_words import plan_words
from designer.resource_files import resource_path

KIT = str(resource_path("examples/breakwater_red.hobwort"))
KITCHEN = ("fit", KIT, "--pot", "9 L", "--fermenter", "12 L")


@pytest.fixture
def said(capsys):
    """Run the command and return its exit code, its output and its complaints."""

    def run_and_read(*words):
        code = run(words)
        out, err = capsys.readouterr()
        return code, out, err

    return run_and_read


def test_the_demo_kit_has_at_least_three_ways_in_the_demo_kitchen(said):
    code, out, err = said(*KITCHEN)
    assert (code, err) == (0, "")
    assert out.startswith("Breakwater Red\n")
    for name in ("One boil and top-up", "One boil, extract late", "Two boils", "A smaller batch",
                 "Two brews, in turn"):  # fmt: skip
        assert name in out
    assert "Buy: another packet of yeast" in out
    assert "Left over: " in out
    assert "Boiling wort scalds" in out
    assert "A fermenter of 23.5 L would hold the whole 20 L" in out


def test_lines_are_no_wider_than_a_terminal_and_figures_keep_their_units(said):
    _, out, _ = said(*KITCHEN, "--units", "both")
    lines = out.splitlines()
    assert max(len(line) for line in lines) <= 100
    assert "\u00a0" not in out
    assert not any(line.endswith((" 9", " 12", " 7.2")) for line in lines)
    assert "9 L (2.38 gal)" in out


def test_json_gives_the_same_ways_as_numbers(said):
    code, out, _ = said(*KITCHEN, "--json")
    found = json.loads(out)
    assert code == 0
    assert found["original_batch_l"] == pytest.approx(20.0)
    keys = [way["key"] for way in found["ways"]]
    assert len(keys) >= 3
    assert [way["rank"] for way in found["ways"]] == list(range(1, len(keys) + 1))
    smaller = found["ways"][keys.index("smaller batch")]
    assert smaller["batch_l"] == pytest.approx(10.2, abs=0.05)
    assert {left["name"] for left in smaller["left_over"]} >= {"Amber dry malt extract", "Fuggle"}
    for way in found["ways"]:
        assert set(way["forecasts"]) >= {"original_gravity", "bitterness_ibu", "colour_srm"}
        for boil in way["boils"]:
            assert boil["fullest_l"] <= boil["rim_l"] == 9.0
            assert boil["foam_room_l"] >= -1e-9
            assert boil["goes_in"]
            filled = sum(each["filled_l"] for each in boil["fermenters"])
            assert filled == pytest.approx(boil["batch_l"])


def test_text_and_json_rank_the_ways_alike(said):
    _, text, _ = said(*KITCHEN)
    _, out, _ = said(*KITCHEN, "--json")
    names = [way["name"] for way in json.loads(out)["ways"]]
    places = [text.index(f"{n}. {name}\n") for n, name in enumerate(names, 1)]
    assert places == sorted(places)


def test_ways_that_ask_for_nothing_stand_before_those_that_do_under_words_for_both(said):
    text, found = said(*KITCHEN)[1], json.loads(said(*KITCHEN, "--json")[1])
    in_hand = [way["in_hand"] for way in found["ways"]]
    assert in_hand == sorted(in_hand, reverse=True)
    now = [[each for each in way["must_buy"] if not each["later"]] for way in found["ways"]]
    assert in_hand == [not each for each in now]
    assert 0 < in_hand.count(True) < len(in_hand)
    lines = text.splitlines()
    own, bought = (lines.index(each) for each in ("With what you have:", "If you buy or borrow:"))
    ranks = {int(line.split(".")[0]): at for at, line in enumerate(lines) if line[:2] in RANKED}
    for way in found["ways"]:
        assert own < ranks[way["rank"]]
        assert (ranks[way["rank"]] < bought) is way["in_hand"]


RANKED = tuple(f"{rank}." for rank in range(1, 10))


def test_fermenters_may_be_given_again(said):
    _, out, _ = said(*KITCHEN, "--fermenter", "15 L")
    assert "Buy: another 12 L" not in out
    assert "into the 15 L fermenter" in out


def test_what_the_kitchen_has_changes_what_is_found(said):
    _, out, _ = said(*KITCHEN, "--second-pot", "7 L", "--json")
    assert "second pot" in {way["key"] for way in json.loads(out)["ways"]}
    _, out, _ = said(*KITCHEN, "--frozen", "4 kg", "--json")
    assert any(way["cooling"]["frozen_kg"] > 0 for way in json.loads(out)["ways"])
    _, out, _ = said(*KITCHEN, "--whole-packs", "--json")
    found = json.loads(out)
    assert "whole packs" in {each["key"] for each in found["ways"] + found["does_not_work"]}
    _, out, _ = said(*KITCHEN, "--late", "0 %", "--json")
    assert "late extract" not in {way["key"] for way in every_way(json.loads(out))}


def every_way(found):
    return [*found["ways"], *(each for way in found["ways"] for each in way["much_the_same"])]


def test_hops_in_hand_make_up_for_a_strong_boil(said):
    words = ("fit", str(resource_path("examples/slipway_bitter.hobwort")), "--pot", "6 L",
             "--hop", "Magnum, 12 %, 30 g", "--json")  # fmt: skip
    code, out, _ = said(*words)
    assert code == 0
    found = json.loads(out)
    hands = [way for way in every_way(found) if way["key"] == "other hops"]
    assert "Magnum" in {each["name"] for each in hands[0]["boils"][0]["goes_in"]}


BITTER = ("fit", str(resource_path("examples/slipway_bitter.hobwort")), "--pot", "6 L")


def test_what_must_be_bought_is_told_in_the_packs_of_a_shop(said):
    _, out, _ = said(*BITTER)
    assert "1 × 25 g bag" in out
    _, out, _ = said(*BITTER, "--units", "us")
    assert "1 × 1 oz bag" in out
    _, out, _ = said(*BITTER, "--json")
    bought = [each for way in json.loads(out)["ways"] for each in way["must_buy"]]
    assert {"count": 1, "pack": "25 g bag"} in [pack for each in bought for pack in each["packs"]]


def test_the_pack_sizes_kept_in_the_recipe_box_are_taken(said, tmp_path, monkeypatch):
    from designer.library.packs import pack_size
    from designer.library.store import Store
    from designer.library.store.shop import keep_shop_packs
    from designer.recipe.quantity import Quantity

    monkeypatch.setenv("HOBWORT_STORE", str(tmp_path))
    with Store.open(tmp_path) as store:
        keep_shop_packs(store, "metric", (pack_size("hops", Quantity(0.03, "30 g"), "box"),))
    _, out, _ = said(*BITTER)
    assert "1 × 30 g box" in out
    assert "25 g bag" not in out


def test_a_recipe_box_that_cannot_be_read_is_told_of_and_the_usual_sizes_taken(
    said, tmp_path, monkeypatch
):
    monkeypatch.setenv("HOBWORT_STORE", str(tmp_path))
    (tmp_path / "recipe-box.db").write_bytes(b"")
    code, out, err = said(*BITTER)
    assert code == 0
    assert "1 × 25 g bag" in out
    assert err.startswith("the usual pack sizes are taken: ")


def test_a_field_can_be_set_first(said):
    _, out, _ = said(*KITCHEN, "--set", "process.top_up_to=10 L", "--json")
    assert json.loads(out)["original_batch_l"] == pytest.approx(10.0, abs=0.01)


def test_without_vessels_those_of_the_recipe_are_taken(said):
    _, given, _ = said(*KITCHEN, "--json")
    _, own, _ = said("fit", KIT, "--json")
    assert json.loads(own) == json.loads(given)


def test_a_kitchen_in_which_nothing_works_is_no_error(said):
    code, out, err = said("fit", KIT, "--pot", "1 L", "--fermenter", "2 L")
    assert (code, err) == (0, "")
    assert "Nothing works in this kitchen" in out
    assert "Does not work here:" in out
    assert "A pot of" in out


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--pot", "9 kg"), "--pot: "),
        (("--pot", "0 L"), "--pot: "),
        (("--fermenter", "many"), "--fermenter: "),
        (("--power", "9 L"), "--power: "),
        (("--frozen", "-3 kg"), "--frozen: "),
        (("--late", "200 %"), "--late: "),
        (("--hop", "Magnum"), "--hop: "),
        (("--hop", "Magnum, 12 L, 3 g"), "--hop: "),
        (
            ("--hop", "Magnum, 31 %, 3 g"),
            "--hop: “31 %” is not the alpha acid of a hop: from 0.1 % to",
        ),
        (("--hop", "Magnum, 12 %, 11 kg"), "--hop: “11 kg” is not an amount in hand"),
    ],
)
def test_what_cannot_be_taken_is_refused_in_one_line(said, words, told):
    code, out, err = said("fit", KIT, *words)
    assert (code, out) == (1, "")
    assert err.startswith(told)
    assert err.count("\n") == 1
    assert err.rstrip("\n")[-1] == "."
    assert ".." not in err


def test_all_faults_are_told_at_once(said):
    code, _, err = said("fit", KIT, "--pot", "x", "--fermenter", "y", "--hop", "z")
    assert code == 1
    assert err.count("\n") == 3


def test_wrong_usage_is_exit_code_two(said):
    assert said("fit")[0] == 2
    assert said("fit", KIT, "--units", "cubits")[0] == 2
    assert said("fit", "nowhere.hobwort")[0] == 1


def test_help_shows_per_cents_as_they_are_typed(said):
    _, out, _ = said("fit", "--help")
    assert '--late "50 %"' in out
    assert "7.2 %, 50 g" in out
    assert "%%" not in out


def test_vessels_are_called_by_the_size_that_was_typed(said):
    _, out, _ = said("fit", KIT, "--pot", "4 gal", "--fermenter", "5 gal")
    assert "in the 4 gal pot" in out
    assert "another 18.9 L plastic bucket" in out
    assert "18.9271" not in out
    assert "15.1416" not in out
    _, us, _ = said("fit", KIT, "--pot", "4 gal", "--fermenter", "5 gal", "--units", "us")
    assert "another 5 gal plastic bucket" in us


WHEAT = str(resource_path("examples/foghorn_wheat.hobwort"))


def test_every_mass_is_one_that_a_kitchen_scale_shows(said):
    """A gram from 100 g, a tenth of one below: what scales show, common practice, no source."""
    for pot in ("5 L", "9 L", "15.1 L"):
        _, out, _ = said("fit", WHEAT, "--pot", pot, "--fermenter", "12 L")
        assert "Left over: " in out
        assert not re.findall(r"\d{3}\.\d+ g\b|\d\.\d{4,} (?:kg|L)\b", out)


def test_amounts_are_in_the_units_that_are_preferred(said):
    _, out, _ = said("fit", WHEAT, "--pot", "4 gal", "--fermenter", "4 gal", "--units", "us")
    assert not re.findall(r"\d (?:k?g|L)\b(?! packet)", out)


def test_same_is_said_just_where_the_figures_shown_are_equal(said):
    for pot in ("9 L", "15.1 L"):
        _, out, _ = said("fit", KIT, "--pot", pot, "--fermenter", "23 L")
        original = json.loads(said("fit", KIT, "--pot", pot, "--fermenter", "23 L", "--json")[1])
        before = f"{original['original']['kj_per_100ml']['value']:.0f}"
        lines = [line.split() for line in out.splitlines() if "kJ/100 mL" in line]
        assert lines
        for line in lines:
            value, change = line[3], line[9]
            assert (line[4], line[8]) == ("kJ", "kJ")
            assert (change == "same") == (value == before)
            assert change == "same" or int(value) - int(before) == int(change)
            assert line[10:] == ([] if change == "same" else ["kJ"])


SLIPWAY = str(resource_path("examples/slipway_bitter.hobwort"))


def test_a_dry_hop_has_no_minute_of_the_brewing_day(said):
    _, out, _ = said("fit", SLIPWAY)
    [line] = [each for each in out.splitlines() if each.endswith("dry hop")]
    assert line.split() == ["10", "g", "East", "Kent", "Golding,", "dry", "hop"]
    found = json.loads(said("fit", SLIPWAY, "--json")[1])
    goes_in = found["ways"][0]["boils"][0]["goes_in"]
    assert [each["time_min"] for each in goes_in if each["stage"] == "dry hop"] == [None]
    assert all(each["time_min"] is not None for each in goes_in if each["stage"] != "dry hop")


def test_syrup_that_is_left_over_is_not_said_to_set_like_stone(said):
    _, out, _ = said("fit", SLIPWAY, "--pot", "5 L")
    said_of = out.split("of Golden syrup. ")[1:]
    assert said_of
    assert all(each.startswith("Closed and dry; a syrup") for each in said_of)


def ways_told(said):
    return every_way(json.loads(said(*KITCHEN, "--json")[1]))


@pytest.fixture
def use(said, tmp_path):
    """Writes way N to a file and returns its path and what was printed."""

    def write(rank, *words):
        out = tmp_path / f"way{rank}.hobwort"
        code, printed, complaints = said(*KITCHEN, "--use", str(rank), "-o", str(out), *words)
        assert (code, complaints) == (0, "")
        return out, printed

    return write


def test_each_way_is_written_as_the_recipe_with_its_plan_and_gives_what_was_told(said, use):
    for way in ways_told(said):
        out, printed = use(way["rank"])
        recipe = load(out)
        assert is_planned(recipe)
        assert as_written(recipe) == load(Path(KIT)), "the beer stays as it is written"
        assert printed.startswith(f"{out}: way {way['rank']}, {way['name'].lower()}. Brewed ")
        outlook = look_ahead(recipe)
        filled = sum(each.total_l for each in outlook.plan.fermenters)
        assert filled == pytest.approx(way["batch_l"], abs=0.05)
        for key, told in way["forecasts"].items():
            gravity = key in ("original_gravity", "final_gravity")
            near = 0.001 if gravity else 0.02 * max(1.0, abs(told["value"]))
            assert outlook.forecasts[key].value == pytest.approx(told["value"], abs=near), key


def test_what_is_written_can_be_forecast_and_checked_and_fitted_again(said, use, tmp_path):
    rank = next(way["rank"] for way in ways_told(said) if way["key"] == "two boils")
    out, printed = use(rank)
    assert printed.endswith(
        "Brewed in 2 boils in the Kitchen pot of 9 L, into 2 × Small bucket of 12 L.\n"
    )
    for words in (("forecast", str(out)), ("forecast", str(out), "--json"), ("check", str(out))):
        code, told, complaints = said(*words)
        assert (code, complaints) == (0, "")
        assert told
    again = json.loads(said("fit", str(out), *KITCHEN[2:], "--json")[1])
    assert again == json.loads(said(*KITCHEN, "--json")[1]), "it is fitted as it is written"
    other = tmp_path / "other.hobwort"
    assert said("fit", str(out), *KITCHEN[2:], "--use", str(rank), "-o", str(other))[0] == 0
    assert load(other) == load(out)


def test_json_of_a_way_that_is_used_tells_where_it_was_written_and_how_it_is_brewed(said, use):
    out, printed = use(3, "--json")
    found = json.loads(printed)
    assert found["written"] == str(out)
    assert found.keys() == {"form", "written", "way"}
    assert found["way"]["brewed"] == plan_words(load(out)).text
    assert found["way"] == ways_told(said)[2]


def test_what_is_set_first_is_in_what_is_written(use):
    out, _ = use(1, "--set", "name=Lamp Red")
    assert load(out).name == "Lamp Red"


def test_a_recipe_that_fits_as_it_is_written_is_written_without_a_plan(said, tmp_path):
    out = tmp_path / "fits.hobwort"
    porter = str(resource_path("examples/harbour_lamp_porter.hobwort"))
    code, printed, _ = said("fit", porter, "--use", "1", "-o", str(out))
    assert code == 0
    assert printed.endswith("Brewed as written.\n")
    assert load(out) == load(Path(porter))


def test_no_file_that_is_there_is_written_over(said, tmp_path):
    out = tmp_path / "mine.hobwort"
    out.write_text("{}", encoding="utf-8")
    code, printed, complaints = said(*KITCHEN, "--use", "1", "-o", str(out))
    assert (code, printed) == (1, "")
    assert complaints == (
        f"{out} is there already and stays as it is; name another file, or replace it with "
        "--force.\n"
    )
    assert out.read_text("utf-8") == "{}"
    code, _, complaints = said(*KITCHEN, "--use", "1", "-o", KIT)
    assert code == 1
    assert "is there already" in complaints


@pytest.mark.parametrize(
    ("out", "told"),
    [
        ("", "is a folder; give a file name inside it."),
        ("no/such/way.hobwort", "is not there. Save under another name"),
        (f"{'x' * 300}.hobwort", "could not be written: file name too long."),
        ("a\0b.hobwort", "could not be written: no name that a file can have."),
    ],
)
def test_where_no_file_can_be_written_it_is_said(said, tmp_path, out, told):
    code, printed, complaints = said(*KITCHEN, "--use", "1", "-o", str(tmp_path / out))
    assert (code, printed) == (1, "")
    assert told in complaints
    assert complaints.count("\n") == 1


@pytest.mark.parametrize("rank", ["0", "-1", "40", "99999999999999999999"])
def test_a_way_that_is_not_there_is_refused_with_how_many_there_are(said, tmp_path, rank):
    out = tmp_path / "way.hobwort"
    count = len(ways_told(said))
    code, printed, complaints = said(*KITCHEN, "--use", rank, "-o", str(out))
    assert (code, printed) == (1, "")
    assert complaints == (
        f"--use {rank}: no way has that number; there are {count}, from 1 to {count}. Without "
        "--use they are printed.\n"
    )
    assert not out.exists()


def test_where_there_is_one_way_or_none_a_number_that_is_not_there_is_refused_so(said, tmp_path):
    out = ("-o", str(tmp_path / "way.hobwort"))
    porter = str(resource_path("examples/harbour_lamp_porter.hobwort"))
    assert said("fit", porter, "--use", "2", *out)[2] == (
        "--use 2: there is one way only; use 1.\n"
    )
    nothing = said("fit", KIT, "--pot", "1 L", "--fermenter", "2 L", "--use", "1", *out)
    assert nothing[0] == 1
    assert nothing[2].startswith("--use 1: Nothing works in this kitchen")


@pytest.mark.parametrize("words", [("--use", "1"), ("-o", "way.hobwort")])
def test_which_way_and_where_to_go_together(said, words):
    code, printed, complaints = said(*KITCHEN, *words)
    assert (code, printed) == (2, "")
    assert complaints == (
        "--use N and -o OUT go together: which way, and the file to write it to.\n"
    )


def test_the_help_tells_every_option_and_shares_with_one_percent_sign(said):
    code, told, _ = said("fit", "--help")
    assert code == 0
    for option in (
        "--pot", "--fermenter", "--second-pot", "--power", "--frozen", "--late", "--hop",
        "--whole-packs", "--units", "--json", "--use", "-o", "--set",
    ):  # fmt: skip
        assert f"\n  {option}" in told, option
    assert '--late "50 %"' in told
    assert "%%" not in told


def test_fields_of_a_plan_are_set_together_and_then_asked_whether_they_make_one(said, use):
    rank = next(way["rank"] for way in ways_told(said) if way["key"] == "one boil")
    out = str(use(rank)[0])
    more, less = "fermenters.1.from.1.share=60 %", "fermenters.2.from.1.share=40 %"
    code, printed, complaints = said("forecast", out, "--json", "--set", more, "--set", less)
    assert (code, complaints) == (0, "")
    shares = [each["from"][0]["share"] for each in json.loads(printed)["fermenters"]]
    assert shares == [pytest.approx(0.6), pytest.approx(0.4)]
    code, printed, complaints = said("forecast", out, "--set", more)
    assert (code, printed) == (1, "")
    assert complaints == (
        "--set fermenters: they take 110 % of the wort of boil 1; there is no more than all: "
        "give some of them less\n"
    )


def test_a_sheet_is_written_of_each_way_with_each_boil_and_each_fermenter(said, use, tmp_path):
    for way in ways_told(said):
        out, _ = use(way["rank"])
        paper = tmp_path / "sheet.txt"
        assert said("sheet", str(out), "-o", str(paper))[0] == 0
        sheet = paper.read_text("utf-8")
        plan = load(out)
        assert plan.name in sheet
        if len(plan.fermenters) > 1:
            assert "Fermenter 1" in sheet
            assert f"Fermenter {len(plan.fermenters)}" in sheet
        if len(plan.boils) > 1:
            assert f"{len(plan.boils)} boils" in sheet
