"""The example, what its day has a reading believe, and a kit of which no recipe is here."""

import pytest

from designer.brewday.explaining.beliefs import beliefs_of
from designer.brewday.explaining.kit import ExtractStated, KitStated, beliefs_of_kit
from designer.brewday.outlook import look_ahead
from designer.library.recipe_file import load
from designer.resource_files import resource_path


@pytest.fixture(scope="module")
def porter():
    return load(resource_path("examples/harbour_lamp_porter.hobwort"))


@pytest.fixture(scope="module")
def beliefs(porter):
    return beliefs_of(look_ahead(porter))


@pytest.fixture(scope="module")
def kit():
    extract = ExtractStated(1.7), ExtractStated(0.8, "sugar")
    return beliefs_of_kit(KitStated(20.0, 1.044, 1.048, 9.0, extract))
