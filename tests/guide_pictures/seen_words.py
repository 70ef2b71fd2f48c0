"""Which sentences of the program are seen on a picture, in the words of its language.

They are written into the picture, so that a test knows a stale one without making it anew: as soon
as the program says something else, the picture tells what nobody will find.
"""

import json

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QComboBox,
    QLabel,
    QLineEdit,
    QMenuBar,
    QWidget,
)

from designer import translation
from designer.po_file import IN_CONTEXT
from designer.spoken_language import catalogue_if_any, names_in

KEY = "Words"


class Listening:
    """A language, or English, that notes the sentences it is asked for."""

    def __init__(self, catalogue):
        self._catalogue = catalogue
        self.asked = {}

    def gettext(self, text, /):
        said = text if self._catalogue is None else self._catalogue.gettext(text)
        self.asked[text] = said
        return said

    def pgettext(self, context, message, /):
        known = self._catalogue
        said = message if known is None else known.pgettext(context, message)
        self.asked[f"{context}{IN_CONTEXT}{message}"] = said
        return said

    def ngettext(self, one, many, number, /):
        if self._catalogue is not None:
            return self._catalogue.ngettext(one, many, number)
        return one if number == 1 else many


def listening(language):
    """Speak a language, and return what listens."""
    ears = Listening(catalogue_if_any(f"program_{language}"))
    translation.use(ears, language, names_in(language))
    return ears


def visible_texts(window):
    """Return the texts of the labels, buttons, menus, headings and empty fields that are seen."""
    texts = set()
    for widget in window.findChildren(QWidget):
        if not widget.isVisible():
            continue
        if isinstance(widget, (QLabel, QAbstractButton)):
            texts.add(widget.text())
        elif isinstance(widget, QComboBox):
            texts.add(widget.currentText())
        elif isinstance(widget, QLineEdit):
            texts.add("" if widget.text() else widget.placeholderText())
        elif isinstance(widget, QMenuBar):
            texts |= {action.text() for action in widget.actions()}
        elif isinstance(widget, QAbstractItemView) and widget.model() is not None:
            texts |= set(_headings(widget))
    return texts - {""}


def _headings(view):
    header = getattr(view, "horizontalHeader", None)
    if header is not None and header().isVisible():
        model = view.model()
        for column in range(model.columnCount()):
            said = model.headerData(column, Qt.Orientation.Horizontal)
            yield said if isinstance(said, str) else ""


def seen(asked, texts):
    """Return those sentences that stand whole among texts, with how they are said there.

    Those with wider gaps are left out: a picture keeps words, not gaps.
    """
    bare = {text.replace("&", "").strip() for text in texts}
    bare |= {text.casefold() for text in bare}
    return sorted(
        [sentence, said]
        for sentence, said in asked.items()
        if "{" not in sentence
        and len(sentence) > 1
        and "  " not in sentence
        and {(plain := said.replace("&", "").strip()), plain.casefold()} & bare
    )


def written(pairs):
    """Return sentences as they stand in a picture."""
    return json.dumps(pairs, ensure_ascii=False)


def read(text):
    """Return the sentences that stand in a picture."""
    return [tuple(pair) for pair in json.loads(text)] if text else []
