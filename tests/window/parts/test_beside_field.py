"""A note lies beside its field, over the page, and goes when it is no longer so."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLineEdit, QVBoxLayout, QWidget

from designer.window.parts.beside_field import note_of, say_beside


@pytest.fixture
def page(qtbot):
    made = QWidget()
    layout = QVBoxLayout(made)
    made.fields = [QLineEdit() for _ in range(3)]
    for each in made.fields:
        layout.addWidget(each)
    layout.addStretch(1)
    qtbot.addWidget(made)
    made.resize(500, 400)
    with qtbot.waitExposed(made):
        made.show()
    return made


def test_it_lies_below_its_field_and_moves_nothing(page):
    before = [each.geometry() for each in page.fields]
    note = say_beside(page.fields[0], "“20 L” is a volume; wanted is a weight.", refused=True)
    assert note.isVisible()
    assert note.geometry().top() > page.fields[0].geometry().bottom()
    assert page.rect().contains(note.geometry())
    assert [each.geometry() for each in page.fields] == before
    assert note.text.text().startswith("Not taken: ")


def test_a_long_note_is_higher_and_whole(page):
    note = say_beside(page.fields[0], "a weight is wanted, such as 3.3 lb or 1.5 kg; " * 6)
    assert note.text.height() >= note.text.heightForWidth(note.text.width())
    assert page.rect().contains(note.geometry())


def test_one_press_takes_the_other_reading(qtbot, page):
    done = []
    for _ in range(2):
        note = say_beside(
            page.fields[1], "Read as 1500 kg.", ways=[("Meant 1.5 kg", lambda: done.append(1))]
        )
    assert len(note.buttons) == 1
    qtbot.mouseClick(note.buttons[0], Qt.MouseButton.LeftButton)
    assert done == [1]
    assert not note.isVisible()


def test_it_is_withdrawn_by_its_owner_alone(page):
    note = say_beside(page.fields[0], "Read as 1500 kg.", owner=page)
    note.withdraw(page.fields[0])
    assert note.isVisible()
    note.withdraw(page)
    assert not note.isVisible()
    assert note_of(page) is note


def test_it_goes_with_its_field(page):
    note = say_beside(page.fields[2], "Read as 1500 kg.")
    page.fields[2].hide()
    assert not note.isVisible()
