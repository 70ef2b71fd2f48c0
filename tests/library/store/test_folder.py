"""Where the Recipe box and the choice of another folder lie on the three systems.

The places are those of every release so far, written out here: a box that is there must be found.
"""

import sys
from pathlib import Path

import pytest
from platformdirs.macos import MacOS
from platformdirs.unix import Unix
from platformdirs.windows import Windows

from designer.library.store import Store, folder, store_folder

SYSTEMS = {"linux": Unix, "darwin": MacOS, "win32": Windows}
ROAMING = "C:\\Users\\mel\\AppData\\Roaming"
VARIABLES = ("XDG_DATA_HOME", "XDG_CONFIG_HOME", "HOBWORT_STORE", "HOBWORT_SETTINGS")


@pytest.fixture
def system(monkeypatch, tmp_path):
    """Be on a system, in a home of one's own, with these variables and no others."""

    def be_on(name, variables):
        for each in VARIABLES:
            monkeypatch.delenv(each, raising=False)
        monkeypatch.setenv("HOME", str(tmp_path))
        monkeypatch.setenv("WIN_PD_OVERRIDE_APPDATA", ROAMING)  # what Windows itself would answer
        for each, value in variables.items():
            monkeypatch.setenv(each, value)
        monkeypatch.setattr(sys, "platform", name)
        monkeypatch.setattr(folder, "PlatformDirs", SYSTEMS[name])

    return be_on


@pytest.mark.parametrize(
    ("name", "variables", "expected"),
    [
        ("linux", {}, "~/.local/share/hobwort"),
        ("linux", {"XDG_DATA_HOME": "/data"}, "/data/hobwort"),
        ("linux", {"XDG_DATA_HOME": "relative"}, "~/.local/share/hobwort"),
        ("linux", {"XDG_DATA_HOME": ""}, "~/.local/share/hobwort"),
        ("darwin", {}, "~/Library/Application Support/hobwort"),
        ("darwin", {"XDG_DATA_HOME": "/data"}, "~/Library/Application Support/hobwort"),
        ("win32", {}, f"{ROAMING}/hobwort"),
        ("win32", {"XDG_DATA_HOME": "/data"}, f"{ROAMING}/hobwort"),
        ("linux", {"HOBWORT_STORE": "~/beer", "XDG_DATA_HOME": "/data"}, "~/beer"),
        ("win32", {"HOBWORT_STORE": "~/beer"}, "~/beer"),
    ],
)
def test_the_box_lies_in_the_system_s_folder_unless_another_is_named(
    system, name, variables, expected
):
    system(name, variables)
    assert store_folder() == Path(expected).expanduser()


@pytest.mark.parametrize(
    ("name", "variables", "expected"),
    [
        ("linux", {}, "~/.config/hobwort"),
        ("linux", {"XDG_CONFIG_HOME": "/config"}, "/config/hobwort"),
        ("linux", {"XDG_CONFIG_HOME": "relative"}, "~/.config/hobwort"),
        ("darwin", {}, "~/.config/hobwort"),
        ("darwin", {"XDG_CONFIG_HOME": "/config"}, "/config/hobwort"),
        ("win32", {}, f"{ROAMING}/hobwort"),
        ("linux", {"HOBWORT_SETTINGS": "/mine"}, "/mine"),
    ],
)
def test_the_choice_of_another_folder_lies_beside_the_other_settings(
    system, name, variables, expected
):
    system(name, variables)
    assert folder._choice().parent == Path(expected).expanduser()


@pytest.mark.parametrize(
    ("name", "place"),
    [("linux", ".local/share/hobwort"), ("darwin", "Library/Application Support/hobwort")],
)
def test_a_box_of_an_earlier_release_is_found(system, tmp_path, name, place):
    (tmp_path / place).mkdir(parents=True)
    with Store.open(tmp_path / place) as box:
        box.preferences.put("whose", "the harbour master's")
    system(name, {})
    with Store.open(store_folder()) as found:
        assert found.preferences.get("whose") == "the harbour master's"


def test_a_folder_that_was_chosen_before_is_still_the_one(system, tmp_path):
    chosen = tmp_path / "stick"
    for name in ("linux", "darwin"):
        system(name, {})
        (tmp_path / ".config" / "hobwort").mkdir(parents=True, exist_ok=True)
        (tmp_path / ".config" / "hobwort" / "recipe-box-folder.txt").write_text(f"{chosen}\n")
        assert store_folder() == chosen
