"""The command line, as a brewer or a script uses it: what is printed, where, and the exit code."""

import io
import json
import os
import re
import signal
import subprocess
import sys
from pathlib import Path

import pytest

import designer
from designer.brewday.outlook import look_ahead
from designer.command_line import run
from designer.command_line.usage import COMMANDS
from designer.library.recipe_file import load
from designer.library.schema import schema
from designer.resource_files import resources_folder
from designer.workbench.figures import told_forecasts

EXAMPLES = sorted((resources_folder() / "examples").glob("*.hobwort"))
PORTER = str(resources_folder() / "examples" / "harbour_lamp_porter.hobwort")
KIT = str(resources_folder() / "examples" / "breakwater_red.hobwort")
ROOT = Path(__file__).parents[1]
SPREAD = ("original_gravity", "final_gravity", "abv_percent", "bitterness_ibu", "colour_srm")


@pytest.fixture
def said(capsys):
    """Runs a command and returns its exit code and the lines of both outputs."""

    def say(*words):
        code = run(words)
        output = capsys.readouterr()
        assert "Traceback" not in output.err
        return code, output.out.splitlines(), output.err.splitlines()

    return say


@pytest.fixture
def forecast(capsys):
    """The values of `forecast --json`."""

    def ask(*words):
        assert run(["forecast", *words, "--json"]) == 0
        return json.loads(capsys.readouterr().out)

    return ask


@pytest.fixture
def brew(tmp_path):
    """Writes a recipe file of the present format."""

    def write(**parts):
        path = tmp_path / "brew.hobwort"
        path.write_text(json.dumps({"hobwort": 1, **parts}), encoding="utf-8")
        return str(path)

    return write


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_a_forecast_is_lines_with_every_figure_and_its_range(path, said):
    code, lines, complaints = said("forecast", str(path), "--colour", "srm")
    assert (code, complaints) == (0, [])
    recipe = load(path)
    outlook = look_ahead(recipe)
    assert lines[0] == recipe.name
    for each in told_forecasts():
        (line,) = [line for line in lines if line.startswith(f"  {each.label}  ")]
        assert " to " in line
    for finding in outlook.findings:
        assert any(finding.message.text in line for line in lines)
    for word in ("Pot:", "Boil:", "Cool:", "Fermenter:"):
        assert sum(line.startswith(f"  {word}") for line in lines) == 1


def test_direction_marks_of_a_file_do_not_reach_paper_and_it_is_said(said, tmp_path):
    file = tmp_path / "marked.hobwort"
    file.write_text('{"hobwort": 1, "name": "Lamp\u202e Porter\u200f"}', encoding="utf-8")
    code, lines, complaints = said("sheet", str(file), "-o", str(tmp_path / "s.html"), "--html")
    assert (code, len(lines)) == (0, 1)
    assert "Invisible direction and control" in complaints[0]
    paper = (tmp_path / "s.html").read_text("utf-8")
    assert "Lamp Porter" in paper
    assert "\u202e" not in paper


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_a_forecast_as_json_has_every_key_with_numbers_in_order(path, forecast):
    found = forecast(str(path))
    assert found["form"] == 2
    for key in (*SPREAD, "colour_ebc", "kcal_per_100ml", "kj_per_100ml"):
        reading = {"reading"} if key.endswith("gravity") else set()
        assert found[key].keys() == {"value", "low", "high", "middle", "leans", "causes", *reading}
        assert found[key]["low"] < found[key]["value"] < found[key]["high"], key
        shares = [cause["share"] for cause in found[key]["causes"]]
        assert shares == sorted(shares, reverse=True)
        assert 0.5 < sum(shares) <= 1.05, "what causes most of the range is told"
        for cause in found[key]["causes"]:
            assert cause.keys() == {"input", "share", "advice", "low", "high", "brews"}
            assert cause["low"] <= cause["high"]
    assert found["pot"].keys() == {"start_l", "fullest_l", "fullest_at", "end_l", "rim_l"}
    assert found["fermenter"].keys() == {"from_pot_l", "top_up_l", "hot_l", "total_l", "brim_l"}
    for finding in found["watch_out"]:
        assert finding["code"]
        assert finding["message"]
    assert found["colour_ebc"]["value"] == pytest.approx(1.97 * found["colour_srm"]["value"])
    assert found["pot"]["fullest_l"] >= found["pot"]["start_l"] > 0.0
    fermenter = found["fermenter"]
    assert fermenter["total_l"] > fermenter["from_pot_l"]
    assert 1.0 < found["boil_gravity_start"] <= found["boil_gravity_end"] < 1.2


def test_the_porter_s_gravity_is_that_of_its_extract_in_ten_litres(forecast):
    """Source: points of extract by hand, from common practice: 1 kg of liquid extract (80 %) and
    0.4 kg of dry (96.5 %), 0.2 kg of crystal malt (39 %) and 0.15 kg of chocolate malt (32 %) hold
    1.31 kg of extract, less what stays in the pot with 0.5 of 6 L; a kilogram of extract in 10 L is
    about 38.6 points (46.2 points a pound in a US gallon: Palmer, How to Brew, from memory).
    """
    extract_kg = 1.0 * 0.80 + 0.4 * 0.965 + 0.2 * 0.39 + 0.15 * 0.32
    extract_kg *= 1 - 0.5 / 6.0
    points = extract_kg * 46.2 * (3.785412 / 0.45359237) / 10.0
    found = forecast(PORTER)["original_gravity"]
    assert 1000 * (found["value"] - 1) == pytest.approx(points, rel=0.05)


def test_json_and_text_come_from_the_same_day(forecast, said):
    found = forecast(PORTER)
    _, lines, _ = said("forecast", PORTER)
    gravity = next(line for line in lines if "Original gravity" in line)
    figures = [f"{found['original_gravity'][key]:.3f}" for key in ("value", "low", "high")]
    assert gravity.split()[2:6] == [figures[0], figures[1], "to", figures[2]]


def test_the_kit_that_does_not_fit_is_told_with_its_code(forecast):
    found = forecast(KIT)
    assert found["fermenter"]["total_l"] > found["fermenter"]["brim_l"] == 12.0
    assert any("will not fit" in finding["message"] for finding in found["watch_out"])


def test_fields_are_set_before_the_forecast_and_the_file_is_left_alone(forecast):
    before = Path(PORTER).read_bytes()
    usual = forecast(PORTER)
    weaker = forecast(PORTER, "--set", "process.top_up_to=12 L", "--set", "hops.1.alpha=6 %")
    assert weaker["original_gravity"]["value"] < usual["original_gravity"]["value"]
    assert weaker["bitterness_ibu"]["value"] < usual["bitterness_ibu"]["value"]
    assert weaker["fermenter"]["total_l"] == pytest.approx(12.0)
    assert Path(PORTER).read_bytes() == before


@pytest.mark.parametrize(
    ("change", "problem"),
    [
        ("process.top_up_to", '--set “process.top_up_to”: write it as place="text"'),
        ("process.top_up_to=9 kg", "--set process.top_up_to: “9 kg” is not a volume"),
        ("process.top_up_to=", "--set process.top_up_to: nothing is typed; wanted is a volume"),
        ("process.topup=9 L", "--set process.topup: no such field; there are "),
        ("hops.9.alpha=6 %", "--set hops.9.alpha: hops has 2 lines, counted from 1"),
        ("=9 L", "--set : no such place"),
        ("beer=good", "--set beer: no such place"),
        ("process.boil_time=-5 min", "--set process.boil_time: “-5 min” is outside 0 min to 24 h"),
        ("process.start_time=noon", "--set process.start_time: “noon” is not a time of the day"),
    ],
)
def test_a_change_that_cannot_be_made_is_refused_in_one_line(change, problem, said):
    code, lines, complaints = said("forecast", PORTER, "--set", change)
    assert (code, lines, len(complaints)) == (1, [], 1)
    assert complaints[0].startswith(problem)


def test_every_change_that_cannot_be_made_has_its_line(said):
    code, _, complaints = said(
        "forecast", PORTER, "--set", "pot.volume=9 kg", "--set", "name=Ale", "--set", "beer=good"
    )
    assert code == 1
    assert [line.split(":")[0] for line in complaints] == ["--set pot.volume", "--set beer"]


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_a_check_tells_what_to_watch_and_that_the_file_is_sound(path, said):
    code, lines, complaints = said("check", str(path))
    findings = look_ahead(load(path)).findings
    assert (code, complaints) == (0, [])
    assert len(lines) == len(findings) + 1
    assert lines[-1].startswith(f"{path}: a sound recipe file, ")
    assert [line.partition(":")[0] for line in lines[:-1]] == [each.severity for each in findings]


def test_the_schema_is_printed_as_it_is_published(said):
    code, lines, _ = said("schema")
    assert code == 0
    assert json.loads("\n".join(lines)) == schema()


@pytest.mark.parametrize(
    "words",
    [
        ["forecast"],
        ["forecast", PORTER, "--yaml"],
        ["forecast", PORTER, "--set"],
        ["check"],
        ["schema", "now"],
        ["sheet", PORTER],
        ["sheet", PORTER, "-o", "x.pdf", "--paper", "a3"],
        ["sheet", PORTER, "-o", "x.pdf", "--units", "cubits"],
        ["--no-such-thing"],
        [PORTER, "another"],
    ],
)
def test_a_command_used_wrongly_ends_with_2_and_says_how_it_is_used(words, said):
    code, lines, complaints = said(*words)
    assert (code, lines) == (2, [])
    assert complaints[0].startswith("usage: hobwort")


def test_the_help_of_the_forecast_says_where_the_keys_of_its_json_are_told(said):
    _, lines, _ = said("forecast", "--help")
    assert "hobwort schema forecast tells its keys" in " ".join(" ".join(lines).split())


def test_help_and_version_are_not_failures(said):
    for command in COMMANDS:
        code, lines, _ = said(command, "--help")
        assert code == 0
        assert lines[0].startswith(f"usage: hobwort {command}")
    code, lines, _ = said("--version")
    assert (code, lines[0]) == (0, f"hobwort {designer.__version__}")
    told = [line.split()[0] for line in lines[1:]]
    assert told == ["Python", "PySide6", "Qt", "SQLite", "Recipe"]
    assert all(re.search(r"\d", line) for line in lines)


@pytest.mark.parametrize("command", ["forecast", "check"])
def test_a_refused_file_ends_with_1_and_one_line_for_each_problem(command, said, brew):
    path = brew(nmae="x", pot={"volume": "9 kg"}, hops=[{"amount": "-1 g"}])
    code, lines, complaints = said(command, path)
    assert (code, lines) == (1, [])
    assert [line.removeprefix(f"{path}: ").split(":")[0] for line in complaints] == [
        "unknown key “nmae”; did you mean “name”?",
        "pot.volume",
        "hops[1].amount",
    ]


def test_a_missing_file_a_folder_and_what_is_no_recipe_end_with_1(said, tmp_path):
    broken = tmp_path / "broken.hobwort"
    broken.write_text('{\n "hobwort": 1,\n "name" "x"}', encoding="utf-8")
    for path, what in [
        (tmp_path / "nowhere.hobwort", "is not there"),
        (tmp_path, "is a folder"),
        (broken, "line 3, column 9: this is not JSON"),
    ]:
        code, lines, complaints = said("check", str(path))
        assert (code, lines, len(complaints)) == (1, [], 1)
        assert what in complaints[0]
    assert said("open", str(tmp_path))[0::2] == (
        1, [f"{tmp_path} is a folder; give a recipe file inside it."]
    )  # fmt: skip


@pytest.mark.parametrize(
    "typed", ["noon", "25:00", "09:60", "9", "", "9.30", "now\nthen", "-1:00", "09:00:00"]
)
def test_a_sheet_starts_at_a_clock_time_or_not_at_all(typed, said, tmp_path):
    output = tmp_path / "sheet.pdf"
    code, lines, complaints = said("sheet", PORTER, "-o", str(output), f"--start={typed}")
    assert (code, lines, len(complaints)) == (1, [], 1)
    assert complaints[0].startswith("--start: “")
    assert complaints[0].endswith("is not a time of the day, such as 09:00 or 18:30")
    assert not output.exists()


def test_nothing_in_a_recipe_gives_orders_to_the_terminal(said, brew):
    evil = "Red\x1b[31m\nAle\x07"
    path = brew(
        name=evil,
        fermentables=[{"name": evil, "amount": "100 kg", "when": "boil 60 min"}],
        hops=[{"name": evil, "amount": "1 kg", "when": "boil 60 min"}],
        pot={"volume": "5 L"},
    )
    for command in ("forecast", "check"):
        code, lines, _ = said(command, path)
        assert code == 0
        assert not any(sign in line for line in lines for sign in "\x1b\x07\r")
    assert said("forecast", path)[1][0] == "Red\ufffd[31m Ale\ufffd"
    _, _, complaints = said("check", f"{path}\x1b[2J")
    assert "\x1b" not in complaints[0]


FOOLISH = {
    "nothing at all": {},
    "no water": {"process": {"start_water": "0 L", "top_up_to": "0 L"}},
    "no boil": {"process": {"boil_time": "0 min"}, "hops": [{"name": "x", "amount": "20 g"}]},
    "100 kg in 5 L": {
        "pot": {"volume": "5 L"},
        "fermentables": [{"name": "x", "amount": "100 kg"}],
    },
    "no fermentables": {"hops": [{"name": "Fuggle", "amount": "1 kg", "when": "boil 90 min"}]},
}


@pytest.mark.parametrize("parts", FOOLISH.values(), ids=FOOLISH)
def test_a_possible_but_foolish_recipe_is_forecast_with_findings(parts, said, brew):
    path = brew(**parts)
    code, lines, complaints = said("forecast", path, "--json")
    assert (code, complaints) == (0, [])
    found = json.loads("\n".join(lines))
    assert found["watch_out"]
    assert "NaN" not in "".join(lines)
    assert said("forecast", path)[0] == said("check", path)[0] == 0


def child(*words, **how):
    """The program in a process of its own."""
    return subprocess.run(
        [sys.executable, "-m", "designer", *words],
        cwd=ROOT,
        stderr=subprocess.PIPE,
        timeout=120,
        check=False,
        **how,
    )


def test_the_program_forecasts_in_a_process_of_its_own_whatever_the_locale():
    done = child("forecast", PORTER, stdout=subprocess.PIPE, env={**os.environ, "LC_ALL": "C"})
    assert (done.returncode, done.stderr) == (0, b"")
    assert "°C" in done.stdout.decode("utf-8")


def test_the_program_refuses_in_a_process_of_its_own_without_a_traceback(brew):
    done = child("check", brew(pot={"volume": "nan L"}), stdout=subprocess.PIPE)
    assert (done.returncode, done.stdout) == (1, b"")
    (line,) = done.stderr.decode("utf-8").splitlines()
    assert "pot.volume: “nan L” is not a volume" in line
    assert child("forecast", stdout=subprocess.PIPE).returncode == 2


def test_a_file_name_that_is_not_utf_8_is_told_and_not_a_crash():
    done = child("check", b"no\xff.hobwort", stdout=subprocess.PIPE)
    assert done.returncode == 1
    assert len(done.stderr.splitlines()) == 1
    assert b"is not there" in done.stderr


def test_a_reader_that_has_read_enough_is_no_failure():
    reading, writing = os.pipe()
    os.close(reading)
    try:
        done = child("schema", stdout=writing)
    finally:
        os.close(writing)
    assert (done.returncode, done.stderr) == (0, b"")


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="a device of Linux systems")
@pytest.mark.parametrize("words", [["schema"], ["check", PORTER], ["forecast", PORTER, "--json"]])
def test_an_output_that_cannot_be_written_is_told_in_one_line(words):
    with Path("/dev/full").open("wb") as full:
        done = child(*words, stdout=full)
    assert done.returncode == 1
    assert done.stderr.splitlines() == [
        b"the output could not be written: no space left on device. Make room there, or lead it "
        b"elsewhere."
    ]


def ended(program):
    """Run a program of its own to its end."""
    return subprocess.run(
        [sys.executable, "-c", program], capture_output=True, cwd=ROOT, timeout=60
    )


@pytest.mark.skipif(os.name != "posix", reason="other systems end a program otherwise")
def test_ctrl_c_ends_a_command_without_a_word_and_as_a_shell_expects_it():
    """A shell stops its script where what it ran died of the signal; common practice."""
    interrupted = (
        "import sys; from designer import __main__, command_line\n"
        "def stopped(words): print('begun'); raise KeyboardInterrupt\n"
        "command_line.run = stopped; sys.exit(__main__.main())"
    )
    done = ended(interrupted)
    assert (done.returncode, done.stderr) == (-signal.SIGINT, b"")
    assert done.stdout == b"begun\n"


@pytest.mark.skipif(os.name != "posix", reason="other systems end a program otherwise")
def test_ctrl_c_before_there_is_a_window_ends_the_program_without_a_word():
    interrupted = (
        "import signal; from designer.command_line import open_command\n"
        "open_command.import_qt = lambda: signal.raise_signal(signal.SIGINT)\n"
        "open_command.open_window(None)"
    )
    done = ended(interrupted)
    assert (done.returncode, done.stdout, done.stderr) == (-signal.SIGINT, b"", b"")


def test_outputs_that_are_closed_are_no_failure(monkeypatch):
    monkeypatch.setattr(sys, "stdout", None)
    monkeypatch.setattr(sys, "stderr", None)
    assert run(["check", PORTER]) == 0
    assert isinstance(sys.stdout, io.StringIO)
    assert run(["check", "nowhere"]) == 1


@pytest.mark.parametrize(
    "words",
    [
        ("sheet", PORTER, "-o", ""),
        ("sheet", PORTER, "-o", "  "),
        ("sheet", "", "-o", "out.pdf"),
        ("check", ""),
        ("forecast", PORTER, "--set", ""),
        ("fit", PORTER, "--pot", ""),
        ("fit", PORTER, "--fermenter", ""),
        ("fit", PORTER, "--second-pot", ""),
        ("fit", PORTER, "--power", " "),
        ("fit", PORTER, "--frozen", ""),
        ("fit", PORTER, "--late", ""),
        ("fit", PORTER, "--hop", ""),
        ("",),
    ],
)
def test_an_empty_value_is_wrong_usage_and_nothing_is_written(said, tmp_path, monkeypatch, words):
    """It comes of a script gone wrong: `-o "$OUT"` with OUT unset."""
    there = tmp_path / "harbour_lamp_porter.pdf"
    there.write_bytes(b"another sheet")
    monkeypatch.chdir(tmp_path)
    code, printed, complaints = said(*words)
    assert code == 2
    assert printed == []
    assert complaints[-1].endswith("nothing is given; write a value, or leave the option out")
    assert [each.name for each in tmp_path.iterdir()] == [there.name]
    assert there.read_bytes() == b"another sheet"


LONG = 100_000 * "9"
ODD = [
    ("forecast", PORTER, "--set", LONG),
    ("forecast", PORTER, "--set", f"{LONG}=1 L"),
    ("forecast", PORTER, "--set", f"process.{LONG}=1 L"),
    ("forecast", PORTER, "--set", f"hops.{LONG}.alpha=1 %"),
    ("forecast", PORTER, "--set", f"process.top_up_to={LONG}"),
    ("forecast", PORTER, "--set", f"process.top_up_to={LONG} L"),
    ("forecast", PORTER, "--set", f"name={LONG}"),
    ("forecast", PORTER, "--set", "name=ale\udcff"),
    ("forecast", PORTER, "--set", "process.top_up_to=9 L\n9"),
    ("forecast", PORTER, "--set", "\x1b[31m=\x1b[31m"),
    ("check", LONG),
    ("check", "one\ntwo"),
    ("check", "ale\udcff"),
    ("fit", PORTER, "--pot", LONG),
    ("fit", PORTER, "--pot", "0 L"),
    ("fit", PORTER, "--pot", "nan L"),
    ("fit", PORTER, "--pot", "9 L\n9"),
    ("fit", PORTER, "--power", "-5 W"),
    ("fit", PORTER, "--late", "101 %"),
    ("fit", PORTER, "--hop", LONG),
    ("fit", PORTER, "--hop", ",,"),
    ("sheet", PORTER, "-o", "out.pdf", "--date", LONG),
    ("sheet", PORTER, "-o", "out.pdf", "--start", "25:00"),
    ("sheet", PORTER, "-o", LONG),
]


@pytest.mark.parametrize("words", ODD, ids=range(len(ODD)))
def test_an_odd_value_is_refused_in_one_line_that_can_be_read(said, tmp_path, monkeypatch, words):
    monkeypatch.chdir(tmp_path)
    code, printed, complaints = said(*words)
    assert code == 1
    assert printed == []
    assert len(complaints) == 1
    assert len(complaints[0]) <= 620
    assert complaints[0].isprintable()
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize("words", [(LONG, LONG, LONG), ("fit", PORTER, "--units", LONG)])
def test_wrong_usage_is_told_in_one_line_behind_the_usage_however_long_it_was(said, words):
    code, _, complaints = said(*words)
    assert code == 2
    assert complaints[0].startswith("usage:")
    assert len([each for each in complaints if "error:" in each]) == 1
    assert max(map(len, complaints)) < 700


@pytest.mark.parametrize("pot", ["0 L", "-1 L", "-1L", "-.5L"])
def test_a_value_out_of_bounds_is_told_with_the_bounds(said, pot):
    assert said("fit", PORTER, "--pot", pot)[2] == [f"--pot: “{pot}” is outside 0.5 L to 10000 L."]


@pytest.mark.parametrize(
    ("words", "line"),
    [
        (["1.5 stone", "kg"], "1.5 stone = 9.52544 kg"),
        (["155 F", "°C"], "155 F = 68.3333 °C"),
        (["6.5-8.5 lb", "oz"], "6.5-8.5 lb = 104 to 136 oz"),
        (["9 F", "C", "--kind", "temperature difference"], "9 F = 5 C"),
    ],
)
def test_a_quantity_is_told_in_another_unit(words, line, said):
    assert said("convert", *words) == (0, [line], [])


def test_a_converted_quantity_is_told_with_the_signs_and_words_of_the_language(said, monkeypatch):
    monkeypatch.setenv("LC_ALL", "de_DE.UTF-8")
    assert said("convert", "1.044", "°P")[1] == ["1.044 = 10,9536 °P"]
    assert said("convert", "6.5-8.5 lb", "oz")[1] == ["6.5-8.5 lb = 104 bis 136 oz"]
    assert "-273,15 °C" in said("convert", "-300 C", "°F")[2][0]


def test_a_converted_quantity_as_json_is_plain_values(said):
    code, lines, _ = said("convert", "2 ± 1 lb", "oz", "--json")
    assert code == 0
    assert json.loads("\n".join(lines)) == {
        "form": 1, "quantity": "2 ± 1 lb", "kind": "mass", "value": 32.0, "unit": "oz", "low": 16.0,
        "high": 48.0,
    }  # fmt: skip


def test_a_quantity_of_another_kind_is_not_converted_and_one_line_says_why(said):
    code, lines, complaints = said("convert", "1 L", "kg")
    assert (code, lines, len(complaints)) == (1, [], 1)
    assert complaints[0].endswith("(l is a unit of volume)")
    code, lines, complaints = said("convert", "1 L", "gal", "--kind", "money")
    assert (code, lines) == (2, [])


@pytest.mark.parametrize("typed", ["36 ppg", "300.43 L°/kg", "77.905 %", "36 points/lb/gal"])
def test_a_yield_in_a_recipe_is_one_amount_of_extract_however_it_is_stated(forecast, typed):
    """Source: 1 ppg is 8.3454 L°/kg, and 46.21 ppg all of the mass (Palmer, How to Brew)."""
    change = f"fermentables.1.extract={typed}"
    found = forecast(PORTER, "--set", change)["original_gravity"]["value"]
    same = forecast(PORTER, "--set", "fermentables.1.extract=77.9052 %")["original_gravity"][
        "value"
    ]
    assert found == pytest.approx(same, abs=2e-6)


def test_a_yield_beyond_that_of_sugar_is_refused_with_its_limits(said):
    code, _, complaints = said("forecast", PORTER, "--set", "fermentables.1.extract=50 ppg")
    assert code == 1
    assert "“50 ppg” is outside 0 % to 100.3 %" in complaints[0]
    assert said("forecast", PORTER, "--set", "fermentables.1.extract=386 L°/kg")[0] == 0


def test_energy_stands_in_the_forecast_in_both_units(forecast, said):
    """Source: 44.6 kcal in 100 mL of a beer from 1.048 to 1.012, 70.1 from 1.075 to 1.018 (computed
    from the ASBC's equation, as quoted in the Oxford Companion to Beer: 6.9 kcal a gram of alcohol,
    4.0 a gram of extract): by gravity alone, 0.92 to 0.94 kcal for each point before yeast.
    """
    found = forecast(PORTER)
    points = 1000.0 * (found["original_gravity"]["value"] - 1.0)
    assert 0.92 < found["kcal_per_100ml"]["value"] / points < 0.94
    ratio = found["kj_per_100ml"]["value"] / found["kcal_per_100ml"]["value"]
    assert ratio == pytest.approx(4.184)
    _, lines, _ = said("forecast", PORTER)
    line = next(line for line in lines if "Energy in 100 mL" in line)
    assert line.split()[4:6] == [f"{found['kcal_per_100ml']['value']:.0f}", "kcal"]
