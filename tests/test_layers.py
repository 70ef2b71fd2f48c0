"""What may be loaded by what, seen in interpreters of their own.

The import contracts say what modules write; these tests say what then is in memory. Qt must not be
needed by anything but the window and the paper, widgets by nothing but the window, and what is dear
to import must wait until the window is painted.
"""

from __future__ import annotations

import pkgutil
import subprocess
import sys

import pytest

import designer
from designer import paper
from designer.command_line import usage
from designer.library.packs import pack_size
from designer.library.store import Store
from designer.library.store.shop import keep_shop_packs
from designer.recipe.quantity import Quantity
from designer.resource_files import resource_path

LOADS_QT = ("designer.window", "designer.paper", "designer.command_line.open_command")
DEAR = {"markdown_it", "numpy", "pint", "platformdirs", "sqlite3", "sqlite_utils"}
FORECAST = """
from designer.brewday.outlook import look_ahead
from designer.library.recipe_file import load
from designer.resource_files import resource_path

recipe = load(resource_path("examples/harbour_lamp_porter.hobwort"))
look_ahead(recipe, ranges={ranges})
"""


def _is_of(module: str, packages: tuple[str, ...]) -> bool:
    return any(module == package or module.startswith(f"{package}.") for package in packages)


def modules_outside_the_window() -> list[str]:
    found = pkgutil.walk_packages(
        designer.__path__, "designer.", onerror=lambda name: pytest.fail(f"{name} does not import")
    )
    return [each.name for each in found if not _is_of(each.name, LOADS_QT)]


def packages_in_memory_after(code: str) -> set[str]:
    """Run code in a fresh interpreter; return the top-level packages it left in memory."""
    return {name.partition(".")[0] for name in modules_in_memory_after(code)}


def modules_in_memory_after(code: str) -> set[str]:
    telling = f"{code}\nimport sys\nprint(*sorted(sys.modules))"
    done = subprocess.run(
        [sys.executable, "-c", telling], capture_output=True, text=True, timeout=120
    )
    assert done.returncode == 0, done.stderr
    return set(done.stdout.splitlines()[-1].split())


def test_the_modules_outside_the_window_are_all_found():
    found = modules_outside_the_window()
    assert {"designer.wort.bitterness", "designer.command_line", "designer.__main__"} <= set(found)
    assert not any("window" in name.split(".") for name in found)


def test_everything_but_the_window_imports_without_qt():
    code = "\n".join(f"import {name}" for name in modules_outside_the_window())
    assert not packages_in_memory_after(code) & {"PySide6", "shiboken6"}


def test_calculations_load_neither_pint_nor_a_database():
    packages = ("designer.wort", "designer.brewday", "designer.recipe")
    names = [name for name in modules_outside_the_window() if _is_of(name, packages)]
    code = "\n".join(f"import {name}" for name in names)
    assert not packages_in_memory_after(code) & {"pint", "sqlite3", "sqlite_utils"}


def test_the_paper_knows_no_widgets():
    pages = pkgutil.walk_packages(paper.__path__, "designer.paper.")
    loaded = modules_in_memory_after("\n".join(f"import {each.name}" for each in pages))
    assert "PySide6.QtGui" in loaded
    assert not {
        name for name in loaded if name.startswith(("PySide6.QtWidgets", "designer.window"))
    }


def test_the_window_starts_without_what_is_dear_to_import():
    loaded = packages_in_memory_after("import designer.window.start")
    assert "PySide6" in loaded
    assert not loaded & DEAR


def test_the_window_starts_without_what_draws_icons_and_pictures():
    loaded = modules_in_memory_after("import designer.window.start")
    assert "designer.window.parts.menu_drawings" in loaded
    drawing = {f"designer.window.parts.{each}" for each in ("drawn_icons", "picture_out", "deeds")}
    assert not loaded & (drawing | {"PySide6.QtSvg"})


def test_what_saves_a_damaged_box_is_loaded_where_one_is_damaged():
    loaded = modules_in_memory_after("import designer.window.session.box_maintenance")
    loaded |= modules_in_memory_after("import designer.window.session.box_trouble")
    assert "designer.library.store.health" in loaded
    assert not loaded & {"designer.library.store.rescue", "designer.library.store.salvage"}


def test_the_first_forecast_of_the_example_needs_nothing_dear():
    loaded = packages_in_memory_after(FORECAST.format(ranges=False))
    assert not loaded & (DEAR | {"PySide6"})


COMMANDS = {
    "forecast": ["forecast", "{recipe}"],
    "design": ["design", "porter", "--pot", "9 L", "--fermenter", "12 L"],
    "kit": ["kit", "Quay Bitter", "--tin", "1.7 kg", "--makes", "20 L"],
    "check": ["check", "{recipe}"],
    "styles": ["styles", "{recipe}", "--bring-in", "American Porter"],
    "schema": ["schema"],
    "unit-words": ["unit-words"],
    "convert": ["convert", "1.5 stone", "kg"],
    "catalogue": ["catalogue", "Crystal malt 60 °L"],
    "glossary": ["glossary", "krausen"],
    "guide": ["guide", "compose"],
    "web guide": ["guide", "-o", "{folder}/guide.html"],
    "find": ["find", "abv <5"],
    "box": ["box", "list"],
    "brews": ["brews", "list"],
    "packaging": ["packaging", "--beer", "9.6 L", "--warmest", "21 °C", "--finished", "yes"],
    "reading": ["reading", "{recipe}", "--sg", "1.037", "--at", "24 °C"],
    "learned": ["learned"],
    "fit": ["fit", "{recipe}", "--pot", "7 L"],
    "sheet": ["sheet", "{recipe}", "-o", "{folder}/sheet.pdf"],
    "web sheet": ["sheet", "{recipe}", "-o", "{folder}/sheet.html"],
}


def test_every_command_but_the_one_that_opens_the_window_is_looked_at_here():
    others = {*usage.COMMANDS, *usage.UNLISTED} - {"open"}
    assert {words[0] for words in COMMANDS.values()} == others


@pytest.mark.parametrize("command", COMMANDS)
def test_no_command_but_open_loads_the_window_and_only_a_printed_sheet_loads_qt(command, tmp_path):
    recipe = str(resource_path("examples/harbour_lamp_porter.hobwort"))
    words = [each.format(recipe=recipe, folder=tmp_path) for each in COMMANDS[command]]
    loaded = modules_in_memory_after(
        f"from designer.command_line import run\nassert run({words!r}) == 0"
    )
    assert not any(_is_of(each, ("designer.window", "PySide6.QtWidgets")) for each in loaded)
    assert any(_is_of(each, ("PySide6",)) for each in loaded) is (command == "sheet")


def test_a_sheet_reads_the_pack_sizes_of_the_box_without_loading_all_of_the_box(tmp_path):
    with Store.open(tmp_path) as store:
        keep_shop_packs(store, "metric", (pack_size("hops", Quantity(0.03, "30 g"), "bag"),))
    recipe, page = resource_path("examples/harbour_lamp_porter.hobwort"), tmp_path / "sheet.txt"
    words = ["sheet", str(recipe), "-o", str(page), "--units", "metric"]
    loaded = modules_in_memory_after(
        f"import os\nos.environ['HOBWORT_STORE'] = {str(tmp_path)!r}\n"
        f"from designer.command_line import run\nassert run({words!r}) == 0"
    )
    assert "30 g bag" in page.read_text("utf-8")
    assert not loaded & {"sqlite_utils", "designer.library.store.store"}


def test_the_program_begins_by_loading_plainly(tmp_path):
    recipe, page = resource_path("examples/harbour_lamp_porter.hobwort"), tmp_path / "sheet.pdf"
    words = ["hobwort", "sheet", str(recipe), "-o", str(page)]
    code = (
        f"import os, sys\nsys.argv = {words!r}\nos._exit = lambda code: None\n"
        "from designer.__main__ import main\nassert main() == 0\n"
        "print(*[name for name in ('ipaddress', 'lzma', 'numpy._typing', 'pickle')"
        " if 'OnceAsked' in type(sys.modules[name]).__name__])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, timeout=120)
    waiting = done.stdout.splitlines()[-1].split()
    assert {*waiting} == {"ipaddress", "lzma", "numpy._typing", "pickle"}, done.stderr
    assert page.read_bytes().startswith(b"%PDF")


def test_wrong_usage_and_help_load_no_command():
    for words in (["--help"], ["fit", "--help"], ["fit"]):
        loaded = modules_in_memory_after(f"from designer.command_line import run\nrun({words!r})")
        assert not any(each.endswith("_command") for each in loaded)


def test_ranges_are_what_brings_numpy_in():
    loaded = packages_in_memory_after(FORECAST.format(ranges=True))
    assert "numpy" in loaded
    assert not loaded & {"pint", "sqlite3", "sqlite_utils", "PySide6"}
