"""Whose work is handed out: every part has its licence here, and the program shows it."""

from __future__ import annotations

import importlib.util
from importlib.metadata import version
from pathlib import Path

import designer
from designer.resource_files import resource_path
from designer.workbench.licences import parts

TOP = Path(__file__).parents[2]


def gathering():
    """Return the script that gathers licences, as a module."""
    path = TOP / "packaging" / "licences.py"
    spec = importlib.util.spec_from_file_location("gathering_licences", path)
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_every_package_that_the_program_needs_has_its_licence_here():
    script = gathering()
    listed = {row["distribution"] for row in script.rows_of(script.LICENCES / script.PARTS)}
    assert script.needed() - script.OF_QT <= listed
    assert "pyside6-essentials" in listed
    texts = {path.name for path in script.LICENCES.glob("*.txt")}
    assert texts == {part.text_path.name for part in parts()} | {"qt_notice.txt"}


def test_each_part_tells_its_licence_its_text_and_its_version_where_it_is_installed():
    told = {part.name: part for part in parts()}
    assert next(iter(told)) == "Hobwort"
    assert told["Hobwort"].version == designer.__version__
    assert told["NumPy"].version == version("numpy")
    for part in told.values():
        assert part.licence, part.name
        assert len(part.text_path.read_text("utf-8")) > 250, part.name


def test_qt_comes_with_both_licences_and_how_to_replace_it():
    told = {part.name: part for part in parts()}
    text = told["Qt"].text_path.read_text("utf-8")
    assert "lib/PySide6/Qt/lib/libQt6*.so.6" in text
    assert "GNU LESSER GENERAL PUBLIC LICENSE" in text
    assert "GNU GENERAL PUBLIC LICENSE" in text
    assert (TOP / "packaging/licences/qt_notice.txt").read_text("utf-8").strip() in text


def test_the_licences_of_our_own_are_those_of_the_program_and_its_typeface():
    told = {part.name: part.text_path.read_text("utf-8") for part in parts()}
    for name, path in (
        ("Hobwort", TOP / "LICENSE"),
        ("Hobwort Sans", resource_path("fonts/OFL.txt")),
    ):
        assert told[name].split() == path.read_text("utf-8").split()
