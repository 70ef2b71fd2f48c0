"""An odd reading is explained beside its fields: samples, tests and cures are steps of the log."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication

from designer.brewday.explaining.asked import Answer, Drawn, Stirred, TestCode
from designer.brewday.measured.readings import Measured
from designer.library.recipe_file import document_text
from designer.library.store.brews import new_brew
from designer.window.brew.part_names import Part
from designer.window.brew.reading.reading_form import ReadingForm
from designer.window.parts.beside_field import note_of
from designer.window.parts.questions import Questions
from designer.workbench.brew.entries import What
from tests.workbench.planned_red import two_buckets

from .test_measuring import cell_of, type_into

LAST = "fermenter 1/close"


@pytest.fixture
def reading(page, up_to, settle):
    """The part over the porter, topped up, with nothing read yet."""
    up_to(LAST)
    page.show_part(Part.READING)
    settle()
    return page.parts.current


@pytest.fixture
def told(qtbot, page, reading):
    """Wait until all is told of what is typed; return it."""

    def wait(verdict=None):
        def is_told():
            found = reading.panel.explained
            is_whole = found is not None and found.whole and not reading.ahead.busy
            is_known = is_whole and not page.brew.reckoning
            return is_known and (verdict is None or found.verdict == verdict)

        qtbot.waitUntil(is_told, timeout=20_000)
        return reading.panel.explained

    return wait


@pytest.fixture
def take(qtbot, reading):
    """Type a reading and its temperature, and press Return."""

    def typed(text, at=""):
        qtbot.keyClicks(reading.form.reading, text)
        qtbot.keyClick(reading.form.reading, Qt.Key.Key_Tab)
        if at:
            qtbot.keyClicks(QApplication.focusWidget(), at)
            qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Return)

    return typed


def kept(page):
    return [(each.sample.shown, each.sample.sample_c) for each in page.brew.brewing.after.samples]


def whole(label):
    """Whether a label shows all of its words."""
    return label.heightForWidth(label.width()) <= label.height() + 1


def test_an_odd_reading_is_stirred_and_read_again_and_is_then_the_original_gravity(
    qtbot, page, reading, take, told, settle
):
    assert reading.form.reading.hasFocus()
    take("1.037", "24")
    qtbot.mouseClick(reading.form.drawn.chips[Drawn.TOP], Qt.MouseButton.LeftButton)
    reading.form.stirred.chips[Stirred.UNKNOWN].setFocus()
    qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Right)  # "no" is the chip beside it
    found = told("not_mixed")
    assert kept(page) == [(1.037, 24.0)]
    sample = page.brew.brewing.after.samples[0].sample
    assert (sample.drawn, sample.stirred) == (Drawn.TOP, Stirred.NO)
    assert found.reading_sg_20c == pytest.approx(1.0377, abs=3e-4)
    assert sum(each.probability for each in found.causes) == pytest.approx(1.0, abs=0.01)
    assert found.test.code is TestCode.STIR
    settle()
    known = page.brew.outlook.forecasts["original_gravity"]
    qtbot.mouseClick(reading.panel.test.buttons[0], Qt.MouseButton.LeftButton)
    assert reading.form.reading.hasFocus()
    assert reading.form.is_empty
    take("1.046", "20")
    told("fine")
    assert kept(page) == [(1.037, 24.0), (1.046, 20.0)]
    assert page.brew.brewing.after.answers[0].answer.changed is True
    assert not reading.panel.causes_card.isVisible()
    assert "1.037 in a sample of 24 °C" in reading.told.text()
    settle()
    counted = page.brew.outlook.forecasts["original_gravity"]
    assert counted.high - counted.low < 0.8 * (known.high - known.low), "it is known better now"
    page.brew.undo()  # the temperature
    page.brew.undo()  # the sample, and with it what the test showed
    assert kept(page) == [(1.037, 24.0)]
    assert page.brew.brewing.after.answers == ()


def test_what_still_reads_low_is_cured_as_one_step_that_undo_takes_back(
    qtbot, page, reading, take, told, settle
):
    reading.form.stirred.choose(Stirred.HARD)
    take("1.036", "20")
    told()
    page.brew.answer_test(Answer(TestCode.WEIGH, value=10.0), "10 L")
    page.brew.answer_test(Answer(TestCode.COUNT_PACKETS, changed=True), "Something is left over")
    told("missing_extract")
    row = next(each for each in reading.panel.cures.rows if each.cure.changes and each.cure.edit)
    assert row.button.isEnabled()
    assert row.after.text().startswith("OG 1.0")
    opened = page._opened.recipe
    before = page.brew.as_brewed
    qtbot.mouseClick(row.button, Qt.MouseButton.LeftButton)
    settle()
    assert [each.cure for each in page.brew.brewing.after.cures] == [row.cure.code]
    assert page._opened.recipe == opened, "the recipe is not touched"
    assert page.brew.as_brewed != before
    assert reading.panel.verdict.title.text().startswith("Done:")
    page.brew.undo()
    settle()
    assert page.brew.brewing.after.cures == ()
    assert page.brew.as_brewed == before


def test_what_can_be_no_gravity_is_refused_in_place_with_what_was_meant(
    qtbot, page, reading, take, told
):
    take("37")
    note = note_of(reading)
    assert note is not None
    assert note.isVisible()
    assert "37" in note.text.text()
    assert kept(page) == []
    assert [each.text() for each in note.buttons] == ["1.037"]
    qtbot.mouseClick(note.buttons[0], Qt.MouseButton.LeftButton)
    told()
    assert kept(page) == [(1.037, None)]


def test_a_sample_too_warm_is_cooled_first_and_what_is_typed_survives_another_part(
    qtbot, page, reading
):
    qtbot.keyClicks(reading.form.reading, "1.030")
    page.show_part(Part.LOG)
    page.show_part(Part.READING)
    assert reading.form.reading.text() == "1.030"
    reading.form.sample_at.setFocus()
    qtbot.keyClicks(reading.form.sample_at, "55")
    assert "Cool the sample" in reading.panel.verdict.title.text()
    assert not reading.panel.cures.isVisible()


def test_a_doubt_at_the_stove_leads_to_what_may_lie_behind_it(qtbot, page, up_to, settle):
    up_to(LAST)
    settle()
    type_into(qtbot, cell_of(page, Measured.ORIGINAL_GRAVITY), "1.020")
    button = next(
        each for each in page.measuring.doubt.buttons if each.text() == "What may lie behind it"
    )
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
    part = page.parts.current
    assert page.parts.shown is Part.READING
    assert part.form.reading.text() == "1.020"
    assert page.brew.brewing.readings == ()


def test_a_reading_typed_at_the_stove_is_the_first_sample_until_more_is_told_of_it(
    qtbot, page, up_to, settle
):
    up_to(LAST)
    settle()
    type_into(qtbot, cell_of(page, Measured.ORIGINAL_GRAVITY), "1.043 at 24 °C")
    page.show_part(Part.READING)
    settle()
    part = page.parts.current
    assert (part.form.reading.text(), part.form.sample_at.text()) == ("1.043", "24 °C")
    assert part.form.stirred.chosen is Stirred.UNKNOWN
    qtbot.mouseClick(part.form.stirred.chips[Stirred.NO], Qt.MouseButton.LeftButton)
    (sample,) = page.brew.brewing.after.samples
    assert sample.of == page.brew.brewing.readings[0].entry
    assert sample.sample.stirred is Stirred.NO
    assert [each.what for each in page.brew.brewing.entries[-1:]] == [What.SAMPLE]


@pytest.mark.parametrize("size", [(1280, 736), (1024, 600), (760, 520)], ids=str)
def test_nothing_said_of_a_reading_is_cut_and_every_target_can_be_hit(
    qtbot, page, reading, take, told, size
):
    take("1.037", "24")
    told()
    page.resize(*size)
    qtbot.waitUntil(lambda: page.size().toTuple() == size)
    chips = [chip for row in reading.form.chips for chip in row.chips.values()]
    targets = [*chips, *reading.panel.test.buttons, reading.another_button]
    targets += [each.button for each in reading.panel.cures.rows]
    targets += [reading.form.reading, reading.form.sample_at]

    def is_all_seen():
        panel = reading.panel
        labels = [panel.verdict.title, panel.verdict.words, panel.test.title, panel.test.words]
        labels += [panel.test.outcomes, *(each.words for each in panel.cures.rows)]
        assert all(whole(each) for each in labels if each.isVisible())
        assert all(min(each.width(), each.height()) >= 44 for each in targets)

    qtbot.waitUntil(is_all_seen)
    view = reading.panel.causes.view
    model = view.model()
    rows = [model.index(number) for number in range(model.rowCount())]
    assert sum(view.visualRect(each).height() for each in rows) <= view.viewport().height()
    said = [each.data(Qt.ItemDataRole.AccessibleTextRole) for each in rows]
    assert all("OG" in each and "%" in each and "To tell" in each for each in said)
    assert "1.038 at 20 °C" in reading.panel.verdict.scale.accessibleName()


def test_a_caller_is_answered_from_the_box_alone(qtbot, display):
    form = ReadingForm(display, Questions())
    qtbot.addWidget(form)
    form.show()
    qtbot.keyClicks(form.kit.extract, "1 kg + 400 g dry")
    qtbot.keyClicks(form.kit.batch, "10 L")
    qtbot.keyClicks(form.form.reading, "1.037")
    qtbot.keyClicks(form.form.sample_at, "24")
    qtbot.waitUntil(lambda: form.print_button.isEnabled(), timeout=20_000)
    assert "low" in form.panel.verdict.title.text()
    rows = form.panel.cures.rows
    assert not any(each.button.isVisible() for each in rows), "cures are told, not applied"
    adds = [each for each in rows if "Add" in each.title.text() or "Put in" in each.title.text()]
    assert adds
    assert all("stir" in each.off.text() and not each.button.isEnabled() for each in adds)
    form.copy_button.click()
    text = QGuiApplication.clipboard().text()
    assert text.startswith("in it 1 kg + 400 g dry, topped up to 10 L")
    assert "--set" not in text
    assert form.panel.explained.causes[0].title.text in text
    form.form.stirred.chips[Stirred.HARD].click()
    form.form.reading.setText("")
    qtbot.keyClicks(form.form.reading, "1.046")
    qtbot.waitUntil(
        lambda: form.panel.explained is not None and form.panel.explained.verdict == "fine",
        timeout=20_000,
    )
    form.accept()


def test_of_several_fermenters_the_sample_says_which(qtbot, page, opened, settle):
    page.show_part(Part.READING)
    form = page.parts.current.form
    assert not form.fermenter.isVisible()
    planned = two_buckets(9.0, 11.0)
    page.brew.begin(new_brew(document_text(planned)), planned)
    settle()
    page.show_part(Part.READING)
    shown = [number for number, chip in form.fermenter.chips.items() if chip.isVisible()]
    assert shown == [1, 2]
    qtbot.mouseClick(form.fermenter.chips[2], Qt.MouseButton.LeftButton)
    qtbot.keyClicks(form.reading, "1.050")
    qtbot.keyClick(form.reading, Qt.Key.Key_Return)
    (kept,) = page.brew.brewing.after.samples
    assert (kept.sample.fermenter, kept.typed) == (2, "1.050")
    assert form.fermenter.chosen == 2
