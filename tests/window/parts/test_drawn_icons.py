"""Small icons: all drawn alike, in the inks of the moment, and never without words."""

import re
import xml.etree.ElementTree as ElementTree
from collections import Counter
from pathlib import Path

import pytest
from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QIcon
from PySide6.QtWidgets import QLineEdit, QMenu, QStyleOptionViewItem, QWidget

import designer
from designer.recipe.choices import CoolingWay
from designer.resource_files import resource_path
from designer.window.parts import drawn_icons
from designer.window.parts.drawn_icons import SIZE, drawn_icon, no_icon
from designer.window.parts.icons import Choice
from designer.window.parts.inks import DARK, HIGH_DARK, HIGH_LIGHT, LIGHT
from designer.window.parts.menu_drawings import drawn_when_opened, wear
from designer.window.parts.offers import attach_suggestions
from designer.window.parts.theme import apply_scheme

FAMILIES = ("action", "addition", "ingredient", "vessel")
DRAWINGS = {
    path.stem: path
    for family in FAMILIES
    for path in resource_path("icons").glob(f"{family}-*.svg")
}
NAMED = re.compile(rf'"((?:{"|".join(FAMILIES)})-[a-z-]+)"')


def ink_of(icon, mode=QIcon.Mode.Normal):
    """Return the ink of an icon: what most of its wholly covered pixels have, on a fine screen."""
    image = icon.pixmap(QSize(SIZE, SIZE), 2.0, mode).toImage()
    assert image.width() == 2 * SIZE
    pixels = [image.pixelColor(x, y) for x in range(2 * SIZE) for y in range(2 * SIZE)]
    covered = Counter(each.name() for each in pixels if each.alpha() == 255)
    return covered.most_common(1)[0][0]


def test_all_drawings_have_one_grid_one_weight_and_no_colour_of_their_own():
    assert len(DRAWINGS) > 40
    for name, path in DRAWINGS.items():
        root = ElementTree.parse(path).getroot()
        assert root.get("viewBox") == f"0 0 {SIZE} {SIZE}", name
        assert (root.get("stroke"), root.get("stroke-width")) == ("currentColor", "1.5"), name
        for each in root.iter():
            assert each.get("fill", "none") in ("none", "currentColor"), name
            assert each is root or each.get("stroke") in (None, "none"), name


def test_whatever_drawing_the_window_names_is_there():
    package = Path(designer.__file__).parent
    sources = [*(package / "window").rglob("*.py"), package / "workbench" / "keys.py"]
    named = {name for path in sources for name in NAMED.findall(path.read_text("utf-8"))}
    assert len(named) > 10
    assert not named - set(DRAWINGS)


@pytest.mark.parametrize("inks", [LIGHT, DARK, HIGH_LIGHT, HIGH_DARK])
def test_an_icon_is_drawn_in_the_inks_of_the_moment(qapp, inks):
    for name in DRAWINGS:
        icon = drawn_icon(name, inks)
        assert ink_of(icon) == inks.ink_soft, name
        assert ink_of(icon, QIcon.Mode.Disabled) == inks.line_strong, name


def test_what_is_offered_and_chosen_has_what_it_stands_for_beside_it_in_the_list(
    qtbot, settings, monkeypatch
):
    monkeypatch.setattr(drawn_icons, "_MADE", {})
    page = QWidget()
    qtbot.addWidget(page)
    field, choice = QLineEdit(page), Choice(page)
    for way in CoolingWay:
        choice.addItem(str(way), str(way))
    attach_suggestions(field, "hop whens")
    with qtbot.waitExposed(page):
        page.show()
    wide = choice.sizeHint()
    field.textEdited.emit("")
    offers = field.completer().model()
    whens = {
        offers.index(row, 0).data(): offers.index(row, 0).data(Qt.ItemDataRole.DecorationRole)
        for row in range(offers.rowCount())
    }
    assert {each.cacheKey() for each in whens.values()} == {no_icon().cacheKey()}

    # No key waited for a drawing.
    def drawn(text):
        (row,) = (n for n in range(offers.rowCount()) if offers.index(n, 0).data() == text)
        return offers.index(row, 0).data(Qt.ItemDataRole.DecorationRole)

    qtbot.waitUntil(lambda: ink_of(drawn("boil 60 min")) == LIGHT.ink_soft)
    for text, name in (("boil 10 min", "late"), ("dry hop 4 days", "dry-hop")):
        assert drawn(text).cacheKey() == drawn_icon(f"addition-{name}").cacheKey()
    choice.showPopup()
    option = QStyleOptionViewItem()
    items = choice.view()
    items.itemDelegate().initStyleOption(option, items.model().index(0, 0))
    assert option.icon.cacheKey() == drawn_icon("vessel-ice").cacheKey()
    choice.hidePopup()
    assert choice.sizeHint() == wide


def test_a_menu_draws_its_icons_when_it_opens_and_anew_in_another_scheme(qtbot, qapp, settings):
    menu = QMenu()
    qtbot.addWidget(menu)
    drawn_when_opened(menu)
    save, plain = menu.addAction("Save"), menu.addAction("Save as")
    wear(save, "action-save")
    assert save.icon().isNull()
    for scheme, inks in (("light", LIGHT), ("dark", DARK)):
        apply_scheme(qapp, scheme)
        menu.aboutToShow.emit()
        assert ink_of(save.icon()) == inks.ink_soft
    assert plain.icon().isNull()
