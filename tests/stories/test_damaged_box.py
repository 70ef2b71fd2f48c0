"""A Recipe box that is damaged: what can be saved is counted, offered and given, by one button."""

import sqlite3
from contextlib import closing

import pytest

from designer.errors import DesignerError
from designer.library.recipe_file import document_text, load
from designer.library.store import Store
from designer.recipe.edits import ChangeRecipe
from designer.recipe.message import word
from designer.workbench.recipe_summary import summary_of

from .acts import buttons_of, press, wait_for_words


@pytest.fixture
def filled(folder, opened):
    """A box with three recipes, the last of them not in its backup."""
    with Store.open(folder) as store:
        text, summary = document_text(opened.recipe), summary_of(opened.recipe, opened.outlook)
        for number in range(3):
            store.recipes.add(text.replace("Harbour Lamp Porter", f"Porter {number}"), summary)
            if number == 1:
                store.make_backup()
        return store.path


def offered(qtbot, window, words):
    wait_for_words(qtbot, window, words)
    found = buttons_of(window)
    assert found.pop("Save to a file…")
    return found


def names(folder):
    with Store.open(folder) as store:
        return sorted(row.name for row in store.finder.find("").rows)


def test_a_box_whose_schema_is_lost_is_saved_whole_by_one_button(qtbot, on_a_box, opened, filled):
    filled.write_bytes(bytes(4096) + filled.read_bytes()[4096:])
    window = on_a_box(opened)
    buttons = offered(qtbot, window, "can be saved")
    assert list(buttons) == ["Save 3 recipes", "Go on with the backup", "Begin an empty box"]
    words = window.messages.text.text()
    assert "3 recipes with 3 versions can be saved" in words
    assert "holds 2 recipes with 2 versions" in words
    press(qtbot, buttons["Save 3 recipes"])
    qtbot.waitUntil(lambda: "was set aside" in window.messages.text.text(), timeout=10_000)
    assert "3 recipes with 3 versions" in window.messages.text.text()
    qtbot.waitUntil(lambda: not window.autosave.store.busy and not window.autosave.broken)
    assert names(filled.parent) == ["Porter 0", "Porter 1", "Porter 2"]


def test_where_nothing_can_be_read_the_backup_comes_first(qtbot, on_a_box, opened, filled):
    filled.write_bytes(b"\xee" * 20_000)
    window = on_a_box(opened)
    buttons = offered(qtbot, window, "Nothing can be read from it")
    assert list(buttons) == ["Go on with the backup", "Begin an empty box"]
    press(qtbot, buttons["Go on with the backup"])
    qtbot.waitUntil(lambda: "was set aside" in window.messages.text.text(), timeout=10_000)
    assert names(filled.parent) == ["Porter 0", "Porter 1"]


def test_what_was_typed_meanwhile_is_kept_in_the_box_that_was_saved(
    qtbot, on_a_box, opened, filled
):
    filled.write_bytes(bytes(100) + filled.read_bytes()[100:])
    window = on_a_box(opened)
    buttons = offered(qtbot, window, "can be saved")
    window.opened.make(ChangeRecipe("name", "Typed meanwhile", word("rename the recipe")))
    press(qtbot, buttons["Save 3 recipes"])
    qtbot.waitUntil(lambda: window.autosave.state == "draft kept", timeout=10_000)
    with Store.open(filled.parent) as store:
        assert '"name": "Typed meanwhile"' in store.drafts.all()[-1].document


ALL = ["Save 3 recipes", "Go on with the backup", "Begin an empty box"]


@pytest.fixture
def damaged(qtbot, on_a_box, opened, filled):
    """A window over a damaged box, with its ways offered."""
    filled.write_bytes(bytes(4096) + filled.read_bytes()[4096:])
    window = on_a_box(opened)
    assert list(offered(qtbot, window, "can be saved")) == ALL
    return window


def test_the_ways_are_offered_on_after_the_recipe_was_saved_to_a_file(
    qtbot, damaged, answers, tmp_path, filled
):
    answers.file = tmp_path / "rescued.hobwort"
    damaged.opened.make(ChangeRecipe("name", "In a file", word("rename the recipe")))
    press(qtbot, buttons_of(damaged)["Save to a file…"])
    buttons = offered(qtbot, damaged, f"Saved to {answers.file}.")
    label = damaged.messages.text
    qtbot.waitUntil(lambda: label.height() >= label.heightForWidth(label.width()))  # not cut
    assert load(answers.file).name == "In a file"
    assert "3 recipes with 3 versions can be saved" in damaged.messages.text.text()
    assert list(buttons) == ALL
    damaged.opened.make(ChangeRecipe("name", "Typed after that", word("rename the recipe")))
    qtbot.waitUntil(lambda: damaged.autosave.state == "not kept", timeout=10_000)
    press(qtbot, offered(qtbot, damaged, "can be saved")["Save 3 recipes"])
    qtbot.waitUntil(lambda: damaged.autosave.state == "draft kept", timeout=10_000)
    assert "Save to a file…" not in buttons_of(damaged)
    with Store.open(filled.parent) as store:
        assert '"name": "Typed after that"' in store.drafts.all()[-1].document


def test_the_ways_are_offered_on_where_no_file_was_chosen(qtbot, damaged, answers):
    answers.file = None
    press(qtbot, buttons_of(damaged)["Save to a file…"])
    assert damaged.messages.isVisible()
    assert list(offered(qtbot, damaged, "can be saved")) == ALL


@pytest.mark.parametrize("is_grave", [False, True])
def test_no_other_message_takes_the_ways_away(qtbot, damaged, is_grave):
    for actions in ((), [("Undo", lambda: None)]):
        damaged.messages.say("3 hops removed.", grave=is_grave, actions=actions)
        assert "3 hops removed." in damaged.messages.text.text()
        damaged.messages.put_away()
        assert list(offered(qtbot, damaged, "can be saved")) == ALL


def test_pressing_that_nothing_is_kept_brings_the_ways_back(qtbot, damaged):
    press(qtbot, damaged.messages.close_button)
    assert not damaged.messages.isVisible()
    damaged.messages.say("No file of this name.", grave=True)
    assert buttons_of(damaged) == {}
    press(qtbot, damaged.header.unkept)
    assert list(offered(qtbot, damaged, "can be saved")) == ALL


def test_a_way_that_fails_says_why_and_leaves_all_ways_open(qtbot, damaged, monkeypatch):
    from designer.library.store import rescue

    def fails(folder, backup):
        raise DesignerError("The box was not saved: the disk is full.")

    monkeypatch.setattr(rescue, "go_on_with_salvage", fails)
    press(qtbot, buttons_of(damaged)["Save 3 recipes"])
    assert list(buttons_of(damaged)) == ["Save to a file…"]  # one thing at a time
    assert list(offered(qtbot, damaged, "The box was not saved: the disk is full.")) == ALL


def test_damage_stays_told_while_parts_of_the_box_work_on(qtbot, on_a_box, opened, filled):
    """A draft that was kept says nothing of the recipes whose page is damaged."""
    with closing(sqlite3.connect(filled)) as conn:
        find = "SELECT rootpage FROM sqlite_master WHERE name = 'recipes_by_og'"
        (page,) = conn.execute(find).fetchone()
        conn.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    content = bytearray(filled.read_bytes())
    content[(page - 1) * 4096 : page * 4096] = b"\xee" * 4096
    filled.write_bytes(content)
    window = on_a_box(opened)
    offered(qtbot, window, "can be saved")
    opened.make(ChangeRecipe("name", "Typed on", word("rename the recipe")))
    qtbot.waitUntil(lambda: window.autosave.state == "draft kept", timeout=10_000)
    assert window.header.unkept.text() == "Box is damaged"
    assert window.header.unkept.isVisible()
    press(qtbot, offered(qtbot, window, "can be saved")["Save 3 recipes"])
    qtbot.waitUntil(window.header.unkept.isHidden, timeout=10_000)
    assert "was set aside" in window.messages.text.text()


def test_a_salvage_under_way_holds_up_no_draft(qtbot, on_a_box, opened, filled, monkeypatch):
    """The store is asked on its own thread while the damaged file is still being read."""
    from threading import Event

    from designer.library.store import rescue

    may_go_on, real = Event(), rescue.offer

    def slow(folder, goes_on):
        may_go_on.wait(20)
        return real(folder, goes_on)

    monkeypatch.setattr(rescue, "offer", slow)
    window = on_a_box(opened)
    answers = []
    window.autosave.say_broken("The Recipe box is damaged.")
    window.autosave.store.ask(lambda store: store.recipes.count(), answers.append)
    qtbot.waitUntil(lambda: answers == [3])
    may_go_on.set()
    qtbot.waitUntil(lambda: not window.maintenance._looking.busy, timeout=10_000)
