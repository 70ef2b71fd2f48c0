"""Pictures as a brewer takes them, by the right button, and what then stands on them."""

import xml.etree.ElementTree as ElementTree

from PySide6.QtGui import QContextMenuEvent
from PySide6.QtWidgets import QApplication, QMenu

from designer.window.parts.picture_out import SVG, written

NAMESPACE = "{http://www.w3.org/2000/svg}"


class Taker:
    """Stands in for a window that takes pictures: keeps them."""

    def __init__(self):
        self.wears_paper, self.taken = True, []

    def copy(self, picture):
        self.taken.append(picture)

    def save(self, picture):
        self.taken.append(picture)


def ask_for_menu(widget, at=None):
    """Ask for the menu of a widget with the right button; return it, open."""
    place = at or widget.rect().center()
    reason = QContextMenuEvent.Reason.Mouse
    QApplication.sendEvent(widget, QContextMenuEvent(reason, place, widget.mapToGlobal(place)))
    menu = QApplication.activePopupWidget()
    assert isinstance(menu, QMenu)
    return menu


def choose(menu, words):
    """Choose the entry of a menu that has those words."""
    (found,) = [each for each in menu.actions() if each.text().replace("&", "") == words]
    found.trigger()
    menu.close()


def texts_of(widget, window):
    """Return the texts on the picture of a widget in a window that keeps it in a `Taker`."""
    window.pictures = Taker()
    choose(ask_for_menu(widget), "Copy the picture")
    return texts_in(written(window.pictures.taken[-1], SVG))


def texts_in(drawing):
    """Return the texts of a drawing, all of which have room on it; none is a picture of letters."""
    root = ElementTree.fromstring(drawing)
    assert root.find(f".//{NAMESPACE}image") is None
    assert root.find(f"{NAMESPACE}title").text
    assert root.find(f"{NAMESPACE}desc").text
    wide, found = float(root.get("viewBox").split()[2]), []
    for group in root.iter(f"{NAMESPACE}g"):
        moved = float((group.get("transform") or "matrix(1,0,0,1,0,0)").split(",")[4])
        for text in group.findall(f"{NAMESPACE}text"):
            left = moved + float(text.get("x"))
            found.append("".join(text.itertext()).replace("\N{NO-BREAK SPACE}", " "))
            assert 0.0 <= left <= left + float(text.get("textLength")) <= wide, found[-1]
    return found
