"""Every figure that brews teach has a name, and is shown as the kind of quantity that it is."""

from designer.brewday.learning.figures import Figure
from designer.recipe.document import Process, Yeast
from designer.recipe.fields import facts_of
from designer.workbench.learning.figure_words import WORDS


def test_each_figure_has_words_of_its_own():
    assert set(WORDS) == set(Figure)
    assert len({each.name for each in WORDS.values()}) == len(Figure)


def test_a_figure_of_a_field_is_of_the_field_s_kind():
    fields = {
        Figure.EVAPORATION: facts_of(Process(), "evaporation"),
        Figure.LEFT_IN_POT: facts_of(Process(), "left_in_pot"),
        Figure.COOLING: facts_of(Process(), "cooling_constant"),
        Figure.ATTENUATION: facts_of(Yeast(), "attenuation"),
    }
    for figure, facts in fields.items():
        assert WORDS[figure].kind is facts.kind
