"""Where an undo, a redo or a cure is seen: the cell or field that it changed."""

from dataclasses import replace

from designer.recipe.changed_places import places_changed
from designer.recipe.choices import FermenterKind
from designer.recipe.document import PlannedBoil, PlannedFermenter
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


def planned(recipe):
    return replace(
        recipe,
        boils=(PlannedBoil(recipe.pot), PlannedBoil(recipe.pot)),
        fermenters=(PlannedFermenter(recipe.fermenter), PlannedFermenter(recipe.fermenter)),
    )


def test_a_boil_and_a_fermenter_of_a_plan_are_told_by_number_and_field(bitter):
    before = planned(bitter)
    first, second = before.boils
    after = replace(
        before,
        boils=(first, replace(second, start_water=Quantity(6.4, "6.4 L"), hops=bitter.hops)),
        fermenters=(
            replace(before.fermenters[0], top_up_to=Quantity(9.0, "9 L")),
            before.fermenters[1],
        ),
    )
    assert places_changed(before, after) == [
        Place("boils", "start_water", 2),
        Place("boils", "hops", 2),
        Place("fermenters", "top_up_to", 1),
    ]


def test_a_plan_that_comes_or_goes_is_told_as_a_whole(bitter):
    whole = [Place("boils"), Place("fermenters")]
    assert places_changed(bitter, planned(bitter)) == whole
    assert places_changed(planned(bitter), bitter) == whole
    one_less = replace(planned(bitter), boils=planned(bitter).boils[:1])
    assert places_changed(planned(bitter), one_less) == [Place("boils")]
