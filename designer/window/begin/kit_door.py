"""Behind the second door: a kit, typed in as its leaflet reads."""

from __future__ import annotations

from designer.errors import RefusedInputError
from designer.recipe.choices import FermentableKind
from designer.recipe.quantity import Kind
from designer.translation import tr
from designer.window.begin.door_form import DoorForm
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.doubtful_number import ask_when_left
from designer.workbench.kit import Kit, KitItem, recipe_of_kit


class KitDoor(DoorForm):
    """What stands on the box, and the vessels in hand."""

    def __init__(self, display: DisplayFormat) -> None:
        super().__init__(
            display,
            tr(
                "As it stands on the box. Its contents are locked: only water, times and what is "
                "left out may change."
            ),
            tr("Create the kit recipe"),
        )
        self.add_field("name", tr("Name of the kit"), tr("My kit"))
        self.add_field("amount", tr("Hopped extract"), display.value(Kind.MASS, 1.7))
        self.add_field("bitterness", tr("Bitterness on the label"), "25 IBU")
        self.add_field("volume", tr("Made for"), display.value(Kind.VOLUME, 20.0))
        self.add_field("more", tr("Dry extract or sugar in it"), display.value(Kind.MASS, 1.0))
        for key, kind in (("amount", Kind.MASS), ("volume", Kind.VOLUME), ("more", Kind.MASS)):
            ask_when_left(self.fields[key], display, kind)
        self.add_vessels()
        self.button.clicked.connect(self.type_in_kit)

    def type_in_kit(self) -> None:
        """Begin with a kit as its box has it."""
        try:
            recipe = recipe_of_kit(self._kit())
        except RefusedInputError as fault:
            self.refuse(fault)
            return
        self.begin_with(recipe)

    def _kit(self) -> Kit:
        more = self.read("more", Kind.MASS)
        items = [KitItem(FermentableKind.HOPPED_KIT, self.read("amount", Kind.MASS))]
        if more.value > 0.0:
            items.append(KitItem(FermentableKind.DRY_EXTRACT, more))
        return Kit(
            self.fields["name"].text(),
            makes=self.read("volume", Kind.VOLUME),
            items=tuple(items),
            pot=self.read("pot", Kind.VOLUME),
            fermenter=self.read("fermenter", Kind.VOLUME),
            bitterness=self.read("bitterness", Kind.BITTERNESS),
        )
