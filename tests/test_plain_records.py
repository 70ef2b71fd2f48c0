"""Dataclasses do all as Python's own `dataclasses` has them do."""

from __future__ import annotations

import subprocess
import sys
from dataclasses import FrozenInstanceError, dataclass, field, replace

import pytest

from designer.plain_records import make_records_as_ever, make_records_plainly


def records():
    @dataclass(frozen=True, slots=True)
    class Hop:
        name: str
        mass_g: float = 20.0
        note: str = field(default="", repr=False)

    @dataclass(frozen=True)
    class Pot:
        volume_l: float

    @dataclass(frozen=True)
    class Marked(Pot):
        marks: tuple[float, ...] = ()
        within: list[object] = field(default_factory=list)

    class Own(Pot):
        pass

    @dataclass
    class Reading:
        gravity: float

    @dataclass(frozen=True, slots=True)
    class Nothing:
        pass

    around = Marked(9.0, (1.0, 2.0))
    around.within.append(around)
    return [Hop("Fuggle"), Hop("Fuggle", note="old"), Pot(9.0), around, Own(3.0), Reading(1.04),
            Nothing()]  # fmt: skip


@pytest.fixture
def both_ways():
    make_records_as_ever()
    as_ever = records()
    make_records_plainly()
    try:
        yield list(zip(as_ever, records(), strict=True))
    finally:
        make_records_as_ever()


def outcome(change, one, name):
    try:
        return repr(change(one, name))
    except (AttributeError, TypeError) as fault:
        return f"{type(fault).__name__}: {fault}"


def set_it(one, name):
    setattr(one, name, 1.0)
    return one


CHANGES = (set_it, delattr, lambda one, name: replace(one, **{name: 2.0}))


def test_fields_are_told_as_python_tells_them(both_ways):
    for as_ever, plainly in both_ways:
        assert repr(plainly) == repr(as_ever)
    assert repr(both_ways[0][1]) == "records.<locals>.Hop(name='Fuggle', mass_g=20.0)"
    assert "within=[...]" in repr(both_ways[3][1])


@pytest.mark.parametrize("name", ["name", "mass_g", "volume_l", "marks", "gravity", "other"])
def test_a_change_is_refused_in_the_same_words(both_ways, name):
    for change in CHANGES:
        for as_ever, plainly in both_ways:
            assert outcome(change, plainly, name) == outcome(change, as_ever, name)
    with pytest.raises(FrozenInstanceError):
        both_ways[0][1].mass_g = 30.0


def test_methods_bear_the_names_that_python_gives_them(both_ways):
    for as_ever, plainly in both_ways:
        for method in ("__repr__", "__setattr__", "__delattr__"):
            one, other = getattr(type(plainly), method), getattr(type(as_ever), method)
            assert one.__qualname__ == other.__qualname__


def test_a_method_is_compiled_when_it_is_first_called():
    make_records_plainly()
    try:
        hop, twin, *_ = records()
    finally:
        make_records_as_ever()
    kind = type(hop)
    waiting = kind.__eq__
    assert hop != twin
    assert hop == kind("Fuggle")
    if sys.version_info < (3, 13):
        assert waiting.__module__ == make_records_plainly.__module__
        assert kind.__hash__.__module__ == make_records_plainly.__module__
        assert kind.__eq__ is not waiting
        assert waiting(hop, kind("Fuggle"))
    assert kind.__eq__.__module__ == __name__
    assert kind.__eq__.__qualname__ == waiting.__qualname__
    with pytest.raises(TypeError, match=r"Hop.__init__\(\) missing 1 required positional argument"):
        kind()


def test_the_program_has_records_that_are_copied_kept_and_compared_as_ever():
    code = (
        "import copy, pickle, dataclasses\n"
        "from designer.plain_loading import load_plainly\n"
        "load_plainly()\n"
        "from designer.recipe.document import Pot\n"
        "print(Pot.__eq__.__module__)\n"
        "pot = Pot(name='Jam pan')\n"
        "print(pot == copy.deepcopy(pot) == pickle.loads(pickle.dumps(pot)),"
        " hash(pot) == hash(dataclasses.replace(pot)))\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, timeout=120)
    module, *rest = done.stdout.split()
    assert rest == ["True", "True"], done.stderr
    assert sys.version_info >= (3, 13) or module == "designer.plain_records"
