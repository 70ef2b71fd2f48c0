"""Which PySide6 goes with which Python.

PySide6 6.12.0 on Python 3.11 loses a reference to None with each call that returns nothing and
aborts after some thousands of them (measured on 3.11.2 and 3.11.7: "none_dealloc: deallocating
None"); 3.12 and 3.13 are not touched, nor is 6.11 on 3.11.
"""

from __future__ import annotations

import ast
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from importlib.metadata import packages_distributions
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

TOP = Path(__file__).parents[2]
PROJECT = tomllib.loads((TOP / "pyproject.toml").read_text("utf-8"))["project"]
RUNTIME = [Requirement(line) for line in PROJECT["dependencies"]]
EXTRAS = PROJECT["optional-dependencies"]
FOR_TESTS = [Requirement(line) for line in EXTRAS["dev"] + EXTRAS["fuzz"]]

MANY_CALLS = """
from PySide6.QtWidgets import QApplication, QLabel

application = QApplication([])
label = QLabel()
for _ in range(50_000):
    label.setText("wort")
print(label.text())
"""


def qt_for(python: str) -> Requirement:
    """Return the one requirement of Qt that holds for this Python."""
    [found] = [
        each
        for each in RUNTIME
        if each.name == "PySide6-Essentials"
        and (each.marker is None or each.marker.evaluate({"python_version": python}))
    ]
    return found


def test_qt_survives_fifty_thousand_calls():
    done = subprocess.run(
        [sys.executable, "-c", MANY_CALLS],
        capture_output=True,
        text=True,
        timeout=300,
    )
    assert done.returncode == 0, done.stderr
    assert done.stdout.split() == ["wort"]


def test_the_qt_that_aborts_is_kept_from_python_3_11():
    qt = qt_for("3.11")
    assert not qt.specifier.contains("6.12.0")
    assert not qt.specifier.contains("6.13.0")
    assert qt.specifier.contains("6.11.3")


@pytest.mark.parametrize("python", ["3.12", "3.13"])
def test_later_pythons_take_the_later_qt(python):
    qt = qt_for(python)
    assert qt.specifier.contains("6.12.0")
    assert not qt.specifier.contains("6.11.3")


def test_the_installed_qt_is_one_that_the_pin_allows():
    from PySide6 import __version__

    assert qt_for(f"3.{sys.version_info.minor}").specifier.contains(__version__)


def test_the_supported_pythons_are_those_said_in_three_places():
    said = {line.split()[-1] for line in PROJECT["classifiers"] if "3." in line}
    assert said == {"3.11", "3.12", "3.13"}
    assert PROJECT["requires-python"] == f">={min(said)}"
    script = (TOP / "packaging" / "setup.sh").read_text("utf-8")
    assert "(3, 11) <= sys.version_info[:2] <= (3, 13)" in script


def imported_packages(folder: str) -> Iterator[tuple[Path, str]]:
    for path in sorted((TOP / folder).rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Import):
                yield from ((path, alias.name.split(".")[0]) for alias in node.names)
            elif isinstance(node, ast.ImportFrom) and node.module and node.level == 0:
                yield path, node.module.split(".")[0]


@pytest.mark.parametrize(
    ("folder", "declared"), [("designer", RUNTIME), ("tests", RUNTIME + FOR_TESTS)]
)
def test_every_imported_package_is_declared(folder, declared):
    names = {canonicalize_name(each.name) for each in declared}
    # shiboken6 is the part of PySide6 that the latter requires in its own version.
    names.add("shiboken6")
    distributions = packages_distributions()
    # The last is what type checkers alone know.
    own = {"designer", "tests", *sys.stdlib_module_names, "_typeshed"}
    undeclared = {
        f"{path.relative_to(TOP)}: {package}"
        for path, package in imported_packages(folder)
        if package not in own
        and not (path.parent / f"{package}.py").is_file()  # a script finds what stands beside it
        and not names & {canonicalize_name(each) for each in distributions.get(package, [package])}
    }
    assert not undeclared
