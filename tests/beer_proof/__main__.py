"""Count what is said of hidden ferments: `python -m tests.beer_proof [how many]`."""

import sys

from designer.library.recipe_file import load
from designer.resource_files import resource_path
from tests.beer_proof.counted import bands_that_hold, called_done, told_stuck
from tests.beer_proof.hidden_ferments import Cellar, Errors

SIZES = {
    "as declared": Errors(),
    "half as large": Errors(0.0008, 0.0005, 0.5, 0.0005),
    "half as large again": Errors(0.0025, 0.0015, 1.5, 0.001),
}


def main() -> int:
    """Print bands that hold, beers called done too soon, and stuck ones that were told."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 300
    recipe = load(resource_path("examples/harbour_lamp_porter.hobwort"))
    for name, errors in SIZES.items():
        sys.stdout.write(f"errors {name}\n")
        cellar = Cellar(recipe, count, errors=errors)
        for key, held in bands_that_hold(cellar).items():
            points = 1000.0 * held.width
            sys.stdout.write(f"  {100 * held.share:5.1f} % hold, {points:4.1f} points: {key}\n")
        for room_c in ((17.0, 21.0), (12.0, 15.0)):
            sys.stdout.write(f"  kept at {room_c[0]:.0f} to {room_c[1]:.0f} °C:\n")
            asked = Cellar(recipe, count, 18, errors=errors, room_c=room_c)
            for key, number in sorted(called_done(asked).items()):
                sys.stdout.write(f"    {number:5} {key}\n")
        stuck = told_stuck(Cellar(recipe, count, 19, stuck=True, errors=errors))
        sys.stdout.write(f"  {100 * stuck.share:5.1f} % of stuck beers told\n")
    return 0


sys.exit(main())
