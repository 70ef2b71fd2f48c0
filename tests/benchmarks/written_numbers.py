"""Type texts by the thousand into every field of a recipe and read them back from its file.

Run it: `python tests/benchmarks/written_numbers.py [texts a field and preference] [seed]`. Texts
have decimal points and commas, grouped thousands, fractions, spans, ±, sums and strays, under each
unit system and both decimal signs, into fields with and without a value. Counts are printed; the
exit code is 0 only if each accepted text comes back from the file as the same number.
"""

# ruff: noqa: T201 - it is run by hand and prints what it counted
from __future__ import annotations

import sys
from collections import Counter
from pathlib import Path
from random import Random

sys.path.insert(0, str(Path(__file__).parents[2]))

from designer.window.parts.display_format import DisplayFormat
from tests.typed_texts import FIELDS, Written, preferences, written

TEXTS = 300


def verdict(found: Written | None) -> str:
    """Return what became of a text, in a word."""
    if found is None:
        return "refused"
    if found.back is None:
        return "unreadable in the file"
    if found.back == found.taken:
        return "the same"
    one, other = sorted((abs(found.back.value), abs(found.taken.value)))
    return "off by twice or more" if other > 2.0 * one else "off"


def main() -> int:
    texts = int(sys.argv[1]) if len(sys.argv) > 1 else TEXTS
    draw = Random(int(sys.argv[2]) if len(sys.argv) > 2 else 1)
    counts: Counter[str] = Counter()
    for field in FIELDS:
        for preference in preferences():
            display = DisplayFormat(preference)  # type: ignore[arg-type]  # all of the settings it asks for
            for _ in range(texts):
                found = written(draw, field, display)
                counts[verdict(found)] += 1
                if found is not None and found.back != found.taken:
                    print(f"{found.field.of}.{found.field.name} {found.text!r}: {found}")
    for word, count in counts.most_common():
        print(f"{count:8} {word}")
    return 0 if counts.keys() <= {"refused", "the same"} else 1


if __name__ == "__main__":
    sys.exit(main())
