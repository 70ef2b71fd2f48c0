import os

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


@pytest.mark.parametrize(
    "text", ["", "[General", "=", 'a="', "a=\\", "a=\\x", 'a="\\', "\0\xff", "[]\n[/]\nx"]
)
def test_a_spoilt_file_is_no_trouble(folder, text):
    (folder / "hobwort.ini").write_text(text + "\n[General]\nunits=us\n", encoding="latin-1")
    assert preferences()["units"] == "us"


def test_a_folder_in_its_place_is_no_trouble(folder):
    (folder / "hobwort.ini").mkdir()
    assert preferences() == {}
