"""The recipes whose forecast, fit and sheet are measured."""

from pathlib import Path

import pytest

from designer.library.recipe_file import load
from tests.benchmarks import many_lines


@pytest.fixture(scope="session")
def forty_lines():
    """More than a kitchen brews."""
    return many_lines.forty_lines()


@pytest.fixture(scope="session")
def porter():
    """The example that the window opens with."""
    examples = Path(__file__).parents[2] / "resources" / "examples"
    return load(examples / "harbour_lamp_porter.hobwort")
