"""A picture of a window in 256 colours, which it hardly has more of: a third of the bytes.

The first are those it has most of; of the rest, again and again the one that would be missed most.
"""

import numpy as np
from PySide6.QtGui import QImage

COLOURS, MOST_HAD = 256, 96
_SHIFT = 3


def in_few_colours(image):
    """Return the picture with each colour the nearest of those that are kept."""
    picture = image.convertToFormat(QImage.Format.Format_RGB32)
    wide, high = picture.width(), picture.height()
    rows = np.frombuffer(picture.constBits(), np.uint8).reshape(high, -1, 4)[:, :wide, 2::-1]
    bins = (rows >> _SHIFT).astype(np.int32)
    keys = (bins[..., 0] << 10) | (bins[..., 1] << 5) | bins[..., 2]
    _, at, counts = np.unique(keys, return_inverse=True, return_counts=True)
    at = at.reshape(-1)
    flat = rows.reshape(-1, 3).astype(float)
    means = np.stack([np.bincount(at, flat[:, c]) for c in range(3)], axis=1) / counts[:, None]
    palette, nearest = _kept(means, counts)
    indexed = QImage(wide, high, QImage.Format.Format_Indexed8)
    indexed.setColorTable([0xFF000000 | r << 16 | g << 8 | b for r, g, b in palette.astype(int)])
    into = np.frombuffer(indexed.bits(), np.uint8).reshape(high, -1)
    into[:, :wide] = nearest[at].reshape(high, wide)
    indexed.setDevicePixelRatio(1.0)
    return indexed


def _kept(colours, counts):
    """The colours that are kept, and for each colour the place of the nearest of them."""
    kept = list(np.argsort(-counts, kind="stable")[:MOST_HAD])
    away = np.full(len(colours), np.inf)
    nearest = np.zeros(len(colours), np.uint8)
    for place in range(min(COLOURS, len(colours))):
        if place == len(kept):
            kept.append(int(np.argmax(away * np.sqrt(counts))))
        distance = ((colours - colours[kept[place]]) ** 2).sum(axis=1)
        nearest[distance < away] = place
        away = np.minimum(away, distance)
    return np.rint(colours[kept]), nearest
