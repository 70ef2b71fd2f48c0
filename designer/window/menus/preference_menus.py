"""Sub-menus that set one preference each: units, scales, and what the window wears."""

from __future__ import annotations

from PySide6.QtGui import QAction, QActionGroup
from PySide6.QtWidgets import QMenu

from designer.spoken_language import LANGUAGES, SYSTEM
from designer.translation import tr
from designer.units import ShownUnits
from designer.window.parts.letters import lettered_when_opened
from designer.window.parts.preference_words import (
    COLOUR_WORDS,
    CONTRAST_WORDS,
    GRAVITY_WORDS,
    INGREDIENT_COLOUR_WORDS,
    SCHEME_WORDS,
    TYPEFACE_WORDS,
    UNIT_WORDS,
)
from designer.window.parts.settings import COLOURS, GRAVITIES, INGREDIENT_COLOURS, Settings
from designer.window.parts.theme import CONTRASTS, SCHEMES
from designer.window.parts.typeface import TYPEFACES


def add_preference_menus(menu: QMenu, settings: Settings) -> None:
    """Add a sub-menu for each preference, its choices in their order."""
    for title, name, words in (
        (tr("&Units"), "units", {str(key): UNIT_WORDS[key] for key in ShownUnits}),
        (tr("&Gravity"), "gravity", {key: GRAVITY_WORDS[key] for key in GRAVITIES}),
        (tr("Beer c&olour"), "colour", {key: COLOUR_WORDS[key] for key in COLOURS}),
        (
            tr("&Ingredient colour"),
            "ingredient_colour",
            {key: INGREDIENT_COLOUR_WORDS[key] for key in INGREDIENT_COLOURS},
        ),
        (tr("&Light or dark"), "scheme", {key: SCHEME_WORDS[key] for key in SCHEMES}),
        (tr("Contr&ast"), "contrast", {key: CONTRAST_WORDS[key] for key in CONTRASTS}),
        (tr("&Typeface"), "typeface", {key: TYPEFACE_WORDS[key] for key in TYPEFACES}),
    ):
        _add_choice(menu.addMenu(title), settings, name, {key: tr(words[key]) for key in words})
    languages = {SYSTEM: tr("As the system"), **LANGUAGES}  # each by its own name
    _add_choice(menu.addMenu(tr("La&nguage")), settings, "language", languages)


def _add_choice(sub: QMenu, settings: Settings, name: str, words: dict[str, str]) -> None:
    group = QActionGroup(sub)
    lettered_when_opened(sub)
    for key, text in words.items():
        action = group.addAction(text)
        action.setCheckable(True)
        action.setData(key)
        sub.addAction(action)

    def check() -> None:
        for action in group.actions():
            action.setChecked(action.data() == str(getattr(settings, name)))

    def choose(action: QAction) -> None:
        value = ShownUnits(action.data()) if name == "units" else action.data()
        setattr(settings, name, value)

    check()
    group.triggered.connect(choose)
    sub.aboutToShow.connect(check)
