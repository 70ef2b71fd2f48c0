"""What desktops, shells and the bundle are told of the program is so."""

from __future__ import annotations

import ast
import sys
from configparser import ConfigParser
from importlib import import_module
from pathlib import Path

import pytest

from designer import translation
from designer.command_line.usage import COMMANDS
from designer.window.start import DESKTOP_FILE

TOP = Path(__file__).parents[2]
SHARE = TOP / "packaging" / "share"
MIME_TYPE = "application/x-hobwort-recipe"


@pytest.fixture
def scripts(monkeypatch):
    """The scripts of packaging/ and of its bundle can be imported."""
    for folder in (TOP / "packaging", TOP / "packaging" / "bundle"):
        monkeypatch.syspath_prepend(str(folder))
    yield
    translation.use(None)
    for name in ("man_page", "parts"):
        sys.modules.pop(name, None)


@pytest.mark.parametrize("language", ["en", "de", "fr"])
def test_the_manual_tells_every_command_in_each_language(scripts, language):
    man_page = import_module("man_page")

    page = man_page.man_page(language, "2026-11-27")
    for name in COMMANDS:
        assert f'.SS "hobwort {name}"' in page
    assert r"\fB\-\-pocket\fR" in page
    assert man_page._escaped(man_page.WORDS[language]["0"]) in page
    assert set(man_page.WORDS[language]) == set(man_page.WORDS["en"])


def test_what_a_bundle_leaves_out_is_never_imported_by_the_program(scripts):
    parts = import_module("parts")

    unwanted = set(parts.UNWANTED_MODULES)
    for path in (TOP / "designer").rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            named = []
            if isinstance(node, ast.Import):
                named = [alias.name for alias in node.names]
            elif isinstance(node, ast.ImportFrom) and node.module:
                named = [node.module, *(f"{node.module}.{alias.name}" for alias in node.names)]
            assert not unwanted & set(named), path


def test_nothing_in_a_bundle_tells_in_which_folder_it_was_made(scripts):
    parts = import_module("parts")

    of_pint = [(f"pint-0.25.dist-info/{name}", f"/made/here/{name}", "DATA")
               for name in ("METADATA", "RECORD")]  # fmt: skip
    assert parts.kept(of_pint) == of_pint[:1]


def test_desktop_entry_and_type_of_recipes_go_together():
    entry = ConfigParser(interpolation=None, strict=True)
    entry.optionxform = str
    entry.read(SHARE / "org.hobwort.hobwort.desktop", encoding="utf-8")
    told = entry["Desktop Entry"]
    assert told["MimeType"] == f"{MIME_TYPE};"
    assert told["Exec"] == "hobwort open %f"
    for key in ("Comment", "Keywords", "GenericName"):
        assert told[f"{key}[de]"]
        assert told[f"{key}[fr]"]
    kinds = (SHARE / "org.hobwort.hobwort.mime.xml").read_text("utf-8")
    assert f'type="{MIME_TYPE}"' in kinds
    assert 'pattern="*.hobwort"' in kinds
    assert DESKTOP_FILE == "org.hobwort.hobwort"


def test_the_changes_begin_with_the_version_that_is_handed_out():
    import designer

    first = (TOP / "resources" / "CHANGES.md").read_text("utf-8").split("\n## ")[1]
    assert first.startswith(f"{designer.__version__} (")
