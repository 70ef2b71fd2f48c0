"""The picture of the house in DEVELOPERS.md, drawn from the import contracts of pyproject.toml.

    python -m tests.house_drawn

writes it anew; `tests/test_house_drawn.py` tells when that has to be done.
"""

import re
import textwrap
import tomllib
from pathlib import Path

TOP = Path(__file__).parents[1]
DEVELOPERS = TOP / "DEVELOPERS.md"
PICTURE = re.compile(r"(?<=<!-- the house -->\n```text\n).+?(?=```\n)", re.DOTALL)
WIDTH = 72


def layers_of(container: str) -> list[list[str]]:
    """Return the layers of a package from the top down, each with what stands side by side."""
    project = tomllib.loads((TOP / "pyproject.toml").read_text("utf-8"))
    for contract in project["tool"]["importlinter"]["contracts"]:
        if contract.get("containers") == [container]:
            return [layer.split(" | ") for layer in contract["layers"]]
    raise KeyError(container)


def drawn(container: str, inside: dict[str, str]) -> list[str]:
    """Return the lines of a package: a row for each layer, which may use those below it."""
    lines = [f"{container}/", "┌" + "─" * (WIDTH - 2) + "┐"]
    for layer in layers_of(container):
        if len(lines) > 2:
            lines.append("├" + "─" * (WIDTH - 2) + "┤")
        rows = textwrap.wrap("   ".join(layer), WIDTH - 4)
        rows += [inside[name] for name in layer if name in inside]
        lines += [f"│ {row:{WIDTH - 4}} │" for row in rows]
    lines.append("└" + "─" * (WIDTH - 2) + "┘")
    return lines


def picture() -> str:
    """Return both pictures: the house, and the window in it."""
    house = drawn("designer", {"window": "(its own layers are drawn below)"})
    beside = "beside them all: " + ", ".join(_beside())
    return "\n".join([*house, beside, "", *drawn("designer.window", {})]) + "\n"


def _beside() -> list[str]:
    project = tomllib.loads((TOP / "pyproject.toml").read_text("utf-8"))
    return list(project["tool"]["importlinter"]["contracts"][0]["exhaustive_ignores"])


if __name__ == "__main__":
    text = DEVELOPERS.read_text("utf-8")
    DEVELOPERS.write_text(PICTURE.sub(lambda _: picture(), text), "utf-8")
