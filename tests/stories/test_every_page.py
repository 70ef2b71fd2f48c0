"""No sentence of a page is left out where the program speaks another language.

The pages are brought into the states in which they say something else: lines chosen, refused and
pasted, figures doubted, a trash, a damaged backup, packs, hops in hand. Whatever is then shown,
painted, spoken or told in a message is read for English (`tests/pseudo_language.py`).
"""

import re
from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QFontMetricsF, QGuiApplication, QPainter
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from designer.brewday.day import brew
from designer.brewday.explaining.asked import Drawn, Scale, Stirred, TestCode
from designer.brewday.findings import findings
from designer.library.catalogue import styles
from designer.library.pasted import pasted_table
from designer.library.recipe_file import load
from designer.library.store import Store
from designer.library.store.kitchen import CupboardRecord, PotRecord
from designer.recipe.choices import Turn
from designer.recipe.document import PlannedBoil, PlannedFermenter, Recipe, WortShare
from designer.recipe.quantity import Quantity
from designer.resource_files import resource_path
from designer.sheet.blocks import plain_words
from designer.spoken_language import LANGUAGES
from designer.window.begin.own_kitchen import KeptKitchen
from designer.window.box.backups_model import STATES, BackupRow, BackupsModel
from designer.window.brew.part_names import Part
from designer.window.brew.reading.reading_form import ReadingForm
from designer.window.compose.paste_preview import PastePreview
from designer.window.compose.watch_out import WatchOut
from designer.window.kitchen.learned_print import learned_sheet
from designer.window.parts.beside_field import note_of
from designer.window.parts.fields import TextField
from designer.window.parts.questions import Questions
from designer.window.session.open_recipe import OpenRecipe
from designer.workbench.what_if import NAMES
from tests.active_window import made_active
from tests.brewday.test_finding_places import FOUND
from tests.driven_clock import DrivenClock
from tests.pseudo_language import catalogue_texts, english_left, own_texts
from tests.shown_texts import shown_texts
from tests.taught_kitchen import FIVE_BREWS, brewed
from tests.window.brew.beer_driver import Beer

from .acts import store_at_rest

EXAMPLES = sorted(resource_path("examples").glob("*.hobwort"))
NOT_WORDS = r"\b(?:Ctrl|Alt|Shift|Meta)(?:\+\w+)+|\bF\d+\b|\b\d{1,2} \w{3} \d{4}\b|“[^”]*”"
"""Keys, days as the machine writes them, and what was typed, between quotes."""
WRONG = "7 quux zzz"
PASTED = (
    "Hi Ann,\n\nyesterday I brewed with 2 kg of malt and it was great.\n\n"
    "- 1.5 kg light liquid malt extract\nHops:\n20 g Challenger, 60 min\n2 x 20 g Fuggle\n\n"
    "yeast: 11 g\n3000 kg Magnum\nFuggle\nCheers, Bob\n",
    "Hop\tAmount\tTime\tFrom\nFuggle\t20\t60\tKent\nChallenger\tmuch\t15\tKent\nTotal\t40\t\t\n",
    "Name;Menge;Alpha;Wann;Liste\nFuggle;20,5;4.5;noon;nonsense\nMagnum;1,5;12;60;hops\n;3;;;\n",
    "Fuggle, 1,5, 60\nMagnum, 20, 30\n",
)


def assert_said(texts, own=(), least=1):
    """All of the texts are in the language, or a brewer's own."""
    own = (
        (set(own) - {""})
        | catalogue_texts()
        | set(WRONG.split())
        | set(LANGUAGES.values())
        | {"Hobwort", "A4"}
    )
    read = {text: re.sub(NOT_WORDS, " ", text) for text in texts if text}
    assert len([text for text in read.values() if "⟦" in text]) >= least
    left = {text: english_left(plain, own) for text, plain in read.items()}
    assert {text: words for text, words in left.items() if words} == {}


def texts_of(widget):
    return {text for _, text in shown_texts(widget)}


@pytest.fixture
def painted(monkeypatch):
    """Every text that is painted, as it is: what is drawn is in no label."""
    texts = set()
    draw = QPainter.drawText

    def seen(self, *args):
        texts.update(each for each in args if isinstance(each, str))
        return draw(self, *args)

    monkeypatch.setattr(QPainter, "drawText", seen)
    monkeypatch.setattr(QFontMetricsF, "elidedText", lambda self, text, *_: text)
    return texts


@pytest.fixture
def show(pseudo, qtbot, settings, answers):
    """Show a window over a recipe."""
    from designer.window.main_window import MainWindow

    def shown(recipe):
        opened = OpenRecipe(recipe)
        made = MainWindow(opened, settings, answers)
        qtbot.addWidget(made, before_close_func=lambda one: one.opened.undo_stack.setClean())
        made.resize(1280, 800)
        with qtbot.waitSignal(opened.outlook_changed):
            made.show()
        return made_active(qtbot, made)

    return shown


# Compose


@pytest.mark.parametrize("path", [*EXAMPLES, None], ids=lambda path: path.stem if path else "empty")
def test_compose_says_all_of_it(show, painted, path):
    recipe = load(path) if path else Recipe()
    window = show(recipe)
    page = window.compose
    page.process.more_button.setChecked(True)
    page.wort_button.setChecked(True)
    said = set()
    for panel in (page.fermentables, page.hops, page.extras):
        panel.more_button.setChecked(True)
        for row in range(panel.model.rowCount()):
            panel.view.setCurrentIndex(panel.model.index(row, 0))
            said |= texts_of(panel)
            menu = panel.view.line_menu(panel.model.index(row, 0))
            said |= texts_of(menu) if menu is not None else set()
            columns = range(panel.model.columnCount())
            said |= {panel.model.why_closed(panel.model.index(row, each)) for each in columns}
    for row in page.forecast.rows:
        row.setChecked(True)
        said |= texts_of(page.forecast)
    for _ in page.day_line._markers:
        QTest.keyClick(page.day_line, Qt.Key.Key_Right)
        said.add(page.day_line.accessibleDescription())
    page.grab()
    assert_said(said | texts_of(page) | painted, own_texts(recipe), least=60)


def by_a_plan(recipe):
    """The recipe in pots at once, a day later a third; buckets that differ, hops that do too."""
    half = PlannedBoil(recipe.pot, Quantity(0.3, "30 %"))
    more = tuple(replace(each, amount=Quantity(0.05, "50 g")) for each in recipe.hops)
    boils = (
        half,
        replace(half, turn=Turn.AT_ONCE.value, hops=more),
        replace(half, turn=Turn.ANOTHER_DAY.value, pot=replace(recipe.pot, name="Jam kettle")),
    )
    buckets = tuple(
        PlannedFermenter(
            recipe.fermenter, tuple(map(WortShare, of)), Quantity(litres, f"{litres} L")
        )
        for of, litres in (((1, 2), 11.5), ((3,), 6.0))
    )
    return replace(recipe, boils=boils, fermenters=buckets)


def test_compose_says_how_a_recipe_is_brewed_in_the_language(show, painted):
    recipe = by_a_plan(load(resource_path("examples/breakwater_red.hobwort")))
    window = show(recipe)
    page, said = window.compose, set()
    page.process.more_button.setChecked(True)
    page.wort_button.setChecked(True)
    for boil in (None, 1, 2, 3):
        page.worked_on.choose(None) if boil is None else page.worked_on.choose_boil(boil)
        page.grab()
        said |= texts_of(page)
        said |= {each.toolTip() for each in page.process.by_place.values() if not each.isEnabled()}
        said |= {page.day_line.told(each) for each in page.day_line._markers}
    assert page.plan.differs.isVisible()
    assert page.forecast.beers.text().count("\n") >= 3
    for row in page.forecast.rows:
        row.setChecked(True)
        said |= texts_of(page.forecast)
    own = own_texts(recipe) | {"Jam", "kettle"}
    assert_said(said | painted, own, least=60)


def test_a_forecast_that_is_wanted_is_answered_in_the_language(show, porter):
    window = show(porter)
    window.compose.forecast.rows[0].setChecked(True)
    behind = window.compose.forecast.behind
    said = set()
    for wanted in ("1.046", "1.500", WRONG, ""):
        for means in range(behind.by.count()):
            behind.by.setCurrentIndex(means)
            behind.wanted.setText(wanted)
            behind.make_it()
            said.add(behind.answer.text())
    assert_said(said, own_texts(porter), least=4)


def test_the_styles_and_what_brings_the_beer_in_are_told_in_the_language(show, qtbot):
    window = show(replace(load(EXAMPLES[-1]), style="Imperial Stout"))
    window.compose.styles.open_card()
    card, said = window.compose.styles.card, set()
    for row in card.rows[:1] + card.rows[4:5]:
        with qtbot.waitSignal(card.sought, timeout=20_000):
            row.bring.click()
        said |= texts_of(card)
    own = own_texts(window.opened.recipe) | {each.code for each in styles()}
    assert_said(said | texts_of(window.compose.styles), own, least=20)


def test_variants_that_are_tried_are_told_in_the_language(show):
    window = show(load(EXAMPLES[-1]))
    tried = window.compose.what_if()
    said = texts_of(tried)
    for number in range(0, len(tried.knobs), 5):
        tried.variants.button(number % 3).click()
        tried.chosen.setCurrentIndex(number)
        tried.slider.setValue(tried.slider.maximum())
        said |= texts_of(tried)
    for trial in tried.trials:
        trial.look_ahead()
    said |= texts_of(tried)
    tried.keep_buttons[0].click()
    said.add(window.opened.undo_stack.undoText())
    said = {re.sub(rf"\b[{''.join(NAMES)}]\b", "", text) for text in said}
    assert_said(said, own_texts(window.opened.recipe) | {"dry hop 14 days"}, least=40)


# Begin


def test_a_recipe_of_ones_own_is_drafted_in_the_language(show, qtbot, painted, porter):
    window = show(porter)
    window.begin()
    own = window.begin_page.own
    typed = "oatmeal stout, bitter, no pine, with gummy bears"

    def at_rest():
        qtbot.waitUntil(lambda: own.found is not None and not own.reckoning.busy, timeout=20_000)

    at_rest()
    said = texts_of(own)
    stock = (CupboardRecord("Light dry malt extract", amount="500 g"),)
    own.form.kitchen.offer(KeptKitchen(cupboard=7 * stock))
    for field, text in ((own.form.words, typed), (own.fields["batch"], "30 L")):
        field.setText(text)
        field.textEdited.emit(text)
    own.form.kitchen.whole.click()
    own.form.colour.slider.setValue(250)
    own.form.flavours.chips[-1].click()
    own.study_link.click()
    at_rest()
    own.grab()
    said |= texts_of(own)
    own.form.strength.switch.choose("gravity")
    own.form.bitterness.switch.choose("ibu")
    said |= texts_of(own)
    drafts = (*own.found.drafts, own.found.study)
    known = set().union(own_texts(porter), *(own_texts(each.recipe) for each in drafts))
    assert_said(said | painted, known | {*typed.split(), typed}, least=80)


def test_every_finding_is_shown_with_its_cure_in_the_language(pseudo, qtbot, display):
    watch_out = WatchOut(display)
    qtbot.addWidget(watch_out)
    said, own = set(), set()
    for _, recipe, *_ in FOUND:
        found = findings(recipe, brew(recipe))
        watch_out.show_findings(found)
        said |= texts_of(watch_out)
        own |= own_texts(recipe)
        cures = [each.fix for each in found if each.fix is not None]
        own |= {text for cure in cures for text in own_texts(getattr(cure, "value", ()))}
    assert_said(said, own, least=60)


def test_whatever_is_refused_in_a_field_is_told_in_the_language(show, porter):
    window = show(porter)
    window.compose.process.more_button.setChecked(True)
    window.compose.hops.more_button.setChecked(True)
    window.compose.hops.view.setCurrentIndex(window.compose.hops.model.index(0, 0))
    said = set()
    for field in window.compose.findChildren(TextField):
        if not field.isEnabled() or field.suggests:
            continue
        field.setFocus()
        for typed in (WRONG, "99999999", "-5 h"):
            field.setText(typed)
            field.textEdited.emit(typed)
            said |= {field.toolTip()}
            field.editingFinished.emit()
            note = note_of(field)
            if note is not None and note.isVisible():
                said |= texts_of(note)
        QTest.keyClick(field, Qt.Key.Key_Escape)
    said |= set(window.opened.untaken)
    assert_said(said, own_texts(porter), least=60)


def type_into(view, index, text):
    """Type into a cell, and leave it by the Tab key."""
    view.setFocus()
    view.setCurrentIndex(index)
    for sign in text:
        QTest.keyClick(QApplication.focusWidget(), sign)
    QTest.keyClick(QApplication.focusWidget(), Qt.Key.Key_Return)


def test_whatever_is_refused_or_doubted_in_a_cell_is_told_in_the_language(show, porter):
    window = show(porter)
    said, refused = set(), []
    for panel in (window.compose.fermentables, window.compose.hops, window.compose.extras):
        model, view = panel.model, panel.view
        model.refused.connect(refused.append)
        for column, each in enumerate(model.columns):
            if not each.editable or each.choices or each.key in ("name", "purpose"):
                continue
            index = model.index(0, column)
            model.setData(index, WRONG)
            for typed in (WRONG, "5000 kg", "3"):
                type_into(view, index, typed)
                note = note_of(view)
                if note is not None and note.isVisible():
                    said |= texts_of(note)
                view.setFocus()
                said |= texts_of(view)
                said |= set(window.opened.untaken)
                QTest.keyClick(view, Qt.Key.Key_Escape)
                window.opened.undo_stack.setIndex(0)
    assert len(refused) >= 6
    assert_said(said | set(refused), own_texts(porter), least=30)


@pytest.mark.parametrize("text", PASTED, ids=("letter", "sheet", "semicolons", "commas"))
@pytest.mark.parametrize("lines", ["hops", "fermentables", None])
def test_the_question_about_pasted_text_is_asked_in_the_language(
    pseudo, qtbot, porter, display, text, lines
):
    made = PastePreview(pasted_table(text, lines), porter, display)
    qtbot.addWidget(made)
    made.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose, False)
    made.show()
    own = set(text.split("\n")) | set(re.findall(r"\w{3,}", text)) | {"Hi", "I", "of", "it"}
    said = set()
    for parting in range(made.parting.count()):
        made.parting.setCurrentIndex(parting)
        made.parting.activated.emit(parting)
        for row in range(made.rows.rowCount()):
            made.view.setCurrentIndex(made.rows.index(row, 0))
            said.add(made.chosen_row.text())
        said |= texts_of(made)
    assert_said(said, own | own_texts(porter), least=20)


def test_a_clipboard_without_lines_is_refused_in_the_language(show, porter):
    window = show(porter)
    said = []
    window.compose.hops.model.refused.connect(said.append)
    for text in ("", "   ", "\n\n"):
        QApplication.clipboard().setText(text)
        window.compose.hops.view.paste_lines()
    assert_said(said)


# Recipe box


def test_the_recipe_box_says_all_of_it(pseudo, qtbot, opened, on_a_box, painted, tmp_path, porter):
    window = on_a_box(opened, 1280, 800)
    window.files.save()
    store_at_rest(qtbot, window)
    window.show_page(window.page_names.index("Recipe box"))
    box = window.box
    heard, said = [], set()
    box.said.connect(lambda text, _: heard.append(text))

    def look():
        store_at_rest(qtbot, window)
        said.update(texts_of(box))

    qtbot.waitUntil(lambda: bool(box.model.rows_read), timeout=10_000)
    box.table.clearSelection()  # the first is chosen by itself
    box.export()
    box.table.selectRow(0)
    look()
    box.details.note_brewed()
    box.details.duplicate()
    look()
    qtbot.waitUntil(lambda: box.model.rowCount() == 2, timeout=10_000)
    box.table.selectAll()
    look()
    box.details.compare()
    look()
    box.copy()
    store_at_rest(qtbot, window)
    box.search.setText("nothing of the kind ibu ..")
    look()
    box.search.setText("porter")
    look()
    box.search.setText("")
    look()
    box.table.selectAll()
    box.throw_away()
    look()
    box.trash_button.setChecked(True)
    look()
    box.search.setText("porter")
    look()
    box.search.setText("")
    look()
    box.show_backups()
    box.backups.make()
    look()
    box.backups.bring_back()
    look()
    own = own_texts(porter) | {str(tmp_path), str(tmp_path / "box" / "backups"), "porter", "ibu"}
    own |= {"nothing", "of", "the", "kind"}
    assert_said(said | set(heard), own, least=60)


def test_every_state_of_a_backup_is_said(pseudo, display):
    from designer.library.store.health import Health

    model = BackupsModel(display)
    row = BackupRow(_backup(), 4096)
    column = model.columns[model.column_of("state")]
    said = {model.text(column, row)}
    for state in STATES:
        said.add(model.text(column, replace(row, health=Health(state, ""))))
    assert_said(said, least=8)


def _backup():
    from datetime import UTC, datetime
    from types import SimpleNamespace

    return SimpleNamespace(made=datetime(2026, 11, 26, tzinfo=UTC), path=None)


# Brew day


def sheet_texts(steps):
    """What steps say is the sheet's, which has a language of its own."""
    said = {text for step in steps for text in own_texts(step)}
    said |= {plain_words(step.do) for step in steps}
    return {" ".join(text.split()) for text in said if len(text) > 2}


def test_the_brew_day_says_all_of_it(pseudo, qtbot, opened, on_a_box, painted, porter):
    window = on_a_box(opened, 1280, 800)
    window.brew_clock = clock = DrivenClock()
    window.show_page(window.page_names.index("Brew day"))
    page, said = window.brew_page, set()
    own = own_texts(porter) | sheet_texts(page._planned) | {"seven", "quux", "zzz"}

    def look():
        qtbot.waitUntil(lambda: not page.brew.reckoning, timeout=20_000)
        page.grab()
        own.update(sheet_texts(page.brew.steps))
        said.update(texts_of(page))

    def blank(label, text):
        cell = next(c for c in page.strip.cells.values() if c.cell.blank.label == label)
        cell.field.setFocus()
        cell.field.setText(text)
        cell.field.setModified(True)
        QTest.keyClick(cell.field, Qt.Key.Key_Return)
        return cell

    look()
    page.do()
    look()
    blank("Water in", WRONG)
    note = note_of(page)
    said |= texts_of(note)
    blank("Water in", "60")
    look()
    page.measuring.doubt.buttons[-1].click()
    blank("Water in", "6.2")
    page.card.leave_button.click()
    look()
    page.leaving.put_away()
    page.ask_for_timer()
    page.new_timer.field.setText(WRONG)
    page.new_timer.carry_out()
    said |= texts_of(note_of(page))
    look()
    page.new_timer.put_away()
    page.brew.start_timer("free", 5.0, "Quux")
    own |= {"Quux"}
    page.brew.later()
    page.brew.leave_out(reason="zzz")
    while page.brew.brewing.now.left_min != 15.0:
        page.brew.done()
        look()
    blank("its gravity", "1.058")
    look()
    clock.go_on(46 * 60.0)
    page._tick()
    look()
    page.strip.more_button.click()
    said |= texts_of(page.measuring.more)
    page.measuring.more.close()
    for step in page.brew.steps:
        page._tell_step(step.key)
        said |= texts_of(note_of(page))
    page.brew.note("quux")
    page.show_part(Part.LOG)
    for row in range(page.log.model.rowCount()):
        page.log.view.setCurrentIndex(page.log.model.index(row, 0))
        look()
    page.log.ask_time()
    look()
    page.log.timing.put_away()
    page.show_part(Part.STOVE)
    while page.brew.brewing.now is not None:
        page.brew.done()
    look()
    page.do()
    look()
    said |= {action.text() for action in window.menus.actions}

    def unmarked(texts):
        """Without the letters of bags, and those of keys."""
        cleared = {re.sub(r"(?<!°)\b[A-FTN]\b", " ", text) for text in texts}
        return {" ".join(text.split()) for text in cleared}

    assert_said(unmarked(said | painted), own | unmarked(own) | {"OG"}, least=120)


def test_what_a_reading_says_is_said_in_the_language(
    pseudo, qtbot, opened, on_a_box, painted, porter
):
    window = on_a_box(opened, 1280, 800)
    window.brew_clock = DrivenClock()
    window.show_page(window.page_names.index("Brew day"))
    page, said = window.brew_page, set()
    page.show_part(Part.READING)
    part = page.parts.current

    def look():
        qtbot.waitUntil(lambda: not page.brew.reckoning and not part.ahead.busy, timeout=20_000)
        page.grab()
        said.update(texts_of(part))
        note = note_of(page)
        if note is not None and note.isVisible():
            said.update(texts_of(note))

    def take(reading, at=""):
        part.form.reading.setText(reading)
        part.form.sample_at.setText(at)
        part.form._finish(part.form.reading)
        look()

    look()  # before the day: nothing is kept
    page.do()
    while page.brew.brewing.now is not None:
        page.brew.done()
    page.show_part(Part.READING)
    look()
    for reading, at in (("37", ""), (WRONG, ""), ("1.037", "999"), ("1.037", "55")):
        take(reading, at)
    for scale, reading in ((Scale.BRIX, "9.4 °Bx"), (Scale.SG, "1.037")):
        part.form.instrument.choose(scale)
        take(reading, "24")
    part.form.drawn.chips[Drawn.TOP].click()
    part.form.stirred.chips[Stirred.NO].click()
    look()
    part.panel.cures.rows[0].button.click()
    page.brew.undo()
    part.begin_another(Stirred.HARD)
    take("1.036", "20")
    for code in (TestCode.WEIGH, TestCode.WATER_CHECK):
        part.figure.ask_for(code)
        look()
        part.figure.field.setText(WRONG)
        part.figure.carry_out()
        look()
        part.figure.put_away()
    own = own_texts(porter) | {"Harbour", "Lamp"} | {"SG", "OG", "FG", "IBU", "EBC", "Bx", "P"}
    assert_said(said | painted, own, least=60)


def test_the_form_for_a_caller_says_all_of_it(pseudo, qtbot, display, painted):
    form = ReadingForm(display, Questions())
    qtbot.addWidget(form)
    form.show()
    said = texts_of(form)
    for field, text in ((form.kit.extract, WRONG), (form.kit.batch, "9999 L")):
        field.setText(text)
        form.kit._check(field)
        said |= texts_of(note_of(form))
    form.kit.extract.setText("1 kg + 400 g dry")
    form.kit.batch.setText("10 L")
    form.form.reading.setText("1.037")
    form.form.given.emit()
    qtbot.waitUntil(form.print_button.isEnabled, timeout=20_000)
    form.copy_text()
    form.grab()
    said |= texts_of(form) | set(QGuiApplication.clipboard().text().splitlines())
    own = {"SG", "OG", "FG", "IBU", "EBC", "Bx", "P", "kg", "dry"}
    assert_said(said | painted, own, least=40)
    form.accept()


def test_fermenting_and_packaging_says_all_of_it(
    pseudo, qtbot, opened, on_a_box, painted, porter, settings
):
    window = on_a_box(opened, 1280, 800)
    window.brew_clock = clock = DrivenClock()
    window.show_page(window.page_names.index("Brew day"))
    page, said = window.brew_page, set()
    beer = Beer(qtbot, page, clock)
    own = own_texts(porter) | {"SG", "OG", "mL", "IBU", "vol", "quux", "zzz", "barley"}

    def look():
        beer.settle()
        page.grab()
        said.update(texts_of(beer.part))
        own.update(re.findall(r"\w+", beer.packing.label.picture.accessibleName()))
        note = note_of(page)
        if note is not None and note.isVisible():
            said.update(texts_of(note))

    page.show_part(Part.FERMENTING)
    look()
    beer.pitch()
    look()
    beer.on_day(4)
    for typed in ("1.020", "1.5", WRONG):
        beer.type_reading(typed, sample="" if typed == "1.020" else WRONG)
        look()
        beer.part.reading_form.put_away()
    beer.part.ask_warmth()
    look()
    beer.part.warmth_form.put_away()
    page.brew.note_warmth([(clock.now().wall, 19.0)], "19 °C")
    for day in (7, 10, 13):  # stuck, with what to do
        beer.on_day(day)
        beer.type_reading("1.022")
        look()
    for each in page.brew.beer.samples:
        page.brew.take_back(each.entry)
    beer.settle()
    for day in (16, 19, 22, 25):
        beer.on_day(day)
        beer.type_reading("1.013")
        look()
    for volumes in ("2.0", "2.4", "4"):
        beer.figure(beer.packing.sugar.volumes, volumes)
        look()
    beer.figure(beer.packing.sugar.beer, "9999 L")
    look()
    beer.packing.bottles._ask_size()
    beer.press(Qt.Key.Key_Return)
    look()
    beer.press(Qt.Key.Key_Escape)
    beer.packing.label.words_button.click()
    look()
    beer.packing.label.form.put_away()
    beer.packing.keg_button.click()
    look()
    said |= texts_of(beer.packing.label.menu)
    beer.part.package()
    look()
    assert_said(said | painted, own, least=120)  # the words of labels are the sheet's


# Kitchen and Fit


def test_what_the_kitchen_taught_says_all_of_it(pseudo, qtbot, opened, on_a_box, folder, answers):
    with Store.open(folder) as store:
        uids = brewed(store, (*FIVE_BREWS, {"start": 6.9, "end": 3.1, "moved": 2.6}))
        store.pots.insert(PotRecord("Stockpot", "15 L"))
    window = on_a_box(opened)
    window.show_page(window.page_names.index("Kitchen"))
    page = window.kitchen
    heard, said = [], set()
    page.said.connect(lambda text, _: heard.append(text))
    page.removed.connect(lambda text, _: heard.append(text))
    page.show_learned()
    panel = page.learned
    said |= texts_of(page)

    def settled():
        qtbot.waitUntil(lambda: panel.taught is not None and panel.rows.isEnabled(), timeout=30_000)
        store_at_rest(qtbot, window)
        qtbot.waitUntil(lambda: not (panel._jobs.busy or panel._forecasts.busy), timeout=30_000)
        said.update(texts_of(page))

    settled()
    evaporation, left, *_ = (each for each in panel.figures_of_pot() if each.enough)
    panel.take(evaporation)
    settled()
    panel.keep(left)
    settled()
    panel.give_back(evaporation)
    settled()
    panel.count(panel.brews_of_pot()[0], False)
    settled()
    panel.take_all()
    settled()
    panel._choose("Stockpot")
    said |= texts_of(page)
    panel._choose(panel.brews_of_pot()[0].pot if panel.brews_of_pot() else "Kitchen pot")
    panel.forget()
    settled()
    printed = learned_sheet("Kitchen pot", panel.taught, panel.figures_of_pot(), "", window.display)
    table = printed.sections[0].blocks[0]
    said |= {printed.head.title, table.caption, *table.head}
    said |= {cell for row in table.rows for cell in row}
    assert len(uids) == 6
    assert len(heard) >= 6
    own = own_texts(opened.recipe) | {"Kitchen pot", "Stockpot", "Kitchen", "pot"}
    assert_said({*said, *heard}, own, least=60)


def test_the_kitchen_says_all_of_it(pseudo, qtbot, opened, on_a_box, porter):
    window = on_a_box(opened, 1280, 800)
    window.show_page(window.page_names.index("Kitchen"))
    page = window.kitchen
    heard, said = [], set()
    page.said.connect(lambda text, _: heard.append(text))
    page.refused.connect(heard.append)
    page.removed.connect(lambda text, _: heard.append(text))
    store_at_rest(qtbot, window)
    page.use_pot()
    page.use_fermenter()
    page.work_out("cooling_constant")
    page.keep_pot()
    page.keep_fermenter()
    page.pots.records.keep(PotRecord(name="Stockpot", volume="10 L", stove="gas"))
    hop = porter.hops[0]
    page.cupboard.records.keep(
        CupboardRecord(name=hop.name, amount="1 kg", alpha="9 %", price="20 / kg", open_bag=True)
    )
    store_at_rest(qtbot, window)
    said |= texts_of(page)
    for view in (page.pots, page.fermenters, page.cupboard):
        view.setCurrentIndex(view.model().index(0, 0))
        for column in range(view.model().columnCount()):
            view.model().setData(view.model().index(0, column), WRONG)
            said.add(view.model().fault_of(view.model().index(0, column), ""))
    page.use_pot()
    page.use_fermenter()
    measured = page.calibration.fields
    for field in measured.values():
        field.setText(field.placeholderText())
    page.work_out("evaporation")
    page.work_out("cooling_constant")
    for field in measured.values():
        read = field.text()
        for typed in (WRONG, ""):
            field.setText(typed)
            page.work_out("evaporation")
            page.work_out("cooling_constant")
            said |= {page.calibration.refusal.text(), field.toolTip()}
        field.setText(read)
    said |= texts_of(page)
    page.pots.remove_chosen()
    page.show_packs()
    store_at_rest(qtbot, window)
    said |= texts_of(page)
    packs = page.packs
    for typed in (WRONG, "9000 kg"):
        packs.holds.setText(typed)
        packs.add()
        said |= {packs.refusal.text()} | texts_of(page)
        packs.table.setData(packs.table.index(0, 1), typed)
        said.add(packs.refusal.text())
    for _ in range(packs.table.rowCount()):
        packs.view.setCurrentIndex(packs.table.index(0, 0))
        packs.view.remove_chosen()
    store_at_rest(qtbot, window)
    said |= texts_of(page) | texts_of(window)
    own = own_texts(porter) | {"Stockpot"}
    assert_said(said | set(heard), own, least=80)


def test_fit_says_all_of_it(pseudo, qtbot, opened, on_a_box, painted, porter):
    window = on_a_box(opened, 1280, 800)
    window.show_page(1)
    page = window.fit
    heard, said = [], set()
    page.said.connect(heard.append)
    store_at_rest(qtbot, window)
    hands = page.hands
    page.hands_button.setChecked(True)
    hands.take_cupboard()
    store_at_rest(qtbot, window)
    said.add(hands.refusal.text())
    hands.fields["name"].setText("Fuggle")
    hands.add()
    said |= {hands.refusal.text()} | texts_of(page)
    for number in range(2):
        hands.fields["name"].setText(("Fuggle", "Magnum")[number])
        hands.fields["amount"].setText("30 g")
        hands.add()
        said |= texts_of(page)
    hands.table.setData(hands.table.index(0, 2), WRONG)
    said.add(hands.refusal.text())
    for pot, fermenter, second in (
        ("5 L", "12 L", ""),
        ("2 L", "2 L", ""),
        ("30 L", "10 L", "10 L"),
    ):
        for key, text in (("pot", pot), ("fermenter", fermenter), ("second", second)):
            page.fields[key].setText(text)
        before = page.answer
        page.whole.setChecked(not page.whole.isChecked())
        qtbot.waitUntil(lambda before=before: page.answer is not before, timeout=20_000)
        page.grab()
        said |= texts_of(page)
    for typed in (WRONG, "99999 L", "12 L"):
        page.scale_field.setText(typed)
        page.scale()
        said.add(page.refusal.text())
    page.fields["pot"].setText(WRONG)
    page.reckon()
    said |= {page.refusal.text(), page.fields["pot"].toolTip()} | texts_of(window)
    own = own_texts(porter) | {"Fuggle", "Magnum"}
    assert_said(said | set(heard) | painted, own, least=100)
