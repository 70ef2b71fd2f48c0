"""Commands in scripts: standard input and output, several files at once, exit codes, pipes."""

import io
import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from designer.command_line import run
from designer.library.recipe_file import load, read_document
from designer.recipe.limits import LARGEST_DOCUMENT_BYTES
from designer.resource_files import resource_path

pytestmark = pytest.mark.usefixtures("qapp")  # PDFs are written in this process
ROOT = Path(__file__).parents[1]
PORTER = str(resource_path("examples/harbour_lamp_porter.hobwort"))
RED = str(resource_path("examples/breakwater_red.hobwort"))
BITTER = str(resource_path("examples/slipway_bitter.hobwort"))
KIT = ["kit", "Quay Bitter", "--tin", "1.7 kg", "--makes", "20 L"]


@pytest.fixture
def said(monkeypatch):
    """Runs a command with bytes on standard input; returns its code and both outputs."""

    def say(*words, given=b""):
        outputs = {"stdout": io.BytesIO(), "stderr": io.BytesIO()}
        monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(given)))
        for name, output in outputs.items():
            monkeypatch.setattr(sys, name, io.TextIOWrapper(output, write_through=True))
        code = run([str(each) for each in words])
        out, err = (each.getvalue() for each in outputs.values())
        return code, out, err.decode("utf-8")

    return say


def child(*words, **how):
    """The program in a process of its own."""
    command = [sys.executable, "-m", "designer", *map(str, words)]
    return subprocess.run(command, cwd=ROOT, timeout=120, **how)


@pytest.mark.parametrize("command", ["forecast", "check", "styles", "fit"])
def test_a_recipe_is_read_from_standard_input(said, command):
    typed = Path(PORTER).read_bytes()
    by_name = said(command, PORTER, "--json" if command != "check" else "-q")
    piped = said(command, "-", "--json" if command != "check" else "-q", given=typed)
    assert piped == by_name
    assert piped[0] == 0


def test_a_reading_and_a_sheet_take_standard_input_too(said, tmp_path):
    typed = Path(PORTER).read_bytes()
    assert said("reading", "-", "--sg", "1.040", given=typed)[0] == 0
    assert said("sheet", "-", "-o", tmp_path, given=typed)[0] == 0
    assert [each.name for each in tmp_path.iterdir()] == ["recipe.pdf"]


@pytest.mark.parametrize(
    ("given", "told"),
    [
        (b"", "standard input: nothing came from it. Lead a recipe file to it, or name one.\n"),
        (b"\xff\xfe", "standard input: byte 0 is not UTF-8 text; a recipe file is UTF-8.\n"),
        (b"[" * 2000, "standard input: "),
        (b" " * (LARGEST_DOCUMENT_BYTES + 1), "It is not one of ours."),
        (b'{"hobwort": 1, "nmae": "x"}', "standard input: unknown key “nmae”"),
    ],
    ids=["nothing", "no text", "brackets", "too much", "a wrong key"],
)
def test_what_is_no_recipe_on_standard_input_is_told_as_of_a_file(said, given, told):
    code, out, err = said("forecast", "-", given=given)
    assert (code, out) == (1, b"")
    assert told in err
    assert err.count("\n") == 1


def test_standard_input_is_read_once(said):
    code, _, err = said("check", "-", PORTER, "-", given=Path(PORTER).read_bytes())
    assert code == 1
    assert err == "- is standard input, and is read once; name it once\n"


def test_a_sheet_goes_to_standard_output_as_what_is_asked_for(said):
    code, out, err = said("sheet", PORTER, "-o", "-")
    assert (code, err) == (0, "")
    assert out.startswith(b"%PDF")
    assert out.rstrip().endswith(b"%%EOF")
    assert said("sheet", PORTER, "-o", "-", "--format", "txt")[1].startswith(
        b"Harbour Lamp Porter\n"
    )
    assert said("sheet", PORTER, "-o", "-", "--html")[1].startswith(b"<!DOCTYPE html>")
    assert said("sheet", PORTER, "-o", "-", "--pocket")[1].lower().startswith(b"<!doctype html>")


@pytest.mark.parametrize(
    "words",
    [
        KIT,
        ["design", "porter", "--pot", "9 L", "--fermenter", "12 L", "--use", "1"],
        ["fit", RED, "--use", "1"],
        ["styles", PORTER, "--bring-in", "American Porter"],
    ],
    ids=lambda words: words[0],
)
def test_a_recipe_that_is_made_goes_to_standard_output_and_into_the_next_command(said, words):
    code, out, err = said(*words, "-o", "-")
    assert (code, err) == (0, "")
    assert read_document(out.decode("utf-8"), "-").name
    assert said("forecast", "-", given=out)[0] == 0


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ([*KIT, "-o", "kit.pdf"], "kit.pdf: a recipe file ends in .hobwort; let the name end so."),
        ([*KIT, "-o", "kit"], "kit: a recipe file ends in .hobwort; let the name end so."),
        (
            ["sheet", PORTER, "-o", "day.doc"],
            "day.doc: a sheet is written as .pdf, .html, .htm, .txt; let the name end so, or name "
            "a folder",
        ),
        (
            ["sheet", PORTER, "-o", "day.doc", "--format", "txt"],
            "day.doc: a sheet is written as .txt",
        ),
        (
            ["check", "nowhere.hobwort"],
            "nowhere.hobwort is not there. Check the name and the folder.",
        ),
        (["check", "."], ". is a folder; give a recipe file inside it."),
    ],
)
def test_another_suffix_or_no_file_is_refused_with_those_there_are(
    said, tmp_path, monkeypatch, words, told
):
    monkeypatch.chdir(tmp_path)
    code, out, err = said(*words)
    assert (code, out) == (1, b"")
    assert err.startswith(told)
    assert list(tmp_path.iterdir()) == []


def test_of_several_files_each_is_told_though_one_is_refused(said, tmp_path):
    code, out, err = said("check", PORTER, tmp_path / "none.hobwort", BITTER)
    lines = out.decode("utf-8").splitlines()
    assert code == 1
    assert err.startswith(f"{tmp_path}/none.hobwort is not there")
    assert [line.split(": ")[0] for line in lines] == [PORTER, BITTER, BITTER]
    code, out, _ = said("forecast", PORTER, tmp_path / "none.hobwort", BITTER)
    assert code == 1
    lines = out.decode("utf-8").splitlines()
    assert lines[:2] == [f"{PORTER}:", load(Path(PORTER)).name]
    assert lines[lines.index(f"{BITTER}:") - 1] == ""
    assert said("forecast", PORTER, BITTER)[0] == 0


def test_as_json_several_files_are_one_document(said, tmp_path):
    code, out, _ = said("forecast", PORTER, tmp_path / "none.hobwort", "--json")
    assert code == 1
    one, other = json.loads(out)["files"]
    assert one == {"file": PORTER, "forecast": json.loads(said("forecast", PORTER, "--json")[1])}
    assert other == {"file": f"{tmp_path}/none.hobwort", "forecast": None}
    code, out, _ = said("check", RED, tmp_path / "none.hobwort", "--json")
    assert code == 1
    one, other = json.loads(out)["files"]
    assert (one["file"], one["sound"], one["problems"]) == (RED, True, [])
    assert "stop" in {each["severity"] for each in one["findings"]}
    assert (other["sound"], other["findings"], len(other["problems"])) == (False, [], 1)


@pytest.mark.parametrize(("file", "code"), [(PORTER, 0), (BITTER, 0), (RED, 1)])
def test_a_strict_check_ends_with_1_where_something_is_graded_care_or_stop(said, file, code):
    """Of the bitter there is a note, of the porter nothing; the kit does not fit."""
    assert said("check", file, "--strict")[0] == code
    assert said("check", PORTER, file, "--strict", "--json")[0] == code
    assert said("check", file)[0] == 0


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="a device of Linux systems")
@pytest.mark.parametrize(
    "words", [["sheet", PORTER, "-o", "-"], [*KIT, "-o", "-"], ["--version"], ["sheet", "--help"]]
)
def test_a_full_disk_behind_standard_output_is_told_in_one_line(words):
    with Path("/dev/full").open("wb") as full:
        done = child(*words, stdout=full, stderr=subprocess.PIPE)
    assert done.returncode == 1
    assert done.stderr.splitlines() == [
        b"the output could not be written: no space left on device. Make room there, or lead it "
        b"elsewhere."
    ]


def test_a_pipe_closed_by_its_reader_is_no_failure():
    reading, writing = os.pipe()
    os.close(reading)
    try:
        done = child("sheet", PORTER, "-o", "-", stdout=writing, stderr=subprocess.PIPE)
        help_read = child("fit", "--help", stdout=writing, stderr=subprocess.PIPE)
    finally:
        os.close(writing)
    assert (done.returncode, done.stderr) == (0, b"")
    assert (help_read.returncode, help_read.stderr) == (0, b"")


def test_text_for_a_pipe_has_no_colours_and_no_more_columns_than_a_page_of_paper():
    environment = {**os.environ, "COLUMNS": "200", "TERM": "xterm-256color", "FORCE_COLOR": "1"}
    done = child("fit", RED, "--pot", "9 L", stdout=subprocess.PIPE, env=environment)
    text = done.stdout.decode("utf-8")
    assert "\x1b" not in text
    assert max(map(len, text.splitlines())) <= 100
    again = child("fit", RED, "--pot", "9 L", stdout=subprocess.PIPE)
    assert again.stdout == done.stdout
