"""How large the type of a sheet may be: from roomy to dense, for each kind of sheet."""

from __future__ import annotations

from dataclasses import dataclass

from designer.sheet.blocks import Sheet


@dataclass(frozen=True, slots=True)
class TypeSizes:
    """Sizes of type in points: steps, lists, what stands in the margin; and that of drawings.

    `aside` is the share of the width that the margin takes.
    """

    body: float
    items: float
    note: float
    drawing: float
    title: float
    aside: float


# A judgement of what reads well at arm's length, no source.
_SIZES = {
    "full": (
        TypeSizes(11.5, 11.0, 9.5, 1.1, 26.0, 0.34),
        TypeSizes(11.0, 10.5, 9.2, 1.0, 24.0, 0.34),
        TypeSizes(10.5, 10.5, 8.8, 1.0, 24.0, 0.34),
        TypeSizes(10.5, 10.0, 8.2, 0.82, 20.0, 0.34),
        TypeSizes(10.0, 9.5, 8.0, 0.74, 18.0, 0.34),
        TypeSizes(10.0, 9.2, 7.6, 0.74, 16.0, 0.31),
        TypeSizes(10.0, 8.5, 7.2, 0.68, 13.0, 0.31),
    ),
    "bench": (
        TypeSizes(13.0, 12.0, 10.5, 1.0, 20.0, 0.32),
        TypeSizes(12.0, 11.0, 9.8, 1.0, 20.0, 0.32),
        TypeSizes(11.0, 10.5, 9.2, 1.0, 18.0, 0.32),
        TypeSizes(10.5, 10.0, 8.2, 1.0, 16.0, 0.32),
        TypeSizes(10.0, 9.2, 7.5, 1.0, 15.0, 0.3),
        TypeSizes(10.0, 9.0, 7.4, 1.0, 14.0, 0.28),
    ),
}
_LARGE_SIZES = (
    TypeSizes(10.8, 10.4, 9.6, 1.3, 20.0, 0.0),
    TypeSizes(10.0, 10.0, 9.0, 1.2, 18.0, 0.0),
)


def type_sizes(sheet: Sheet) -> tuple[TypeSizes, ...]:
    """Return the sizes in which a sheet may be set, the roomiest first."""
    return _LARGE_SIZES if sheet.form.large else _SIZES[sheet.variant]
