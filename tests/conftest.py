"""For all tests: no display, no one's own settings, and the rewriting of golden files."""

from __future__ import annotations

import os
import tempfile

import pytest

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
os.environ["HOBWORT_SETTINGS"] = tempfile.mkdtemp(prefix="hobwort-tests-")


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--update-golden",
        action="store_true",
        help="write the golden files anew; read the difference like code",
    )


@pytest.fixture
def update_golden(request: pytest.FixtureRequest) -> bool:
    """Whether golden files are to be written anew."""
    return bool(request.config.getoption("--update-golden"))
