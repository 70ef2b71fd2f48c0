"""What each choice of a preference is called, in the menus and in Preferences alike."""

from __future__ import annotations

from designer.translation import message
from designer.units import ShownUnits

UNIT_WORDS = {
    ShownUnits.METRIC: message("Metric"),
    ShownUnits.US: message("US customary"),
    ShownUnits.BOTH: message("Both"),
}
GRAVITY_WORDS = {
    "sg": message("Specific gravity, 1.050"),
    "plato": message("Degrees Plato, 12.4 °P"),
}
COLOUR_WORDS = {"srm": message("SRM"), "ebc": message("EBC")}
INGREDIENT_COLOUR_WORDS = {
    "typed": message("As typed, usually °L"),
    "beer": message("On the scale of the beer"),
}
SCHEME_WORDS = {
    "system": message("As the desktop"),
    "light": message("Light"),
    "dark": message("Dark"),
}
CONTRAST_WORDS = {
    "usual": message("Usual"),
    "high": message("High, the brew day in larger type"),
}
TARGET_WORDS = {
    "automatically": message("Automatically, once the screen is touched"),
    "always": message("Always"),
    "never": message("Never"),
}
TYPEFACE_WORDS = {
    "own": message("Hobwort's own"),
    "desktop": message("The desktop's"),
}
