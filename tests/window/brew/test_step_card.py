"""The card of the step: read from two metres, whole whatever its words, still while it ticks."""

import re
from pathlib import Path

import pytest
from PySide6.QtCore import QEvent, QObject
from PySide6.QtWidgets import QWidget

from designer import sheet as sheet_package
from designer.window.brew.step_card import Shown, StepCard, TimeLeft
from designer.window.brew.step_words import KINDS

SHEET = Path(sheet_package.__file__).parent
EXTRACT = Shown(
    "D",
    "Next into the pot",
    "at 15 min left, 10:54",
    "400 g",
    "Light dry malt extract",
    "Burner off, pot aside. Stir it in until dissolved; burner on.",
    ("Over heat, extract burns on.",),
    "Done, go on",
)
LONG = Shown(
    "12",
    "Next into the pot",
    "at 15 min left, 10:54",
    "1 lb 8 1/2 oz",
    "Light dry malt extract from wheat and barley, opened last week, of the harbour stores",
    "Burner off, pot aside. Stir it in a handful at a time until all of it has dissolved. " * 2,
    ("It boils over in seconds: stay. 6.7 L in a pot of 9 L.",) * 3,
    "Done: start 25 min steep",
)
NAMELESS = Shown("14", "Cool", "about 11:04", "Sanitise fermenter and tools", done="Done, go on")


@pytest.fixture
def card(qtbot, settings):
    made = StepCard()
    qtbot.addWidget(made)
    made.resize(664, 368)
    made.show()
    return made


def test_amount_and_time_are_the_largest_type_and_as_large_as_each_other(card):
    card.show_step(EXTRACT, TimeLeft("2:42", "goes in after"))
    assert card.large.pixels == card.time.pixels >= 90
    assert card.large.pixels > 2 * card.name.pixels > 2 * card.sentence.pixels
    assert (card.large.text(), card.time.text()) == ("400 g", "2:42")
    assert card.is_whole()


@pytest.mark.parametrize("size", [(664, 368), (540, 318), (560, 300)], ids=str)
@pytest.mark.parametrize("shown", [EXTRACT, LONG, NAMELESS], ids=["usual", "long", "nameless"])
@pytest.mark.parametrize("left", ["", "2:42", "1:02:42"])
def test_no_word_of_a_step_is_cut(card, size, shown, left):
    card.resize(*size)
    card.show_step(shown, TimeLeft(left, "goes in after" if left else ""))
    card.resize(card.width(), max(card.height(), card.minimumSizeHint().height()))
    assert card.is_whole()
    assert card.large.text() + card.headline.text() == shown.large
    texts = [card.large, card.headline, card.name, card.sentence, card.time]
    seen = [each for each in texts if each.text()]
    assert all(card.rect().contains(each.geometry()) for each in seen)
    assert all(card.rect().contains(b.geometry()) for b in card.buttons if b.isVisible())


def test_a_step_that_is_due_says_now_and_counts_up_with_what_to_do(card):
    card.show_step(EXTRACT, TimeLeft("0:01", "goes in after"))
    assert card.kind.text() == "NEXT INTO THE POT"
    card.show_left(TimeLeft("1:10", "late: put it in now", suffix="late", late=True))
    assert card.kind.text() == "NOW"
    assert card.time.text() == "1:10 late"
    assert card.caption.text() == "late: put it in now"
    assert card.is_whole()


class Paintings(QObject):
    """Notes what of a card is painted."""

    def __init__(self, card):
        super().__init__()
        self.painted = set()
        for each in [card, *card.findChildren(QWidget)]:
            each.installEventFilter(self)

    def eventFilter(self, watched, event):  # noqa: N802 - Qt names it
        if event.type() == QEvent.Type.Paint:
            self.painted.add(watched)
        return False


def test_a_second_that_passes_paints_the_time_and_lays_nothing_out(card, qtbot):
    card.show_step(EXTRACT, TimeLeft("2:42", "goes in after"))
    qtbot.wait(20)
    seen, stood = Paintings(card), [each.geometry() for each in card.findChildren(QWidget)]
    card.show_left(TimeLeft("2:41", "goes in after"))
    qtbot.waitUntil(lambda: card.time in seen.painted)
    assert not seen.painted & {card.large, card.name, card.sentence, card.done_button}
    assert [each.geometry() for each in card.findChildren(QWidget)] == stood


def test_the_card_has_a_heading_for_every_kind_of_step():
    sheet = "\n".join(path.read_text("utf-8") for path in SHEET.glob("*.py"))
    kinds = set(re.findall(r'in_(?:pot|fermenter)\(\s*plan,\s*"([^"]+)"', sheet))
    assert len(kinds) >= 15
    assert kinds - set(KINDS) == {"cover", "other"}  # of which it says what comes next
