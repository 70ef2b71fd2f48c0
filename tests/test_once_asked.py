import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor

import pytest

from designer.once_asked import put_off

LEAFLET = "import builtins\nbuiltins.leaflets_read += 1\nLITRES = 23\n"
STORE = """
import sqlite3, sys
from designer.library.store.connection import database
database(sqlite3.connect(":memory:")).execute("create table pots (litres real)")
print("dateutil.parser._parser" in sys.modules, "click.core" in sys.modules)
import click
print(click.style("hops", bold=True) != "hops", click.Group is object)
from dateutil import parser
print(parser.parse("27 November 2026").date())
"""


@pytest.fixture
def leaflet(tmp_path, monkeypatch):
    """The name of a module that counts how often it is executed."""
    import builtins

    (tmp_path / "leaflet_of_a_kit.py").write_text(LEAFLET)
    monkeypatch.syspath_prepend(str(tmp_path))
    monkeypatch.setattr(builtins, "leaflets_read", 0, raising=False)
    yield "leaflet_of_a_kit"
    sys.modules.pop("leaflet_of_a_kit", None)


def times_read():
    import builtins

    return builtins.leaflets_read


def test_a_module_is_executed_once_and_not_before_something_of_it_is_asked_for(leaflet):
    put_off(leaflet)
    module = __import__(leaflet)
    assert module.__name__ == leaflet
    assert times_read() == 0
    assert module.LITRES == 23
    put_off(leaflet)
    assert __import__(leaflet).LITRES == 23
    assert times_read() == 1


def test_a_thread_that_asks_meanwhile_gets_the_whole_module(leaflet, tmp_path):
    slow = LEAFLET.replace("LITRES", "import time; time.sleep(0.2)\nLITRES")
    (tmp_path / f"{leaflet}.py").write_text(slow)
    put_off(leaflet)
    module = __import__(leaflet)
    with ThreadPoolExecutor(4) as threads:
        asked = [threads.submit(lambda: module.LITRES) for _ in range(4)]
        assert [each.result() for each in asked] == [23] * 4
    assert times_read() == 1


def test_what_a_module_has_not_is_no_part_of_it(leaflet):
    put_off(leaflet)
    with pytest.raises(AttributeError):
        _ = __import__(leaflet).GALLONS
    with pytest.raises(ImportError):
        exec(f"from {leaflet} import GALLONS")
    assert times_read() == 1


def test_a_module_that_nobody_has_is_missed_as_ever():
    put_off("no_such_leaflet")
    put_off("no_such_kit.leaflet")
    with pytest.raises(ModuleNotFoundError):
        __import__("no_such_leaflet")


def test_names_that_are_only_looked_at_are_given_without_the_module(leaflet):
    put_off(leaflet, LITRES=float)
    module = __import__(leaflet)
    assert module.LITRES is float
    assert times_read() == 0
    with pytest.raises(AttributeError):
        _ = module.GALLONS
    assert module.LITRES == 23


def test_the_recipe_box_is_opened_without_what_reads_dates_or_makes_commands():
    done = subprocess.run(
        [sys.executable, "-c", STORE], capture_output=True, text=True, timeout=120
    )
    told = ["False", "False", "True", "False", "2026-11-27"]
    assert done.stdout.split() == told, done.stderr
