"""A brewer sees where a figure of the catalogue is from, and how good that is, in words."""

import pytest
from PySide6.QtCore import QModelIndex, Qt
from PySide6.QtWidgets import QLabel

from designer.library import catalogue
from designer.library.sources import STYLE_NUMBERS
from designer.recipe.edits import ChangeRecipe
from designer.recipe.message import word
from designer.window.about.about_dialog import AboutHobwort
from designer.window.about.licences_tab import IN_WORDS
from designer.window.parts.plain_text import as_read
from designer.workbench.licences import parts
from tests.pseudo_language import english_left
from tests.shown_texts import shown_texts

CRYSTAL = "Figures of the catalogue, partly published: Palmer, How to Brew, 1st ed., online, ch. 12"
CHALLENGER = "Figures of the catalogue, published: USDA-ARS, hop cultivar description"


def in_one_line(tip):
    """A tip without its line breaks; none of its lines is wider than a window."""
    assert max(len(line) for line in tip.splitlines()) <= 80
    return " ".join(tip.split())


def tip_of(view, row, key="name"):
    model = view.model()
    return in_one_line(model.index(row, model.column_of(key)).data(Qt.ItemDataRole.ToolTipRole))


def details_of(editor, row):
    model = editor.view.model()
    editor.view.setCurrentIndex(model.index(row, 0))
    editor.more_button.setChecked(True)
    return editor.details.source.text()


@pytest.fixture
def window(on_a_box, opened):
    return on_a_box(opened)


def test_the_details_of_a_line_tell_the_source_of_its_figures(window):
    compose = window.compose
    assert details_of(compose.fermentables, 2).startswith(CRYSTAL)
    assert details_of(compose.hops, 0).startswith(CHALLENGER)
    assert details_of(compose.extras, 0).startswith("Figures of the catalogue, partly published:")


def test_the_tip_of_a_name_tells_it_too(window):
    assert CRYSTAL in tip_of(window.compose.fermentables.view, 2)
    assert CHALLENGER in tip_of(window.compose.hops.view, 0)


def test_a_locked_line_s_tip_tells_both(window):
    model = window.compose.fermentables.view.model()
    model.set_locked(2, True)
    told = tip_of(window.compose.fermentables.view, 2)
    assert "Locked" in told
    assert CRYSTAL in told


def test_of_what_the_catalogue_does_not_have_that_is_said(window):
    hops = window.compose.hops
    model = hops.view.model()
    model.setData(model.index(0, model.column_of("name")), "Harbour wall")
    assert details_of(hops, 0).startswith("Not in the catalogue:")


def test_the_yeast_s_field_tells_it_and_follows_the_yeast(window):
    field = window.compose.process.by_place["yeast.name"]
    yeast = catalogue.find_yeast("Dry English ale yeast")
    assert yeast.source in in_one_line(field.toolTip())
    saison = catalogue.new_yeast(catalogue.find_yeast("Saison ale (often diastatic)"))
    window.opened.make(ChangeRecipe("yeast", saison, word("change yeast")))
    told = in_one_line(field.toolTip())
    assert told.startswith(
        "Flocculates little, clears slowly. Figures of the catalogue, common practice: makers of"
    )
    assert field.accessibleDescription() == told


def test_names_that_are_offered_tell_how_good_their_sources_are(window):
    details_of(window.compose.fermentables, 0)
    edit = window.compose.fermentables.details._instead
    edit.setText("melanoidin")
    edit.textEdited.emit("melanoidin")
    offers = edit.completer().model()
    index = offers.index(0, 0, QModelIndex())
    assert index.data(Qt.ItemDataRole.DisplayRole).endswith("28 °L  ·  from memory")
    assert index.data(Qt.ItemDataRole.EditRole) == "Melanoidin malt"
    assert index.data(Qt.ItemDataRole.ToolTipRole) == (
        "Figures of the catalogue, from memory: class of strongly kilned malts"
    )


def test_whose_the_styles_are_stands_where_one_is_chosen_or_drawn(qtbot, window):
    assert STYLE_NUMBERS in window.header.style_field.toolTip()
    window.begin()
    page = window.pages.currentWidget()
    qtbot.waitUntil(lambda: page.own.form.words.toolTip() == STYLE_NUMBERS)
    brackets = [
        label
        for label in window.findChildren(QLabel)
        if label.text() == "style range: English Porter"
    ]
    assert [label.toolTip() for label in brackets] == [STYLE_NUMBERS]


def test_help_tells_about_the_program_and_whose_the_styles_are(window):
    action = next(each for each in window.menus.actions if "About" in each.text())
    action.trigger()
    about = window.findChild(AboutHobwort)
    texts = [label.text() for label in about.findChildren(QLabel)]
    assert STYLE_NUMBERS in texts
    for words in ("published", "partly published", "common practice", "from memory"):
        assert words in texts
    assert any("Apache License 2.0" in text for text in texts)
    about.close()


def test_about_hobwort_is_said_in_the_language_but_for_names_and_licences(pseudo, window):
    window.show_about()
    about = window.findChild(AboutHobwort)
    texts = {text for _, text in shown_texts(about)}
    texts -= {"Scroll Left", "Scroll Right"}  # Qt's own, which it says in its own languages
    texts -= {about.versions.toPlainText(), about.licences.text.toPlainText(), STYLE_NUMBERS}
    named = {each for part in parts() for each in (part.name, part.version, part.licence)}
    said = {as_read(text) for text in texts - (named - IN_WORDS)}
    assert len(said) > 20
    left = {text: english_left(text, {"Hobwort"}) for text in said}
    assert not {text for text, words in left.items() if words}
    about.close()
