"""What differs between two recipes."""

from dataclasses import replace

from designer.library.recipe_file import load
from designer.recipe.comparing import differences
from designer.recipe.comparing_parts import Difference
from designer.recipe.quantity import Quantity, Stage, When
from designer.resource_files import resource_path


def porter():
    return load(resource_path("examples/harbour_lamp_porter.hobwort"))


def test_a_recipe_does_not_differ_from_itself():
    assert differences(porter(), porter()) == ()


def test_a_changed_amount_a_new_line_and_a_new_field_are_told():
    before = porter()
    hops = (
        replace(before.hops[0], amount=Quantity(0.025, "25 g")),
        before.hops[1],
        replace(before.hops[1], when=When(Stage.BOIL, "boil 5 min", 5.0)),
    )
    after = replace(
        before,
        hops=hops,
        process=replace(before.process, top_up_to=Quantity(9.0, "9 L")),
    )
    assert differences(before, after) == (
        Difference(
            "Challenger", "18 g, pellets, 7.2 %, boil 60 min", "25 g, pellets, 7.2 %, boil 60 min"
        ),
        Difference("East Kent Golding", "", "20 g, pellets, 5.2 %, boil 5 min"),
        Difference("Top-up mark", "10 L", "9 L"),
    )


def test_comparing_the_other_way_round_swaps_the_sides():
    before = porter()
    after = replace(before, name="Other", fermentables=before.fermentables[1:])
    there, back = differences(before, after), differences(after, before)
    assert [(each.what, each.after, each.before) for each in there] == [
        (each.what, each.before, each.after) for each in back
    ]


def test_an_ingredient_whose_name_is_written_in_another_way_is_the_same_line():
    before = porter()
    hops = (replace(before.hops[0], name="challenger"), *before.hops[1:])
    assert differences(before, replace(before, hops=hops)) == (
        Difference(
            "Challenger",
            "Challenger, 18 g, pellets, 7.2 %, boil 60 min",
            "challenger, 18 g, pellets, 7.2 %, boil 60 min",
        ),
    )
