"""Kitchen things for recipe files."""

import json

import pytest

from designer.resource_files import resource_path

PORTER = resource_path("examples/harbour_lamp_porter.hobwort").read_text(encoding="utf-8")


@pytest.fixture
def porter():
    """The plain values of the porter's file, free to be spoiled."""
    return json.loads(PORTER)


@pytest.fixture
def written(tmp_path):
    """Writes text, bytes or plain values to a recipe file and returns its path."""

    def write(content, name="brew.hobwort"):
        path = tmp_path / name
        if isinstance(content, bytes):
            path.write_bytes(content)
        else:
            text = content if isinstance(content, str) else json.dumps(content)
            path.write_text(text, encoding="utf-8")
        return path

    return write
