"""What a command does where the file that it is to write is there already."""

import argparse
from pathlib import Path

import pytest

from designer.command_line import run
from designer.command_line.usage import parser
from designer.library.store import Store
from designer.resource_files import resource_path

PORTER = str(resource_path("examples/harbour_lamp_porter.hobwort"))
KIT = ("kit", "Quay Red", "--tin", "1.7 kg", "--dry", "1 kg", "--makes", "20 L")
CASES = {
    "sheet.txt": ("sheet", PORTER),
    "sheet.html": ("sheet", PORTER),
    "pocket.html": ("sheet", PORTER, "--pocket"),
    "guide.html": ("guide",),
    "stock.csv": ("box", "stock"),
    "kit.hobwort": KIT,
}
KEPT = ("stock.csv", "kit.hobwort")
OWN = {".txt": "what I noted", ".html": "<p>a page</p>", ".csv": "mine;1", ".hobwort": "{}"}


@pytest.fixture
def said(capsys, tmp_path, monkeypatch):
    monkeypatch.setenv("HOBWORT_STORE", str(tmp_path / "box"))
    Store.open(tmp_path / "box").close()

    def run_and_read(*words):
        code = run([*map(str, words)])
        return code, capsys.readouterr().err

    return run_and_read


@pytest.mark.parametrize("name", KEPT)
def test_a_file_that_is_there_stays_unless_it_is_to_be_replaced(said, tmp_path, name):
    out = tmp_path / name
    own = OWN[out.suffix]
    out.write_text(own, encoding="utf-8")
    code, told = said(*CASES[name], "-o", out)
    assert code == 1
    assert told == (
        f"{out} is there already and stays as it is; name another file, or replace it with "
        "--force.\n"
    )
    assert out.read_text("utf-8") == own
    assert said(*CASES[name], "-o", out, "--force")[0] == 0
    assert out.read_text("utf-8") != own


@pytest.mark.parametrize("name", [each for each in CASES if each not in KEPT])
def test_what_is_printed_takes_the_place_of_what_was_printed_before(said, tmp_path, name):
    out = tmp_path / name
    out.write_text(OWN[out.suffix], encoding="utf-8")
    assert said(*CASES[name], "-o", out)[0] == 0
    assert out.read_text("utf-8") != OWN[out.suffix]


@pytest.mark.parametrize("name", CASES)
def test_what_is_no_file_of_its_kind_is_never_replaced(said, tmp_path, name):
    out = tmp_path / name
    out.write_bytes(b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR")
    code, told = said(*CASES[name], "-o", out, *(["--force"] if name in KEPT else []))
    assert code == 1
    assert "what it holds is something else than its name says" in told
    assert out.read_bytes().startswith(b"\x89PNG")


def test_of_several_sheets_none_is_written_where_one_would_replace_something_else(said, tmp_path):
    (tmp_path / "harbour_lamp_porter.pdf").write_bytes(b"no sheet")
    bitter = resource_path("examples/slipway_bitter.hobwort")
    assert said("sheet", bitter, PORTER, "-o", f"{tmp_path}/")[0] == 1
    assert [each.name for each in tmp_path.glob("*.pdf")] == ["harbour_lamp_porter.pdf"]


def test_every_command_that_writes_a_file_can_replace_one_but_backup_and_export():
    written, replacing = set(), set()

    def look(command, name):
        options = {each for action in command._actions for each in action.option_strings}
        if "--output" in options:
            written.add(name)
        if "--force" in options or command.get_default("force"):
            replacing.add(name)
        for action in command._actions:
            if isinstance(action, argparse._SubParsersAction):
                for word, below in action.choices.items():
                    look(below, f"{name} {word}".strip())

    look(parser(), "")
    assert len(written) >= 13
    assert written - replacing == {"box export", "box backup"}


@pytest.mark.skipif(not Path("/proc/self").is_dir(), reason="a folder of Linux systems")
def test_a_folder_that_takes_no_file_is_not_said_to_be_gone(said):
    code, told = said("sheet", PORTER, "-o", "/proc/sheet.txt")
    assert code == 1
    assert told.startswith("/proc/sheet.txt could not be written: no such file or directory.")
