"""How much a box holds, in words."""

from designer.library.store.contents import Contents


def test_thousands_are_parted_as_everywhere_else():
    assert str(Contents(recipes=5000, versions=12345)) == "5,000 recipes with 12,345 versions"
    assert str(Contents(recipes=1, versions=1)) == "1 recipe with 1 version"
