"""Behind the first door: a first recipe of one's own, from a few answers."""

from __future__ import annotations

from designer.errors import RefusedInputError
from designer.library import catalogue
from designer.library.sources import STYLE_NUMBERS
from designer.recipe.quantity import Kind
from designer.translation import tr
from designer.window.begin.door_form import DoorForm
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.figures import figure, wanted_value
from designer.window.parts.refusal import read_from
from designer.workbench.first_recipe import Answers, first_recipes

ASKED = ("original_gravity", "bitterness_ibu", "colour_srm")


class OwnDoor(DoorForm):
    """How strong, how bitter, how dark, in which vessels."""

    def __init__(self, display: DisplayFormat) -> None:
        super().__init__(
            display,
            tr(
                "Say how strong, how bitter, how dark; a balanced first recipe is drafted for "
                "your pot, to change from there. A style fills in its middle."
            ),
            tr("Draft a first recipe"),
        )
        style = self.add_field("style", tr("Style, if you like"), "", "styles")
        style.setToolTip(STYLE_NUMBERS)
        style.textChanged.connect(self._fill_from_style)
        self.add_field(
            "original_gravity", tr("How strong (OG)"), self._said("original_gravity", 1.05)
        )
        self.add_field("bitterness_ibu", tr("How bitter"), self._said("bitterness_ibu", 30.0))
        self.add_field("colour_srm", tr("How dark"), self._said("colour_srm", 12.0))
        self.add_vessels()
        self.button.clicked.connect(self.lay_down)

    def _said(self, key: str, value: float) -> str:
        return figure(key, value, self._display)

    def _fill_from_style(self, text: str) -> None:
        style = catalogue.find_style(text)
        if style is None:
            return
        for key in ASKED:
            low, high = getattr(style, key)
            self.fields[key].setText(self._said(key, (low + high) / 2.0))

    def _wanted(self, key: str) -> float:
        field = self.fields[key]
        with read_from(field):
            return wanted_value(key, field.text(), self._display)

    def lay_down(self) -> None:
        """Begin a recipe of one's own."""
        try:
            pot, fermenter = self.read("pot", Kind.VOLUME), self.read("fermenter", Kind.VOLUME)
            strength, bitterness, colour = map(self._wanted, ASKED)
            drafts = first_recipes(
                Answers(
                    words=self.fields["style"].text(),
                    original_gravity=strength,
                    bitterness_ibu=bitterness,
                    colour_srm=colour,
                    pot=pot,
                    fermenter=fermenter,
                )
            )
        except RefusedInputError as fault:
            self.refuse(fault)
            return
        self.begin_with(drafts[0].recipe)
