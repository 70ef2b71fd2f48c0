"""What DEVELOPERS.md says of the house as a whole is so: its picture, and what it is built on."""

import re
import tomllib

from packaging.requirements import Requirement

from tests.house_drawn import DEVELOPERS, PICTURE, TOP, picture

ROW = re.compile(r"^\| `([^`]+)` \| ([^|]+) \| ([^|]+) \| ([^|]+) \|$", re.MULTILINE)


def test_the_picture_of_the_house_is_that_of_the_import_contracts():
    """Else: python -m tests.house_drawn."""
    [drawn] = PICTURE.findall(DEVELOPERS.read_text("utf-8"))
    assert drawn == picture()


def test_every_dependency_is_told_with_its_bounds_its_licence_and_what_for():
    project = tomllib.loads((TOP / "pyproject.toml").read_text("utf-8"))["project"]
    wanted = {("runtime", line) for line in project["dependencies"]}
    for extra, lines in project["optional-dependencies"].items():
        wanted |= {(extra, line) for line in lines}
    table = (
        DEVELOPERS.read_text("utf-8").partition("## What it is built on\n")[2].partition("\n## ")[0]
    )
    rows = ROW.findall(table)
    assert {(where.strip(), line) for line, where, _, _ in rows} == wanted
    for line, where, licence, why in rows:
        assert licence.strip(), line
        assert len(why.strip()) > 15, line
        if where == "runtime":
            name = Requirement(line).name.lower()
            file = "qt.txt" if name.startswith("pyside6") else f"{name}.txt"
            assert (TOP / "packaging" / "licences" / file).exists(), name
