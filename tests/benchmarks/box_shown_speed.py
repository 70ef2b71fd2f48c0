"""How soon a full Recipe box is shown: `python tests/benchmarks/box_shown_speed.py [recipes]`.

The box holds 5,000 recipes of 20 versions each. In the window the page is asked for, for the first
time; what is measured ends when its rows have been painted. Then it is left and asked for again.
The modules are compiled, as an installed program's are.
"""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from as_installed import as_installed
from figures import note

sys.path.insert(0, str(Path(__file__).parents[2]))

from store_speed import documents

RECIPES, VERSIONS, BOUND_MS, RUNS = 5000, 20, 500.0, 5
AGAIN = 3
ONE_RUN = "one"
NOTES = '"notes": "'


def filled(folder: Path, recipes: int) -> None:
    """Fill a box; each version differs from the one before it in its notes."""
    from designer.library.store import Store
    from designer.library.store.documents import accepted
    from designer.library.store.recipe_rows import new_version

    made = list(documents(recipes))
    with Store.open(folder) as store:
        ids = store.recipes.add_many(made)
        several = list(zip(ids, made, strict=True))
        for start in range(0, len(several), 100):

            def work(db, some=several[start : start + 100]):
                for recipe, (document, summary, _) in some:
                    for number in range(2, VERSIONS + 1):
                        told = document.replace(NOTES, f"{NOTES}{number} ", 1)
                        kept, values = accepted(told)
                        new_version(db, recipe, kept, values, summary, "")

            store.connection.write(work)


def shown(folder: Path) -> None:
    """Print, of one process, the milliseconds of the first visit and of later ones."""
    from key_speed import open_window  # which names folders of its own

    os.environ["HOBWORT_STORE"] = str(folder)
    from designer.library.recipe_file import load
    from designer.resource_files import resource_path

    application, window = open_window(load(resource_path("examples/slipway_bitter.hobwort")))
    place = window.page_names.index("Recipe box")
    for _ in range(1 + AGAIN):
        painted = [False]
        window.show_page(0)
        application.processEvents()

        def look(painted=painted):
            box = window.box
            painted[0] = box is not None and box.isVisible() and box.model.rowCount() > 0

        window.has_painted = look
        begun = time.perf_counter()
        window.show_page(place)
        while not painted[0]:
            application.processEvents()
            if time.perf_counter() - begun > 60:
                raise SystemExit("nothing is shown")
        say(f"{1000.0 * (time.perf_counter() - begun)}")
    window.has_painted = lambda: None
    sys.stdout.flush()
    os._exit(0)


def say(text: str) -> None:
    """Write a line."""
    sys.stdout.write(text + "\n")


def main() -> int:
    """Print the medians; 1 where a first visit takes too long."""
    recipes = int(sys.argv[1]) if len(sys.argv) > 1 else RECIPES
    with tempfile.TemporaryDirectory(prefix="hobwort-box-") as name, as_installed() as environment:
        folder = Path(name) / "box"
        filled(folder, recipes)
        size = sum(each.stat().st_size for each in folder.iterdir() if each.is_file()) / 1e6
        first, later = [], []
        words = [sys.executable, __file__, ONE_RUN, str(folder)]
        for run in range(1 + RUNS):
            done = subprocess.run(
                words, capture_output=True, text=True, check=True, env=environment
            )
            if run == 0:  # this one compiled them
                continue
            spans = [float(line.split()[0]) for line in done.stdout.splitlines()]
            first.append(spans[0])
            later += spans[1:]
    once, again = statistics.median(first), statistics.median(later)
    say(
        f"{recipes} recipes of {VERSIONS} versions, {size:.0f} MB: box shown in {once:.0f} ms at "
        f"first, {again:.0f} ms again (bound {BOUND_MS:.0f} ms)"
    )
    note(f"Recipe box of {recipes:,} recipes x {VERSIONS}: shown", once, "ms", bound=BOUND_MS)
    note(
        f"Recipe box of {recipes:,} recipes x {VERSIONS}: shown again", again, "ms", bound=BOUND_MS
    )
    return int(once > BOUND_MS)


if __name__ == "__main__":
    if sys.argv[1:2] == [ONE_RUN]:
        shown(Path(sys.argv[2]))
    sys.exit(main())
