"""What is taken from the list while a line is typed."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLineEdit

from designer.window.parts.offers import attach_suggestions, split_amount


@pytest.mark.parametrize(
    ("typed", "amount", "name"),
    [
        ("20 g fug", "20 g ", "fug"),
        ("1 1/2 oz fug", "1 1/2 oz ", "fug"),
        ("1,5kg light", "1,5kg ", "light"),
        ("2-row", "", "2-row"),
        ("fug", "", "fug"),
        ("0.5 tablet carra", "0.5 tablet ", "carra"),
    ],
)
def test_the_amount_before_a_name_is_told_apart(typed, amount, name):
    assert split_amount(typed) == (amount, name)


def test_an_offer_that_is_taken_keeps_the_amount(qtbot):
    edit = QLineEdit()
    qtbot.addWidget(edit)
    completer = attach_suggestions(edit, "hops")
    qtbot.keyClicks(edit, "20 g challeng")
    model = completer.model()
    assert model.index(0, 0).data(Qt.ItemDataRole.EditRole) == "20 g Challenger"
    assert model.index(0, 0).data().startswith("Challenger  ·  ")
