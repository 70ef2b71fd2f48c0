"""The strip above the lines of a recipe that is brewed by a plan: how it is, and ways to go on.

It tells the plan in a sentence, lets one choose what the editors show, as written or a boil, and
takes the plan away, makes it the recipe, or leads to Fit.
"""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QButtonGroup,
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from designer.recipe.document import PART_TYPES, Recipe
from designer.recipe.edits import LISTS, ChangeRecipe, Edit, Together
from designer.recipe.message import say
from designer.recipe.plan import AS_WRITTEN, as_recipe, boils_of, is_planned
from designer.recipe.plan_sums import differing_words
from designer.recipe.plan_words import plan_words
from designer.translation import tr
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.scrolling import bring_into_view, show_changed
from designer.window.session.worked_on import WorkedOn


def making_it_the_recipe(recipe: Recipe) -> Edit | None:
    """Return the edit that puts what is brewed in place of what is written; None if none can."""
    made = as_recipe(recipe)
    if made is None:
        return None
    text = say("plan-is-recipe", "make what is brewed the recipe")
    names = (*LISTS, *PART_TYPES, "boils", "fermenters")
    return Together(tuple(ChangeRecipe(name, getattr(made, name), text) for name in names), text)


MOST_IN_A_ROW = 4


class _Choices(QGridLayout):
    """Buttons of which one is pressed; Tab goes to that one, the arrows to the others.

    Many of them stand in several rows.
    """

    def __init__(self, name: str, choose: Callable[[int], None], strip: QWidget) -> None:
        super().__init__()
        self._strip = strip
        self.setSpacing(2)
        self.label = QLabel(name)
        self.label.setObjectName("soft")
        self.label.setContentsMargins(0, 0, 6, 0)
        self.addWidget(self.label, 0, 0)
        self.setColumnStretch(MOST_IN_A_ROW + 1, 1)
        self.group = QButtonGroup(self)
        self.group.idClicked.connect(choose)
        self._said: list[str] = []

    def show_choices(self, said: list[str], pressed: int) -> None:
        """Show what there is to choose; `pressed` is the number of the one that is."""
        while len(self.group.buttons()) < len(said):
            self._add()
        for number, button in enumerate(self.group.buttons()):
            wanted = number < len(said)
            if wanted and button.text() != said[number]:
                button.setText(said[number])
                button.setAccessibleName(
                    tr("{what}: {choice}", what=self.label.text(), choice=said[number])
                )
            button.setVisible(wanted)
            button.setChecked(number == pressed)
            is_pressed = number == pressed
            button.setFocusPolicy(
                Qt.FocusPolicy.StrongFocus if is_pressed else Qt.FocusPolicy.ClickFocus
            )
        self.label.setVisible(bool(said))

    def _add(self) -> None:
        button, number = _ChoiceButton(self._strip), len(self.group.buttons())
        self.group.addButton(button, number)
        self.addWidget(button, number // MOST_IN_A_ROW, 1 + number % MOST_IN_A_ROW)

    def take_focus(self) -> None:
        """Give the keyboard to the one that is pressed."""
        button = self.group.checkedButton()
        if button is not None:
            button.setFocus(Qt.FocusReason.OtherFocusReason)


class _ChoiceButton(QPushButton):
    """One of the choices; what an arrow goes to is chosen."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("pageButton")
        self.setCheckable(True)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        by = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}.get(Qt.Key(event.key()))
        if by is None:
            super().keyPressEvent(event)
            return
        group = self.group()
        there = group.button(group.id(self) + by)
        if there is not None and there.isVisible():
            there.click()
            there.setFocus(Qt.FocusReason.TabFocusReason)


class PlanStrip(QFrame):
    """Stands above the lines as long as the recipe has a plan."""

    fit_wanted = Signal()

    def __init__(self, worked_on: WorkedOn, display: DisplayFormat, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("card")
        self.setAccessibleName(tr("How the recipe is brewed"))
        self._worked_on, self._display = worked_on, display
        self._opened = worked_on.opened
        self.sentence = _words()
        self.differs = _words()
        self.hint = _words()
        self.hint.setObjectName("soft")
        self.boils = _Choices(tr("Shown below"), self._choose_boil, self)
        self.fermenters = _Choices(tr("Into"), self._choose_fermenter, self)
        self.as_written = _button(
            tr("Brew it as written"), tr("Take the plan away; Undo brings it back")
        )
        self.as_written.clicked.connect(lambda _checked=False: self._opened.make(AS_WRITTEN))
        self.make_recipe = _button(
            tr("Make this the recipe"),
            tr("What is brewed takes the place of what is written; Undo brings that back"),
        )
        self.make_recipe.clicked.connect(lambda _checked=False: self._make_it_the_recipe())
        self.fit = _button(tr("Change it in Fit"), tr("See all ways to brew it here"))
        self.fit.clicked.connect(lambda _checked=False: self.fit_wanted.emit())
        self._lay_out()
        worked_on.recipe_changed.connect(self.refresh)
        worked_on.part_changed.connect(self.refresh)
        display.settings.changed.connect(self.refresh)
        self.refresh()

    def _lay_out(self) -> None:
        ways = QHBoxLayout()
        for button in (self.as_written, self.make_recipe, self.fit):
            ways.addWidget(button)
        ways.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(10, 6, 10, 6)
        layout.setSpacing(3)
        layout.addWidget(self.sentence)
        layout.addWidget(self.differs)
        layout.addLayout(self.boils)
        layout.addLayout(self.fermenters)
        layout.addWidget(self.hint)
        layout.addLayout(ways)

    def refresh(self) -> None:
        """Show the plan as it now is."""
        recipe, display = self._opened.recipe, self._display
        self.setVisible(is_planned(recipe))
        said = plan_words(recipe)
        if said is None:
            return
        _say(self.sentence, said.said(display.rounded, display.quantity))
        differs = differing_words(recipe)
        _say(
            self.differs,
            differs.said(display.rounded, display.quantity) if differs is not None else "",
        )
        self.make_recipe.setVisible(as_recipe(recipe) is not None)
        boil, count = self._worked_on.boil, len(boils_of(recipe))
        self.boils.show_choices(
            [tr("As written"), *(_boil_name(number, count) for number in range(1, count + 1))],
            boil or 0,
        )
        into = self._worked_on.fermenters() if boil is not None else ()
        names = [tr("Fermenter {number}", number=each) for each in into]
        chosen = self._worked_on.fermenter
        self.fermenters.show_choices(
            names if len(names) > 1 else [], into.index(chosen) if chosen in into else 0
        )
        _say(self.hint, self._hint(boil))

    def _hint(self, boil: int | None) -> str:
        if boil is None:
            return tr("Pale fields are set by the plan: choose a boil above to change them there.")
        return tr("Lines, pot, water, boil and fermenter are its own; all else is the recipe's.")

    def _choose_boil(self, number: int) -> None:
        if number == 0:
            self._worked_on.choose(None)
        else:
            self._worked_on.choose_boil(number)

    def _choose_fermenter(self, number: int) -> None:
        into = self._worked_on.fermenters()
        self._worked_on.choose(self._worked_on.boil, into[number])

    def _make_it_the_recipe(self) -> None:
        edit = making_it_the_recipe(self._opened.recipe)
        if edit is not None:
            self._opened.make(edit)

    def take_focus(self) -> None:
        """Give the keyboard to what is chosen."""
        self.boils.take_focus()
        bring_into_view(self)

    def show_change(self) -> None:
        """Show that the plan has changed."""
        show_changed(self)


def _boil_name(number: int, count: int) -> str:
    return tr("Boil {number}", number=number) if count > 1 else tr("The boil")


def _words() -> QLabel:
    label = QLabel()
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setWordWrap(True)
    return label


def _say(label: QLabel, text: str) -> None:
    if label.text() != text:
        label.setText(text)
    if label.isHidden() == bool(text):
        label.setVisible(bool(text))


def _button(text: str, tip: str) -> QPushButton:
    button = QPushButton(text)
    button.setObjectName("quiet")
    button.setToolTip(tip)
    return button
