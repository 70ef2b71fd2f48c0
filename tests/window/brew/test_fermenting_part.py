"""Fermenting and packaging: what is typed, what follows of it, and what is never shown."""

from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel

from designer.brewday.fermenting.course import Standing
from designer.brewday.packaging.packaged import Bears, BottleSize
from designer.library.recipe_file import document_text
from designer.library.store.brews import new_brew
from designer.recipe.choices import Bottle, Package
from designer.sheet.language import language
from designer.window.brew.fermenting.bottles_card import BottlesCard
from designer.window.brew.fermenting.packing_choices import with_figure, with_sizes
from designer.window.brew.part_names import Part
from designer.window.parts.beside_field import note_of
from designer.window.parts.questions import Questions
from designer.workbench.brew.entries import What
from designer.workbench.brew.entries_text import plain
from tests.pictures_taken import texts_of
from tests.workbench.planned_red import two_boils

from .beer_driver import Beer


@pytest.fixture
def beer(qtbot, page, clock):
    return Beer(qtbot, page, clock)


def test_without_a_brew_it_says_what_will_be_here_and_has_nothing_to_press(beer):
    beer.page.show_part(Part.FERMENTING)
    part = beer.part
    assert part.nothing.title.text() == "No beer is shown"
    assert "whether it is done" in part.nothing.words.text()
    assert not part.course.reading_button.isVisible()
    beer.page.show_part(Part.STOVE)
    beer.page.do()
    beer.page.show_part(Part.FERMENTING)
    assert part.nothing.title.text() == "The yeast is not in yet"
    beer.pitch()
    assert part.standing.title.text() == "Not read yet"
    assert part.course.count.text() == "type the first reading after day 3"
    assert not beer.amounts()
    assert not part.packing.bears.package_button.isEnabled()
    assert "0 readings" in part.course.chart.accessibleDescription()


def test_readings_are_typed_by_keys_on_any_scale_and_the_beer_is_done_when_they_agree(beer):
    beer.pitch()
    beer.on_day(9)
    beer.type_reading("1.013", sample="24")
    (kept,) = beer.page.brew.brewing.after.samples
    assert (kept.sample.shown, kept.sample.sample_c) == (1.013, 24.0)
    assert beer.page.brew.beer.samples[0].reading.gravity == pytest.approx(1.0138, abs=3e-4)
    beer.on_day(12)
    beer.type_reading("3.3", scale="°P", sample="20")
    assert beer.known.standing is not Standing.NOT_READ
    for day in (15, 18):
        beer.on_day(day)
        beer.type_reading("1.013", sample="20")
    assert beer.known.standing is Standing.DONE
    assert beer.part.standing.title.text() == "Done"
    assert len(beer.part.course.chart.shown.readings) == 4
    assert "1.013 on" in beer.part.course.chart.accessibleDescription()
    assert beer.packing.bears.package_button.isEnabled() is beer.part.choices.result.may_go_ahead


def test_what_is_no_reading_is_refused_beside_its_field_and_stays_to_be_mended(beer):
    beer.pitch()
    beer.on_day(9)
    form = beer.type_reading("1.313")
    assert form.isVisible()
    assert "is there a slip in it?" in note_of(form).text.text()
    assert form.value.text() == "1.313"
    form.value.setFocus()
    form.value.selectAll()
    beer.keys("1.013")
    form.moment.day.setDate(form.moment.day.date().addDays(-30))
    beer.press(Qt.Key.Key_Return)
    assert "before the yeast went in" in note_of(form).text.text()
    beer.press(Qt.Key.Key_Escape)
    assert not form.isVisible()
    assert beer.page.brew.brewing.after.samples == ()
    assert QApplication.focusWidget() is beer.part.course.reading_button


def test_a_reading_of_an_earlier_day_is_corrected_on_the_picture_and_taken_back(beer):
    beer.pitch()
    beer.on_day(9)
    beer.type_reading("1.020", day=6)
    chart = beer.part.course.chart
    assert 5.0 < chart.shown.readings[0].day < 7.0
    chart.setFocus(Qt.FocusReason.TabFocusReason)
    assert "1.020 on" in note_of(chart).text.text()
    beer.press(Qt.Key.Key_Return)
    form = beer.part.reading_form
    assert form.value.text() == "1.020"
    beer.keys("1.017")
    beer.press(Qt.Key.Key_Return)
    beer.settle()
    (sample,) = beer.page.brew.beer.samples
    assert sample.reading.gravity == pytest.approx(1.017)
    assert 5.0 < sample.day < 7.0
    place = chart.place_of(chart.shown.readings[0]).toPoint()
    QTest.mouseClick(chart, Qt.MouseButton.LeftButton, pos=place)
    beer.click(form.back_button)
    beer.settle()
    assert beer.page.brew.beer.samples == ()
    beer.page.brew.undo()
    beer.settle()
    assert len(beer.page.brew.beer.samples) == 1


def test_a_temperature_is_noted_and_drawn_below_the_readings(beer):
    beer.pitch()
    beer.on_day(4)
    beer.click(beer.part.course.warmth_button)
    beer.keys("66 F")
    beer.press(Qt.Key.Key_Return)
    beer.settle()
    beer.on_day(6)
    (warmth,) = beer.part.course.chart.shown.warmths
    assert warmth.figure == "19 °C"
    assert warmth.day == pytest.approx(4.0, abs=0.01)
    chart = beer.part.course.chart
    assert "19 °C" in chart.accessibleDescription()
    assert {"Harbour Lamp Porter", "19 °C", "pitched"} <= set(texts_of(chart, beer.page))


def test_a_table_of_temperatures_is_one_entry_and_one_that_is_none_is_refused(
    beer, tmp_path, monkeypatch
):
    beer.pitch()
    beer.on_day(3)
    when = [beer.page.brew.beer.when(day) for day in (0.5, 1.0, 2.0)]
    table, other = tmp_path / "cellar.csv", tmp_path / "letter.csv"
    rows = [f"{at:%Y-%m-%d %H:%M};{c}" for at, c in zip(when, (19.0, 21.5, 20.0), strict=True)]
    table.write_text("time;beer °C\n" + "\n".join(rows))
    other.write_text("Dear Ann,\nit was warm.\n")
    failed = []
    beer.part.failed.connect(failed.append)
    for path in (other, table):
        monkeypatch.setattr(Questions, "which_warmth_table", lambda *_, path=path: path)
        beer.click(beer.part.course.warmth_button)
        beer.click(beer.part.warmth_form.file_button)
        beer.qtbot.waitUntil(lambda: bool(failed))
    beer.qtbot.waitUntil(lambda: len(beer.written(What.WARMTH)) == 1)
    beer.settle()
    assert [each.temp_c for each in beer.page.brew.beer.warmths] == [19.0, 21.5, 20.0]
    assert len(failed) == 1


def test_a_choice_is_one_step_however_many_keys_it_took_and_undo_takes_it_back(beer):
    beer.pitch()
    beer.read_until_done()
    before = beer.part.choices.packing
    volumes = beer.packing.sugar.volumes
    volumes.setFocus()
    volumes.selectAll()
    QTest.keyClicks(volumes, "2.1")
    assert beer.part.choices.packing.volumes == 2.1, "live, before it is written"
    assert beer.written(What.PACKING) == []
    QTest.keyClick(volumes, Qt.Key.Key_Return)
    assert len(beer.written(What.PACKING)) == 1
    row = beer.packing.bottles.rows[0]
    for _ in range(3):
        beer.click(row.fewer)
    assert beer.part.choices.packing.bottles[0].count == before.bottles[0].count - 3
    beer.qtbot.waitUntil(lambda: len(beer.written(What.PACKING)) == 2)
    beer.page.brew.undo()
    beer.settle()
    assert beer.part.choices.packing.bottles == before.bottles
    assert beer.part.choices.packing.volumes == 2.1
    beer.page.brew.redo()
    beer.settle()
    assert beer.part.choices.packing.bottles[0].count == before.bottles[0].count - 3
    beer.click(row.more)
    beer.page.brew.undo()
    beer.settle()
    assert beer.part.choices.packing.bottles[0].count == before.bottles[0].count - 3
    assert row.count.text() == str(before.bottles[0].count - 3)


def test_escape_brings_the_figure_back_that_stood_and_writes_nothing(beer):
    beer.pitch()
    beer.read_until_done()
    volumes, stood = beer.packing.sugar.volumes, beer.part.choices.packing.volumes
    volumes.setFocus()
    volumes.selectAll()
    QTest.keyClicks(volumes, "1.9")
    QTest.keyClick(volumes, Qt.Key.Key_Escape)
    assert volumes.text() == beer.page._display.short(volumes._kind, stood)
    assert beer.part.choices.packing.volumes == stood
    beer.part.choices.settle()
    assert beer.written(What.PACKING) == []
    beer.figure(volumes, "lively")
    assert beer.part.choices.packing.volumes == pytest.approx(2.6), "plain words are read too"


@pytest.mark.parametrize("kind", list(Bottle), ids=str)
def test_no_amount_of_sugar_stands_anywhere_while_it_is_refused(beer, kind):
    beer.pitch()
    beer.read_until_done()
    beer.part.choices.choose(
        "sizes", "bottles", with_sizes((BottleSize(0.5, 0, kind), BottleSize(0.33, 0, kind)))
    )
    seen = set()
    for volumes in ("1.5", "2.0", "2.6", "3.2", "4.0", "5.5"):
        beer.figure(beer.packing.sugar.volumes, volumes)
        result = beer.part.choices.result
        seen.add(result.bears)
        button = beer.packing.bears.package_button
        if result.bears is Bears.REFUSED:
            assert not beer.amounts(), (kind, volumes)
            assert beer.packing.bears.refusal.text()
            assert not button.isEnabled()
            assert button.accessibleDescription()
        elif result.bears is Bears.CAUTION:
            assert not button.isEnabled()
            assert any(not row.tick.isHidden() for row in beer.packing.bears.rows.values())
        else:
            assert button.isEnabled()
            assert beer.amounts()
    lines = [str(plain(each)) for each in beer.written(What.PACKING)]
    assert all("grams" not in line for line in lines)
    assert Bears.REFUSED in seen


def test_a_caution_is_ticked_before_it_is_bottled_and_stands_on_the_label(beer):
    beer.pitch()
    beer.read_until_done()
    sizes = (BottleSize(0.5, 0, Bottle.UNKNOWN),)
    beer.part.choices.choose("sizes", "bottles", with_sizes(sizes))
    bears = beer.packing.bears
    beer.figure(beer.packing.sugar.volumes, "2.2")
    assert beer.part.choices.result.bears is Bears.CAUTION
    assert bears.why_not.text() == "Read the caution and tick it first."
    (row,) = [each for each in bears.rows.values() if not each.tick.isHidden()]
    beer.click(row.tick)
    assert bears.package_button.isEnabled()
    assert "Under pressure" in beer.packing.label.picture.accessibleName()
    beer.click(bears.package_button)
    beer.settle()
    packing, _ = beer.page.brew.brewing.after.packaged
    assert packing.cautions
    (entry,) = beer.written(What.PACKAGED)
    wanted = beer.part.choices.result
    assert entry.values["grams"] == pytest.approx(
        wanted.sugar(packing.sugar).grams if wanted is not None else 0.0
    )


def test_bottles_of_other_sizes_are_chosen_counted_and_left_away(beer):
    beer.pitch()
    card: BottlesCard = beer.packing.bottles
    beer.click(card.size_button)
    beer.keys("750")
    card.form.kind.setCurrentIndex(card.form.kind.findData(Bottle.SPARKLING))
    beer.press(Qt.Key.Key_Return)
    sizes = beer.part.choices.packing.bottles
    assert [(each.litres, each.kind) for each in sizes][1] == (0.75, Bottle.SPARKLING)
    assert beer.part.choices.result.left_over_l < 0.26
    assert min(card.rows[1].more.width(), card.rows[1].more.height()) >= 44
    beer.click(card.only_button)
    assert len(beer.part.choices.packing.bottles) == 1
    beer.click(card.size_button)
    beer.keys("0 L")
    beer.press(Qt.Key.Key_Return)
    assert "no bottle holds" in note_of(card.form).text.text()
    beer.press(Qt.Key.Key_Escape)
    assert not card.form.isVisible()


def test_a_keg_takes_no_sugar_and_is_told_its_pressure_at_each_temperature(beer):
    beer.pitch()
    beer.read_until_done()
    beer.click(beer.packing.keg_button)
    beer.part.choices.settle()
    assert not beer.amounts()
    keg = beer.packing.keg
    beer.figure(keg.temperature, "4")
    assert keg.setting.text().endswith("at 4 °C")
    assert "0.7 bar at 4 °C" in keg.chart.accessibleDescription()
    assert beer.packing.bears.package_button.text() == "Keg today"
    beer.click(beer.packing.bears.package_button)
    beer.settle()
    assert beer.packing.done.title.text().startswith("In the keg since")


def test_a_reminder_and_the_words_of_the_label_are_entries_of_the_log(beer, settings, monkeypatch):
    beer.pitch()
    beer.on_day(9)
    beer.type_reading("1.014")
    bears = beer.packing.bears
    assert "Remind me on" in bears.remind_button.text()
    beer.click(bears.remind_button)
    (reminder,) = beer.page.brew.brewing.after.reminders
    assert reminder.wall > beer.clock.now().wall
    assert not bears.remind_button.isEnabled()
    label = beer.packing.label
    beer.click(label.words_button)
    form = label.form
    form.edits["allergens"].setText("contains barley")
    form.edits["name"].setText("Lamp Room <b>Stout</b>")
    form.carry_out()
    beer.settle()
    assert dict(beer.page.brew.brewing.after.packing.label) == {
        "allergens": "contains barley",
        "name": "Lamp Room <b>Stout</b>",
    }
    assert "contains barley" in label.picture.accessibleName()
    assert len(label.labels()) == beer.part.choices.result.caps
    gone, asked = Path("gone.po"), []

    def catalogue_of(code):
        asked.append(code)
        return gone.read_text("utf-8")

    monkeypatch.setattr("designer.sheet.language.catalogue_of", catalogue_of)
    language.cache_clear()
    settings.sheet_language = "de"  # whose words are gone: the label is in English, and says why
    asked.clear()
    label.show_label(label.shown)
    assert asked == ["de"]
    assert "the sheet in Deutsch cannot be read" in label.print_button.toolTip()
    assert len(label.labels()) == beer.part.choices.result.caps
    language.cache_clear()


def cut(inside):
    """The words of labels that have less room than they need."""
    seen = [each for each in inside.findChildren(QLabel) if each.isVisible() and each.text()]
    low = [e for e in seen if e.wordWrap() and e.height() < e.heightForWidth(e.width()) - 1]
    narrow = [e for e in seen if not e.wordWrap() and e.width() < e.sizeHint().width() - 1]
    return [each.text() for each in (*low, *narrow)]


@pytest.mark.parametrize("size", [(1280, 736), (1024, 540), (760, 460)], ids=str)
def test_no_words_and_no_figure_are_cut_however_narrow_the_window(beer, size):
    beer.pitch()
    beer.read_until_done()
    packing = beer.part.choices.packing
    three = tuple(replace(packing.bottles[0], litres=litres) for litres in (0.5, 0.75, 0.33))
    beer.part.choices.choose("sizes", "bottles", with_sizes(three))
    beer.page.resize(*size)
    beer.qtbot.waitUntil(lambda: beer.page.size().toTuple() == size)
    inside = beer.part.area.widget()
    beer.qtbot.waitUntil(lambda: inside.width() <= beer.part.area.viewport().width())
    beer.qtbot.waitUntil(lambda: cut(inside) == [])
    for field in (beer.packing.sugar.volumes, beer.packing.sugar.beer, beer.packing.sugar.warmest):
        assert field.fontMetrics().horizontalAdvance(field.text()) <= field.width() - 14


def test_once_it_is_bottled_it_tells_what_was_done_and_takes_tasting_notes(beer):
    beer.pitch()
    beer.read_until_done()
    beer.click(beer.packing.bears.package_button)
    beer.settle()
    done = beer.packing.done
    assert done.isVisible()
    assert "primed with" in done.words.text()
    assert "chill one bottle and taste it" in done.dates.text()
    assert beer.packing.label.print_button.isVisible()
    done.note.setFocus()
    beer.keys("Roast and cocoa")
    done.mark.setCurrentIndex(4)
    beer.press(Qt.Key.Key_Return)
    (tasting,) = beer.page.brew.brewing.tastings
    assert (tasting.mark, tasting.text) == (4, "Roast and cocoa")
    beer.settle()
    assert "Roast and cocoa" in done.tastings.text()
    beer.page.brew.undo()
    beer.page.brew.undo()
    beer.settle()
    assert beer.packing.bears.isVisible()


def test_from_the_last_reading_on_the_band_is_as_narrow_as_the_readings_make_it(beer):
    beer.pitch()
    assert beer.part.course.chart.shown.known == ()
    for day, gravity in ((3, "1.027"), (6, "1.017"), (9, "1.014")):
        beer.on_day(day)
        beer.type_reading(gravity, sample="20")
    shown = beer.part.course.chart.shown
    assert 9.0 <= shown.known[0].day < 9.5
    first, last = (next(each for each in band if each.day == 18.0).gravity
                   for band in (shown.points, shown.known))  # fmt: skip
    assert last.high - last.low < 0.8 * (first.high - first.low)


def test_temperatures_of_a_logger_are_few_enough_to_be_read_below_the_picture(beer):
    beer.pitch()
    beer.on_day(9)
    start = beer.page.brew.beer.pitched
    logged = [(start + 3600.0 * at, 18.0 + at % 24 / 12) for at in range(200)]
    beer.page.brew.note_warmth(logged, "cellar.csv")
    beer.settle()
    shown = beer.part.course.chart.shown
    assert 1 <= len(shown.warmths) <= 8
    assert all(each.until > each.day for each in shown.warmths)


def test_the_beers_of_two_fermenters_are_packaged_each_for_itself(beer):
    recipe = two_boils()
    beer.page.brew.begin(new_brew(document_text(recipe)), recipe)
    beer.pitch()
    part, choices = beer.part, beer.part.choices
    usual = choices.packing.volumes
    choices.choose("volumes", "1.9 vol", with_figure("volumes", 1.9))
    part.course.fermenter_chosen.emit(2)
    assert (choices.packing.fermenter, choices.packing.volumes) == (2, usual)
    into_keg = replace(choices.packing, package=Package.KEG)
    beer.page.brew.package(into_keg, "into a keg")
    assert part.packing.done.isVisible()
    part.course.fermenter_chosen.emit(1)
    assert not part.packing.done.isVisible()
    assert (choices.packing.fermenter, choices.packing.volumes) == (1, 1.9)
    assert part.packing.sugar.isVisible()
