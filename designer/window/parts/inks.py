"""The colours that Hobwort draws with, for light and for dark surroundings.

Paper and ink rather than grey chrome: a warm ground, deep green for what can be pressed, copper for
wort, brass for what needs care. Text on its ground reaches 4.5 to 1, lines that carry meaning 3 to
1 (WCAG 2.2 AA; a test measures them).
"""

from __future__ import annotations

from typing import NamedTuple

from PySide6.QtGui import QColor, QPalette


class Inks(NamedTuple):
    """One set of colours, as "#rrggbb"."""

    ground: str
    paper: str
    raised: str
    line: str
    line_strong: str
    ink: str
    ink_soft: str
    heading: str
    green: str
    green_soft: str
    on_green: str
    chosen: str
    wort: str
    wort_edge: str
    water: str
    heat: str
    rim: str
    foam: str
    brass: str
    stop: str
    strip: str
    span: str
    mark: str
    steep_band: str
    boil_band: str
    cool_band: str
    care_band: str


LIGHT = Inks(
    ground="#f7f4ee",
    paper="#fffefb",
    raised="#f0ebe1",
    line="#e2dacb",
    line_strong="#8d8371",
    ink="#211d17",
    ink_soft="#615849",
    heading="#6a4a2f",
    green="#23503f",
    green_soft="#dfeae3",
    on_green="#ffffff",
    chosen="#d8e6dd",
    wort="#d9a566",
    wort_edge="#8a5720",
    water="#9dbfd3",
    heat="#2b6288",
    rim="#a3352c",
    foam="#755903",
    brass="#7d5a00",
    stop="#a3352c",
    strip="#d8d0c1",
    span="#a9c4b6",
    mark="#17352a",
    steep_band="#f1e8d2",
    boil_band="#f7e0d3",
    cool_band="#dfeaf1",
    care_band="#fcf1d9",
)

DARK = Inks(
    ground="#1c1f1d",
    paper="#242826",
    raised="#2e3330",
    line="#3a403d",
    line_strong="#87908a",
    ink="#f0ece3",
    ink_soft="#bfbbb1",
    heading="#d9b48c",
    green="#8fcbae",
    green_soft="#2d443a",
    on_green="#10211a",
    chosen="#35493f",
    wort="#8a5e2b",
    wort_edge="#e0aa6a",
    water="#40647c",
    heat="#8cc3e6",
    rim="#f6a297",
    foam="#dcb84a",
    brass="#e3bd5e",
    stop="#f6a297",
    strip="#4a514d",
    span="#4f7763",
    mark="#d5f0e2",
    steep_band="#36332a",
    boil_band="#3d2f28",
    cool_band="#28353d",
    care_band="#383022",
)


HIGH_LIGHT = Inks(
    ground="#ffffff",
    paper="#ffffff",
    raised="#ffffff",
    line="#767676",
    line_strong="#4d4d4d",
    ink="#000000",
    ink_soft="#000000",
    heading="#000000",
    green="#000000",
    green_soft="#e4e4e4",
    on_green="#ffffff",
    chosen="#d9d9d9",
    wort="#c8a878",
    wort_edge="#5a3000",
    water="#8fb4cc",
    heat="#00366b",
    rim="#8f0000",
    foam="#5c4300",
    brass="#7a3d00",
    stop="#8f0000",
    strip="#a6a6a6",
    span="#8c8c8c",
    mark="#000000",
    steep_band="#f2ecdc",
    boil_band="#fae4d8",
    cool_band="#e2edf5",
    care_band="#ffffff",
)
"""Black on white, for weak eyes and steamed-up glasses."""

HIGH_DARK = Inks(
    ground="#000000",
    paper="#000000",
    raised="#000000",
    line="#8c8c8c",
    line_strong="#b3b3b3",
    ink="#ffffff",
    ink_soft="#ffffff",
    heading="#ffffff",
    green="#ffffff",
    green_soft="#262626",
    on_green="#000000",
    chosen="#333333",
    wort="#6b4415",
    wort_edge="#ffc680",
    water="#33586f",
    heat="#9cd4ff",
    rim="#ffada3",
    foam="#ffd75e",
    brass="#ffd75e",
    stop="#ffada3",
    strip="#666666",
    span="#808080",
    mark="#ffffff",
    steep_band="#1f1c14",
    boil_band="#2b1a12",
    cool_band="#12202a",
    care_band="#000000",
)
"""White on black."""

_HIGH = {each.ground: each for each in (HIGH_LIGHT, HIGH_DARK)}


def inks_for(palette: QPalette) -> Inks:
    """Return the set that goes with a palette: dark inks on a light window, or the reverse."""
    window = palette.color(QPalette.ColorRole.Window)
    high = _HIGH.get(window.name())
    if high is not None and window.alpha() > 0:
        return high
    return LIGHT if window.lightnessF() > 0.5 else DARK


def colour(value: str, alpha: int = 255) -> QColor:
    """Return a QColor of "#rrggbb"; `alpha` 0 (clear) to 255."""
    made = QColor(value)
    made.setAlpha(alpha)
    return made
