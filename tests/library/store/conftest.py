"""Kitchen things for the store: a box with the porter in it, and what the porter forecasts."""

import json
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest

from designer.library.recipe_file import document_text, load
from designer.library.store import Store, Summary
from designer.resource_files import resource_path

PORTER = Summary(
    style="English Porter",
    fermenter="Small bucket",
    pot="Kitchen pot",
    og=1.0523,
    fg=1.0131,
    abv=5.1,
    ibu=34.4,
    srm=24.0,
    batch_l=10.0,
    pot_fullest_l=7.1,
)


@pytest.fixture(scope="session")
def porter_text():
    return document_text(load(resource_path("examples/harbour_lamp_porter.hobwort")))


@pytest.fixture
def porter():
    return PORTER


@pytest.fixture
def named(porter_text):
    """Make the porter's document under another name, with other notes if wanted."""

    def made(name, notes=""):
        values = {**json.loads(porter_text), "name": name}
        if notes:
            values["notes"] = notes
        return json.dumps(values, ensure_ascii=False, indent=2)

    return made


@pytest.fixture
def folder(tmp_path):
    return tmp_path / "kitchen"


@pytest.fixture
def box(folder):
    with Store.open(folder, patience_s=2.0) as store:
        yield store


@pytest.fixture
def kept(box, porter_text, porter):
    """The porter, kept in the box as its first version."""
    return box.recipes.add(porter_text, porter)


@pytest.fixture
def sql():
    """Run SQL on a store's file behind the program's back."""

    def run(path, *statements):
        with closing(sqlite3.connect(path, isolation_level=None)) as conn:
            return [conn.execute(each).fetchall() for each in statements]

    return run


@pytest.fixture
def run_python():
    """Run code in a process of its own, with paths as its arguments; as another user if wanted."""

    def run(code, *words, user=None):
        return subprocess.run(
            [sys.executable, "-c", code, *map(str, words)],
            capture_output=True,
            text=True,
            timeout=120,
            user=user,
            cwd=Path(__file__).parents[3],
        )

    return run
