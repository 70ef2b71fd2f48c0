"""Print what becomes of the first recipes of every style in four kitchens, and what is wrong.

`python -m tests.first_recipe_proof`; it ends with 1 where anything is wrong.
"""

import sys
from time import process_time

from designer.library import catalogue
from tests.first_recipe_proof.looked_at import KITCHENS, looked_at


def main() -> int:
    """Print a row a style, then what lies outside its ranges, wants care, or is wrong."""
    before, every = process_time(), []
    lines = [f"{'style':36}" + "".join(f"{f'{pot:g} L':>12}" for pot, _ in KITCHENS)]
    for style in catalogue.styles():
        cells = []
        for pot, fermenter in KITCHENS:
            three = looked_at(style, pot, fermenter)
            outside = [each.key for each in three if each.outside]
            cells.append(f"{', '.join(outside)} out" if outside else "all in")
            every += three
        lines.append(f"{style.name:36}" + "".join(f"{cell:>12}" for cell in cells))
    took = process_time() - before
    inside = sum(1 for each in every if not each.outside)
    lines += ["", f"{inside} of {len(every)} recipes lie inside all five ranges."]
    for title, told in (("Outside", _outside), ("To take care of", _cares), ("Wrong", _wrong)):
        found = [
            f"  {each.style}, pot of {each.pot_l:g} L, {each.key}: {what}"
            for each in every
            for what in told(each)
        ]
        lines += ["", f"{title}: {len(found)}", *found]
    lines += ["", f"{1000.0 * took / len(every):.0f} ms of processor time a recipe"]
    sys.stdout.write("\n".join(lines) + "\n")
    return 1 if any(each.wrong for each in every) else 0


def _outside(found):
    return [f"{key} {what} ({'; '.join(found.said)})" for key, what in found.outside.items()]


def _cares(found):
    return found.cares


def _wrong(found):
    return found.wrong


if __name__ == "__main__":
    sys.exit(main())
