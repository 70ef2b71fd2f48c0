"""What can be chosen, tab by tab, in the words of the menus."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TypeAlias

from designer.spoken_language import LANGUAGES, SYSTEM
from designer.translation import message, tr
from designer.units import ShownUnits
from designer.window.parts.interface_size import SIZES
from designer.window.parts.preference_words import (
    COLOUR_WORDS,
    CONTRAST_WORDS,
    GRAVITY_WORDS,
    INGREDIENT_COLOUR_WORDS,
    SCHEME_WORDS,
    TARGET_WORDS,
    TYPEFACE_WORDS,
    UNIT_WORDS,
)
from designer.window.parts.settings import DOORS, RECIPE, VOLUMES, Settings
from designer.window.preferences.rows import PickOne, TickOne, TypeOne

Row: TypeAlias = PickOne | TickOne | TypeOne
PAPER_WORDS = {"a4": message("A4"), "letter": message("Letter")}
START_WORDS = {
    RECIPE: message("Go on with what was open last"),
    DOORS: message("Show the doors of Begin"),
}
SIZE_WHY = message("Ctrl and + or − do the same. It is there once Hobwort opens anew.")
SHOP_WHY = message("At the head of a sheet that is for a customer.")


class Choices:
    """Makes the rows; `largest` is the largest size that the screen has room for, per cent."""

    def __init__(self, settings: Settings, largest: int) -> None:
        self._settings, self._largest = settings, largest

    def tabs(self) -> Iterator[tuple[str, list[Row]]]:
        """Yield each tab: its title, its rows."""
        yield tr("&Units"), self._units()
        yield tr("&Looks"), self._looks()
        yield tr("&Sheet"), self._sheet()
        yield tr("St&art and brew day"), self._start()

    def _pick(self, name: str, label: str, words: Mapping[str, str], why: str = "") -> PickOne:
        said: dict[object, str] = {key: tr(text) for key, text in words.items()}
        return PickOne(self._settings, name, label, said, why)

    def _units(self) -> list[Row]:
        units = {str(key): UNIT_WORDS[key] for key in ShownUnits}
        return [
            self._pick("units", tr("Units"), units),
            self._pick("gravity", tr("Gravity"), GRAVITY_WORDS),
            self._pick("colour", tr("Beer colour"), COLOUR_WORDS),
            self._pick("ingredient_colour", tr("Ingredient colour"), INGREDIENT_COLOUR_WORDS),
        ]

    def _looks(self) -> list[Row]:
        languages: dict[object, str] = {SYSTEM: tr("As the system")}
        languages.update(LANGUAGES.items())
        settings = self._settings
        most = max(self._largest, settings.size)
        sizes: dict[object, str] = {
            each: tr("{size} %", size=each) for each in SIZES if each <= most
        }
        return [
            PickOne(settings, "language", tr("Language"), languages),
            PickOne(settings, "size", tr("Size of everything"), sizes, tr(SIZE_WHY)),
            self._pick("scheme", tr("Light or dark"), SCHEME_WORDS),
            self._pick("contrast", tr("Contrast"), CONTRAST_WORDS),
            self._pick("typeface", tr("Typeface"), TYPEFACE_WORDS),
            self._pick("targets", tr("Large targets for fingers"), TARGET_WORDS),
        ]

    def _sheet(self) -> list[Row]:
        settings = self._settings
        languages: dict[object, str] = {}
        languages.update(LANGUAGES.items())
        return [
            self._pick("paper", tr("Paper"), PAPER_WORDS),
            PickOne(settings, "sheet_language", tr("Language of the sheet"), languages),
            TickOne(settings, "large_print", tr("Large print, on more pages")),
            TypeOne(settings, "shop", tr("Shop"), tr("name, for a customer"), tr(SHOP_WHY)),
        ]

    def _start(self) -> list[Row]:
        settings = self._settings
        volumes: dict[object, str] = {int(each): tr("{volume} %", volume=each) for each in VOLUMES}
        return [
            self._pick("starts", tr("At the start"), START_WORDS),
            TickOne(settings, "brew_sound", tr("Timers of the brew day are heard")),
            PickOne(settings, "brew_volume", tr("How loud"), volumes),
        ]
