"""A file that is no recipe is refused in lines a person understands, each with its place."""

import errno
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from designer import translation
from designer.errors import DesignerError, RefusedInputError
from designer.library.document_reading import FORMAT
from designer.library.recipe_file import load
from designer.recipe.limits import LARGEST_DOCUMENT_BYTES, MOST_LINES
from designer.spoken_language import catalogue_of

WAY_OUT = "Mend that, or give another file."


def problems(path):
    """The lines of the refusal; the file is the same, byte for byte, after it."""
    before = path.read_bytes()
    with pytest.raises(RefusedInputError) as refused:
        load(path)
    assert path.read_bytes() == before
    assert list(path.parent.iterdir()) == [path]
    found = [problem.removeprefix(f"{path}: ") for problem in refused.value.problems]
    assert all(problem.startswith(f"{path}: ") for problem in refused.value.problems)
    assert all(len(problem.splitlines()) == 1 for problem in found)
    return found


@pytest.mark.parametrize(
    ("text", "line", "column", "what"),
    [
        ("Harbour Lamp Porter", 1, 1, "expecting value"),
        ('{\n "hobwort": 1,\n "name" "x"}', 3, 9, "delimiter"),
        # Python 3.13 points at the comma, earlier ones behind it
        ('{"hobwort": 1,}', 1, 14 if sys.version_info >= (3, 13) else 15, "not JSON"),
        ('{"hobwort": 1} {}', 1, 16, "extra data"),
        ('{"hobwort": 1, "name": "a', 1, 24, "unterminated string"),
        ('{"hobwort": 1, "name": "a\nb"}', 1, 26, "invalid control character"),
        ('{"hobwort": 1, "name": NaN}', 1, 24, "NaN is not a figure"),
        ('{"hobwort": 1,\n"name": Infinity}', 2, 9, "Infinity is not a figure"),
        ('{"hobwort": -Infinity}', 1, 13, "-Infinity is not a figure"),
        ('{"hobwort": 1, "name": "NaN", "name": "b"}', 1, 31, "“name” stands twice"),
        ('{"hobwort": 1,\n "pot": {\n  "name": "a", "n\\u0061me": "b"}}', 3, 16, "“name” stands"),
        ('{"hobwort": 1, "notes": ' + "[" * 100_000, 1, 74, "nested too deeply"),
        ('{"a":' * 100_000, 1, 251, "nested too deeply"),
        ('{"hobwort": ' + "9" * 5000 + "}", 1, 13, "too many digits"),
    ],
)
def test_what_is_no_plain_json_is_refused_with_line_and_column(text, line, column, what, written):
    (problem,) = problems(written(text))
    assert problem.startswith(f"line {line}, column {column}: ")
    assert what in problem


@pytest.mark.parametrize("text", ["", " \n", "\ufeff"])
def test_a_file_that_holds_nothing_is_called_so(text, written):
    assert problems(written(text)) == ["this holds nothing; take another copy, or a backup"]


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("{", "Merkmal in geraden Anführungszeichen erwartet"),
        ('{"a" 1}', "':' erwartet"),
        ('{"a": 1 "b"}', "',' erwartet"),
        ('{"a": }', "ein Wert fehlt"),
        ('{"a": "b', "ein Text ohne Ende"),
        ('{"a": "\t"}', "ein Steuerzeichen"),
        ("{} {}", "dahinter steht noch etwas"),
    ],
)
def test_why_it_is_no_json_is_said_in_the_language_of_the_program(text, why, written):
    with translation.speaking(catalogue_of("program_de"), "de"):
        assert why in problems(written(text))[0]


@pytest.mark.parametrize("text", ["null", "[]", "3", '"porter"', "true"])
def test_a_document_that_is_no_object_is_refused(text, written):
    assert problems(written(text)) == ["a recipe is one JSON object { ... }"]


@pytest.mark.parametrize(
    ("document", "what"),
    [
        ({}, "is missing"),
        ({"name": "Porter"}, "is missing"),
        ({"hobwort": "1"}, "is not a whole number"),
        ({"hobwort": 1.5}, "is not a whole number"),
        ({"hobwort": True}, "is not a whole number"),
        ({"hobwort": None}, "is not a whole number"),
        ({"hobwort": 0}, "there is no format 0"),
        ({"hobwort": -3}, "there is no format -3"),
        ({"hobwort": FORMAT + 1}, "newer Hobwort"),
        ({"hobwort": 99, "beer": {"unheard": "of"}}, "Update the program"),
    ],
)
def test_a_format_that_is_missing_unknown_or_newer_is_refused_in_words(document, what, written):
    (problem,) = problems(written(document))
    assert problem.startswith("hobwort: ")
    assert what in problem


def spoiled(porter, place, value):
    """The porter with one value put in at a place such as `hops.0.alpha`."""
    *parents, key = place.split(".")
    part = porter
    for name in parents:
        part = part[int(name)] if name.isdigit() else part[name]
    part[key] = value
    return porter


@pytest.mark.parametrize(
    ("place", "value", "problem"),
    [
        ("nmae", "x", "unknown key “nmae”; did you mean “name”?"),
        ("process.boiltime", "60 min", "process: unknown key “boiltime”; did you mean “boil_time”"),
        ("process.Boil Time", "1 h", "process: unknown key “Boil Time”; did you mean “boil_time”"),
        ("hops.1.alfa", "5 %", "hops[2]: unknown key “alfa”; did you mean “alpha”?"),
        ("hops.0.line_id", 3, "hops[1]: unknown key “line_id”"),
        ("fermenter.xyzzy", 3, "fermenter: unknown key “xyzzy”; known are headspace, kind"),
        ("red\x1b[31m\nhot", 3, "unknown key “red\ufffd[31m hot”"),
    ],
)
def test_an_unknown_key_is_refused_with_the_one_that_was_probably_meant(
    place, value, problem, porter, written
):
    (found,) = problems(written(spoiled(porter, place, value)))
    assert found.startswith(problem)


@pytest.mark.parametrize(
    ("place", "value", "problem"),
    [
        ("name", 3, "name: text in quotes"),
        ("notes", None, "notes: text in quotes"),
        ("notes", "\ud800", "notes: up to 20000 readable characters"),
        ("notes", "x" * 20_001, "notes: up to 20000 readable characters"),
        ("pot", [], "pot: an object"),
        ("yeast", "dry", "yeast: an object"),
        ("hops", {}, "hops: a list"),
        ("hops", "Challenger", "hops: a list"),
        ("hops", [3], "hops[1]: an object"),
        ("hops", [{}] * (MOST_LINES + 1), f"hops: {MOST_LINES + 1} lines are more than"),
        ("process.boil_time", 60, "process.boil_time: text with a unit"),
        ("process.boil_time", ["60 min"], "process.boil_time: text with a unit"),
        ("fermentables.0.locked", "yes", "fermentables[1].locked: true or false"),
        ("fermentables.0.locked", 1, "fermentables[1].locked: true or false"),
        ("hops.0.when", 15, "hops[1].when: text in quotes is wanted here"),
        ("process.start_time", 9, "process.start_time: text in quotes is wanted here"),
    ],
)
def test_a_value_of_the_wrong_type_is_refused(place, value, problem, porter, written):
    (found,) = problems(written(spoiled(porter, place, value)))
    assert found.startswith(problem)


@pytest.mark.parametrize(
    ("place", "value", "problem"),
    [
        ("fermentables.0.amount", "3 L", "fermentables[1].amount: “3 L” is not a mass, such as"),
        ("pot.volume", "9 kg", "pot.volume: “9 kg” is not a volume, such as"),
        ("pot.volume", "9 oz", "pot.volume: “9 oz” is not a volume, such as"),
        ("process.boil_time", "60 °C", "process.boil_time: “60 °C” is not a time, such as"),
        ("process.boil_time", "", "process.boil_time: nothing is typed; wanted is a time"),
        ("process.boil_time", "nan min", "process.boil_time: “nan min” is not a time"),
        ("process.boil_time", "1e400 min", "process.boil_time: “1e400 min” is not a time"),
        ("process.boil_time", "-60 min", "process.boil_time: “-60 min” is outside 0 min to 24 h"),
        ("process.boil_time", "30 h", "process.boil_time: “30 h” is outside 0 min to 24 h"),
        ("fermentables.1.amount", "-1 g", "fermentables[2].amount: “-1 g” is outside 0 g to"),
        ("fermentables.0.amount", "1e9 kg", "fermentables[1].amount: “1e9 kg” is outside 0 g"),
        ("hops.0.alpha", "107 %", "hops[1].alpha: “107 %” is outside 0 % to 100 %"),
        ("hops.0.alpha", "7 % ± 500 %", "hops[1].alpha: “7 % ± 500 %” is wider than all of 0 %"),
        ("process.steep_temperature", "-300 C", "process.steep_temperature: “-300 C” is outside"),
        ("yeast.amount", "-1 packet", "yeast.amount: “-1 packet” is outside"),
        ("hops.1.when", "at noon", "hops[2].when: “at noon” is not one of: steep, first wort"),
        ("hops.1.when", "boil -5 min", "hops[2].when: “boil -5 min” is not one of"),
        ("pot.stove", "wood", "pot.stove: “wood” is not one of: electric, gas, induction"),
        ("hops.0.form", "Pellets", "hops[1].form: “Pellets” is not one of: pellets, whole"),
        ("process.start_time", "noon", "process.start_time: “noon” is not a time of the day"),
        ("process.start_time", "25:00", "process.start_time: “25:00” is not a time of the day"),
        ("process.start_time", "09:60", "process.start_time: “09:60” is not a time of the day"),
        ("process.start_time", "", "process.start_time: “” is not a time of the day"),
    ],
)
def test_a_figure_that_no_brew_day_has_is_refused_with_what_would_be_taken(
    place, value, problem, porter, written
):
    (found,) = problems(written(spoiled(porter, place, value)))
    assert found.startswith(problem)


def test_every_fault_is_told_at_once_one_a_line(porter, written):
    porter["nmae"] = "x"
    porter["pot"]["volume"] = "9 kg"
    porter["hops"][0]["alpha"] = "strong"
    porter["hops"][1]["amount"] = "-20 g"
    found = problems(written(porter))
    assert [problem.partition(": ")[0] for problem in found] == [
        "pot.volume",
        "hops[1].alpha",
        "hops[2].amount",
        "unknown key “nmae”; did you mean “name”?",
    ]


def test_bytes_that_are_not_utf_8_are_refused_with_the_first_of_them(written):
    (problem,) = problems(written('{"hobwort": 1, "name": "Kölsch"}'.encode("latin-1")))
    assert problem.startswith("byte 25 is not UTF-8 text")


def test_a_mark_of_utf_8_at_the_front_is_read_over(written):
    assert load(written(b'\xef\xbb\xbf{"hobwort": 1, "name": "Kolsch"}')).name == "Kolsch"


def said(path):
    with pytest.raises(DesignerError) as refused:
        load(path)
    assert len(str(refused.value).splitlines()) == 1
    return str(refused.value)


def test_a_folder_instead_of_a_file_is_refused(tmp_path):
    assert said(tmp_path) == f"{tmp_path} is a folder; give a recipe file inside it."


def test_a_file_that_is_not_there_is_refused(tmp_path):
    missing = tmp_path / "nowhere" / "brew.hobwort"
    assert said(missing) == f"{missing} is not there. Check the name and the folder."


def test_a_file_of_200_megabytes_is_refused_without_being_read(tmp_path, monkeypatch):
    big = tmp_path / "big.hobwort"
    with big.open("wb") as file:
        file.truncate(200_000_000)
    monkeypatch.setattr(os, "open", lambda *_, **__: pytest.fail("it was opened"))
    assert "has 200 MB or more; a recipe has less than 5 MB" in said(big)


def test_a_file_just_too_large_is_refused_and_one_just_small_enough_is_read(written):
    document = '{"hobwort": 1}'
    assert load(written(document + " " * (LARGEST_DOCUMENT_BYTES - len(document))))
    assert "5 MB or more" in said(written(document + " " * LARGEST_DOCUMENT_BYTES))


@pytest.mark.skipif(not Path("/dev/zero").exists(), reason="a device of Unix systems")
def test_a_device_without_end_is_refused():
    assert said(Path("/dev/zero")) == "/dev/zero is a device, not a file; give a recipe file."


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="a pipe of Unix systems")
def test_a_pipe_is_refused_at_once_and_not_waited_for(tmp_path):
    pipe = tmp_path / "pipe.hobwort"
    os.mkfifo(pipe)
    assert said(pipe) == f"{pipe} is a pipe, not a file; give a recipe file."
    done = subprocess.run(
        [sys.executable, "-m", "designer", "forecast", str(pipe)],
        capture_output=True, text=True, timeout=60,
    )  # fmt: skip
    assert done.returncode
    assert "is a pipe, not a file" in done.stderr


@pytest.mark.skipif(not Path("/dev/fd").exists(), reason="a folder of Unix systems")
@pytest.mark.parametrize(
    "command",
    [
        "cat '{file}' | '{python}' -m designer forecast /dev/stdin",
        "'{python}' -m designer forecast <(sleep 0.2; cat '{file}')",
    ],
)
def test_a_recipe_that_a_shell_hands_over_is_read(command, written):
    if shutil.which("bash") is None:
        pytest.skip("no shell that hands over what a command writes")
    line = command.format(file=written({"hobwort": 1, "name": "Handed"}), python=sys.executable)
    done = subprocess.run(["bash", "-c", line], capture_output=True, text=True, timeout=60)
    assert done.returncode == 0, done.stderr
    assert "Handed" in done.stdout


@pytest.mark.skipif(not Path("/proc/self/mem").exists(), reason="a file of Linux systems")
def test_a_file_that_the_system_will_not_read_is_refused_with_its_reason():
    assert said(Path("/proc/self/mem")).startswith("/proc/self/mem cannot be read: ")


def test_a_file_without_leave_to_read_is_refused(written):
    path = written({"hobwort": 1})
    path.chmod(0)
    if os.access(path, os.R_OK):
        pytest.skip("this user may read all files")
    assert said(path) == f"{path} cannot be read: permission denied. {WAY_OUT}"


def test_leave_refused_while_opening_is_told_to_root_too(written, monkeypatch):
    def refuse(*_, **__):
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))

    path = written({"hobwort": 1})
    monkeypatch.setattr(os, "open", refuse)
    assert said(path) == f"{path} cannot be read: permission denied. {WAY_OUT}"


def test_a_link_that_leads_to_itself_is_refused(tmp_path):
    link = tmp_path / "round.hobwort"
    link.symlink_to(link)
    assert said(link).startswith(f"{link} cannot be read: ")


@pytest.mark.parametrize(
    ("name", "what"),
    [
        ("a\0b.hobwort", "cannot be the name of a file."),
        ("x" * 300, f"file name too long. {WAY_OUT}"),
    ],
)
def test_a_name_that_no_file_can_have_is_refused(name, what, tmp_path):
    told = said(tmp_path / name)
    assert told.endswith(what)
    assert "\0" not in told
