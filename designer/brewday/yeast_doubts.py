"""What is doubtful about yeast: how far it ferments."""

from __future__ import annotations

from designer.brewday.doubts import Doubt, Sure
from designer.translation import message

UNKNOWN_YEAST = Doubt(
    message("attenuation"), 0.75, 0.67, 0.75, 0.82,
    "classes of yeast from 65 to 80 %: Palmer, How to Brew, 1st ed., online, ch. 6; strains above "
    "them in 44 batches (\"Observations on attenuations\", web article, 2017)",
    Sure.ONE_SOURCE, most=1.0,
)  # fmt: skip
