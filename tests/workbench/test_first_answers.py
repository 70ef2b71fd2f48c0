"""The answers before a first recipe make three recipes to choose from."""

from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind
from designer.workbench.first_recipe import Answers, first_recipes, study_recipe


def test_answers_make_three_recipes_and_a_study():
    answers = Answers(
        words="best bitter", pot=typed(Kind.VOLUME, 9.0), fermenter=typed(Kind.VOLUME, 12.0)
    )
    drafts = (*first_recipes(answers), study_recipe(answers))
    assert [each.key for each in drafts] == ["drier", "rounder", "hoppier", "study"]
    for draft in drafts:
        assert draft.recipe.style == "Best Bitter"
        lines = {*(each.line_id for each in (*draft.recipe.fermentables, *draft.recipe.hops))}
        assert {each.line_id for each in draft.reasons if each.lines != "yeast"} == lines
