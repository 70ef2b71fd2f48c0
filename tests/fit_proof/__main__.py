"""Look through every way of every pair and tell what does not hold: `python -m tests.fit_proof`."""

import sys
from collections import Counter
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.fit_proof import adding_up, applying, sentences
from tests.fit_proof.balance import compared
from tests.fit_proof.kitchens import pairs


def main() -> int:
    """Print how many were looked at, the largest difference of each figure, and all faults."""
    ways, largest, found = Counter(), {}, []
    everything = pairs()
    for pair in everything:
        answer = pair.answer()
        for key, figures in compared(answer).items():
            ways[key] += 1
            for each in figures:
                what = each.what.split(":")[0]
                largest[what] = max(largest.get(what, 0.0), abs(each.said - each.reckoned))
                if not each.agrees:
                    found.append(f"{pair}, {key}: {each}")
        for faults in (
            adding_up.faults(pair.recipe, pair.wish, answer),
            sentences.faults(pair.recipe, answer),
            _applied(pair, answer),
        ):
            found += [f"{pair}, {fault}" for fault in faults]
    lines = [f"{len(everything)} pairs of recipe and kitchen, {ways.total()} ways:"]
    lines += [f"  {count:4} {key}" for key, count in ways.most_common()]
    lines.append("largest differences between what is said and what is reckoned:")
    lines += [f"  {most:.5f}  {what}" for what, most in largest.items()]
    lines += [f"{len(found)} faults", *found]
    sys.stdout.write("\n".join(lines) + "\n")
    return 1 if found else 0


def _applied(pair, answer):
    with TemporaryDirectory() as folder:
        return list(applying.faults(pair.recipe, answer, Path(folder)))


if __name__ == "__main__":
    sys.exit(main())
