"""What is told to others of a fault: places of the program, and nothing of its user."""

import json
import sys
from pathlib import Path

import designer
from designer.workbench.problem_words import LEFT_OUT, fault_words, home_words, place_words

SECRET = "Aunt Meriel's secret stout"


def test_what_led_to_a_fault_is_told_too():
    try:
        try:
            {}[SECRET]
        except KeyError as cause:
            raise ZeroDivisionError(SECRET) from cause
    except ZeroDivisionError as fault:
        told = fault_words(fault)
    assert told.index("KeyError") < told.index("which led to:") < told.index("ZeroDivisionError")
    assert SECRET not in told


def test_places_are_told_without_the_folders_they_lie_in():
    assert place_words(designer.__file__) == "designer/__init__.py"
    assert place_words(json.__file__).endswith("json/__init__.py")
    assert not Path(place_words(json.__file__)).is_absolute()
    library = Path(sys.prefix) / "lib" / "site-packages" / "numpy" / "core.py"
    assert place_words(str(library)) == "numpy/core.py"
    assert place_words("/home/meriel/brew.py") == "brew.py"


def test_the_user_s_own_folder_is_a_sign(monkeypatch, tmp_path):
    monkeypatch.setenv("HOME", str(tmp_path))
    assert home_words(tmp_path / "beer" / "a.txt") == "~/beer/a.txt"
    assert home_words(Path("/elsewhere/a.txt")) == "/elsewhere/a.txt"


def test_the_words_of_a_fault_are_left_out():
    try:
        raise ValueError(SECRET)
    except ValueError as fault:
        told = fault_words(fault)
    assert f"ValueError {LEFT_OUT}" in told
    assert "tests/workbench/test_problem_words.py" in told
    assert SECRET not in told.replace("raise ValueError(SECRET)", "")
