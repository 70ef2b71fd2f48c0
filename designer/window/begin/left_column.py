"""Beside the doors: what one may go on with, and what the kitchen has.

It follows when the Recipe box has answered; nothing waits for it.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, Signal
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QFrame, QLabel, QPushButton, QVBoxLayout, QWidget

from designer.translation import tr, trn
from designer.window.begin.door_card import CardButton
from designer.window.parts.dates import day_text
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.inks import inks_for
from designer.window.parts.page_frame import heading, scrolled
from designer.window.parts.reading_order import order_tabs

if TYPE_CHECKING:
    from designer.library.store.kitchen import FermenterRecord, PotRecord
    from designer.window.session.autosave import Autosave
    from designer.window.session.to_go_on_with import Thing, Whereabouts

WIDTH, NARROW_WIDTH, MOST_VESSELS = 250, 194, 5


class ThingButton(CardButton):
    """Something to go on with, the colour of its beer at the edge."""

    def __init__(self, name: str, about: str, srm: float | None) -> None:
        super().__init__(name, about)
        self._srm = srm
        self.setObjectName("thing")
        layout = self.layout()
        assert layout is not None
        layout.setContentsMargins(36, 8, 10, 8)

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        if self._srm is None:
            return
        from designer.wort.swatch import swatch_hex  # nothing is known before the first picture

        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setPen(QPen(QColor(inks_for(self.palette()).line_strong), 1.0))
            painter.setBrush(QColor(swatch_hex(self._srm)))
            painter.drawRoundedRect(QRectF(15.0, self.height() / 2.0 - 14.0, 10.0, 28.0), 4.5, 4.5)


class LeftColumn(QWidget):
    """What there is; each thing is gone on with at a press."""

    go_on_wanted = Signal(object)
    box_wanted = Signal()
    kitchen_wanted = Signal()

    def __init__(
        self,
        display: DisplayFormat,
        autosave: Callable[[], Autosave | None],
        open_now: Callable[[], Thing | None],
    ) -> None:
        super().__init__()
        self._display, self._autosave, self._open_now = display, autosave, open_now
        self.things: list[QPushButton] = []
        self.go_on: QPushButton | None = None
        self.all_of_them = self._link(self.box_wanted)
        self.change_vessels = self._link(self.kitchen_wanted)
        self._inside = QWidget()
        self._rows = QVBoxLayout(self._inside)
        self._rows.setContentsMargins(0, 0, 4, 0)
        self._rows.setSpacing(6)
        self.setFixedWidth(WIDTH)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self._title())
        layout.addWidget(scrolled(self._inside), 1)
        display.settings.changed.connect(self.ask_box)

    def be_narrow(self, narrow: bool) -> None:
        """Take less room beside the doors, or as much as usual."""
        self.setFixedWidth(NARROW_WIDTH if narrow else WIDTH)

    def _title(self) -> QLabel:
        title = QLabel(tr("What will you brew?"))
        title.setWordWrap(True)
        font = title.font()
        font.setPointSizeF(1.6 * font.pointSizeF())
        font.setBold(True)
        title.setFont(font)
        return title

    def _link(self, to: object) -> QPushButton:
        link = QPushButton(self)
        link.setObjectName("cure")
        link.hide()
        link.clicked.connect(to)
        return link

    def ask_box(self) -> None:
        """Ask the Recipe box what there is, if it can be asked."""
        autosave = self._autosave()
        if autosave is None:
            return
        # It reckons a colour: nothing of that is there before the first picture.
        from designer.window.session.to_go_on_with import whereabouts

        open_now = autosave.recipe_id if self._open_now() is not None else None
        autosave.store.ask(
            lambda store: whereabouts(store, open_now), self.show_found, key="whereabouts"
        )

    def show_found(self, found: Whereabouts) -> None:
        """Show what the box has told, the open recipe on top."""
        focused = self._focused()
        self._clear()
        now = self._open_now()
        brews = [each for each in found.things if each.brew]
        others = [each for each in found.things if not each.brew]
        things = [*brews, *([now] if now is not None else []), *others]
        own = [each for each in things if not each.is_example]
        if own:
            self._rows.addWidget(heading(tr("Go on where you were")))
            self._rows.addWidget(self._first(own[0]))
            things.remove(own[0])
        elif things:
            self._rows.addWidget(heading(tr("Look around in an example")))
        if things:
            self._rows.addWidget(self._others(things))
        if found.count:
            words = trn(
                "The one in the Recipe box", "All {number:,} in the Recipe box", found.count
            )
            self.all_of_them.setText(words)
            self._rows.addWidget(self.all_of_them)
            self.all_of_them.show()
        self._show_kitchen(found.pots, found.fermenters)
        self._rows.addStretch(1)
        order_tabs(self._inside)
        self._focus(focused)

    def _clear(self) -> None:
        for link in (self.all_of_them, self.change_vessels):
            self._rows.removeWidget(link)
            link.hide()
        while (item := self._rows.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        self.things, self.go_on = [], None

    def _focused(self) -> str:
        """Return the name of the button in here that has the keyboard; "" for none."""
        focus = self._inside.window().focusWidget()
        if isinstance(focus, QPushButton) and self._inside.isAncestorOf(focus):
            return focus.accessibleName() or focus.text()
        return ""

    def _focus(self, name: str) -> None:
        for each in self._inside.findChildren(QPushButton):
            if name and name in (each.accessibleName(), each.text()) and each.isVisibleTo(self):
                each.setFocus()
                return

    def _first(self, thing: Thing) -> QWidget:
        card = QFrame()
        card.setObjectName("chosenWay")
        told = self._thing(thing)
        self.go_on = QPushButton(tr("Go on with it"))
        self.go_on.setObjectName("primary")
        if thing.brew:
            words = tr("Go on with the brew of {name}", name=thing.name)
        else:
            words = tr("Go on with {name}", name=thing.name)
        self.go_on.setAccessibleName(words)
        self.go_on.clicked.connect(partial(self._want, thing))
        inside = QVBoxLayout()
        inside.setContentsMargins(12, 0, 12, 10)
        inside.addWidget(self.go_on)
        layout = QVBoxLayout(card)
        layout.setContentsMargins(2, 2, 2, 2)
        layout.setSpacing(2)
        layout.addWidget(told)
        layout.addLayout(inside)
        return card

    def _others(self, things: list[Thing]) -> QWidget:
        card = QFrame()
        card.setObjectName("card")
        layout = QVBoxLayout(card)
        layout.setContentsMargins(1, 1, 1, 1)
        layout.setSpacing(0)
        for each in things:
            layout.addWidget(self._thing(each))
        return card

    def _thing(self, thing: Thing) -> QPushButton:
        name = " ".join(thing.name.split())[:60]
        if thing.brew:
            name = tr("Brew of {name}", name=name)
        made = ThingButton(name, about(thing), thing.srm)
        made.clicked.connect(partial(self._want, thing))
        self.things.append(made)
        return made

    def _want(self, thing: Thing) -> None:
        self.go_on_wanted.emit(thing)

    def _show_kitchen(
        self, pots: tuple[PotRecord, ...], fermenters: tuple[FermenterRecord, ...]
    ) -> None:
        from designer.window.parts.vessel_field import called  # once the box has answered

        self._rows.addSpacing(10)
        self._rows.addWidget(heading(tr("Your kitchen")))
        lines = [*called(pots, self._display), *called(fermenters, self._display)]
        more = len(lines) - MOST_VESSELS
        if more > 0:
            lines[MOST_VESSELS:] = [trn("{number} more vessel", "{number} more vessels", more)]
        told = QLabel("\n".join(lines) or tr("No pot and no fermenter kept yet."))
        told.setWordWrap(True)
        self._rows.addWidget(told)
        self.change_vessels.setText(tr("Change them") if lines else tr("Keep yours"))
        self.change_vessels.setAccessibleName(tr("Vessels of the kitchen"))
        self._rows.addWidget(self.change_vessels)
        self.change_vessels.show()


def about(thing: Thing) -> str:
    """Return in a few words what a thing is, and when it was changed."""
    # Loaded with the first thing there is to tell of.
    from designer.window.session.to_go_on_with import Kind

    when = _when(thing.when) if thing.when is not None else ""
    if thing.kind is Kind.BREW:
        return thing.where
    if thing.kind is Kind.OPEN:
        return tr("open now")
    if thing.kind is Kind.DRAFT:
        return tr("draft, not kept yet · {when}", when=when)
    if thing.kind is Kind.FILE:
        return tr("recipe file, open last")
    if thing.kind is Kind.KIT:
        return tr("locked kit · {when}", when=when)
    return tr("example") if thing.kind is Kind.EXAMPLE else tr("changed {when}", when=when)


def _when(moment: datetime) -> str:
    """Return the time of a moment of today, the day of an earlier one."""
    here = moment.astimezone()
    return f"{here:%H:%M}" if here.date() == datetime.now().astimezone().date() else day_text(here)
