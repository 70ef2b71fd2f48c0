"""The examples of the program in a box of its own and among what a brewer keeps."""

from dataclasses import replace

import pytest

from designer.library.recipe_file import document_text, read_document
from designer.library.store import Store
from designer.workbench.examples import EXAMPLES, PORTER, example, lay_in_examples
from designer.workbench.recipe_summary import summary_of


@pytest.fixture
def store(tmp_path):
    with Store.open(tmp_path / "box") as one:
        lay_in_examples(one)
        yield one


def rows(store, trashed=False):
    return {each.name: each for each in store.finder.find("", trashed=trashed).rows}


def test_a_new_box_is_given_the_four_once(store):
    assert {each.example for each in rows(store).values()} == set(EXAMPLES)
    lay_in_examples(store)
    assert len(rows(store)) == 4
    assert rows(store)["Harbour Lamp Porter"].summary.og == pytest.approx(1.046, abs=0.001)


def test_one_that_was_thrown_away_or_deleted_does_not_come_again(store):
    porter = rows(store)["Harbour Lamp Porter"].id
    store.trash.put([porter])
    assert porter in [each.id for each in rows(store, trashed=True).values()]
    for each in rows(store).values():
        store.trash.put([each.id])
    store.trash.delete([each.id for each in rows(store, trashed=True).values()])
    lay_in_examples(store)
    assert rows(store) == {}


def test_what_is_made_of_an_example_is_kept_beside_it_and_the_example_stays(store):
    porter = example(PORTER)
    recipe, version = store.examples.version(PORTER, document_text(porter))
    mine = replace(porter, name="Pier Porter")
    kept = store.recipes.save(recipe, document_text(mine), summary_of(mine), base=version)
    assert kept.recipe != recipe
    assert kept.number == 1
    assert store.recipes.row(kept.recipe).branched_from == version
    assert not store.examples.is_one(kept.recipe)
    assert read_document(store.recipes.newest(recipe).document, "example") == porter
    again = store.recipes.save(recipe, document_text(porter), summary_of(porter), base=version)
    assert (again.recipe, again.number) == (recipe, 1)  # nothing was changed
    copy = store.recipes.duplicate(recipe)
    assert not store.examples.is_one(copy.recipe)


def test_a_box_in_which_something_was_kept_first_is_given_none(tmp_path):
    porter = example(PORTER)
    with Store.open(tmp_path / "box") as store:
        store.recipes.add(document_text(porter), summary_of(porter))
        lay_in_examples(store)
        assert [each.example for each in rows(store).values()] == [""]
