"""What is typed stands in the recipe and its file as the number that was read, for every reader."""

import json
from dataclasses import replace
from random import Random

import pytest
from PySide6.QtCore import QLocale, Qt
from PySide6.QtWidgets import QApplication, QLineEdit

from designer.errors import RefusedInputError
from designer.library.document_reading import FORMAT
from designer.library.places import set_field
from designer.library.recipe_file import document_text, load, read_document, save
from designer.recipe.document import Recipe
from designer.recipe.edits import ChangeLine, ChangePart
from designer.recipe.message import word
from designer.recipe.quantity import Kind, Quantity, Stage, When
from designer.resource_files import resource_path
from designer.units import ShownUnits, read
from designer.window.parts.beside_field import note_of
from designer.window.parts.display_format import DisplayFormat, stepped
from designer.window.session.open_recipe import OpenRecipe
from tests.typed_texts import FIELDS, Preferences, means, preferences, written

TEXTS_A_FIELD = 60
"""`tests/benchmarks/written_numbers.py` types many more."""


@pytest.fixture
def german():
    """Metric units and a decimal comma."""
    return DisplayFormat(Preferences(ShownUnits.METRIC, comma=True))


@pytest.fixture
def american():
    """US units and a decimal point."""
    return DisplayFormat(Preferences(ShownUnits.US, comma=False))


@pytest.fixture
def english():
    """Metric units and a decimal point."""
    return DisplayFormat(Preferences(ShownUnits.METRIC, comma=False))


@pytest.mark.parametrize("field", FIELDS, ids=lambda field: f"{field.of}.{field.name}")
def test_every_text_that_a_field_takes_reads_back_from_the_file_as_the_same_number(field):
    draw, accepted, rounds = Random(f"{field.of}.{field.name}"), 0, 0
    while accepted < 15 and rounds < 4:  # a field that takes little refuses most
        rounds += 1
        for preference in preferences():
            display = DisplayFormat(preference)
            for _ in range(TEXTS_A_FIELD):
                found = written(draw, field, display)
                if found is None:
                    continue
                accepted += 1
                assert found.back == found.taken, found
                assert means(field.facts.kind, found.taken) == found.taken, found
    assert accepted >= 15


@pytest.mark.parametrize(
    ("kind", "typed", "value", "text"),
    [
        (Kind.FRACTION, "7,250", 0.0725, "7.250 %"),
        (Kind.FRACTION, "7,2 % ± 1,250 %", 0.072, "7.2 % ± 1.250 %"),
        (Kind.FRACTION, "6,250-8,250 %", 0.0725, "6.250-8.250 %"),
        (Kind.LENGTH, "24,125", 0.24125, "24.125 cm"),
        (Kind.MASS, "1,500 kg", 1.5, "1.500 kg"),
        (Kind.MASS, "1.500 kg", 1500.0, "1500 kg"),
        (Kind.MASS, "1.500,25 kg", 1500.25, "1.500,25 kg"),
        (Kind.MASS, "1,5kg", 1.5, "1,5 kg"),
        (Kind.VOLUME, "1,250 L", 1.25, "1.250 L"),
        (Kind.GRAVITY, "1,050", 1.05, "1,050"),
        (Kind.MONEY, "1.500 EUR", 1500.0, "1500 EUR"),
    ],
)
def test_a_number_with_a_decimal_comma_stands_in_the_file_as_it_was_meant(
    german, kind, typed, value, text
):
    found = german.read(kind, typed)
    assert found.value == pytest.approx(value)
    assert found.text == text
    assert read(kind, found.text) == found
    assert german.read(kind, german.to_edit(kind, found)) == found


def test_a_spread_is_shown_so_that_it_can_be_typed_back_too(german):
    kept = read(Kind.MASS, "1,5 kg ± 1,500 g")
    assert kept.spread == 1.5
    shown = german.to_edit(Kind.MASS, kept)
    assert german.read(Kind.MASS, shown).spread == 1.5
    assert shown == "1,5 kg ± 1500 g"


def test_alpha_typed_into_an_empty_cell_under_a_decimal_comma_is_the_same_on_disk(
    qtbot, opened, display, monkeypatch, tmp_path
):
    from designer.window.compose.lines_columns import HOPS
    from designer.window.compose.lines_model import LinesModel

    monkeypatch.setattr(QLocale, "decimalPoint", lambda self: ",")
    display.settings.units = ShownUnits.METRIC
    table = LinesModel(opened, HOPS, display)
    alpha = [each.key for each in HOPS.columns].index("alpha")
    table.setData(table.index(0, alpha), "")
    table.setData(table.index(0, alpha), "7,250")
    assert opened.recipe.hops[0].alpha == Quantity(0.0725, "7.250 %")
    assert table.index(0, alpha).data() == "7,250 %"
    save(opened.recipe, tmp_path / "brew.hobwort")
    assert load(tmp_path / "brew.hobwort").hops[0].alpha.value == 0.0725


@pytest.mark.parametrize(
    ("kind", "before", "bare", "typed", "text"),
    [
        (Kind.MASS, "", "g", "½", "½ g"),
        (Kind.MASS, "", "oz", "1 1/2", "1 1/2 oz"),
        (Kind.MASS, "", "g", "20-25", "20-25 g"),
        (Kind.MASS, "", "g", "20 ± 2", "20 ± 2 g"),
        (Kind.MASS, "1 1/2 oz", "g", "2", "2 oz"),
        (Kind.MASS, "2 lb 4 oz", "", "3", "3 lb"),
        (Kind.LENGTH, "0 m", "", "3'000", "3'000 m"),
        (Kind.LENGTH, "0 m", "", "3e3", "3e3 m"),
        (Kind.LENGTH, "", "", "24", "24 cm"),
        (Kind.FRACTION, "6.5-8.5 %", "", "7", "7 %"),
        (Kind.TIME, "14 d", "", "10", "10 d"),
        (Kind.DOSE, "11 g", "", "12", "12 g"),
        (Kind.DOSE, "", "", "2", "2"),
        (Kind.GRAVITY, "12.4 °P", "", "13", "13 °P"),
        (Kind.GRAVITY, "12.4 °P", "", "1.050", "1.050"),
        (Kind.TEMPERATURE, "155 F", "", "160", "160 F"),
    ],
)
def test_a_bare_number_takes_the_unit_that_the_field_shows(
    english, kind, before, bare, typed, text
):
    found = english.read(kind, typed, before, bare)
    assert found.text == text
    assert read(kind, text) == found


def test_a_bare_number_takes_the_unit_that_was_shown_when_typing_began(qtbot, window):
    field = window.compose.process.by_place["yeast.amount"]
    field.setFocus()
    assert field.text() == "11 g"
    field.end(False)
    for _ in range(4):
        qtbot.keyClick(field, Qt.Key.Key_Backspace)
    qtbot.keyClicks(field, "12")
    assert window.opened.recipe.yeast.amount == Quantity(12.0, "12 g", unit="g")


def test_a_bare_altitude_is_in_metres_in_a_field_a_file_and_on_the_command_line(porter):
    high = set_field(porter, "process.altitude", "3000").process.altitude
    assert (high.value, high.text) == (3000.0, "3000 m")
    file = '{"hobwort": 1, "name": "Mountain ale", "process": {"altitude": "3000"}}'
    assert read_document(file, "brew").process.altitude.value == 3000.0


def test_a_bare_number_on_the_command_line_takes_the_unit_that_stands_there(porter):
    assert set_field(porter, "hops.1.amount", "20").hops[0].amount.text == "20 g"
    assert set_field(porter, "process.ferment_time", "10").process.ferment_time.text == "10 d"


def test_arrow_keys_step_a_grouped_number_as_the_place_groups_it(monkeypatch):
    assert stepped("1,500 g", 1) == "1505 g"
    monkeypatch.setattr(QLocale, "decimalPoint", lambda self: ",")
    assert stepped("1.500 g", 1) == "1505 g"
    assert stepped("1,500 kg", 1) == "1,55 kg"


def test_a_moment_typed_with_a_decimal_comma_is_the_same_in_the_file(german):
    found = german.read_when("boil 7,500min")
    assert found == When(Stage.BOIL, "boil 7.500 min", 7.5)
    assert german.when(found) == "boil 7,500 min"


# what is worked out, and what comes with marks


def test_a_worked_out_figure_goes_into_the_recipe_as_its_text_says(opened):
    rounded = Quantity(9.4372, "9.4 L")
    opened.make(ChangePart("process", "top_up_to", rounded, word("top up")))
    assert opened.recipe.process.top_up_to == Quantity(9.4, "9.4 L")
    wrong = Quantity(0.0725, "0.0725 %")
    opened.make(ChangePart("yeast", "attenuation", wrong, word("change")))
    assert opened.recipe.yeast.attenuation.text == "7.25 %"
    assert opened.recipe.yeast.attenuation.value == pytest.approx(0.0725, rel=1e-12)


@pytest.mark.parametrize(
    ("name", "kept"),
    [
        ("Old\u202e Ale\u202c", "Old Ale"),
        ("Bière\u200f d'été\x07", "Bière d'été"),
        ("\ufeffStout\x85", "Stout"),
        ("Käse\u200dkuchen 🍺", "Käse\u200dkuchen 🍺"),
    ],
)
def test_direction_and_control_marks_are_dropped_from_a_name_with_a_word(qtbot, opened, name, kept):
    line = replace(opened.recipe.hops[0], name=name)
    said = []
    opened.told.connect(said.append)
    opened.make(ChangeLine("hops", line.line_id, (("name", name),), word("change hop name")))
    assert opened.recipe.hops[0].name == kept
    assert bool(said) is (kept != name)


def test_a_file_with_direction_marks_opens_without_them_and_it_is_said(qtbot, opened, porter):
    odd = replace(porter, notes="dark\u202e and\nfull", name="Lamp\u200f Porter")
    again = read_document(document_text(odd), "brew")
    with qtbot.waitSignal(opened.told) as told:
        opened.replace_by(again, None)
    assert "Invisible direction and control" in told.args[0]
    assert (opened.recipe.name, opened.recipe.notes) == ("Lamp Porter", "dark and\nfull")
    assert OpenRecipe(again).note
    assert not OpenRecipe(porter).note


# the text stays as it was typed


def test_what_is_typed_stays_as_typed_until_other_units_are_chosen(qtbot, opened, display):
    from designer.window.compose.lines_columns import FERMENTABLES
    from designer.window.compose.lines_model import LinesModel

    table = LinesModel(opened, FERMENTABLES, display)
    cell = table.index(0, 0)
    table.setData(cell, "1 1/2 lb")
    assert cell.data() == "1 1/2 lb"
    assert cell.data(Qt.ItemDataRole.EditRole) == "1 1/2 lb"
    assert "680 g" in cell.data(Qt.ItemDataRole.ToolTipRole)
    assert opened.recipe.fermentables[0].amount.text == "1 1/2 lb"
    display.settings.units = ShownUnits.US
    display.settings.units = ShownUnits.METRIC
    assert cell.data() == "680 g"
    assert opened.recipe.fermentables[0].amount.text == "1 1/2 lb"


def test_a_field_of_a_form_keeps_the_text_and_tells_in_its_tip_what_it_was_read_as(qtbot, window):
    field = window.compose.process.by_place["process.top_up_to"]
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, "2 1/2gal")
    qtbot.keyClick(field, Qt.Key.Key_Return)
    assert field.text() == "2 1/2 gal"
    assert window.opened.recipe.process.top_up_to.text == "2 1/2 gal"
    assert field.toolTip() == "Read as 9.46 L"
    window.settings.units = ShownUnits.US
    window.settings.units = ShownUnits.METRIC
    assert (field.text(), field.toolTip()) == ("9.46 L", "Typed 2 1/2 gal")
    qtbot.keyClick(field, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    qtbot.keyClicks(field, "10 L")
    qtbot.keyClick(field, Qt.Key.Key_Return)
    assert field.toolTip() == ""


def test_an_empty_field_tells_in_its_tip_what_it_takes_and_on_what_ground(qtbot, window):
    process = window.compose.process
    qtbot.mouseClick(process.more_button, Qt.MouseButton.LeftButton)
    field = process.by_place["process.altitude"]
    ground = "Left empty: 0 m (sea level unless another is typed)"
    assert field.toolTip() == ground
    field.setFocus()
    qtbot.keyClicks(field, "1000 ft")
    qtbot.keyClick(field, Qt.Key.Key_Return)
    assert field.toolTip().startswith("Read as ")
    qtbot.keyClick(field, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    qtbot.keyClick(field, Qt.Key.Key_Delete)
    qtbot.keyClick(field, Qt.Key.Key_Return)
    assert field.toolTip() == ground


def test_marks_pasted_into_a_field_are_taken_out_with_a_word_beside_it(qtbot, window):
    field = window.header.name
    field.setFocus()
    field.selectAll()
    QApplication.clipboard().setText("Lamp\u202e Porter\u200f")
    field.paste()
    assert field.text() == "Lamp Porter"
    assert window.opened.recipe.name == "Lamp Porter"
    note = note_of(field)
    assert note.isVisible()
    assert "Invisible direction and control" in note.text.text()
    QApplication.clipboard().clear()


@pytest.mark.parametrize(
    ("kind", "typed", "kept"),
    [
        (Kind.MASS, "1.5kg", "1.5 kg"),
        (Kind.MASS, "2lb4oz", "2 lb 4 oz"),
        (Kind.MASS, "  250   g ", "250 g"),
        (Kind.MASS, "1½lb", "1½ lb"),
        (Kind.FRACTION, "6.5-8.5%", "6.5-8.5 %"),
        (Kind.TEMPERATURE, "155F", "155 F"),
        (Kind.VOLUME, "1 m3", "1 m3"),
        (Kind.MASS, "1e3g", "1e3 g"),
        (Kind.LENGTH, '10"', '10"'),
        (Kind.MASS, "1 1/2 lb", "1 1/2 lb"),
        (Kind.MASS, "1,500.5 g", "1,500.5 g"),
    ],
)
def test_what_is_typed_is_tidied_and_no_more(english, kind, typed, kept):
    assert english.read(kind, typed).text == kept


EXAMPLES = resource_path("examples")
FILES = [
    *sorted(EXAMPLES.glob("*.hobwort")),
    EXAMPLES.parents[1] / f"tests/old_recipes/format_{FORMAT}.hobwort",
]


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_opening_and_saving_changes_no_field_and_touching_one_changes_that_alone(
    qtbot, settings, tmp_path, file
):
    before = json.loads(file.read_text("utf-8"))
    opened = OpenRecipe(load(file), file)
    save(opened.recipe, tmp_path / "same.hobwort")
    same = json.loads((tmp_path / "same.hobwort").read_text("utf-8"))
    assert _written_of(same, before) == before
    assert load(tmp_path / "same.hobwort") == load(file)
    opened.make(
        ChangePart(
            "process", "boil_time", DisplayFormat(settings).read(Kind.TIME, "71"), word("change")
        )
    )
    save(opened.recipe, tmp_path / "touched.hobwort")
    touched = json.loads((tmp_path / "touched.hobwort").read_text("utf-8"))
    assert touched["process"].pop("boil_time") == "71 min"
    same["process"].pop("boil_time", None)
    assert touched == same


def _written_of(saved, original):
    """What a saved document says at each place that the original names; a usual choice, such as
    a cold water bath, may be left out of it."""
    if isinstance(original, dict):
        pairs = {key: (saved.get(key, value), value) for key, value in original.items()}
        return {key: _written_of(*pair) for key, pair in pairs.items()}
    if isinstance(original, list):
        return [_written_of(*pair) for pair in zip(saved, original, strict=True)]
    return saved


@pytest.mark.parametrize("comma", [False, True])
@pytest.mark.parametrize("units", ShownUnits)
def test_going_through_every_field_writes_nothing(qtbot, window, units, comma, monkeypatch):
    monkeypatch.setattr(QLocale, "decimalPoint", lambda self: "," if comma else ".")
    window.settings.units = units
    window.opened.replace_by(load(FILES[-1]), None)
    before = document_text(window.opened.recipe)
    window.compose.process.more_button.setChecked(True)
    for field in window.compose.findChildren(QLineEdit):
        field.setFocus()
        field.clearFocus()
        field.editingFinished.emit()
    assert not window.opened.undo_stack.count()
    assert document_text(window.opened.recipe) == before


# what no field takes


@pytest.mark.parametrize(
    ("kind", "text"),
    [
        (Kind.VOLUME, "1-2\u06611 1/2"),
        (Kind.VOLUME, "½1–2"),
        (Kind.VOLUME, "1 L="),
        (Kind.DOSE, "1 L="),
        (Kind.DOSE, "1½ft NaNpsi"),
        (Kind.DOSE, "2 (large) packets"),
        (Kind.MONEY, "3 SRM"),
        (Kind.MONEY, "3 EUR USD"),
        (Kind.MASS, "1.5 kg1.15kg"),
        (Kind.MASS, "1 kg 2 kg"),
        (Kind.MASS, "4 oz 2 lb"),
        (Kind.TIME, "30 min 1 h"),
        (Kind.MASS, "1,5.5 kg"),
        (Kind.MASS, "1'5 kg"),
        (Kind.MASS, "250 g,"),
        (Kind.MASS, "250 g.."),
        (Kind.LENGTH, "10'"),
        (Kind.TIME, "1 - 1/2 h"),
    ],
)
def test_a_text_with_a_stray_sign_or_two_numbers_in_one_is_refused(kind, text):
    with pytest.raises(RefusedInputError):
        read(kind, text)


@pytest.mark.parametrize(
    ("kind", "text", "value"),
    [(Kind.MASS, "1.5 kg1.15kg", 2.65), (Kind.DOSE, "1 L=", 1.0), (Kind.MONEY, "3 SRM", 3.0)],
)
def test_a_document_of_an_older_version_with_such_a_text_still_opens(kind, text, value):
    assert read(kind, text, kept=True).value == pytest.approx(value)


def test_digits_of_one_script_are_read_whichever_it_is():
    assert read(Kind.MASS, "\u0662 kg").value == 2.0


def test_direction_marks_are_no_part_of_a_unit():
    assert read(Kind.DOSE, "2 \u202epackets") == Quantity(2.0, "2 packets", unit="packets")


def test_the_fallbacks_write_a_value_out_in_full(american):
    recipe = Recipe()
    assert recipe.pot.volume is None
    found = american.read(Kind.VOLUME, "2 1/2")
    assert found.text == "2 1/2 gal"
    assert read(Kind.VOLUME, found.text) == found
