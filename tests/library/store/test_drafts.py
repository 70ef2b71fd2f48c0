"""What is being edited is on the disk, with its undo history, until it is saved or given up."""

import pytest

from designer.library.store import Draft, Store
from designer.library.store.drafts import LARGEST_UNDO, MOST_UNDO, bounded
from designer.library.store.faults import StoreDamagedError
from designer.library.store.windows import OpenWindow, open_windows, sitting_name


def test_a_draft_is_there_after_a_crash_with_its_undo_history(folder, named):
    history = tuple(named(f"Step {n}") for n in range(5))
    with Store.open(folder) as store:
        store.drafts.put(Draft("w1", history[3], undo=history, position=3))
    with Store.open(folder) as store:
        (left,) = store.drafts.left_behind(open_windows=["another"])
    assert (left.document, left.undo, left.position) == (history[3], history, 3)
    assert left.saved


def test_each_window_has_its_own_draft_of_a_recipe(box, kept, named):
    box.drafts.put(Draft("w1", named("One"), kept.recipe, kept.id))
    box.drafts.put(Draft("w2", named("Two"), kept.recipe, kept.id))
    box.drafts.put(Draft("w1", named("New")))
    box.drafts.put(Draft("w1", named("One again"), kept.recipe, kept.id))
    assert box.drafts.get("w1", kept.recipe).document == named("One again")
    assert box.drafts.get("w2", kept.recipe).base == kept.id
    assert box.drafts.get("w1").document == named("New")
    assert len(box.drafts.all()) == 3


def test_a_draft_is_forgotten_when_it_is_saved_or_given_up(box, named):
    box.drafts.put(Draft("w1", named("New")))
    box.drafts.drop("w1")
    assert box.drafts.get("w1") is None


def test_a_window_goes_on_with_a_draft_left_behind(box, named):
    left = box.drafts.put(
        Draft("gone", named("New"), undo=(named("Old"), named("New")), position=1)
    )
    box.drafts.take_over(left, "here")
    assert [draft.window for draft in box.drafts.all()] == ["here"]
    assert box.drafts.get("here").undo == left.undo


def test_a_draft_is_taken_over_once_and_only_as_it_was_last_written(box, named):
    left = box.drafts.put(Draft("gone.1", named("New")))
    assert box.drafts.take_over(left, "here.1").window == "here.1"
    assert box.drafts.take_over(left, "there.1") is None
    old = box.drafts.put(Draft("gone.2", named("Older")))
    box.drafts.put(Draft("gone.2", named("Newer")))
    assert box.drafts.take_over(old, "here.2") is None
    assert box.drafts.get("gone.2").document == named("Newer")


def test_drafts_come_in_the_order_they_were_written_whatever_the_clock_says(box, named, sql):
    for name in ("One", "Two", "Three"):
        box.drafts.put(Draft(name, named(name)))
    box.drafts.put(Draft("One", named("One again")))
    sql(box.path, "update drafts set saved = '1970-01-01' where window = 'One'")
    assert [draft.window for draft in box.drafts.all()] == ["Two", "Three", "One"]
    assert box.drafts.last_number() == box.drafts.all()[-1].number
    assert box.drafts.last_number(without="One") == box.drafts.get("Three").number


def test_a_draft_that_is_not_there_as_written_is_not_called_kept(box, named, sql):
    sql(
        box.path,
        "create trigger rot after insert on drafts begin"
        " update drafts set document = 'rotten' where id = new.id; end",
    )
    with pytest.raises(StoreDamagedError, match="not there as it was written"):
        box.drafts.put(Draft("w1", named("New")))


def test_sittings_belong_to_their_window(box, named):
    box.drafts.put(Draft(sitting_name("here", 1), named("One")))
    box.drafts.put(Draft(sitting_name("there", 1), named("Two")))
    assert [each.window for each in box.drafts.left_behind(["here"])] == ["there.1"]


def test_a_draft_outlives_its_recipe(box, kept, named):
    box.drafts.put(Draft("w1", named("Edited"), kept.recipe, kept.id))
    box.trash.put([kept.recipe])
    box.trash.empty()
    assert box.drafts.get("w1", kept.recipe).document == named("Edited")


def test_the_history_is_bounded_around_the_present():
    undo = tuple(str(n) for n in range(3 * MOST_UNDO))
    kept = bounded(Draft("w", "150", undo=undo, position=150))
    assert len(kept.undo) == MOST_UNDO
    assert kept.undo[kept.position] == "150"
    assert 0 < kept.position < MOST_UNDO - 1
    large = tuple("x" * (LARGEST_UNDO // 4) for _ in range(9))
    assert len(bounded(Draft("w", "x", undo=large, position=8)).undo) == 4
    assert bounded(Draft("w", "x", undo=large, position=8)).position == 3


def test_what_was_done_is_kept_beside_each_step_and_bounded_with_it(box, named):
    phrases = ("", *(f"step {n}" for n in range(1, 5)))
    history = tuple(named(f"Step {n}") for n in range(5))
    box.drafts.put(Draft("w1", history[3], undo=history, position=3, phrases=phrases))
    assert box.drafts.get("w1").phrases == phrases
    large = tuple(f"{n}" + "x" * (LARGEST_UNDO // 4) for n in range(5))
    kept = bounded(Draft("w", "x", undo=large, position=4, phrases=phrases))
    assert [text[0] for text in kept.undo] == [phrase[-1] for phrase in kept.phrases]
    assert len(bounded(Draft("w", "x", undo=("a",), phrases=("y" * 10_000,))).phrases[0]) == 200


def test_phrases_that_do_not_belong_to_the_history_are_left_out(box, named, sql):
    history = (named("Old"), named("New"))
    for kept in ('["", "one", "two"]', "[", "7", "null"):
        box.drafts.put(Draft("w1", history[1], undo=history, position=1, phrases=("", "one")))
        sql(box.path, f"update drafts set phrases = '{kept}'")
        assert box.drafts.get("w1").phrases == ("", "")
        assert box.drafts.get("w1").undo == history


def test_a_history_that_cannot_be_read_leaves_the_draft(box, named, sql):
    box.drafts.put(Draft("w1", named("New"), undo=(named("New"),)))
    sql(box.path, "update drafts set undo = '[\"{'")
    assert box.drafts.get("w1").document == named("New")
    assert box.drafts.get("w1").undo == ()


def test_a_window_counts_as_open_until_it_is_closed(box, folder):
    first, second = OpenWindow(folder), OpenWindow(folder)
    assert open_windows(folder) == {first.name, second.name}
    first.close()
    assert open_windows(folder) == {second.name}
    second.close()
    assert open_windows(folder) == set()


def test_a_window_whose_process_was_killed_is_not_open(box, folder, run_python):
    code = (
        "import os, sys; from pathlib import Path\n"
        "from designer.library.store.windows import OpenWindow, open_windows\n"
        "window = OpenWindow(Path(sys.argv[1]))\n"
        "assert window.name in open_windows(Path(sys.argv[1]))\n"
        "os._exit(9)\n"
    )
    assert run_python(code, folder).returncode == 9
    assert open_windows(folder) == set()
