"""Chlorine and chloramine taken out of brewing water with metabisulfite.

    S2O5(2-) + 2 Cl2 + 3 H2O -> 2 SO4(2-) + 4 Cl(-) + 6 H(+)
    S2O5(2-) + 2 NH2Cl + 3 H2O -> 2 SO4(2-) + 2 Cl(-) + 2 H(+) + 2 NH4(+)

so one mole serves two, whether the report counts chlorine or chloramine "as Cl2". Boiling drives
off free chlorine, not reliably chloramine. People sensitive to sulfite: keep the excess small.

Sources: stoichiometry, deLange as quoted in Homebrew Digest 5793; excess 1.5 is ours, handbooks
(Palmer and Kaminski, Water, 2013, quoted) advise about twice the stoichiometry.
"""

from __future__ import annotations

from designer.wort.numeric import Numeric

CL2_G_MOL = 70.906
NH2CL_G_MOL = 51.476
SALT_G_MOL = {"potassium metabisulfite": 222.32, "sodium metabisulfite": 190.11}
USUAL_EXCESS = 1.5


def metabisulfite_mg(
    volume_l: Numeric,
    chlorine_mg_l: Numeric,
    salt: str = "potassium metabisulfite",
    excess: float = USUAL_EXCESS,
) -> Numeric:
    """Return milligrams of the salt for water with `chlorine_mg_l`, counted as Cl2.

    Raises KeyError for a salt that is not in `SALT_G_MOL`.
    """
    per_mg = SALT_G_MOL[salt] / (2.0 * CL2_G_MOL)
    return volume_l * chlorine_mg_l * per_mg * excess


def chlorine_from_chloramine(chloramine_mg_l: Numeric) -> Numeric:
    """Return mg/L as Cl2 of water whose report gives mg/L of NH2Cl itself."""
    return chloramine_mg_l * CL2_G_MOL / NH2CL_G_MOL
