"""The contrast of what is really painted, by the pixels of a picture of it.

`python -m tests.contrast` measures every page and dialog in all schemes; the suite measures a few.

W3C, Web Content Accessibility Guidelines 2.2 (2023): relative luminance and contrast ratio as
defined there; 1.4.3, text 4.5 to 1, large text (18 pt, or bold 14 pt) 3 to 1, what is off exempt;
1.4.11, what shows where the keyboard is 3 to 1.
"""

import os
import sys
from pathlib import Path

import numpy as np
import pytest
from PySide6.QtCore import QRect
from PySide6.QtGui import QImage, QRegion
from PySide6.QtWidgets import QAbstractButton, QComboBox, QLabel, QLineEdit, QWidget

TEXT, LARGE, SIGN = 4.5, 3.0, 3.0
LEAST_PIXELS = 3
"""So many pixels have the ink at least; the others of a letter are mixed with what is behind."""
EDGE = 4


def pixels_of(widget):
    """Return what a widget looks like, as rows of red, green and blue."""
    image = widget.grab().toImage().convertToFormat(QImage.Format.Format_RGB888)
    flat = np.frombuffer(image.constBits(), np.uint8).reshape(image.height(), image.bytesPerLine())
    return flat[:, : 3 * image.width()].reshape(image.height(), image.width(), 3).copy()


def luminance(colours):
    """Return the relative luminance of colours, their last axis being red, green and blue."""
    shares = np.asarray(colours, float) / 255.0
    linear = np.where(shares <= 0.04045, shares / 12.92, ((shares + 0.055) / 1.055) ** 2.4)
    return linear @ np.array([0.2126, 0.7152, 0.0722])


def ratio(one, other):
    """Return the contrast ratio of colours, 1 to 21."""
    first, second = luminance(one), luminance(other)
    return (np.maximum(first, second) + 0.05) / (np.minimum(first, second) + 0.05)


def of_text(pixels):
    """Return the ratio of the ink of a text to what is behind it."""
    colours, counts = np.unique(pixels.reshape(-1, 3), axis=0, return_counts=True)
    ratios = np.sort(ratio(pixels.reshape(-1, 3), colours[counts.argmax()]))
    return float(ratios[-LEAST_PIXELS])


def too_pale(window):
    """Return what of the texts in a window is too pale: its kind, its words, its ratio."""
    picture = pixels_of(window)
    found = []
    for kind in (QLabel, QAbstractButton, QLineEdit, QComboBox):
        for widget in window.findChildren(kind):
            text = _text_of(widget)
            place = _seen_place(widget, window)
            if not text or place is None or not widget.isEnabled():
                continue
            part = picture[place.top() : place.bottom() + 1, place.left() : place.right() + 1]
            least, has = (LARGE if _is_large(widget) else TEXT), of_text(part)
            if has < least:
                found.append((type(widget).__name__, widget.objectName(), text[:40], round(has, 2)))
    return found


def focus_ring(widget):
    """Return the share of a widget's edge that shows the keyboard's coming by 3 to 1 or more."""
    window = widget.window()
    widget.clearFocus()
    place = _seen_place(widget, window, inset=0)
    without = pixels_of(window)
    widget.setFocus()
    changed = ratio(pixels_of(window), without)
    part = changed[place.top() : place.bottom() + 1, place.left() : place.right() + 1]
    return float((part >= SIGN).sum()) / (2 * (place.width() + place.height()))


def _text_of(widget):
    if isinstance(widget, QComboBox):
        return widget.currentText()
    if isinstance(widget, QLineEdit):
        return widget.text() or widget.placeholderText()
    return widget.text() if not hasattr(widget, "sentence") else ""


def _is_large(widget):
    points = widget.fontInfo().pointSizeF()
    return points >= 18.0 or (widget.fontInfo().bold() and points >= 14.0)


def _seen_place(widget: QWidget, window: QWidget, inset: int = EDGE):
    if not widget.isVisible():
        return None
    edge = 0 if isinstance(widget, QLabel) else inset  # what frames a control is no text of it
    place = widget.rect().adjusted(edge, edge, -edge, -edge)
    if place.isEmpty() or not (QRegion(place) - widget.visibleRegion()).isEmpty():
        return None  # scrolled away
    found = QRect(widget.mapTo(window, place.topLeft()), place.size())
    corners = (found.topLeft(), found.topRight(), found.bottomLeft(), found.bottomRight())
    tops = [window.childAt(each) for each in (*corners, found.center())]
    return found if all(_are_of_one(widget, each) for each in tops) else None


def _are_of_one(widget, on_top):
    """Whether what lies on top somewhere is the widget, in it, or what it lies in."""
    return on_top in (None, widget) or widget.isAncestorOf(on_top) or on_top.isAncestorOf(widget)


if __name__ == "__main__":
    os.environ["HOBWORT_EVERY_SCHEME"] = "yes"
    sys.exit(pytest.main(["-q", str(Path(__file__).parent / "stories" / "test_contrast.py")]))
