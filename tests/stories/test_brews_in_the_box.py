"""A brewer looks back on what was brewed: beside its version, with what was measured and tasted."""

from datetime import UTC, datetime

import pytest
from PySide6.QtCore import Qt

from designer.library.recipe_file import document_text, load
from designer.library.store import Store
from designer.library.store.brew_journal import log_text
from designer.library.store.brews import new_brew
from designer.resource_files import resource_path
from designer.window.brew.part_names import Part
from designer.window.session.open_recipe import OpenRecipe
from designer.workbench.brew.brew_told import MARKS
from designer.workbench.recipe_summary import summary_of

MARCH = 1_774_688_400.0  # 28 March 2026, 09:00 UTC


def line(number, what, at=MARCH, **values):
    return {"id": f"{number:06d}-ab", "at": {"wall": at}, "what": what, "values": values}


OG = {"what": "original gravity", "value": 1.0462, "by": "hydrometer"}
DONE = (
    line(1, "began"),
    line(2, "reading", reading=OG, typed="1.046"),
    line(3, "finished", MARCH + 5 * 3600),
)


@pytest.fixture
def kept(folder):
    """The porter in two versions: the first brewed in March, the second being brewed."""
    porter = load(resource_path("examples/harbour_lamp_porter.hobwort"))
    with Store.open(folder) as store:
        first = store.recipes.add(document_text(porter), summary_of(porter))
        second = store.recipes.save(
            first.recipe, first.document.replace("10 L", "10.0 L"), summary_of(porter),
            base=first.id,
        )  # fmt: skip
        brewed = new_brew(
            first.document, recipe=first.recipe, version=first.id,
            started=datetime.fromtimestamp(MARCH, UTC).isoformat(),
        )  # fmt: skip
        store.brews.put(brewed, DONE)
        running = new_brew(second.document, recipe=second.recipe, version=second.id)
        store.brews.put(running, [line(1, "began", datetime.now(UTC).timestamp() - 600.0)])
    return brewed.uid, running.uid


@pytest.fixture
def window(on_a_box, kept, porter):
    return on_a_box(OpenRecipe(porter))


@pytest.fixture
def details(qtbot, window):
    window.show_page(window.page_names.index("Recipe box"))
    qtbot.waitUntil(lambda: window.box.details.versions_model.rowCount() == 4, timeout=10_000)
    return window.box.details


def texts(details):
    model = details.versions_model
    return [model.index(row, 0).data().strip() for row in range(model.rowCount())]


def choose(qtbot, details, row):
    details.versions.setCurrentIndex(details.versions_model.index(row, 0))
    qtbot.waitUntil(details.brew_panel.isVisible)
    return details.brew_panel


def lines_of(folder, uid):
    with Store.open(folder) as store:
        brew = store.brews.by_uid(uid)
        return [each.entry for each in store.brews.lines(brew.id)]


def test_brews_stand_below_the_version_that_was_brewed(details):
    second, being_brewed, first, brewed = texts(details)
    assert (second[0], first[0]) == ("2", "1")
    assert being_brewed.startswith("being brewed since ")
    assert brewed == "brewed 28 Mar 2026  ·  OG 1.046"


def test_versions_are_sorted_and_brews_stay_below_theirs(qtbot, details, settings):
    def sorted_by(words):
        found = {
            each.text().replace("&", ""): each for each in details.order_menu(details).actions()
        }
        found[words].trigger()
        qtbot.waitUntil(lambda: not details._autosave.store.busy, timeout=10_000)
        return [each[0] for each in texts(details)]

    assert sorted_by("Last brewed") == ["2", "b", "1", "b"]
    assert sorted_by("Downwards") == ["1", "b", "2", "b"], "upwards: the longest ago on top"
    assert texts(details)[1] == "brewed 28 Mar 2026  ·  OG 1.046"
    assert settings.kept_order("versions") == ("brewed", False)
    details.versions.selectAll()
    assert [each.number for each in details.chosen_versions()] == [2, 1], "the newest first"
    assert sorted_by("Version") == ["2", "b", "1", "b"]


def test_a_tasting_is_marked_by_keys_and_kept_in_the_log(qtbot, details, folder, kept):
    panel = choose(qtbot, details, 3)
    qtbot.mouseClick(panel.taste_button, Qt.MouseButton.LeftButton)
    form = panel.form
    qtbot.waitUntil(lambda: form.marks.button(1).hasFocus())
    assert not form.keep_button.isEnabled(), "nothing is said yet"
    qtbot.keyClick(form.window().focusWidget(), Qt.Key.Key_5)
    assert form.marks.checkedId() == 5
    qtbot.keyClick(form.window().focusWidget(), Qt.Key.Key_1)
    for _ in range(3):
        qtbot.keyClick(form.window().focusWidget(), Qt.Key.Key_Right)
    assert form.marks.checkedId() == 4
    assert form.marks.button(4).text() == "4, good"
    form.note.setFocus()
    qtbot.keyClicks(form.note, "Dry, toast and a little smoke")
    qtbot.keyClick(form.note, Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)
    qtbot.waitUntil(lambda: texts(details)[3].endswith("4, good"), timeout=10_000)
    *before, tasted = lines_of(folder, kept[0])
    assert before == list(DONE)
    assert tasted["values"] == {"mark": 4, "text": "Dry, toast and a little smoke"}
    assert details.chosen_brew().brew.uid == kept[0], "it stays chosen"
    panel.taste()
    assert "4, good. Dry, toast and a little smoke" in form.told.text()


def test_every_mark_has_its_word_beside_it(details):
    buttons = details.brew_panel.form.marks.buttons()
    assert [each.text() for each in buttons] == [f"{n}, {word}" for n, word in MARKS.items()]
    assert all(each.text() in each.accessibleName() for each in buttons)


def test_a_deleted_brew_is_put_back_by_undo(qtbot, details, folder, kept):
    window = details.window()
    panel = choose(qtbot, details, 3)
    qtbot.mouseClick(panel.delete_button, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: len(texts(details)) == 3, timeout=10_000)
    with Store.open(folder) as store:
        assert [each.uid for each in store.brews.all()] == [kept[1]]
    [undo] = [each for each in window.messages._buttons if each.text() == "Undo"]
    qtbot.mouseClick(undo, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: len(texts(details)) == 4, timeout=10_000)
    assert lines_of(folder, kept[0]) == list(DONE)


def test_a_brew_under_way_is_gone_on_with_from_its_row(qtbot, details, kept):
    window = details.window()
    panel = choose(qtbot, details, 1)
    assert panel.go_on_button.isVisible()
    qtbot.mouseClick(panel.go_on_button, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: window.pages.currentWidget() is window.brew_page)
    qtbot.waitUntil(lambda: window.brew_is_shown, timeout=10_000)
    assert window.brew_page.brew.brew.uid == kept[1]


def test_the_log_of_a_brew_is_opened_from_its_row(qtbot, details, kept):
    window = details.window()
    panel = choose(qtbot, details, 3)
    qtbot.mouseClick(panel.log_button, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: window.pages.currentWidget() is window.brew_page)
    shown = window.brew_page.brew
    qtbot.waitUntil(lambda: shown.brew is not None and shown.brew.uid == kept[0], timeout=10_000)
    assert window.brew_page.parts.shown is Part.LOG


def test_a_log_saved_elsewhere_is_imported_once_however_often(
    qtbot, details, folder, kept, tmp_path
):
    with Store.open(folder) as store:
        brew = store.brews.by_uid(kept[0])
        store.brews.delete(brew.id)
    saved = tmp_path / "porter.jsonl"
    saved.write_text(log_text(brew, DONE))
    box = details.window().box
    for _ in range(2):
        with qtbot.waitSignal(box.said, timeout=10_000) as told:
            box.bring_in([saved])
    assert told.args[0] == "The brew log of “Harbour Lamp Porter” is in the Recipe box."
    assert lines_of(folder, kept[0]) == list(DONE)
    qtbot.waitUntil(lambda: len(texts(details)) == 4, timeout=10_000)
    (tmp_path / "letter.jsonl").write_text("Dear brewer\n")
    with qtbot.waitSignal(box.said, timeout=10_000) as told:
        box.bring_in([tmp_path / "letter.jsonl"])
    assert "is no brew log" in told.args[0]
