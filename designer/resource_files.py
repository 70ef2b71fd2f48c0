"""The one place that finds resources/, installed or in a checkout."""

from __future__ import annotations

from functools import cache
from pathlib import Path


@cache
def resources_folder() -> Path:
    """Return the folder with the catalogue, the example recipes and the recipe schema."""
    installed = Path(__file__).parent / "_resources"
    return installed if installed.is_dir() else Path(__file__).parents[1] / "resources"


def resource_path(name: str) -> Path:
    """Return the path of one resource, such as `"hops.csv"`."""
    return resources_folder() / name


def licences_folder() -> Path:
    """Return the folder with the licences of all parts, which a checkout has elsewhere."""
    installed = resource_path("licences")
    return installed if installed.is_dir() else Path(__file__).parents[1] / "packaging" / "licences"
