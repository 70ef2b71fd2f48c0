"""The program's own typeface, in resources/fonts: the same letters on every screen and paper."""

from __future__ import annotations

from functools import cache

from PySide6.QtGui import QFontDatabase

from designer.resource_files import resource_path

FAMILY = "Hobwort Sans"
FILES = ("fonts/HobwortSans-Regular.ttf", "fonts/HobwortSans-Bold.ttf")


@cache
def own_families() -> list[str]:
    """Return the name of the typeface, loaded when first asked for; none where that fails.

    An application object has to be there.
    """
    loaded = [QFontDatabase.addApplicationFont(str(resource_path(name))) for name in FILES]
    return [] if -1 in loaded else [FAMILY]
