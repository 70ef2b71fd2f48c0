"""A sample of `python -m tests.brew_proof.advice`: days on which all advice is accepted."""

import pytest

from designer.library.recipe_file import load
from designer.resource_files import resource_path
from tests.brew_proof.advice import WANTED, brewed


@pytest.mark.parametrize("name", ["harbour_lamp_porter", "slipway_bitter"])
def test_advice_that_is_taken_brings_back_what_is_in_reach(name):
    found = brewed(load(resource_path(f"examples/{name}.hobwort")), days=8)
    assert sum(found.in_reach.values()) >= 2
    assert found.share >= WANTED
    assert found.ends["true original_gravity"] >= found.ends["without original_gravity"]
