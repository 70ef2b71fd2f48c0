"""A sample of the proof: a style of every family, in one of four kitchens each."""

import pytest

from designer.library import catalogue
from designer.library.style_grists import style_families, style_grists
from tests.first_recipe_proof.looked_at import KITCHENS, looked_at

NAMES = [
    [each.name for each in style_grists() if each.family is family] for family in style_families()
]
SAMPLE = [
    (names[number % len(names)], KITCHENS[number % len(KITCHENS)])
    for number, names in enumerate(NAMES)
]


@pytest.mark.parametrize(("name", "kitchen"), SAMPLE, ids=[name for name, _ in SAMPLE])
def test_a_first_recipe_lies_in_its_style_in_the_usual_shares_and_fits(name, kitchen):
    for each in looked_at(catalogue.find_style(name), *kitchen):
        assert not each.outside
        assert not each.wrong
