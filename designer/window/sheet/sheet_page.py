"""Sheet: the pages exactly as they print, live with the recipe; print, PDF, web page, plain text.

What is shown is painted by the same layout that prints (`paper.Pages`).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QGuiApplication, QShowEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QVBoxLayout, QWidget

from designer.errors import DesignerError
from designer.library.file_names import file_name
from designer.library.formula_guard import guarded_text
from designer.paper.pages import lay_out, pdf_bytes, print_sheet
from designer.sheet.content import brew_sheet
from designer.sheet.html import sheet_html
from designer.sheet.plain import sheet_text
from designer.translation import message, tr, trn
from designer.window.parts.buttons import button
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.flow import FlowLayout
from designer.window.parts.icons import Choice
from designer.window.parts.page_frame import Page
from designer.window.parts.questions import Questions
from designer.window.session.open_recipe import OpenRecipe
from designer.window.session.recipe_window import RecipeWindow
from designer.window.session.shop_sizes import ShopSizes
from designer.window.sheet.paper_view import GAP, PagesArea, PagesView
from designer.window.sheet.sheet_options import Wishes

if TYPE_CHECKING:
    from designer.brewday.results import Outlook
    from designer.recipe.document import Recipe
    from designer.sheet.blocks import Sheet
    from designer.window.session.autosave import Autosave

VARIANTS = {"full": message("Full checklist"), "bench": message("One-page card")}
PAPERS = {"a4": message("A4"), "letter": message("US Letter")}
FIT_THE_WIDTH = 0.0
ZOOMS = (FIT_THE_WIDTH, 0.75, 1.0, 1.5, 2.0)
AFTER_TYPING_MS = 120


class SheetPage(Page):
    """The pages, and what can be done with them."""

    failed = Signal(str)
    done = Signal(str)
    file_made = Signal(object, object, str)
    """A file to be written: where, its bytes, and what is said when it is on the disk."""

    def __init__(
        self,
        opened: OpenRecipe,
        display: DisplayFormat,
        autosave: Callable[[], Autosave | None] = lambda: None,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._opened, self._display = opened, display
        self.shop = ShopSizes(display, autosave, self, key="packs for the sheet")
        self.shop.ask()
        self._made = False
        self._soon = QTimer(self, singleShot=True, interval=AFTER_TYPING_MS)
        self._soon.timeout.connect(self.refresh)
        opened.outlook_changed.connect(self._refresh_soon)
        display.settings.changed.connect(self.shop.follow_units)
        display.settings.changed.connect(self._refresh_soon)
        self.shop.changed.connect(self._refresh_soon)

    def _make(self) -> None:
        """Put the page together when it is first seen."""
        self._made = True
        self.pages = PagesView()
        self.area = PagesArea()
        self.area.resized.connect(self._fit)
        self.area.zoomed.connect(self._zoom_by)
        self.area.setFrameShape(QFrame.Shape.NoFrame)
        self.area.setWidget(self.pages)
        self.area.setAlignment(Qt.AlignmentFlag.AlignHCenter)
        self.area.setAccessibleName(tr("The sheet as it prints"))
        self.variant = _choice(
            tr("What to print"), {key: tr(text) for key, text in VARIANTS.items()}
        )
        self.paper = _choice(tr("Paper"), {key: tr(text) for key, text in PAPERS.items()})
        self.zoom = _choice(tr("Zoom"), {each: _zoom_text(each) for each in ZOOMS})
        self.paper.setCurrentIndex(self.paper.findData(self._display.settings.paper))
        self.wishes = Wishes(self._display.settings)
        self.wishes.changed.connect(self._refresh_soon)
        self.count = QLabel()
        self.count.setObjectName("soft")
        self.variant.activated.connect(self.refresh)
        self.paper.activated.connect(self._choose_paper)
        self.zoom.activated.connect(self._fit)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self._bar())
        layout.addWidget(self.wishes)
        layout.addWidget(self.area, 1)

    def _bar(self) -> QWidget:
        bar = QWidget()
        row = QHBoxLayout(bar)
        row.setContentsMargins(18, 8, 18, 8)
        row.setSpacing(8)
        for choice in (self.variant, self.paper, self.zoom):
            row.addWidget(choice)
        row.addWidget(self.count)
        out = FlowLayout(across=8, down=6, ends_alike=True)
        row.addLayout(out, 1)
        for text, tip, act in (
            (
                tr("Copy as text"),
                tr("Put the sheet on the clipboard as plain text"),
                self.copy_text,
            ),
            (
                tr("Phone…"),
                tr("The brew day as a page for your phone: steps to tick, timers, readings"),
                lambda: self.offer_phone(),
            ),
            (tr("Web page…"), tr("Export the sheet as one HTML file"), self.write_html),
            (tr("PDF…"), tr("Export the pages as PDF (Ctrl+Shift+P)"), self.write_pdf),
            (tr("Print…"), tr("Print these pages (Ctrl+P)"), self.print_sheet),
        ):
            out.addWidget(button(text, tip, act))
        return bar

    @property
    def _questions(self) -> Questions:
        window = self.window()
        return window.questions if isinstance(window, RecipeWindow) else Questions()

    def _refresh_soon(self) -> None:
        if self._made and self.isVisible():
            self._soon.start()

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        if not self._made:
            self._make()
        self.shop.ask()
        self.refresh()

    def take_focus(self) -> None:
        """Give the keyboard to the first control of the page."""
        (self.variant if self._made else self).setFocus(Qt.FocusReason.OtherFocusReason)

    def sheet(self) -> Sheet:
        """Return the sheet of the recipe as it now is."""
        if not self._opened.with_ranges:
            self._opened.want_ranges()
        if not self._made:  # printed by a menu before the page was ever seen
            self._make()
        return brew_sheet(
            self._opened.reckoned,
            self._opened.newest_outlook(),
            shown=self._display.settings.units,
            start=None,
            brew_date=self.wishes.brew_date,
            variant=self.variant.currentData(),
            language=self._display.settings.sheet_language,
            shop=self.wishes.shop.text(),
            form=self.wishes.form,
            packs=self.shop.sizes(),
        )

    def refresh(self) -> None:
        """Lay the pages out anew."""
        self._soon.stop()
        with self._telling():
            sheet = self.sheet()
            pages = lay_out(sheet, self._display.settings.paper)
            self.pages.show_pages(pages, sheet_text(sheet))
            self.count.setText(trn("{number} page", "{number} pages", len(pages)))
            self._fit()

    def _choose_paper(self) -> None:
        self._display.settings.paper = self.paper.currentData()

    def _zoom_by(self, steps: int) -> None:
        sizes = sorted(range(1, len(ZOOMS)), key=ZOOMS.__getitem__)
        here = self.zoom.currentIndex()
        place = sizes.index(here) + steps if here in sizes else 1 + (steps > 0)
        self.zoom.setCurrentIndex(sizes[min(max(place, 0), len(sizes) - 1)])
        self._fit()

    def _fit(self) -> None:
        zoom = self.zoom.currentData()
        if zoom == FIT_THE_WIDTH:
            room = self.area.viewport().width() - 2 * GAP - 12
            zoom = min(max(room / self.pages.page_width(), 0.3), 1.6)
        self.pages.fit(zoom)

    # what can be done with them

    @contextmanager
    def _telling(self) -> Iterator[None]:
        """Tell why something cannot be done, such as for words of a language that are gone."""
        try:
            yield
        except DesignerError as fault:
            self.failed.emit(str(fault))

    def print_sheet(self) -> None:
        """Print through the dialog of the system."""
        printer = self._questions.which_printer(self, self._display.settings.paper)
        if printer is None:
            return
        with self._telling():
            count = print_sheet(self.sheet(), printer)
            self.done.emit(
                trn(
                    "Sent {number} page to the printer.",
                    "Sent {number} pages to the printer.",
                    count,
                )
            )

    def write_pdf(self) -> None:
        """Ask for a file and write the pages as PDF."""
        path = self._questions.pdf_where(self, self._suggested(".pdf"))
        if path is None:
            return
        with self._telling():
            content, count = pdf_bytes(self.sheet(), self._display.settings.paper)
            done = trn(
                "Exported {number} page to {path}.",
                "Exported {number} pages to {path}.",
                count,
                path=path,
            )
            self.file_made.emit(path, content, done)

    def write_html(self) -> None:
        """Ask for a file and write the sheet as one web page."""
        path = self._questions.html_where(self, self._suggested(".html"))
        if path is None:
            return
        with self._telling():
            content = sheet_html(self.sheet()).encode("utf-8")
            self.file_made.emit(path, content, tr("Exported {path}.", path=path))

    def offer_phone(self, brewed: tuple[Recipe, Outlook] | None = None) -> None:
        """Tell how the page for a phone gets there, and write it if that is wanted.

        It is that of the open recipe, or of what is `brewed`.
        """
        # Few ask for it; not loaded with the page.
        from designer.window.parts.onto_phone import OntoPhone

        dialog = OntoPhone(self)
        dialog.save_wanted.connect(lambda: self.write_pocket(brewed))
        dialog.open()

    def write_pocket(self, brewed: tuple[Recipe, Outlook] | None = None) -> None:
        """Ask for a file and write the page for a phone."""
        from designer.sheet.pocket.page import pocket_page

        path = self._questions.html_where(self, self._suggested("-phone.html"))
        if path is None:
            return
        if not self._made:  # wanted on the brew day before this page was ever seen
            self._make()
        recipe, outlook = brewed or (self._opened.recipe, self._opened.newest_outlook())
        with self._telling():
            page = pocket_page(
                recipe,
                outlook,
                shown=self._display.settings.units,
                start=None,
                brew_date=self.wishes.brew_date,
                language=self._display.settings.sheet_language,
            )
            done = tr("Exported {path}: bring it onto the phone and open it there.", path=path)
            self.file_made.emit(path, page.encode(), done)

    def copy_text(self) -> None:
        """Put the sheet on the clipboard as plain text."""
        with self._telling():
            QGuiApplication.clipboard().setText(guarded_text(sheet_text(self.sheet())))
            self.done.emit(tr("The sheet is on the clipboard as text."))

    def _suggested(self, suffix: str) -> str:
        folder = self._opened.path.parent if self._opened.path is not None else Path.home()
        return str(folder / (file_name(self._opened.recipe.name) + suffix))


def _choice(name: str, texts: Mapping[Any, str]) -> Choice:
    """Return a choice among texts, each with the data it stands for."""
    choice = Choice()
    for data, text in texts.items():
        choice.addItem(text, data)
    choice.setAccessibleName(name)
    choice.setToolTip(name)
    return choice


def _zoom_text(zoom: float) -> str:
    return (
        tr("Fit the width") if zoom == FIT_THE_WIDTH else tr("{percent:.0f} %", percent=100 * zoom)
    )
