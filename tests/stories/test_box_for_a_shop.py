"""What a shop wants of the Recipe box: columns of its own, the sheets of many recipes at once."""

from pypdf import PdfReader
from PySide6.QtGui import QPageSize
from PySide6.QtPrintSupport import QPrinter

from designer.library.recipe_file import document_text, load
from designer.library.store import Store
from designer.resource_files import resource_path
from designer.window.parts.settings import Settings
from designer.window.session.open_recipe import OpenRecipe
from designer.workbench.recipe_summary import summary_of

EXAMPLES = ("harbour_lamp_porter", "slipway_bitter", "foghorn_wheat")


def _box(qtbot, on_a_box, tmp_path):
    recipes = [load(resource_path(f"examples/{name}.hobwort")) for name in EXAMPLES]
    with Store.open(tmp_path / "box") as store:
        for recipe in recipes:
            store.recipes.add(document_text(recipe), summary_of(recipe))
    window = on_a_box(OpenRecipe(recipes[0]))
    window.show_page(window.page_names.index("Recipe box"))
    qtbot.waitUntil(lambda: len(window.box.model.rows_read) == len(EXAMPLES), timeout=10_000)
    return window


def _text(path):
    pages = [page.extract_text() for page in PdfReader(path).pages]
    return " ".join(" ".join(pages).split())


def _entry(box, words):
    (entry,) = [each for each in box.sheets_button.menu().actions() if words in each.text()]
    return entry


def test_the_sheets_of_all_chosen_recipes_are_one_pdf(qtbot, on_a_box, answers, tmp_path):
    window = _box(qtbot, on_a_box, tmp_path)
    window.box.table.clearSelection()
    _entry(window.box, "one P&DF").trigger()
    assert "Choose the recipes" in window.messages.text.text()
    window.box.table.selectAll()
    answers.file = tmp_path / "all.pdf"
    _entry(window.box, "one P&DF").trigger()
    qtbot.waitUntil(lambda: answers.file.exists(), timeout=20_000)
    text = _text(answers.file)
    for name in ("Harbour Lamp Porter", "Slipway Bitter", "Foghorn Wheat"):
        assert name in text
    pages = len(PdfReader(answers.file).pages)
    qtbot.waitUntil(lambda: f"{pages} pages" in window.messages.text.text())


def test_they_are_printed_one_after_another(qtbot, on_a_box, answers, tmp_path):
    window = _box(qtbot, on_a_box, tmp_path)
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setOutputFileName(str(tmp_path / "printed.pdf"))
    printer.setPageSize(QPageSize(QPageSize.PageSizeId.A4))
    answers.which_printer = lambda parent, paper: printer
    window.box.table.selectAll()
    _entry(window.box, "Print").trigger()
    qtbot.waitUntil(lambda: "to the printer" in window.messages.text.text(), timeout=20_000)
    text = _text(tmp_path / "printed.pdf")
    assert "Slipway Bitter" in text
    assert "Foghorn Wheat" in text


def test_columns_that_a_shop_does_not_want_stay_hidden(qtbot, on_a_box, tmp_path):
    window = _box(qtbot, on_a_box, tmp_path)
    table = window.box.table
    titles = [column.heading for column in window.box.model.columns]
    menu = table.columns_menu()
    (style,) = [each for each in menu.actions() if each.text() == "Style"]
    style.trigger()
    assert table.isColumnHidden(titles.index("Style"))
    assert "Name" not in [each.text() for each in menu.actions()]
    assert Settings().box_hidden == {"Style"}
    table.show_days(frozenset())
    assert table.isColumnHidden(titles.index("Style"))
    (style,) = [each for each in table.columns_menu().actions() if each.text() == "Style"]
    assert not style.isChecked()
    style.trigger()
    assert not table.isColumnHidden(titles.index("Style"))
