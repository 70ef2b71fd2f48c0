"""A Recipe box that is damaged: what can be saved is counted, offered and given, by one button."""

import pytest
from PySide6.QtCore import Qt

from designer.library.recipe_file import document_text
from designer.library.store import Store
from designer.recipe.edits import ChangeRecipe
from designer.window.keeper import summary_of


@pytest.fixture
def folder(tmp_path):
    return tmp_path / "box"


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
    qtbot.waitUntil(lambda: words in window.messages.text.text(), timeout=10_000)
    found = {button.text(): button for button in window.messages._buttons}
    assert found.pop("Save to a file…")
    return found


def names(folder):
    with Store.open(folder) as store:
        return sorted(row.name for row in store.finder.find("").rows)


def press(qtbot, button):
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)


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
    qtbot.waitUntil(lambda: not window.keeper.store.busy and not window.keeper.broken)
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
    window.opened.make(ChangeRecipe("name", "Typed meanwhile", "rename the recipe"))
    press(qtbot, buttons["Save 3 recipes"])
    qtbot.waitUntil(lambda: window.keeper.state == "draft kept", timeout=10_000)
    with Store.open(filled.parent) as store:
        assert '"name": "Typed meanwhile"' in store.drafts.all()[-1].document


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
    window.keeper.say_broken("The Recipe box is damaged.")
    window.keeper.store.ask(lambda store: store.recipes.count(), answers.append)
    qtbot.waitUntil(lambda: answers == [3])
    may_go_on.set()
    qtbot.waitUntil(lambda: not window.keeper.care._looking.busy, timeout=10_000)
