"""The language of the program, chosen in the window."""

import pytest
from PySide6.QtCore import QLocale, QTranslator
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QFileDialog, QLabel, QPushButton, QToolButton

from designer import translation
from designer.po_file import PoCatalogue
from designer.recipe.edits import ChangeRecipe
from designer.recipe.message import say
from designer.spoken_language import catalogue_if_any
from designer.window import opening_anew
from designer.window.parts.settings import Settings
from designer.window.parts.wording import locale_of, speak_alike
from designer.window.session.leaving import Leaving

FRENCH = """
msgid "Hobwort speaks {language} from its next start on."
msgstr "Hobwort parlera {language} au prochain démarrage."

msgid "Open anew now"
msgstr "Rouvrir maintenant"
"""


@pytest.fixture
def french(monkeypatch):
    monkeypatch.setattr(opening_anew, "catalogue_if_any", lambda name: PoCatalogue(FRENCH))


def _choose(window, name):
    """Choose a language in the menu, by its own name."""
    for menu in window.menuBar().actions():
        for each in menu.menu().actions():
            if each.text() == "La&nguage":
                (entry,) = [one for one in each.menu().actions() if one.text() == name]
                entry.trigger()


def test_a_language_is_chosen_by_its_own_name_and_told_in_it(window, french):
    _choose(window, "Français")
    assert Settings().language == "fr"
    assert "Hobwort parlera Français" in window.messages.text.text()
    _choose(window, "English")
    assert not window.messages.isVisible()


def test_the_window_opens_anew_once_it_has_closed_as_it_always_does(window, french, qtbot):
    _choose(window, "Français")
    assert not window.is_to_open_anew
    (button,) = [
        each for each in window.findChildren(QPushButton) if each.text() == "Rouvrir maintenant"
    ]
    button.click()
    qtbot.waitUntil(lambda: not window.isVisible())
    assert window.is_to_open_anew


def test_whoever_stays_after_all_ends_later_without_opening_anew(window, french, qtbot, answers):
    window.opened.make(ChangeRecipe("name", "Changed", say("rename", "rename the recipe"), ""))
    assert window.autosave is None
    _choose(window, "Français")
    (button,) = [
        each for each in window.findChildren(QPushButton) if each.text() == "Rouvrir maintenant"
    ]
    asked = iter(["stay", "leave"])
    answers.about_unsaved = lambda *_: next(asked)
    button.click()
    assert window.isVisible()
    assert not window.is_to_open_anew
    window.close()
    assert not window.isVisible()
    assert not window.is_to_open_anew


def test_whoever_stays_while_the_box_is_waited_for_does_not_open_anew_later(
    window, french, qtbot, monkeypatch
):
    _choose(window, "Français")
    window._opening_anew.opens_anew = True  # its button was pressed
    leaving = Leaving(window, lambda then: then(False), window._stay_open)
    leaving.begin(lambda kept, failed: failed("The disk is full."), window.close, closing=True)
    (stay,) = [each for each in leaving.dialog.buttons() if each.text() == "Stay"]
    stay.click()
    assert window.isVisible()
    assert not window.is_to_open_anew


def test_the_sheet_speaks_the_language_of_the_program_until_another_is_chosen(settings):
    settings.language = "fr"
    assert settings.sheet_language == "fr"
    settings.sheet_language = "de"
    settings.language = "en"
    assert settings.sheet_language == "de"


@pytest.mark.parametrize(
    ("code", "system", "written"),
    [
        ("de", "de_AT", "de_AT"), ("de", "en_US", "de_DE"), ("fr", "fr_CA", "fr_CA"),
        ("en", "en_US", "en_US"), ("en", "de_DE", "en_GB"), ("en", "it_IT", "it_IT"),
        ("en", "C", "C"), ("fr", "C", "fr_FR"),
    ],
)  # fmt: skip
def test_numbers_and_dates_are_written_as_the_language_does(code, system, written):
    assert locale_of(code, QLocale(system)).name() == written


def test_the_cupboard_keeps_what_the_catalogue_has_by_its_english_name(display):
    from designer.window.kitchen.record_columns import CUPBOARD
    from designer.window.parts.columns import Typed

    name = next(each for each in CUPBOARD if each.key == "name")
    for typed, kept in (
        ("Schokoladenmalz", "Chocolate malt"),
        ("flocons d'avoine", "Flaked oats"),
        ("fuggle", "Fuggle"),
        ("Omas Honigmischung", "Omas Honigmischung"),
    ):
        assert name.read(Typed(typed, None, "", display)) == kept


@pytest.mark.parametrize(
    ("code", "look_in"), [("de", "&Suchen in:"), ("fr", "&Regarder dans\u202f:")]
)
def test_no_word_of_the_dialog_of_files_is_left_in_english(qapp, code, look_in):
    """In English it has the words that Qt has in its source."""

    def words():
        dialog = QFileDialog(None, "", "/", options=QFileDialog.Option.DontUseNativeDialog)
        dialog.show()
        found = [each.text() for each in dialog.findChildren(QLabel)]
        found += [each.toolTip() for each in dialog.findChildren(QToolButton)]
        found += [each.text() for each in dialog.findChildren(QAction) if each.text()]
        dialog.close()
        return [each for each in found if each]

    english, before = words(), QLocale()
    translation.use(catalogue_if_any(f"program_{code}"), code)
    try:
        speak_alike(qapp)
        assert look_in in words()
        assert not set(words()) & set(english)
    finally:
        for each in qapp.findChildren(QTranslator):
            qapp.removeTranslator(each)
            each.deleteLater()
        QLocale.setDefault(before)
        translation.use(None)
