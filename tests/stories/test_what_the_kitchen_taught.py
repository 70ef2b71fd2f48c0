"""What brews taught is taken, and the open recipe is reckoned with it, until it is given back."""

from dataclasses import replace

import pytest

from designer.brewday.learning.figures import Figure
from designer.library.recipe_file import document_text, load, save
from designer.workbench.brew.brewing import brewing_of
from designer.workbench.learning.taught import give_back, take, taught_of
from tests.taught_kitchen import brewed, porter

YEAST = "Dry English ale yeast"


@pytest.fixture
def taught(qtbot, on_a_box, opened_of):
    """A window over the porter, in whose box five brews lie."""
    window = on_a_box(opened_of(porter()))
    in_the_box(qtbot, window, brewed)
    return window


@pytest.fixture
def opened_of():
    from designer.window.session.open_recipe import OpenRecipe

    return lambda recipe: OpenRecipe(recipe)


def in_the_box(qtbot, window, work):
    """Do something in the box on its own thread, and hear what came of it."""
    told = []
    window.autosave.store.ask(work, told.append, pytest.fail)
    qtbot.waitUntil(lambda: bool(told), timeout=20_000)
    window.keeping.taken.refresh()
    qtbot.waitUntil(lambda: not window.autosave.store.busy, timeout=20_000)
    return told[0]


def taking(figure, subject):
    return lambda store: take(store, taught_of(store).of(figure, subject))


def test_a_taken_figure_narrows_the_forecast_and_stays_out_of_the_file(qtbot, taught, tmp_path):
    opened = taught.opened
    opened.want_ranges()
    before = opened.newest_outlook().forecasts["final_gravity"]
    written = document_text(opened.recipe)
    in_the_box(qtbot, taught, taking(Figure.ATTENUATION, YEAST))
    after = opened.newest_outlook().forecasts["final_gravity"]
    assert after.high - after.low < 0.9 * (before.high - before.low)
    rests_on = {cause.key: cause.rests_on for cause in after.causes}
    assert rests_on["attenuation"] == 5
    words = next(cause.words.text for cause in after.causes if cause.key == "attenuation")
    assert words == "attenuation (your kitchen taught it: 5 brews)"
    assert opened.recipe.yeast.attenuation is None
    assert document_text(opened.recipe) == written
    save(opened.recipe, tmp_path / "porter.hobwort")
    assert load(tmp_path / "porter.hobwort").yeast.attenuation is None
    in_the_box(qtbot, taught, lambda store: give_back(store, Figure.ATTENUATION, YEAST))
    assert opened.newest_outlook().forecasts["final_gravity"] == before


def test_what_a_recipe_has_typed_is_kept(qtbot, taught):
    opened = taught.opened
    in_the_box(qtbot, taught, taking(Figure.ATTENUATION, YEAST))
    assert opened.reckoned.yeast.attenuation.brews == 5
    typed = load_typed_yeast(opened)
    assert opened.reckoned.yeast.attenuation == typed


def load_typed_yeast(opened):
    from designer.recipe.edits import ChangePart
    from designer.recipe.kinds import typed
    from designer.recipe.message import say
    from designer.recipe.quantity import Kind

    value = typed(Kind.FRACTION, 0.78)
    assert opened.make(ChangePart("yeast", "attenuation", value, say("t", "type")))
    return opened.recipe.yeast.attenuation


def test_nothing_that_was_taught_is_written_by_a_change_of_the_recipe(qtbot, taught):
    from designer.recipe.edits import ChangeRecipe
    from designer.recipe.message import say

    opened = taught.opened
    in_the_box(qtbot, taught, taking(Figure.ATTENUATION, YEAST))
    colder = replace(opened.reckoned.yeast, name=YEAST, form="liquid")
    assert opened.make(ChangeRecipe("yeast", colder, say("t", "another form")))
    assert opened.recipe.yeast.form == "liquid"
    assert opened.recipe.yeast.attenuation is None


def test_a_brew_keeps_what_it_began_with(qtbot, taught):
    in_the_box(qtbot, taught, taking(Figure.ATTENUATION, YEAST))
    with_it = taught.opened.reckoned.yeast.attenuation
    taught.show_page(taught.page_names.index("Brew day"))
    brew = taught.brew_page.brew
    brew.start(taught.opened, taught.autosave)
    in_the_box(qtbot, taught, lambda store: give_back(store, Figure.ATTENUATION, YEAST))
    assert taught.opened.reckoned.yeast.attenuation is None
    assert brew.brewing.recipe.yeast.attenuation == with_it
    kept = brewing_of(taught.opened.recipe, (), brew.brewing.entries)
    assert kept.recipe.yeast.attenuation == with_it
    assert brew.brew.document == document_text(taught.opened.recipe)
