"""A page of the guide, laid out for the width there is, in the inks of the moment.

It shows nothing but the guide: pictures come from its own folder, links lead to its pages or to
those of the program, and nothing is fetched from anywhere.
"""

from __future__ import annotations

from string import Template

from PySide6.QtCore import QEvent, QSize, Qt, QTimer, QUrl, Signal
from PySide6.QtGui import QImage, QResizeEvent, QTextCharFormat, QTextCursor, QTextDocument
from PySide6.QtWidgets import QTextBrowser, QTextEdit

from designer.guide.blocks import Page, Span, Way
from designer.guide.html import Form, page_html
from designer.guide.pages import Guide
from designer.resource_files import resource_path
from designer.translation import tr
from designer.window.parts.inks import Inks, colour, inks_for

MARGIN, INDENT, WIDEST_PICTURE = 26, 26, 1100
SHOW = "show:"


class GuideView(QTextBrowser):
    """`page_wanted` carries the page that a link leads to, `show_wanted` a page of the program."""

    page_wanted = Signal(str)
    show_wanted = Signal(str)

    def __init__(self, guide: Guide) -> None:
        super().__init__()
        self._guide, self._page = guide, next(guide.pages())
        self._found: list[QTextCursor] = []
        self._words = ""
        self.setOpenLinks(False)
        self.setAccessibleName(tr("Page of the guide"))
        # The width for pictures is the same on short and on long pages.
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOn)
        self.document().setDocumentMargin(MARGIN)
        self.document().setIndentWidth(INDENT)
        self.anchorClicked.connect(self._lead)
        self._width = 0
        self._resized = QTimer(self, singleShot=True, interval=80)
        self._resized.timeout.connect(self._lay_out_anew)

    @property
    def page(self) -> Page:
        """The page that is shown."""
        return self._page

    def show_page(self, page: Page) -> None:
        """Show a page from its beginning."""
        self._page = page
        self._lay_out()

    def _lay_out(self) -> None:
        inks = inks_for(self.palette())
        self._width = self.viewport().width()
        style = Template(resource_path("guide/reader.css").read_text(encoding="utf-8"))
        self.document().setDefaultStyleSheet(style.substitute(inks._asdict()))
        self.setHtml(page_html(self._page, Form(self._picture, _address)))
        self.setAccessibleDescription(self._page.title)

    def _picture(self, name: str) -> str:
        return name if self._guide.picture(name) is not None else ""

    def loadResource(self, kind: int, url: QUrl | str) -> object:
        """Return a picture of the guide, as wide as the text; nothing else is ever loaded."""
        name = url.toString() if isinstance(url, QUrl) else url
        path = self._guide.picture(name) if kind == _IMAGE else None
        if path is None:
            return None
        image, scale = QImage(str(path)), self.devicePixelRatioF()
        wide = min(self.viewport().width() - 2 * MARGIN - 8, WIDEST_PICTURE)
        size = QSize(max(round(wide * scale), 1), image.height())
        smooth = Qt.TransformationMode.SmoothTransformation
        shown = image.scaledToWidth(min(size.width(), image.width()), smooth)
        shown.setDevicePixelRatio(scale)
        return shown

    def _lead(self, url: QUrl) -> None:
        target = url.toString()
        if target.startswith(SHOW):
            self.show_wanted.emit(QUrl.fromPercentEncoding(target[len(SHOW) :].encode()))
        else:
            self.page_wanted.emit(target)

    def go_to_heading(self, heading: str) -> None:
        """Show the page from a heading on; one that is not on it leaves the page where it is."""
        block = self.document().begin()
        while block.isValid():
            if block.blockFormat().headingLevel() and block.text() == heading:
                place = self.document().documentLayout().blockBoundingRect(block)
                self.verticalScrollBar().setValue(max(round(place.top()) - MARGIN, 0))
                return
            block = block.next()

    # what is looked for on the page

    def mark(self, words: str) -> int:
        """Mark all places of words on the page, show the first; return how many there are."""
        self._words = words.strip()
        self._mark()
        if self._found:
            self._go_to(self._found[0])
        return len(self._found)

    def _mark(self) -> None:
        """Mark the words where they stand together, else each of them."""
        self._found = self._places(self._words) or sorted(
            (place for word in self._words.split() for place in self._places(word)),
            key=QTextCursor.selectionStart,
        )
        inks = inks_for(self.palette())
        self.setExtraSelections([_marked(each, inks) for each in self._found])

    def _places(self, words: str) -> list[QTextCursor]:
        found: list[QTextCursor] = []
        place = QTextCursor(self.document())
        while words and not (place := self.document().find(words, place)).isNull():
            found.append(QTextCursor(place))
        return found

    def go_on(self) -> bool:
        """Show the next place of what is looked for; False behind the last."""
        here = self.textCursor().selectionStart()
        later = [each for each in self._found if each.selectionStart() > here]
        if later:
            self._go_to(later[0])
        return bool(later)

    def _go_to(self, place: QTextCursor) -> None:
        self.setTextCursor(place)
        self.ensureCursorVisible()

    # the width, the inks and the size of letters change

    def _lay_out_anew(self) -> None:
        bar = self.verticalScrollBar()
        part = bar.value() / max(bar.maximum(), 1)
        self._lay_out()
        self._mark()
        bar.setValue(round(part * bar.maximum()))

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if self.viewport().width() != self._width:
            self._resized.start()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.PaletteChange, QEvent.Type.FontChange):
            self._resized.start()


_IMAGE = QTextDocument.ResourceType.ImageResource.value


def _address(span: Span) -> str:
    return f"{SHOW}{span.target}" if span.way is Way.SHOW else span.target


def _marked(place: QTextCursor, inks: Inks) -> QTextEdit.ExtraSelection:
    made, form = QTextEdit.ExtraSelection(), QTextCharFormat()
    form.setBackground(colour(inks.chosen))
    form.setForeground(colour(inks.ink))
    made.cursor, made.format = place, form
    return made
