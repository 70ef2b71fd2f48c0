"""The menu of a picture: copied or saved, in the colours of paper or in those of the window."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Protocol, runtime_checkable

from PySide6.QtCore import QPoint
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMenu, QWidget

from designer.translation import tr
from designer.window.parts.deeds import add_entry, menu_under, open_menu
from designer.window.parts.picture_out import Picture


class TakesPictures(Protocol):
    """What a window does with pictures."""

    wears_paper: bool
    """Whether pictures are in light inks on paper, whatever the window wears."""

    def copy(self, picture: Picture) -> None:
        """Put a picture on the clipboard."""

    def save(self, picture: Picture) -> None:
        """Ask for a file and write a picture to it."""


@runtime_checkable
class HasPictures(Protocol):
    """A window that takes pictures."""

    @property
    def pictures(self) -> TakesPictures:
        """What takes them."""


def pictures_of(widget: QWidget) -> TakesPictures | None:
    """Return what takes pictures of a widget: its window, or that which its dialog belongs to."""
    around: QWidget | None = widget
    while around is not None and not isinstance(around, HasPictures):
        around = around.parentWidget()
    return around.pictures if isinstance(around, HasPictures) else None


def open_picture_menu(
    widget: QWidget,
    at: QPoint,
    picture: Callable[[], Picture],
    others: Iterable[tuple[str, Callable[[], None], str]] = (),
) -> None:
    """Open the menu of a picture at a place of the screen; what else is done with it comes first.

    Nothing opens where no window takes pictures.
    """
    taker = pictures_of(widget)
    if taker is None:
        return
    menu = menu_under(widget)
    for text, act, drawing in others:
        add_entry(menu, text, act, drawing)
    add_entry(menu, tr("Copy the picture"), lambda: taker.copy(picture()), "action-picture")
    add_entry(menu, tr("Save the picture…"), lambda: taker.save(picture()), "action-export")
    menu.addSeparator()
    add_colours(menu, taker)
    open_menu(menu, at)


def add_colours(menu: QMenu, taker: TakesPictures) -> QAction:
    """Add the choice between paper and what the window wears."""
    choice = menu.addAction(tr("Pictures in the &window's colours"))
    choice.setCheckable(True)
    choice.setChecked(not taker.wears_paper)

    def choose(as_window: bool) -> None:
        taker.wears_paper = not as_window

    choice.toggled.connect(choose)
    menu.aboutToShow.connect(lambda: choice.setChecked(not taker.wears_paper))
    return choice
