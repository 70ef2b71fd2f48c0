"""A change is put where its tests come to it; one hangs by what it took of the processor before."""

import os
import sys
import time
from importlib import import_module
from pathlib import Path

import pytest

from tests.mutation import tried
from tests.mutation.__main__ import HERE, PACKAGES, files_at, modules_of
from tests.mutation.changes import Change, changes_in
from tests.mutation.nearest import Nearest, imports
from tests.mutation.places import place_of
from tests.mutation.reached import Looking, Seen, keep, kept

POT = '''"""A pot."""
LEAST_L = 2.0


def least_l() -> float:
    """Return it."""
    return LEAST_L


def left_l(start_l: float, gone_l: float = 1.0) -> float:
    """Return what is left."""
    if start_l > 10.0:
        return start_l - gone_l
    while start_l < LEAST_L:
        start_l += 1.0
    return start_l
'''


@pytest.fixture
def pot(tmp_path, monkeypatch):
    """A module of its own, loaded."""
    file = tmp_path / "pot_of_a_test.py"
    file.write_text(POT, "utf-8")
    monkeypatch.syspath_prepend(str(tmp_path))
    loaded = import_module("pot_of_a_test")

    yield file, loaded
    del sys.modules["pot_of_a_test"]


def change_at(line: int, kind: str) -> Change:
    return next(each for each in changes_in(POT) if (each.line, each.kind) == (line, kind))


def lines_of(file: Path, line: int, kind: str) -> tuple[bool, set[int]]:
    place = place_of(file, change_at(line, kind), [file])
    return place.in_function, set(dict(place.lines)[str(file)])


def test_a_change_is_come_to_by_its_statement_or_by_the_lines_that_name_it(pot):
    file, _ = pot
    assert lines_of(file, 12, "comparison") == (True, {12})
    assert lines_of(file, 13, "operator") == (True, {13})
    naming = {number for number, line in enumerate(POT.splitlines(), 1) if "LEAST_L" in line}
    assert naming == {2, 7, 14}
    assert lines_of(file, 2, "number") == (False, naming)
    in_function, lines = lines_of(file, 10, "number")
    assert not in_function
    assert {12, 13, 14} <= lines


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("from kitchen.pots.kettle import LEAST_L", True),
        ("from kitchen.pots import kettle", True),
        ("from kitchen import pots, stoves", True),
        ("from kitchen.pots import lid", False),
        ("from kitchen import stoves", False),
    ],
)
def test_a_constant_is_tried_by_tests_that_import_its_module_or_its_package(tmp_path, line, told):
    tests = tmp_path / "test_all_pots.py"
    tests.write_text(f"{line}\n", "utf-8")
    assert imports(tests, tmp_path / "kitchen" / "pots" / "kettle.py", tmp_path) == told


def test_the_lines_that_a_test_runs_are_seen_and_kept(pot, tmp_path):
    file, module = pot
    looking = Looking([file])
    looking.begin()
    module.left_l(11.0)
    seen = looking.end("some test")
    assert seen.lines[str(file)] & set(range(12, 17)) == {12, 13}
    keep(tmp_path / "seen.json", [seen])
    assert kept(tmp_path / "seen.json") == [seen]


def test_tests_that_come_to_a_change_are_tried_before_others_and_quick_ones_first(pot):
    file, _ = pot
    place = place_of(file, change_at(13, "operator"), [file])
    seen = [
        Seen("slow.py::comes", 9.0, {str(file): {12, 13}}),
        Seen("quick.py::other", 0.1, {str(file): {12}}),
        Seen("quick.py::comes", 0.3, {str(file): {12, 13}}),
        Seen("quick.py::comes too", 0.2, {str(file): {13}}),
        Seen("far.py::other", 0.1, {}),
    ]
    nearest = Nearest(seen, HERE)
    order = ["quick.py::comes too", "quick.py::comes", "slow.py::comes", "quick.py::other"]
    assert [each.test for each in nearest.tests_for(file, place)] == order
    for _ in range(99):
        nearest.noticed(file, "slow.py::comes")
    assert nearest.tests_for(file, place)[0].test == "slow.py::comes"


def test_a_constant_is_looked_at_first_by_tests_that_import_its_module(tmp_path):
    module = tmp_path / "kitchen" / "kettle.py"
    module.parent.mkdir()
    module.write_text("LEAST_L = 2.0\n", "utf-8")
    (tmp_path / "near.py").write_text("from kitchen.kettle import LEAST_L\n", "utf-8")
    (tmp_path / "far.py").write_text("from kitchen import stoves\n", "utf-8")
    place = place_of(module, changes_in("LEAST_L = 2.0\n")[0], [module])
    seen = [
        Seen("far.py::comes", 0.1, {str(module): {1}}),
        Seen("near.py::slow", 0.9, {}),
        Seen("near.py::quick", 0.5, {}),
    ]
    order = [each.test for each in Nearest(seen, tmp_path).tests_for(module, place)]
    assert order == ["near.py::quick", "near.py::slow", "far.py::comes"]


def test_a_changed_function_is_run_in_a_copy_of_the_process_alone(pot):
    file, module = pot
    child = os.fork()
    if not child:
        try:
            done = tried._put_in(file, change_at(13, "operator")) and module.left_l(11.0) == 12.0
        finally:
            os._exit(not done)
    assert os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == 0
    assert module.left_l(11.0) == 10.0


def fate_of(work, seconds=0.1):
    def be_tried(pipe: int) -> int:
        os.write(pipe, b"0\n")
        return work()

    return tried._fate(be_tried, [Seen("a test", seconds, {})])


def busy(seconds: float) -> None:
    began = time.process_time()
    while time.process_time() - began < seconds:
        pass


def test_a_test_hangs_by_its_own_time_of_the_processor_and_not_by_the_clock(monkeypatch):
    monkeypatch.setattr(tried, "HANGS_S", 0.3)
    endless = fate_of(lambda: busy(60.0) or tried.ALL_PASSED)
    assert (endless.what, endless.by, endless.noticed) == ("hung", "a test", True)
    slow_anyway = fate_of(lambda: busy(1.0) or tried.ALL_PASSED, seconds=1.0)
    assert (slow_anyway.what, slow_anyway.noticed) == ("survived", False)
    waits = fate_of(lambda: time.sleep(1.5) or tried.ALL_PASSED)
    assert waits.what == "survived"


def test_a_test_that_fails_notices_and_what_no_test_comes_to_is_told_as_such():
    assert fate_of(lambda: tried.SOME_FAILED).what == "killed"
    assert fate_of(lambda: tried.NOT_WARM).what == "not warm"
    assert tried._fate(lambda _: tried.ALL_PASSED, []).what == "not reached"


@pytest.mark.parametrize("package", PACKAGES)
def test_every_package_has_its_modules_and_tests(package):
    places, tests = PACKAGES[package]
    assert len(modules_of(places)) > 5
    assert len(files_at(tests)) > 5
