"""Where an undo, a redo or a cure is seen: the cell or field that it changed."""

from dataclasses import replace

from designer.recipe.changed_places import places_changed
from designer.recipe.choices import FermenterKind
from designer.recipe.place import Place
from designer.recipe.quantity import Quantity


def test_nothing_changed_is_nowhere(bitter):
    assert places_changed(bitter, bitter) == []
    assert places_changed(bitter, replace(bitter, hops=tuple(list(bitter.hops)))) == []


def test_a_changed_cell_is_told_by_its_line_and_field(bitter):
    hop = replace(bitter.hops[1], amount=Quantity(0.02, "20 g"))
    after = replace(bitter, hops=(bitter.hops[0], hop, bitter.hops[2]))
    assert places_changed(bitter, after) == [Place("hops", "amount", hop.line_id)]


def test_an_added_line_is_told_whole(bitter):
    extra = replace(bitter.extras[0], line_id=9)
    after = replace(bitter, extras=(*bitter.extras, extra))
    assert places_changed(bitter, after) == [Place("extras", line=9)]


def test_a_line_that_is_gone_is_told_by_the_one_in_its_place(bitter):
    after = replace(bitter, hops=(bitter.hops[0], bitter.hops[2]))
    assert places_changed(bitter, after) == [Place("hops", line=bitter.hops[2].line_id)]
    last_gone = replace(bitter, hops=bitter.hops[:2])
    assert places_changed(bitter, last_gone) == [Place("hops")]


def test_fields_of_parts_and_notes_come_after_the_lines(bitter):
    after = replace(
        bitter,
        fermentables=bitter.fermentables[1:],
        fermenter=replace(bitter.fermenter, kind=FermenterKind.GLASS_CARBOY, name="Carboy"),
        notes="Mind the tide.",
    )
    assert places_changed(bitter, after) == [
        Place("fermentables", line=bitter.fermentables[1].line_id),
        Place("fermenter", "name"),
        Place("fermenter", "kind"),
        Place("notes"),
    ]
