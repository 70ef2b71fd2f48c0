"""Figures that brews teach as text, in the units of whoever reads them."""

from __future__ import annotations

from collections.abc import Callable

from designer.brewday.learning.figures import Figure
from designer.errors import DesignerError
from designer.recipe.kinds import KINDS
from designer.recipe.quantity import Kind
from designer.translation import tr
from designer.units import read
from designer.units.numbers import with_decimal_sign
from designer.workbench.figures import Figures
from designer.workbench.learning.figure_words import WORDS

FINE = (Figure.EXTRACT_BIAS, Figure.VOLUME_BIAS)
"""Shares that lie near the whole: tenths of a per cent tell."""
PLUS_MINUS = " ± "


def value_said(
    figure: Figure, value: float, show: Callable[[Kind, float], str], plain: Callable[[str], str]
) -> str:
    """Return a figure with its unit: `show` writes a quantity, `plain` sets the decimal sign."""
    kind = WORDS[figure].kind
    if kind is Kind.FRACTION:
        places = 1 if figure in FINE else 0
        return tr("{figure} %", figure=plain(f"{100.0 * value:.{places}f}"))
    if kind is Kind.RATE:
        return tr("{figure} /min", figure=plain(f"{value:.3f}"))
    if kind is Kind.NUMBER:
        return plain(f"{value:.3f}")
    return show(kind, value)


def kept_said(figure: Figure, text: str, figures: Figures) -> str:
    """Return a figure that is kept as text, such as "0.6 L ± 0.1 L", as its reader writes it.

    What cannot be read comes back as it is.
    """
    kind = WORDS[figure].kind
    if not KINDS[kind].us_words:
        comma = figures.decimal_comma and "," not in text
        return with_decimal_sign(text, from_comma=False, to_comma=True) if comma else text
    value, sign, half = text.partition(PLUS_MINUS)
    try:
        said = figures.typed(kind, read(kind, value))
        if half.endswith("%"):
            return f"{said}{sign}{figures.plain(half)}"
        return f"{said}{sign}{figures.typed(kind, read(kind, half))}" if sign else said
    except DesignerError:
        return text
