"""The open recipe: undo, merging, what is saved, and going on after a crash."""

from designer.recipe.edits import ChangePart, ChangeRecipe
from designer.recipe.message import word
from designer.recipe.quantity import Quantity
from designer.window.session.open_recipe import OpenRecipe


def top_up(litres, merge_key=""):
    quantity = Quantity(litres, f"{litres:g} L")
    return ChangePart("process", "top_up_to", quantity, word("change top-up mark"), merge_key)


def test_an_edit_that_changes_nothing_is_no_step(opened):
    assert not opened.make(ChangeRecipe("name", opened.recipe.name, word("rename the recipe")))
    assert opened.undo_stack.count() == 0


def test_typing_in_one_field_is_one_step_and_back_to_the_start_is_none(opened, porter):
    key = opened.start_typing()
    for litres in (9.0, 9.5, 9.55):
        opened.make(top_up(litres, key))
    assert opened.undo_stack.count() == 1
    opened.make(top_up(10.0, key))
    assert opened.recipe == porter
    opened.make(ChangeRecipe("name", "Other", word("rename the recipe")))
    opened.undo_stack.undo()
    assert opened.recipe == porter


def test_the_forecast_is_made_once_a_turn_of_the_loop(qtbot, opened):
    told = []
    opened.outlook_changed.connect(told.append)
    for litres in (7.0, 8.0, 9.0):
        opened.make(top_up(litres))
    assert told == []
    qtbot.waitUntil(lambda: len(told) == 1)
    assert told[0].day.fermenter.batch_l == 9.0


def test_taking_back_leaves_other_steps_alone(opened):
    opened.make(ChangeRecipe("name", "Other", word("rename the recipe")))
    opened.take_back(opened.start_typing())
    assert opened.recipe.name == "Other"


def test_saving_makes_it_clean_and_undoing_past_it_unsaved(opened, tmp_path):
    opened.make(top_up(9.0))
    opened.note_written(opened.recipe, tmp_path / "a.hobwort")
    assert not opened.unsaved
    opened.undo_stack.undo()
    assert opened.unsaved


def test_what_is_typed_while_a_file_is_written_stays_unsaved(opened, tmp_path):
    key = opened.start_typing()
    opened.make(ChangeRecipe("name", "O", word("rename the recipe"), key))
    written = opened.recipe
    opened.make(ChangeRecipe("name", "On", word("rename the recipe"), key))
    opened.note_written(written, tmp_path / "a.hobwort")
    assert opened.unsaved
    opened.undo_stack.setClean()
    opened.undo_stack.undo()
    opened.note_written(written, tmp_path / "a.hobwort")
    assert opened.unsaved
    opened.undo_stack.redo()
    assert opened.unsaved  # the step that counted as saved is not what the file holds


def test_another_session_says_what_was_done_in_the_last(qapp, opened, porter):
    opened.make(top_up(9.0))
    opened.make(ChangeRecipe("name", "Harbour Lamp", word("rename the recipe")))
    opened.undo_stack.undo()
    before = opened.undo_stack.undoText()
    history, position = opened.history()
    later = OpenRecipe(type(porter)())
    later.go_on(history, position, None, opened.phrases())
    assert later.undo_stack.undoText() == before
    assert later.undo_stack.redoText() == "rename the recipe"
    again = OpenRecipe(type(porter)())
    again.go_on(*later.history(), None, later.phrases())
    assert again.undo_stack.undoText() == before


def test_another_session_goes_on_with_the_history_of_the_last(qapp, opened, porter):
    opened.make(top_up(9.0))
    opened.make(top_up(8.0))
    opened.undo_stack.undo()
    history, position = opened.history()
    assert (len(history), position) == (3, 1)
    later = OpenRecipe(type(porter)())
    later.go_on(history, position, None)
    assert later.recipe == opened.recipe
    assert later.unsaved
    assert later.undo_stack.undoText() == later.undo_stack.redoText() == "an earlier change"
    later.undo_stack.redo()
    assert later.recipe.process.top_up_to.value == 8.0
    later.undo_stack.undo()
    later.undo_stack.undo()
    assert later.recipe == porter
    assert later.unsaved


def test_what_is_taken_back_cannot_be_redone(opened, porter):
    key = opened.start_typing()
    opened.make(top_up(9.0, key))
    opened.take_back(key)
    assert opened.recipe == porter
    assert not opened.undo_stack.canRedo()
    assert not opened.unsaved


def test_what_could_be_redone_can_be_again_when_typing_is_taken_back(opened, tmp_path, porter):
    opened.make(top_up(9.0))
    opened.make(top_up(8.0))
    opened.note_written(opened.recipe, tmp_path / "a.hobwort")
    opened.make(ChangeRecipe("name", "Other", word("rename the recipe")))
    opened.undo_stack.setIndex(1)
    key = opened.start_typing()
    opened.make(top_up(5.0, key))
    assert not opened.undo_stack.canRedo()
    shown = []
    opened.recipe_changed.connect(shown.append)
    opened.take_back(key)
    assert [each.process.top_up_to.text for each in shown] == ["9 L"]
    assert (opened.undo_stack.index(), opened.undo_stack.count()) == (1, 3)
    assert opened.unsaved
    opened.undo_stack.redo()
    assert opened.recipe.process.top_up_to.text == "8 L"
    assert not opened.unsaved
    opened.undo_stack.redo()
    assert opened.recipe.name == "Other"
    assert opened.undo_stack.undoText() == "rename the recipe"
    opened.undo_stack.setIndex(0)
    assert opened.recipe == porter


def test_typing_back_to_what_stood_there_brings_the_redo_back(opened):
    opened.make(top_up(9.0))
    opened.undo_stack.undo()
    key = opened.start_typing()
    opened.make(top_up(5.0, key))
    opened.make(top_up(10.0, key))
    assert opened.undo_stack.canRedo()
    opened.make(top_up(6.0, key))
    opened.take_back(key)
    opened.undo_stack.redo()
    assert opened.recipe.process.top_up_to.text == "9 L"


def test_a_step_that_is_kept_ends_what_could_be_redone(opened):
    opened.make(top_up(9.0))
    opened.undo_stack.undo()
    key = opened.start_typing()
    opened.make(top_up(5.0, key))
    opened.make(ChangeRecipe("name", "Other", word("rename the recipe")))
    opened.take_back(key)
    opened.undo_stack.undo()
    assert opened.recipe.process.top_up_to.text == "5 L"
    assert opened.undo_stack.redoText() == "rename the recipe"
