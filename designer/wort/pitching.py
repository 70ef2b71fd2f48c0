"""How much yeast to pitch.

The dose that makers of dry yeast print is the main figure; the cell count is the background, since
counts of cells per gram differ by a factor of three between sources. The day asks for the dose
only; cells are here for yeast that is counted by them.

Sources: pitching rates after Fix, as commonly cited; dry yeast counts: Van den Berg and Van
Landschoot, Cerevisia 28(3) (2003) 25 to 30, table 1 (quoted); doses: makers' data sheets (quoted).
"""

from __future__ import annotations

from designer.wort.numeric import Numeric, largest

WARM_RATE = 0.75e6
"""Cells for each mL and °P in a warm (ale) ferment; 1.0e6 to 1.25e6 above 1.060."""
COOL_RATE = 1.5e6
"""Cells for each mL and °P in a cool (lager) ferment."""
CELLS_PER_GRAM = 10e9
"""Viable cells in a gram of dry yeast; makers guarantee 6e9, handbooks use up to 20e9."""
WARM_DOSE_G_L = (0.5, 0.8)
COOL_DOSE_G_L = (0.8, 1.2)
_ONE_CELL = 1.0


def cells_needed(volume_l: Numeric, extract_plato: Numeric, rate: float = WARM_RATE) -> Numeric:
    """Return the cells to pitch into `volume_l` of wort."""
    return rate * 1000.0 * volume_l * extract_plato


def grams_from_cells(cells: Numeric, cells_per_gram: float = CELLS_PER_GRAM) -> Numeric:
    """Return the grams of dry yeast that bring so many cells."""
    return cells / largest(cells_per_gram, _ONE_CELL)


def dry_yeast_dose_g(volume_l: Numeric, *, cool: bool = False) -> tuple[Numeric, Numeric]:
    """Return the lowest and highest usual dose of dry yeast in grams."""
    low, high = COOL_DOSE_G_L if cool else WARM_DOSE_G_L
    return low * volume_l, high * volume_l
