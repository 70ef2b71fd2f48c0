"""What the figures that brews teach are called, and as what kind of quantity each is shown."""

from __future__ import annotations

from typing import NamedTuple

from designer.brewday.learning.figures import Figure
from designer.recipe.quantity import Kind
from designer.translation import message, tr


class FigureWords(NamedTuple):
    """The name of a figure, what it is of, and its kind; looked up where they are shown."""

    name: str
    means: str
    kind: Kind


WORDS: dict[Figure, FigureWords] = {
    Figure.EVAPORATION: FigureWords(
        message("Evaporation"), message("at a rolling boil, lid off"), Kind.EVAPORATION
    ),
    Figure.LEFT_IN_POT: FigureWords(
        message("Left in the pot"), message("sludge and hops"), Kind.VOLUME
    ),
    Figure.COOLING: FigureWords(
        message("Cooling constant"), message("in the bath you use"), Kind.RATE
    ),
    Figure.STEEP_YIELD: FigureWords(
        message("Steep yield"), message("of what the grain is reckoned to give"), Kind.FRACTION
    ),
    Figure.EXTRACT_BIAS: FigureWords(
        message("Extract"), message("of what labels and scale say"), Kind.FRACTION
    ),
    Figure.VOLUME_BIAS: FigureWords(
        message("Fermenter's marks"), message("true litres to a litre read"), Kind.FRACTION
    ),
    Figure.ATTENUATION: FigureWords(
        message("Attenuation"), message("apparent, when done"), Kind.FRACTION
    ),
    Figure.HYDROMETER: FigureWords(
        message("Hydrometer in water"), message("it should say 1.000"), Kind.GRAVITY
    ),
    Figure.WORT_CORRECTION: FigureWords(
        message("Wort correction"), message("refractometer over hydrometer"), Kind.NUMBER
    ),
}


def figure_name(figure: Figure) -> str:
    """Return what a figure is called."""
    return tr(WORDS[figure].name)
