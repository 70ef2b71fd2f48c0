import os
import subprocess
import sys

import pytest
from PySide6.QtCore import QByteArray, QSettings

from designer.preferences_file import preference_files, preferences

ODD = {
    "shop": 'Müller, "Söhne"; \\x & Co\n=%é日本😀',
    "empty": "",
    "at": "@home",
    "like_bytes": "@ByteArray(x)",
    "spaced": "  led  ",
    "tabbed": "a\tb\x01f\x02",
    "group/a key": "v",
    "General/odd": "z",
}


@pytest.fixture
def folder(tmp_path, monkeypatch):
    monkeypatch.setenv("HOBWORT_SETTINGS", str(tmp_path))
    return tmp_path


def test_what_the_window_wrote_is_read_without_qt(folder):
    kept = QSettings(str(folder / "hobwort.ini"), QSettings.Format.IniFormat)
    for key, text in ODD.items():
        kept.setValue(key, text)
    kept.setValue("recent", ["a", "b"])
    kept.setValue("geometry", QByteArray(b"\0\x01,;"))
    kept.sync()
    assert preferences() == ODD


def test_what_a_user_chose_goes_before_what_a_machine_was_set_up_with(tmp_path, monkeypatch):
    monkeypatch.delenv("HOBWORT_SETTINGS")
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "own"))
    monkeypatch.setenv("XDG_CONFIG_DIRS", f"{tmp_path / 'all'}{os.pathsep}/etc/xdg")
    assert preferences() == {}
    for user, said in (("all", "paper=letter\nunits=us"), ("own", "units=metric")):
        (tmp_path / user / "hobwort").mkdir(parents=True)
        path = tmp_path / user / "hobwort" / "hobwort.ini"
        path.write_text(f"[General]\n{said}\n", encoding="utf-8")
    assert preferences() == {"paper": "letter", "units": "metric"}
    assert preference_files()[0] == tmp_path / "own" / "hobwort" / "hobwort.ini"


def test_the_window_takes_what_a_machine_was_set_up_with_until_a_user_chooses(tmp_path):
    code = (
        "from PySide6.QtCore import QCoreApplication\n"
        "from designer.window.parts.settings import Settings\n"
        "app, kept = QCoreApplication([]), Settings()\n"
        "keys = 'units', 'paper', 'shop', 'language', 'sheet_language', 'gravity'\n"
        "print([str(getattr(kept, key)) for key in keys])\n"
        "from designer.preferences_file import preferences\n"
        "print([preferences().get(key) for key in keys])\n"
        "kept.shop, kept.paper = 'My own', 'a4'; kept.write_out()\n"
    )
    (tmp_path / "all" / "hobwort").mkdir(parents=True)
    kept = tmp_path / "all" / "hobwort" / "hobwort.ini"
    text = "[General]\nunits=us\npaper=letter\nshop=Harbour Homebrew\n"
    kept.write_text(f"{text}language=fr\nsheet_language=de\ngravity=plato\n", encoding="utf-8")
    places = {"XDG_CONFIG_HOME": str(tmp_path / "own"), "XDG_CONFIG_DIRS": str(tmp_path / "all")}
    surroundings = {key: each for key, each in os.environ.items() if key != "HOBWORT_SETTINGS"}

    def told():
        done = subprocess.run(
            [sys.executable, "-c", code],
            env=surroundings | places,
            capture_output=True,
            text=True,
            check=True,
        )
        return done.stdout.splitlines()

    shown = str(["us", "letter", "Harbour Homebrew", "fr", "de", "plato"])
    assert told() == [shown, shown]
    shown = str(["us", "a4", "My own", "fr", "de", "plato"])
    assert told() == [shown, shown]


@pytest.mark.parametrize(
    "text", ["", "[General", "=", 'a="', "a=\\", "a=\\x", 'a="\\', "\0\xff", "[]\n[/]\nx"]
)
def test_a_spoilt_file_is_no_trouble(folder, text):
    (folder / "hobwort.ini").write_text(text + "\n[General]\nunits=us\n", encoding="latin-1")
    assert preferences()["units"] == "us"


def test_a_folder_in_its_place_is_no_trouble(folder):
    (folder / "hobwort.ini").mkdir()
    assert preferences() == {}
