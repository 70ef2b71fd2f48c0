"""What is handed out: the wheel and the source archive, and the program run from them alone."""

from __future__ import annotations

import subprocess
import sys
import tarfile
import zipfile
from configparser import ConfigParser
from email.parser import Parser
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

TOP = Path(__file__).parents[2]
PYTHON_3_11 = {"python_version": "3.11", "extra": ""}
PORTER = "examples/harbour_lamp_porter.hobwort"


def built(source: Path, target: str, into: Path) -> Path:
    """Build a wheel or sdist offline, with the build backend that is installed."""
    command = [sys.executable, "-m", "hatchling", "build", "-t", target, "-d", str(into)]
    done = subprocess.run(command, cwd=source, capture_output=True, text=True, timeout=300)
    assert done.returncode == 0, done.stdout + done.stderr
    [made] = into.glob("*.whl" if target == "wheel" else "*.tar.gz")
    return made


@pytest.fixture(scope="module")
def source_archive(tmp_path_factory):
    return built(TOP, "sdist", tmp_path_factory.mktemp("sdist"))


@pytest.fixture(scope="module")
def unpacked_source(source_archive, tmp_path_factory):
    folder = tmp_path_factory.mktemp("source")
    with tarfile.open(source_archive) as archive:
        # Python 3.11 before 3.11.4 knows no filters.
        archive.extraction_filter = getattr(tarfile, "data_filter", lambda member, _: member)
        archive.extractall(folder)
    [top] = folder.iterdir()
    return top


@pytest.fixture(scope="module")
def wheel(unpacked_source, tmp_path_factory):
    """The wheel made of the source archive, which has passed through both doors."""
    return built(unpacked_source, "wheel", tmp_path_factory.mktemp("wheel"))


@pytest.fixture(scope="module")
def installed(wheel, tmp_path_factory):
    """A folder with the wheel unpacked in it, which is how a wheel is installed."""
    folder = tmp_path_factory.mktemp("site")
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(folder)
    return folder


def files_of(folder: Path) -> set[str]:
    return {
        path.relative_to(folder).as_posix()
        for path in folder.rglob("*")
        if path.is_file() and "__pycache__" not in path.parts
    }


def run_from(installed: Path, code: str, *words: str) -> subprocess.CompletedProcess[str]:
    """Run code with the unpacked wheel before all else, far from the checkout."""
    leading = f"import sys; sys.path.insert(0, {str(installed)!r})\n"
    return subprocess.run(
        [sys.executable, "-P", "-c", leading + code, *words],
        capture_output=True,
        text=True,
        encoding="utf-8",
        timeout=120,
        cwd=installed,
    )


def test_the_wheel_holds_every_module_and_every_resource(installed):
    here = files_of(installed)
    assert {f"designer/{name}" for name in files_of(TOP / "designer")} <= here
    assert {f"designer/_resources/{name}" for name in files_of(TOP / "resources")} <= here


def test_the_wheel_holds_nothing_else(installed):
    tops = {name.split("/")[0] for name in files_of(installed)}
    assert {top for top in tops if not top.endswith(".dist-info")} == {"designer"}


def test_the_source_archive_holds_tests_scripts_and_licence(unpacked_source):
    here = files_of(unpacked_source)
    assert {"README.md", "DEVELOPERS.md", "LICENSE", "pyproject.toml", ".ci/run"} <= here
    for folder in ("resources", "packaging", "tests/packaging"):
        assert {f"{folder}/{name}" for name in files_of(TOP / folder)} <= here


def test_the_wheel_carries_licence_readme_and_the_qt_that_works(installed):
    [metadata] = installed.glob("*.dist-info/METADATA")
    told = Parser().parsestr(metadata.read_text("utf-8"))
    assert told["License-Expression"] == "Apache-2.0 AND OFL-1.1"
    assert "sh packaging/run.sh" in told.get_payload()
    [license_text] = installed.glob("*.dist-info/licenses/LICENSE")
    assert "Apache License" in license_text.read_text("utf-8")
    [of_typeface] = installed.glob("*.dist-info/licenses/resources/fonts/OFL.txt")
    assert "SIL OPEN FONT LICENSE" in of_typeface.read_text("utf-8")
    needed = [Requirement(line) for line in told.get_all("Requires-Dist", [])]
    on_3_11 = [each for each in needed if each.marker is None or each.marker.evaluate(PYTHON_3_11)]
    [qt] = [each for each in on_3_11 if canonicalize_name(each.name) == "pyside6-essentials"]
    assert not qt.specifier.contains("6.12.0")


def test_the_entry_point_of_the_wheel_is_the_program(installed):
    [entry_points] = installed.glob("*.dist-info/entry_points.txt")
    told = ConfigParser()
    told.read_string(entry_points.read_text("utf-8"))
    module, function = told["console_scripts"]["hobwort"].split(":")
    code = f"from {module} import {function}; sys.exit({function}())"
    done = run_from(installed, code, "--version")
    assert done.returncode == 0, done.stderr
    assert done.stdout.startswith("hobwort ")


def test_the_program_forecasts_from_the_wheel_with_the_resources_of_the_wheel(installed):
    code = (
        "from designer.__main__ import main\n"
        "from designer.resource_files import resources_folder\n"
        "print(resources_folder())\n"
        "sys.exit(main())\n"
    )
    recipe = str(installed / "designer" / "_resources" / PORTER)
    done = run_from(installed, code, "forecast", recipe)
    assert done.returncode == 0, done.stderr
    where, *forecast = done.stdout.splitlines()
    assert Path(where) == installed / "designer" / "_resources"
    assert any("gravity" in line.lower() for line in forecast)
