"""The little drawing of a label: a harbour lamp that shines."""

from __future__ import annotations

from designer.sheet.blocks import Drawing, Shape

WIDTH, HEIGHT = 60.0, 52.0
_MIDDLE = WIDTH / 2.0
_RAYS = (
    ((17.0, 17.0), (9.0, 14.5)),
    ((16.5, 22.5), (8.0, 24.5)),
    ((18.5, 11.5), (11.5, 6.0)),
)
"""From, to: those on the left, which the right mirrors."""


def lamp(line: str, light: str) -> Drawing:
    """Return the lamp in the colours "#rrggbb" of its lines and of its light."""
    return Drawing(WIDTH, HEIGHT, tuple(_shapes(line, light)), "")


def _shapes(line: str, light: str) -> list[Shape]:
    shapes = [
        _area([(-7.5, 12.0), (7.5, 12.0), (6.5, 23.0), (-6.5, 23.0)], light),
        _lines([(-10.0, 11.0), (0.0, 3.0), (10.0, 11.0)], line, closed=True),
        _lines([(0.0, 3.0), (0.0, 0.8)], line),
        _lines([(-7.5, 11.0), (-6.5, 23.0), (6.5, 23.0), (7.5, 11.0)], line),
        _lines([(0.0, 11.0), (0.0, 23.0)], line),
        _lines([(-9.5, 23.0), (9.5, 23.0)], line),
        _lines([(-7.0, 23.0), (-11.5, 50.0), (11.5, 50.0), (7.0, 23.0)], line),
        _lines([(-9.2, 36.5), (9.2, 36.5)], line),
        _lines([(-15.5, 50.0), (15.5, 50.0)], line),
    ]
    for start, end in _RAYS:
        shapes.append(Shape((start, end), light, 1.4))
        mirrored = tuple((WIDTH - x, y) for x, y in (start, end))
        shapes.append(Shape(mirrored, light, 1.4))
    return shapes


def _area(points: list[tuple[float, float]], tone: str) -> Shape:
    return Shape(_placed(points), tone, 0.0, fill=tone)


def _lines(points: list[tuple[float, float]], tone: str, *, closed: bool = False) -> Shape:
    return Shape(_placed([*points, points[0]] if closed else points), tone, 1.3)


def _placed(points: list[tuple[float, float]]) -> tuple[tuple[float, float], ...]:
    return tuple((_MIDDLE + x, y) for x, y in points)
