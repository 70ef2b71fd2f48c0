"""Where sheets go and what they become, without a sheet being set."""

import pytest

from designer.errors import DesignerError, RefusedInputError
from designer.paper.files import places_for


@pytest.fixture
def recipes(tmp_path):
    """Recipe files, two of them of one name in two folders."""
    made = [tmp_path / each for each in ("a/porter.hobwort", "b/Porter.hobwort", "a/ale.hobwort")]
    for path in made:
        path.parent.mkdir(exist_ok=True)
        path.write_text("{}", "utf-8")
    return made


def names(recipes, output, **how):
    return [place.name for place in places_for(recipes, str(output), **how)]


def test_one_recipe_goes_where_it_is_said(recipes, tmp_path):
    assert places_for(recipes[:1], str(tmp_path / "day.pdf")) == [tmp_path / "day.pdf"]


@pytest.mark.parametrize(
    ("said", "gets"), [("day.htm", "day.htm"), ("day.HTML", "day.HTML"), ("day.pdf", "day.html")]
)
def test_a_web_page_keeps_or_gets_its_ending(recipes, tmp_path, said, gets):
    assert names(recipes[:1], tmp_path / said, kind="html") == [gets]


def test_several_go_into_a_folder_that_is_made_each_under_a_name_of_its_own(recipes, tmp_path):
    # Alike to a file system that knows no capitals.
    assert names(recipes, tmp_path / "new") == ["porter.pdf", "Porter-2.pdf", "ale.pdf"]
    assert names(recipes, tmp_path / "new", kind="html")[0] == "porter.html"
    assert (tmp_path / "new").is_dir()


@pytest.mark.parametrize("output", ["day.pdf", "day.txt"])
def test_several_do_not_go_into_one_file(recipes, tmp_path, output):
    with pytest.raises(RefusedInputError, match="3 sheets do not go into one file; name a folder"):
        places_for(recipes, str(tmp_path / output))


def test_a_folder_that_cannot_be_made_is_told(recipes, tmp_path):
    (tmp_path / "file").write_text("", "utf-8")
    with pytest.raises(DesignerError, match="the folder could not be made"):
        places_for(recipes, str(tmp_path / "file" / "below"))


@pytest.mark.parametrize("output", ["a/porter.hobwort", "a/new.hobwort"])
def test_no_sheet_goes_over_a_recipe_or_takes_its_ending(recipes, tmp_path, output):
    with pytest.raises(RefusedInputError, match="does not go over a recipe file"):
        places_for(recipes[:1], str(tmp_path / output))


def test_a_link_to_a_recipe_counts_as_the_recipe(recipes, tmp_path):
    (tmp_path / "link.pdf").symlink_to(recipes[0])
    with pytest.raises(RefusedInputError, match="does not go over a recipe file"):
        places_for(recipes[:1], str(tmp_path / "link.pdf"))
