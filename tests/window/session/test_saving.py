"""What is said of a press of Save, whichever of file and Recipe box answers first."""

from itertools import permutations
from pathlib import Path

import pytest

from designer.errors import DesignerError
from designer.window.session.saving import _Told

FILE = Path("porter.hobwort")


class Saying:
    """Notes what is said, the last thing last."""

    def __init__(self):
        self.said = []

    def say(self, words, **_):
        self.said.append(words)

    def withdraw(self, topic):
        pass

    def say_trouble_again(self):
        self.said.append("The box is damaged: it can be put right.")

    def ways_on(self, fault):
        return []


@pytest.mark.parametrize("order", list(permutations(("file", "box"))))
@pytest.mark.parametrize(
    ("is_full", "told"),
    [(False, "Saved to porter.hobwort."), (True, "It is full. The Recipe box kept version 3.")],
)
def test_the_same_is_said_whichever_of_file_and_box_answers_first(order, is_full, told):
    saying = Saying()
    became = _Told(saying)
    answers = {
        "file": (lambda: became.not_in_file(DesignerError("It is full.")))
        if is_full
        else (lambda: became.in_file(FILE)),
        "box": lambda: became.in_box(3),
    }
    for each in order:
        answers[each]()
    assert saying.said[-1] == told


def test_a_box_that_takes_nothing_for_longer_is_told_with_all_ways_on_though_save_was_pressed():
    saying = Saying()
    _Told(saying).not_in_box("nothing can be written")
    assert saying.said[-1] == "The box is damaged: it can be put right."
