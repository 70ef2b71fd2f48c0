"""What a shop wants of the Recipe box: columns of its own, the sheets of many recipes at once."""

from pypdf import PdfReader
from PySide6.QtGui import QPageSize
from PySide6.QtPrintSupport import QPrinter

from designer.library.recipe_file import document_text, load
from designer.library.store import Store
from designer.library.store.collections_kept import keep_collection
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
    assert Settings().box_hidden == {"Changed", "Style", "Tags"}
    table.show_days(frozenset())
    assert table.isColumnHidden(titles.index("Style"))
    (style,) = [each for each in table.columns_menu().actions() if each.text() == "Style"]
    assert not style.isChecked()
    style.trigger()
    assert not table.isColumnHidden(titles.index("Style"))


def test_tags_stand_beside_the_list_until_their_column_is_wanted(qtbot, on_a_box, tmp_path):
    table = _box(qtbot, on_a_box, tmp_path).box.table
    assert table.isColumnHidden(table.model().columnCount() - 1)
    (tags,) = [each for each in table.columns_menu().actions() if each.text() == "Tags"]
    tags.trigger()
    assert not table.isColumnHidden(table.model().columnCount() - 1)
    assert Settings().box_hidden == {"Changed"}
    (changed,) = [each for each in table.columns_menu().actions() if each.text() == "Changed"]
    changed.trigger()
    assert Settings().box_hidden == frozenset()


def test_no_column_lies_out_of_sight_at_the_usual_width(qtbot, on_a_box, tmp_path):
    window = _box(qtbot, on_a_box, tmp_path)
    assert window.width() == 1280
    assert window.box.table.horizontalScrollBar().maximum() == 0


def _choose(collections, *words):
    """Choose an entry of the menu of collections, and one below it."""
    collections.fill()
    menu = collections.menu()
    for each in words:
        (entry,) = [x for x in menu.actions() if x.text().replace("&", "") == each]
        assert entry.isEnabled(), each
        if entry.menu():
            menu = entry.menu()
    entry.trigger()


def _names(window):
    return [each.name for each in window.box.collections.collections]


def test_a_search_is_kept_under_a_name_found_again_renamed_and_removed(
    qtbot, on_a_box, answers, tmp_path
):
    window = _box(qtbot, on_a_box, tmp_path)
    box, menu, table = window.box, window.box.collections, window.box.table
    box.search.setText("porter")
    answers.collection_name = lambda parent, now: f"Winter & {now or 'dark'}"
    qtbot.waitUntil(lambda: len(box.model.rows_read) == 1)
    _choose(menu, "Keep this search…")
    qtbot.waitUntil(lambda: _names(window) == ["Winter & dark"])
    box.search.setText("")
    qtbot.waitUntil(lambda: len(box.model.rows_read) == len(EXAMPLES))
    table.clearSelection()
    table.choose({row.id for row in box.model.rows_read if "Porter" not in row.name})
    answers.collection_name = lambda parent, now: "Beginners"
    _choose(menu, "Make one of the chosen recipes…")
    qtbot.waitUntil(lambda: _names(window) == ["Beginners", "Winter & dark"])
    _choose(menu, "Winter  dark")
    assert box.search.text() == "porter"
    _choose(menu, "Beginners")
    qtbot.waitUntil(lambda: len(box.model.rows_read) == 2)
    assert {row.tags for row in box.model.rows_read} == {("Beginners",)}
    _choose(menu, "Rename", "Winter  dark")  # that name is another's
    qtbot.waitUntil(lambda: "collection “Beginners” already" in window.messages.text.text())
    answers.collection_name = lambda parent, now: "Winter window"
    _choose(menu, "Rename", "Winter  dark")
    qtbot.waitUntil(lambda: _names(window) == ["Beginners", "Winter window"])
    _choose(menu, "Remove", "Beginners")
    qtbot.waitUntil(lambda: _names(window) == ["Winter window"])
    [undo] = [each for each in window.messages._buttons if each.text() == "Undo"]
    undo.click()
    qtbot.waitUntil(lambda: _names(window) == ["Beginners", "Winter window"])


def test_collections_of_another_program_come_by_themselves(qtbot, on_a_box, tmp_path):
    window = _box(qtbot, on_a_box, tmp_path)
    with Store.open(tmp_path / "box") as store:
        keep_collection(store, "Beginners", "og <1.050")
    qtbot.waitUntil(lambda: _names(window) == ["Beginners"], timeout=10_000)
