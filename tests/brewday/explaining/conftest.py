"""The example, and what its day has a reading believe."""

import pytest

from designer.brewday.explaining.beliefs import beliefs_of
from designer.brewday.outlook import look_ahead
from designer.library.recipe_file import load
from designer.resource_files import resource_path


@pytest.fixture(scope="module")
def porter():
    return load(resource_path("examples/harbour_lamp_porter.hobwort"))


@pytest.fixture(scope="module")
def beliefs(porter):
    return beliefs_of(look_ahead(porter))
