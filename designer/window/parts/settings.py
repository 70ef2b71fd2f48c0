"""Preferences: they belong to the person, not to a recipe, and are not undone.

Kept in an INI file; HOBWORT_SETTINGS names another folder for it.
"""

from __future__ import annotations

import os
from pathlib import Path
from typing import NamedTuple

from PySide6.QtCore import QByteArray, QLocale, QObject, QSettings, Signal

from designer.spoken_language import LANGUAGES, SYSTEM, wanted_language
from designer.units import ShownUnits
from designer.window.parts.interface_size import SIZES, USUAL, size_of
from designer.window.parts.targets import WHEN
from designer.window.parts.theme import CONTRASTS, SCHEMES
from designer.window.parts.typeface import TYPEFACES

GRAVITIES = ("sg", "plato")
COLOURS = ("srm", "ebc")
INGREDIENT_COLOURS = ("typed", "beer")
MOST_RECENT = 8
VOLUMES = ("20", "40", "60", "80", "100")
DOORS, RECIPE = "doors", "recipe"
"""Where one left off: at the doors of Begin, or at a recipe."""


class Written(NamedTuple):
    """A recipe file that holds what is newest of a sitting, whatever the Recipe box holds of it.

    `number` is that of the last draft that is no newer; 0 if there was none.
    """

    path: Path
    sitting: str
    number: int


class Settings(QObject):
    """What is remembered between starts; `changed` tells that something is shown otherwise."""

    changed = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        # Asked for with each number that is shown: read once, until something changes.
        self._words: dict[str, str] = {}
        self._units: ShownUnits | None = None
        self._comma: bool | None = None
        folder = os.environ.get("HOBWORT_SETTINGS")
        if folder:
            self._kept = QSettings(str(Path(folder) / "hobwort.ini"), QSettings.Format.IniFormat)
        else:
            self._kept = QSettings(
                QSettings.Format.IniFormat, QSettings.Scope.UserScope, "hobwort", "hobwort"
            )

    def _word(self, key: str, choices: tuple[str, ...], usual: str) -> str:
        if key not in self._words:
            word = str(self._kept.value(key, usual, type=str))
            self._words[key] = word if word in choices else usual
        return self._words[key]

    def _keep(self, key: str, value: object) -> None:
        self._kept.setValue(key, value)
        self._words.clear()
        self._units = self._comma = None
        self.changed.emit()

    @property
    def units(self) -> ShownUnits:
        """The unit system shown; at first that of the system's locale."""
        if self._units is None:
            usual = "us" if _in_us() else "metric"
            self._units = ShownUnits(self._word("units", tuple(ShownUnits), usual))
        return self._units

    @units.setter
    def units(self, units: ShownUnits) -> None:
        self._keep("units", str(units))

    @property
    def gravity(self) -> str:
        """How gravity is shown: "sg" or "plato"."""
        return self._word("gravity", GRAVITIES, "sg")

    @gravity.setter
    def gravity(self, scale: str) -> None:
        self._keep("gravity", scale)

    @property
    def colour(self) -> str:
        """How the beer's colour is shown: "srm" or "ebc"."""
        us = self.units is ShownUnits.US
        return self._word("colour", COLOURS, "srm" if us else "ebc")

    @colour.setter
    def colour(self, scale: str) -> None:
        self._keep("colour", scale)

    @property
    def ingredient_colour(self) -> str:
        """How colours of ingredients are shown: as "typed", or on the scale of the "beer"."""
        return self._word("ingredient_colour", INGREDIENT_COLOURS, "typed")

    @ingredient_colour.setter
    def ingredient_colour(self, scale: str) -> None:
        self._keep("ingredient_colour", scale)

    @property
    def scheme(self) -> str:
        """Which of `SCHEMES` the window wears."""
        return self._word("scheme", SCHEMES, "system")

    @scheme.setter
    def scheme(self, scheme: str) -> None:
        self._keep("scheme", scheme)

    @property
    def contrast(self) -> str:
        """Which of `CONTRASTS` the window wears; with "high" the brew day is in larger type too."""
        return self._word("contrast", CONTRASTS, "usual")

    @contrast.setter
    def contrast(self, contrast: str) -> None:
        self._keep("contrast", contrast)

    @property
    def targets(self) -> str:
        """When what is pressed is large enough for fingers: one of `WHEN`."""
        return self._word("targets", WHEN, "automatically")

    @targets.setter
    def targets(self, when: str) -> None:
        self._keep("targets", when)

    @property
    def typeface(self) -> str:
        """Which of `TYPEFACES` the window is set in; the sheet always has the program's own."""
        return self._word("typeface", TYPEFACES, "own")

    @typeface.setter
    def typeface(self, typeface: str) -> None:
        self._keep("typeface", typeface)

    @property
    def language(self) -> str:
        """The language of the program from its next start on: one of `LANGUAGES`, or `SYSTEM`."""
        return self._word("language", (SYSTEM, *LANGUAGES), SYSTEM)

    @language.setter
    def language(self, code: str) -> None:
        self._keep("language", code)

    @property
    def size(self) -> int:
        """How large everything is drawn, in per cent; another is drawn from the next start on."""
        return size_of(self._word("size", tuple(map(str, SIZES)), str(USUAL)))

    @size.setter
    def size(self, per_cent: int) -> None:
        if per_cent != self.size:
            self._keep("size", str(per_cent))

    @property
    def starts(self) -> str:
        """What a start shows: `RECIPE`, what was open last, or `DOORS`."""
        return self._word("starts", (RECIPE, DOORS), RECIPE)

    @starts.setter
    def starts(self, what: str) -> None:
        self._keep("starts", what)

    @property
    def paper(self) -> str:
        """The paper of the sheet, "a4" or "letter"; at first that of the locale."""
        return self._word("paper", ("a4", "letter"), "letter" if _in_us() else "a4")

    @paper.setter
    def paper(self, paper: str) -> None:
        self._keep("paper", paper)

    @property
    def sheet_language(self) -> str:
        """The language of the sheet, a code of `LANGUAGES`; at first that of the program."""
        usual = self.language if self.language in LANGUAGES else wanted_language()
        return self._word("sheet_language", tuple(LANGUAGES), usual)

    @sheet_language.setter
    def sheet_language(self, code: str) -> None:
        self._keep("sheet_language", code)

    @property
    def large_print(self) -> bool:
        """Whether the sheet is set in large print."""
        return self._word("large_print", ("no", "yes"), "no") == "yes"

    @large_print.setter
    def large_print(self, large: bool) -> None:
        self._keep("large_print", "yes" if large else "no")

    @property
    def pictures_on_paper(self) -> bool:
        """Whether pictures are copied and saved in light inks, whatever the window wears."""
        return self._word("pictures", ("paper", "window"), "paper") == "paper"

    @pictures_on_paper.setter
    def pictures_on_paper(self, on_paper: bool) -> None:
        self._keep("pictures", "paper" if on_paper else "window")

    @property
    def brew_sound(self) -> bool:
        """Whether timers of a brew day are heard."""
        return self._word("brew_sound", ("no", "yes"), "yes") == "yes"

    @brew_sound.setter
    def brew_sound(self, heard: bool) -> None:
        self._keep("brew_sound", "yes" if heard else "no")

    @property
    def brew_volume(self) -> int:
        """How loud they are, in per cent."""
        return int(self._word("brew_volume", VOLUMES, "80"))

    @brew_volume.setter
    def brew_volume(self, per_cent: int) -> None:
        self._keep("brew_volume", str(per_cent))

    @property
    def shop(self) -> str:
        """The name of the shop that hands sheets out; none at first."""
        return str(self._kept.value("shop", "", type=str))

    @shop.setter
    def shop(self, name: str) -> None:
        self._keep("shop", name)

    @property
    def decimal_comma(self) -> bool:
        """Whether 1,5 is written, as the program's language or the system's locale has it."""
        if self._comma is None:
            self._comma = QLocale().decimalPoint() == ","
        return self._comma

    @property
    def recent(self) -> list[str]:
        """Recipe files opened or saved, the latest first."""
        found = self._kept.value("recent", [], type=list)
        return [str(each) for each in found] if isinstance(found, list) else []

    def remember(self, path: Path) -> None:
        """Put a recipe file first among the recent ones."""
        name = str(path.absolute())  # the next start may be elsewhere
        others = [each for each in self.recent if each != name]
        self._kept.setValue("recent", [name, *others][:MOST_RECENT])

    @property
    def written(self) -> Written | None:
        """The file written last, until the Recipe box has taken note of it.

        The disk of the box may be full or gone: then nothing else tells the next start of it.
        """
        found = self._kept.value("written", [], type=list)
        if not isinstance(found, list) or len(found) != len(Written._fields):
            return None
        path, sitting, number = map(str, found)
        return Written(Path(path), sitting, int(number)) if number.isdecimal() else None

    def note_written(self, written: Written) -> None:
        """Note a file that holds now what is newest of a sitting; on the disk at once."""
        path, sitting, number = written
        self._kept.setValue("written", [str(path), sitting, str(number)])
        self._kept.sync()

    def forget_written(self) -> None:
        """The Recipe box knows now what is newest."""
        if self._kept.contains("written"):
            self._kept.remove("written")
            self._kept.sync()

    @property
    def left_off(self) -> str:
        """Where one left off, `DOORS` or `RECIPE`; the doors if this is the first start."""
        usual = RECIPE if self._kept.contains("geometry") or self.recent else DOORS
        return self._word("left_off", (DOORS, RECIPE), usual)

    @left_off.setter
    def left_off(self, where: str) -> None:
        if self._kept.value("left_off", "", type=str) != where:
            self._words["left_off"] = where
            self._kept.setValue("left_off", where)
            self._kept.sync()  # a crash is to be gone on after as well

    @property
    def box_hidden(self) -> frozenset[str]:
        """Columns of the Recipe box that are hidden, by their English titles.

        Tags and the last change are, until it is chosen otherwise: they stand beside the list.
        """
        found = self._kept.value("box_hidden", ["Changed", "Tags"], type=list)
        return frozenset(map(str, found)) if isinstance(found, list) else frozenset()

    @box_hidden.setter
    def box_hidden(self, titles: frozenset[str]) -> None:
        self._kept.setValue("box_hidden", sorted(titles))

    def hidden_columns(self, table: str) -> frozenset[str]:
        """Columns of another table that are hidden, by their English titles."""
        found = self._kept.value(f"{table}_hidden", [], type=list)
        return frozenset(map(str, found)) if isinstance(found, list) else frozenset()

    def hide_columns(self, table: str, titles: frozenset[str]) -> None:
        """Keep which columns of a table are hidden."""
        self._kept.setValue(f"{table}_hidden", sorted(titles))

    def kept_order(self, table: str) -> tuple[str, bool] | None:
        """By which column a table was last sorted, and whether downwards; None for by none."""
        key, _, way = str(self._kept.value(f"{table}_order", "", type=str)).partition(" ")
        return (key, way == "down") if key else None

    def keep_order(self, table: str, order: tuple[str, bool] | None) -> None:
        """Keep by which column a table is sorted."""
        kept = "" if order is None else f"{order[0]} {'down' if order[1] else 'up'}"
        self._kept.setValue(f"{table}_order", kept)

    @property
    def examples_told(self) -> bool:
        """Whether enough was said of the examples in the Recipe box."""
        return self._word("examples_told", ("no", "yes"), "no") == "yes"

    @examples_told.setter
    def examples_told(self, told: bool) -> None:
        self._keep("examples_told", "yes" if told else "no")

    @property
    def knows_kitchen(self) -> bool:
        """Whether it was asked for units and vessels, once and for all."""
        return self._word("knows_kitchen", ("no", "yes"), "no") == "yes"

    @knows_kitchen.setter
    def knows_kitchen(self, known: bool) -> None:
        self._keep("knows_kitchen", "yes" if known else "no")

    @property
    def geometry(self) -> QByteArray:
        """Place and size of the window when it was last closed."""
        found = self._kept.value("geometry", QByteArray())
        return found if isinstance(found, QByteArray) else QByteArray()

    @geometry.setter
    def geometry(self, geometry: QByteArray) -> None:
        self._kept.setValue("geometry", geometry)

    def write_out(self) -> None:
        """Have all of it on the disk now."""
        self._kept.sync()


def _in_us() -> bool:
    """Whether the system's locale measures in US customary units."""
    return QLocale.system().measurementSystem() is QLocale.MeasurementSystem.ImperialUSSystem
