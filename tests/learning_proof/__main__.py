"""Hidden kitchens: `python -m tests.learning_proof [KITCHENS]`."""

import sys
import time

from tests.learning_proof.counted import counted, moved_by_a_bad_log
from tests.learning_proof.hidden_kitchens import FIGURES


def say(line):
    """Write a line."""
    sys.stdout.write(f"{line}\n")


AFTER = (1, 3, 5, 8)


def tell(title, seeds, faster=1.0):
    """Print how often the next brew lies in the band, and how wide that is."""
    shares, widths = counted(seeds, AFTER, faster)
    say(f"{title}: share of next brews in the 5 to 95 % band (width as a share of the start)")
    say(f"{'':18}" + "".join(f"{f'after {each}':>16}" for each in AFTER))
    for figure in FIGURES:
        row = (f"{shares[n, figure]:8.1%} ({widths[n, figure]:4.2f})" for n in AFTER)
        say(f"{figure:18}" + "".join(f"{each:>16}" for each in row))
    for brews in AFTER:
        every = [shares[brews, figure] for figure in FIGURES]
        say(f"after {brews}: all figures together {sum(every) / len(every):.1%}")
    say("")


def main(kitchens):
    began = time.perf_counter()
    tell(f"{kitchens} kitchens", range(kitchens))
    tell(f"{kitchens // 2} that change five times as fast", range(kitchens // 2), 5.0)
    middle, most, odd = moved_by_a_bad_log(range(kitchens // 4))
    say(
        f"one log in eight says half of the evaporation: moved by {middle:.2f} of half the band, "
        f"{most:.2f} at the most; found odd in {odd:.0%}"
    )
    say(f"{time.perf_counter() - began:.0f} s")


main(int(sys.argv[1]) if len(sys.argv) > 1 else 400)
