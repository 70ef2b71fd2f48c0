"""Explain 2,000 hidden brews and tell how that holds: `python -m tests.reading_proof [brews]`.

First with the priors as they are declared, then with errors and sizes 0.7 and 1.5 times as large,
and with layers of other sizes, of which the program knows nothing. It takes some minutes.
"""

import sys

import numpy as np

from designer.brewday.explaining.advised import test_to_do
from tests.reading_proof.odd import OddReadings, lines
from tests.reading_proof.proof import played

BREWS = 2000
WORLDS = (
    ("as declared", {}),
    ("errors and sizes x 0.7", {"times": 0.7}),
    ("errors and sizes x 1.5", {"times": 1.5}),
    ("layers mostly far off", {"layer_power": 1.5}),
    ("layers mostly slight", {"layer_power": 4.0}),
)


def main() -> int:
    """Print the count of odd readings, and of each world what holds; 1 where something does not."""
    brews = int(sys.argv[1]) if len(sys.argv) > 1 else BREWS
    write = sys.stdout.write
    write("\n".join(lines(OddReadings(40_000))) + "\n")
    found = []
    for name, wider in WORLDS:
        tally = played(brews, seed=17, advise=test_to_do, **wider)
        write(f"\n{name}: {tally.brews} brews\n" + "".join(f"  {each}\n" for each in told(tally)))
        found += [f"{name}: {fault}" for fault in tally.faults(as_declared=not wider)]
        sys.stdout.flush()
    write("\n".join((f"\n{len(found)} faults", *found)) + "\n")
    return 1 if found else 0


def told(tally):
    """Yield what came of the brews, line by line."""
    yield (
        f"the true cause first, where exactly 0.8 or more: {np.mean(tally.sure):.3f} "
        f"of {len(tally.sure)}"
    )
    yield f"first and right: {np.mean(tally.right):.3f}, exactly {np.mean(tally.exact_right):.3f}"
    for low, high, many, mean, were in tally.bins():
        yield f"stated {low:.1f} to {high:.1f}: {many:6}, mean {mean:.3f}, true {were:.3f}"
    apart = np.percentile(tally.apart, (50, 95, 99))
    yield "largest difference from exact: " + ", ".join(f"{each:.3f}" for each in apart)
    quick = np.percentile(tally.quick_apart, (50, 95, 99))
    yield "of a quick answer from the whole: " + ", ".join(f"{each:.3f}" for each in quick)
    for low, high in ((1.0, 1.2), (1.2, 1.5), (1.5, 2.0), (2.0, np.inf)):
        own = [said for ratio, said in tally.close if low <= ratio < high]
        if own:
            yield f"leading {low} to {high} times the next: {len(own)}, {np.mean(own):.2f} untold"
    before, after = np.mean(tally.right_before), np.mean(tally.right_after)
    yield f"tested, {len(tally.right_after)}: right before {before:.3f}, after {after:.3f}"


if __name__ == "__main__":
    sys.exit(main())
