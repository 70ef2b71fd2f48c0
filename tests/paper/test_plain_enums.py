"""Qt's enumerations come out as Python's own `enum` makes them.

Held against `enum` of the Python that runs the tests, and its own comparison of two makings
(`enum._test_simple_enum`, which its authors test theirs with).
"""

from __future__ import annotations

import copy
import enum
import pickle
import subprocess
import sys
from enum import KEEP, Enum, EnumType, Flag, IntEnum, IntFlag

import pytest
from PySide6 import QtCore, QtGui, QtWidgets

from designer.paper.plain_enums import SAMPLE, made_plainly, made_with_care, told

CLASSES = (
    *(QtCore, QtCore.Qt, QtCore.QEvent, QtCore.QLocale, QtCore.QDir, QtCore.QCborValue),
    *(QtGui.QFont, QtGui.QImage, QtGui.QKeySequence, QtGui.QPalette, QtGui.QTextFormat),
    *(QtWidgets.QMessageBox, QtWidgets.QSizePolicy, QtWidgets.QStyle, QtWidgets.QTableView),
)


def enums_of(classes):
    return {
        found
        for each in classes
        for found in vars(each).values()
        if isinstance(found, EnumType) and found.__module__.startswith("PySide6")
    }


def made_both_ways(kind, names):
    return [
        make(kind, "Sample", list(names), module=__name__, boundary=KEEP)
        for make in (made_with_care, made_plainly)
    ]


def test_an_enumeration_of_qt_is_what_python_would_make_of_it():
    every = enums_of(CLASSES)
    assert len(every) > 150
    assert {QtCore.Qt.Key, QtCore.QLocale.Country, QtWidgets.QStyle.StandardPixmap} <= every
    for each in every:
        names = [(name, member.value) for name, member in each.__members__.items()]
        with_care, plainly = made_both_ways(each.__bases__[0], names)
        assert told(plainly) == told(with_care), each
        enum._test_simple_enum(with_care, plainly)
        assert [(one.name, one.value) for one in plainly] == [
            (one.name, one.value) for one in with_care
        ]


@pytest.mark.parametrize("kind", [Enum, IntEnum, Flag, IntFlag])
def test_a_member_does_what_it_always_does(kind):
    with_care, plainly = made_both_ways(kind, SAMPLE)
    for ask in (repr, str, list, len, dir, lambda made: [dir(each) for each in made]):
        assert repr(ask(plainly)) == repr(ask(with_care))
    for one, other in zip(
        plainly.__members__.values(), with_care.__members__.values(), strict=True
    ):
        assert repr(one) == repr(other)
        assert f"{one}" == f"{other}"
        assert hash(one) == hash(other)
        assert plainly(one.value) is one is plainly[one.name] is copy.deepcopy(one)
    with pytest.raises(AttributeError):
        plainly.four = 5
    with pytest.raises(TypeError, match="cannot extend"):

        class More(plainly):
            pass


@pytest.mark.parametrize("kind", [Flag, IntFlag])
def test_flags_are_put_together_and_turned_round_alike(kind):
    with_care, plainly = made_both_ways(kind, SAMPLE)
    for low in range(16):
        one, other = plainly(low), with_care(low)
        assert repr(one) == repr(other)
        assert repr(~one) == repr(~other)
        assert repr(one | plainly.four) == repr(other | with_care.four)
        assert [each.name for each in one] == [each.name for each in other]


@pytest.mark.parametrize(
    "names", [[("name", 1), ("mine", 2)], [("_one", 1)], [("half", 0.5)], "one two", ["one", "two"]]
)
def test_what_is_not_plain_is_made_with_care(names):
    with_care, plainly = (
        make(Enum, "Sample", names, module=__name__) for make in (made_with_care, made_plainly)
    )
    assert repr(list(with_care)) == repr(list(plainly))
    assert repr(vars(with_care)["_member_map_"]) == repr(vars(plainly)["_member_map_"])
    assert with_care.__module__ == plainly.__module__


def test_names_that_python_refuses_are_refused():
    with pytest.raises(ValueError, match="mro"):
        made_plainly(IntEnum, "Sample", [("mro", 1)])


def test_the_program_has_them_made_plainly_and_knows_where_they_are_from():
    code = (
        "import enum, pickle, sys\n"
        "from designer.paper.plain_imports import import_qt\n"
        "import_qt()\n"
        "from PySide6.QtCore import Qt\n"
        "print(enum.EnumType._create_.__name__, Qt.Key.__module__, Qt.Key.__qualname__)\n"
        "both = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop\n"
        "print(pickle.loads(pickle.dumps(both)))\n"
        "print(repr(Qt.Key(0x41)), Qt.Key.Key_A in Qt.Key)\n"
        "Own = enum.Enum('Own', 'one two')\n"
        "print(Own.__module__, list(Own))\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, timeout=120)
    told_by_program = done.stdout.splitlines()
    made_by = "made_plainly" if sys.version_info < (3, 12) else "_create_"
    assert told_by_program[0] == f"{made_by} PySide6.QtCore Qt.Key", done.stderr
    assert told_by_program[1:] == [
        str(pickle.loads(pickle.dumps(QtCore.Qt.AlignmentFlag(0x21)))),
        f"{QtCore.Qt.Key.Key_A!r} True",
        "__main__ [<Own.one: 1>, <Own.two: 2>]",
    ]
