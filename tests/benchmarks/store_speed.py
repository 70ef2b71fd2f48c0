"""How fast a Recipe box of 100,000 recipes is: each key of a search; opening against 10 recipes.

Run it: `python tests/benchmarks/store_speed.py [recipes]`. It prints milliseconds and ratios
measured in one run. The recipes are made by a fixed rule, so that each run searches the same ones.
"""

# ruff: noqa: T201 - it is run by hand and prints what it measured
from __future__ import annotations

import random
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

from figures import note

sys.path.insert(0, str(Path(__file__).parents[2]))

from designer.library.recipe_file import document_text, load
from designer.library.store import Store, Summary
from designer.recipe.document import Recipe
from designer.resource_files import resource_path

MANY, FEW = 100_000, 10
STARTS = 25
KEY_BOUND_MS = 20.0
OPEN_BOUND = 1.10
FIRST = (
    "Harbour", "Slipway", "Foghorn", "Breakwater", "Lantern", "Tideline", "Mooring", "Capstan",
    "Keel", "Pier", "Gull", "Anchor", "Ropewalk", "Saltmarsh", "Jetty", "Ballast",
)  # fmt: skip
LAST = ("Porter", "Bitter", "Stout", "Wheat", "Mild", "Pale Ale", "Amber", "Saison", "Bock", "Red")
HOPS = ("Challenger", "East Kent Golding", "Fuggle", "Cascade", "Saaz", "Hallertau", "Tettnang")
GRAINS = ("Medium crystal malt", "Chocolate malt", "Flaked oats", "Roasted barley", "Wheat malt")
NOTES = (
    "Brewed for the spring fair, a little sweet at first.",
    "Less bitterness next time; the oats made it round.",
    "Cold kitchen, slow start, clean taste after four weeks.",
    "For the boat race. Half of it was gone by noon.",
)
TYPED = (
    "harbour porter", "slipway bitter oats", "foghorn", "ibu 30..40", "og 1.040..1.050",
    "abv 4..5", "srm 10..20", "with oats", "without wheat", "with oats without wheat",
    "fits 9 L", "tagged session", "style porter", "porter ibu 30..40", "porter ibu 99..100",
    "malt ibu 99..100 abv 4..4.1", "ibu 20..60 og 1.030..1.080 srm 3..40", "fits 4 L with oats",
    "brewed for the spring fair", "lantern stout tagged winter", "east kent golding",
    '"pale ale" with cascade', "zzz", "ibu 30..30.2 abv 9..9.1", "without malt", "c++ 3.3 lb",
)  # fmt: skip


def documents(count: int) -> Iterator[tuple[str, Summary, tuple[str, ...]]]:
    """Make recipes of different names, ingredients, notes and figures, the same ones each time."""
    chance = random.Random(7)
    text = document_text(load(resource_path("examples/harbour_lamp_porter.hobwort")))
    plain = document_text(Recipe())
    assert text != plain
    for number in range(count):
        last = chance.choice(LAST)
        name = f"{chance.choice(FIRST)} {chance.choice(FIRST)} {last} {number}"
        document = text.replace("Harbour Lamp Porter", name, 1)
        document = document.replace("English Porter", f"English {last}", 1)
        document = document.replace("Challenger", chance.choice(HOPS))
        document = document.replace("East Kent Golding", chance.choice(HOPS))
        document = document.replace("Medium crystal malt", chance.choice(GRAINS))
        note = f'  "notes": "{chance.choice(NOTES)}",\n  "pot"'
        document = document.replace('  "pot"', note, 1)
        yield document, figures(chance, last), (chance.choice(("session", "winter", "fair")),)


def figures(chance: random.Random, style: str) -> Summary:
    """Make up a forecast within the usual limits."""
    og = chance.uniform(1.030, 1.090)
    return Summary(
        style=f"English {style}", fermenter="Small bucket", pot="Kitchen pot",
        og=og, fg=1.0 + (og - 1.0) / 4.0, abv=98.0 * (og - 1.0), ibu=chance.uniform(10.0, 100.0),
        srm=chance.uniform(2.0, 45.0), batch_l=chance.uniform(4.0, 23.0),
        pot_fullest_l=chance.uniform(3.0, 30.0),
    )  # fmt: skip


def filled(folder: Path, count: int) -> float:
    """Fill a new store; return the seconds it took."""
    begun = time.perf_counter()
    with Store.open(folder) as store:
        store.recipes.add_many(documents(count))
    return time.perf_counter() - begun


def key_times(store: Store) -> list[tuple[float, str]]:
    """Type every search key by key; return the milliseconds of each key with what was typed."""
    found = []
    for typed in TYPED:
        for length in range(1, len(typed) + 1):
            begun = time.perf_counter()
            store.finder.find(typed[:length])
            found.append((1000.0 * (time.perf_counter() - begun), typed[:length]))
    return found


OPENING = """
import gc, sys, time
from pathlib import Path
import sqlite_utils
from designer.library.store import Store
gc.disable()  # as the program does while it opens: whose turn it is would be chance
folder = Path(sys.argv[1])
begun = time.perf_counter()
store = Store.open(folder)
opened = time.perf_counter()
store.finder.find("")
print(1000 * (opened - begun), 1000 * (time.perf_counter() - opened))
"""


def opening_times(folders: list[Path]) -> list[tuple[float, float, float]]:
    """Open the stores in new processes, in turn, so that a busy machine slows all alike.

    Returns for each the median milliseconds of opening, of a first page, and of the process.
    """
    taken: list[list[tuple[float, float, float]]] = [[] for _ in folders]
    for _ in range(STARTS):
        for index, folder in enumerate(folders):
            begun = time.perf_counter()
            done = subprocess.run(
                [sys.executable, "-c", OPENING, str(folder)],
                capture_output=True, text=True, check=True, cwd=Path(__file__).parents[2],
            )  # fmt: skip
            whole = 1000.0 * (time.perf_counter() - begun)
            opening, page = (float(word) for word in done.stdout.split())
            taken[index].append((opening, page, whole))
    return [
        (
            statistics.median(each[0] for each in times),
            statistics.median(each[1] for each in times),
            statistics.median(each[2] for each in times),
        )
        for times in taken
    ]


def main(count: int) -> int:
    with tempfile.TemporaryDirectory(prefix="hobwort-speed-") as name:
        many, few = Path(name) / "many", Path(name) / "few"
        print(f"{count} recipes kept in {filled(many, count):.1f} s")
        filled(few, FEW)
        with Store.open(many) as store:
            times = key_times(store)
            begun = time.perf_counter()
            store.recipes.duplicate(count // 2)
            saving = 1000.0 * (time.perf_counter() - begun)
        size = (many / "recipe-box.db").stat().st_size / 1e6
        print(f"file {size:.0f} MB; one more recipe saved in {saving:.1f} ms")
        milliseconds = sorted(taken for taken, _ in times)
        p50 = statistics.median(milliseconds)
        p99 = milliseconds[int(0.99 * len(milliseconds))]
        print(
            f"{len(times)} keys: p50 {p50:.1f} ms, p99 {p99:.1f} ms, most {milliseconds[-1]:.1f} ms"
        )
        for taken, typed in sorted(times, reverse=True)[:8]:
            print(f"    {taken:6.1f} ms  {typed}")
        big, small = opening_times([many, few])
        ratio = big[2] / small[2]
        print(f"opening: {big[0]:.1f} ms against {small[0]:.1f} ms with {FEW} recipes")
        print(f"first page: {big[1]:.1f} ms against {small[1]:.1f} ms")
        print(f"process with its first page: {big[2]:.0f} ms against {small[2]:.0f}, x {ratio:.2f}")
        note(f"search among {count:,}, a key, 99 of 100", p99, "ms", bound=KEY_BOUND_MS)
        note(f"opening with {count:,}, against {FEW}", ratio, "x", bound=OPEN_BOUND)
        ok = p99 <= KEY_BOUND_MS and ratio <= OPEN_BOUND
        print("within bounds" if ok else "over bounds")
    return 0 if ok else 1


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else MANY))
