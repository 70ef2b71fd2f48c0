"""How fast an odd reading is answered: the first answer, and the whole one.

Run it: `python tests/benchmarks/reading_speed.py`. For readings of the porter it prints the median
of the milliseconds that a first and a whole answer take, by the time of their thread, which a busy
machine changes less than the clock, and how many times a plain run of the same day that is,
measured in the same run: compare ratios between machines. The bounds are a frame and 100 ms on an
otherwise idle machine. What a reading is held against is made ready beforehand, once a
brew, beside the window; it is told in the last line.
"""

# ruff: noqa: T201 - it is run by hand and prints what it measured
from __future__ import annotations

import statistics
import sys
import time
from pathlib import Path

from figures import note

sys.path.insert(0, str(Path(__file__).parents[2]))

from designer.brewday.day import run_day
from designer.brewday.explaining.asked import Answer, Asked, Drawn, GravitySample, Stirred, TestCode
from designer.brewday.explaining.beliefs import beliefs_of, outlook_to_explain
from designer.brewday.explaining.explain import explained
from designer.brewday.tolerances import Nominal
from designer.library.recipe_file import load
from designer.resource_files import resource_path

TIMES, WARMING = 30, 3
FIRST_MS, WHOLE_MS = 16.7, 100.0
LOW = GravitySample(1.037, sample_c=24.0, drawn=Drawn.TOP)
AGAIN = GravitySample(1.038, sample_c=20.0, drawn=Drawn.TOP, stirred=Stirred.HARD)
READINGS = {
    "as forecast": Asked((GravitySample(1.046, sample_c=20.0),)),
    "low at the surface": Asked((LOW,)),
    "low, the level read": Asked((LOW,), mark_l=10.0),
    "stirred, still low": Asked((LOW, AGAIN)),
    "stirred, packets counted": Asked(
        (LOW, AGAIN), answers=(Answer(TestCode.COUNT_PACKETS, changed=False),)
    ),
}


def median_ms(act) -> float:
    """Return the median of how long something takes."""
    taken = []
    for _ in range(WARMING + TIMES):
        start = time.thread_time()
        act()
        taken.append(1000.0 * (time.thread_time() - start))
    return statistics.median(taken[WARMING:])


def main() -> None:
    """Print how long answers take."""
    recipe = load(resource_path("examples/harbour_lamp_porter.hobwort"))
    plain = median_ms(lambda: run_day(recipe, Nominal(), noting=False))
    print(f"a plain run of the day: {plain:.2f} ms")
    beliefs = beliefs_of(outlook_to_explain(recipe, ()))
    for name, asked in READINGS.items():
        first = median_ms(lambda asked=asked: explained(asked, beliefs, recipe, whole=False))
        whole = median_ms(lambda asked=asked: explained(asked, beliefs, recipe))
        note(f"reading, engine, {name}: first answer", first, "ms", bound=FIRST_MS)
        note(f"reading, engine, {name}: whole answer", whole, "ms", bound=WHOLE_MS)
        print(
            f"{name:26} first {first:6.1f} ms ({first / plain:5.1f} runs; bound {FIRST_MS} ms), "
            f"whole {whole:6.1f} ms ({whole / plain:5.1f} runs; bound {WHOLE_MS} ms)"
        )
    ready = median_ms(lambda: beliefs_of(outlook_to_explain(recipe, ())))
    print(f"what it is held against, once: {ready:.1f} ms ({ready / plain:.1f} runs)")


if __name__ == "__main__":
    main()
