"""Any recipe saved and opened is the same recipe, its texts exactly as typed."""

import json
from dataclasses import fields

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from designer.errors import RefusedInputError
from designer.library.document_reading import checked_quantity
from designer.library.recipe_file import document_of, document_text, read_document
from designer.recipe.document import LINE_TYPES, PART_TYPES, Recipe
from designer.recipe.edits import with_line_ids
from designer.recipe.fields import quantity_fields
from designer.recipe.quantity import Kind
from designer.units import ShownUnits, read, read_when, show

many = settings(max_examples=100, suppress_health_check=[HealthCheck.too_slow])
texts = st.text(st.characters(exclude_categories=["Cs"]), max_size=40)
names = st.one_of(
    texts,
    st.sampled_from(
        ["Challenger", "fuggle", "Light dry malt extract", "Golden syrup", "Dry English ale yeast"]
    ),
)
whens = st.sampled_from(
    [
        "steep",
        "First wort",
        "boil 60 min",
        "boil 1 h 15 min",
        "boil 7,5 min",
        "15",
        "flame-out",
        "stand 20 min at 80 °C",
        "stand 15 min at 175 F",
        "fermenter",
        "dry hop 4 days",
        "dry hop",
    ]
).map(read_when)
doses = st.builds(
    lambda number, unit: read(Kind.DOSE, f"{number} {unit}"),
    st.sampled_from(["0", "1/2", "1 1/2", "½", "11,5", "3"]),
    st.sampled_from(["g", "mL", "tablet", "packets", "oz", "tsp", ""]),
)


def _typed(facts, value, units, spread):
    """A quantity of the field; where rounding carried it over a limit, that limit."""
    for number in (value, facts.low, facts.high):
        try:
            return checked_quantity(
                facts, read(facts.kind, show(facts.kind, number, units) + spread)
            )
        except RefusedInputError:
            continue
    return None


def quantities(facts):
    if facts.kind is Kind.DOSE:
        return doses
    return st.builds(
        lambda value, units, spread: _typed(facts, value, units, spread),
        st.one_of(
            st.floats(facts.low, facts.high),
            st.floats(max(facts.low, 0.0), min(facts.high, 100.0))
            if facts.high > 0
            else st.just(facts.low),
        ),
        st.sampled_from([ShownUnits.METRIC, ShownUnits.US]),
        st.sampled_from(["", "", " ± 5 %", " +/- 0"]),
    )


def field_values(each):
    facts = each.metadata.get("facts")
    if facts is not None:
        return st.one_of(st.none(), quantities(facts))
    if each.name == "when":
        return whens
    if each.name == "locked":
        return st.booleans()
    if each.metadata.get("clock"):
        return st.sampled_from(["09:00", "9:30", "18:05", "00:00", "23:59"])
    choices = each.metadata.get("choices")
    return st.sampled_from(choices) if choices else names


def parts(of):
    return st.builds(
        of, **{each.name: field_values(each) for each in fields(of) if each.name != "line_id"}
    )


recipes = st.builds(
    lambda **all_of_it: with_line_ids(Recipe(**all_of_it)),
    name=texts,
    style=texts,
    notes=texts,
    **{name: parts(of) for name, of in PART_TYPES.items()},
    **{name: st.lists(parts(of), max_size=3).map(tuple) for name, of in LINE_TYPES.items()},
)


@many
@given(recipes)
def test_any_valid_recipe_saved_and_opened_is_the_same_recipe(recipe):
    opened = read_document(document_text(recipe), "brew")
    assert opened == recipe
    assert read_document(document_text(opened), "brew") == opened


@many
@given(recipes)
def test_the_file_is_plain_json_that_says_the_same_as_the_recipe(recipe):
    text = document_text(recipe)
    assert json.loads(text) == document_of(recipe)
    assert next(iter(document_of(recipe))) == "hobwort"
    assert text.endswith("}\n")


@many
@given(recipes)
def test_every_text_of_a_quantity_stands_in_the_file_exactly_as_typed(recipe):
    document = document_of(recipe)
    for name, of in PART_TYPES.items():
        assert_texts_kept(getattr(recipe, name), document.get(name, {}), of)
    for name, of in LINE_TYPES.items():
        for line, row in zip(getattr(recipe, name), document[name], strict=True):
            assert_texts_kept(line, row, of)
            assert row["when"] == line.when.text
            assert "line_id" not in row


def assert_texts_kept(part, row, of):
    for each, _ in quantity_fields(of):
        quantity = getattr(part, each.name)
        assert row.get(each.name) == (None if quantity is None else quantity.text)


def test_the_generator_of_recipes_reaches_every_field():
    """Guards the property tests: a field that is never drawn is never tested."""
    drawn = set()

    @settings(max_examples=60, suppress_health_check=[HealthCheck.too_slow], database=None)
    @given(recipes)
    def draw(recipe):
        for name in PART_TYPES:
            part = getattr(recipe, name)
            drawn.update(
                (name, each.name)
                for each, _ in quantity_fields(part)
                if getattr(part, each.name) is not None
            )
        for name in LINE_TYPES:
            for line in getattr(recipe, name):
                drawn.update(
                    (name, each.name)
                    for each in fields(line)
                    if getattr(line, each.name) is not None
                )

    draw()
    wanted = {
        (name, each.name) for name, of in PART_TYPES.items() for each, _ in quantity_fields(of)
    }
    wanted |= {(name, each.name) for name, of in LINE_TYPES.items() for each in fields(of)}
    assert wanted <= drawn
