"""The menu of collections beside the search: searches that are kept under a name."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLineEdit, QMenu, QPushButton

from designer.library.store.collections_kept import (
    Collection,
    collections_of,
    keep_chosen,
    keep_collection,
    remove_collection,
    rename_collection,
)
from designer.translation import tr
from designer.window.parts.letters import lettered_when_opened
from designer.window.parts.plain_text import caption, tip
from designer.window.parts.questions import Questions
from designer.window.session.autosave import Autosave

if TYPE_CHECKING:
    from designer.library.store import Store


class CollectionsMenu(QPushButton):
    """Follows the collections of the store; one that is chosen is put into the search field.

    `said` tells what came of it, and whether that is trouble; `removed` what is gone, and what
    brings it back; `changed` that the list may find otherwise now.
    """

    said = Signal(str, bool)
    removed = Signal(str, object)
    changed = Signal()

    def __init__(
        self,
        autosave: Autosave,
        search: QLineEdit,
        chosen: Callable[[], Sequence[int]],
        questions: Callable[[], Questions],
    ) -> None:
        super().__init__(tr("Collections"))
        self._autosave, self._search = autosave, search
        self._chosen, self._questions = chosen, questions
        self.collections: tuple[Collection, ...] = ()
        self.setToolTip(tr("Searches that are kept under a name"))
        self.setAccessibleName(tr("Collections: searches that are kept under a name"))
        menu = QMenu(self)
        menu.setToolTipsVisible(True)
        menu.aboutToShow.connect(self.fill)
        lettered_when_opened(menu)
        self.setMenu(menu)

    def follow(self) -> None:
        """Read the collections anew."""

        def took(found: tuple[Collection, ...]) -> None:
            self.collections = found

        self._autosave.store.ask(collections_of, took, self._fail, key="collections")

    def fill(self) -> None:
        """Put the menu together: each collection, and what can be done with them."""
        menu, typed = self.menu(), self._search.text().strip()
        for below in menu.findChildren(QMenu):
            below.deleteLater()
        menu.clear()
        for each in self.collections:
            entry = menu.addAction(caption(each.name))
            entry.setCheckable(True)
            entry.setChecked(each.shown == typed)
            entry.setToolTip(tip(each.shown))
            entry.triggered.connect(partial(self._show, each))
        menu.addSeparator()
        keep = menu.addAction(tr("&Keep this search…"))
        keep.triggered.connect(lambda _checked=False: self._keep(typed))
        keep.setEnabled(bool(typed))
        keep.setToolTip("" if typed else tr("Type a search first"))
        ids = list(self._chosen())
        make = menu.addAction(tr("&Make one of the chosen recipes…"))
        make.triggered.connect(lambda _checked=False: self._make(ids))
        make.setEnabled(bool(ids))
        make.setToolTip(tr("They get a tag of that name"))
        for title, act in ((tr("Re&name"), self._rename), (tr("&Remove"), self._remove)):
            below = menu.addMenu(title)
            below.setEnabled(bool(self.collections))
            lettered_when_opened(below)
            for each in self.collections:
                below.addAction(caption(each.name)).triggered.connect(
                    lambda _checked=False, act=act, each=each: act(each)
                )

    def _show(self, collection: Collection, _checked: bool = False) -> None:
        self._search.setText(collection.shown)

    def _keep(self, typed: str) -> None:
        name = self._questions().collection_name(self, "")
        if name:
            self._put(name, lambda store: keep_collection(store, name, typed))

    def _make(self, ids: Sequence[int]) -> None:
        name = self._questions().collection_name(self, "")
        if name:
            self._put(name, lambda store: keep_chosen(store, name, ids))

    def _put(self, name: str, work: Callable[[Store], Collection | None]) -> None:
        """Keep a collection; what it took the place of can be had back."""

        def done(before: Collection | None) -> None:
            self._changed()
            if before is None:
                self.said.emit(tr("“{name}” is among the collections now.", name=name), False)
            else:
                told = tr("“{name}” finds something else now.", name=name)
                self.removed.emit(told, partial(self._put_back, before))

        self._autosave.store.ask(work, done, self._fail)

    def _put_back(self, collection: Collection) -> None:
        self._autosave.store.ask(
            lambda store: keep_collection(store, *collection),
            lambda _before: self._changed(),
            self._fail,
        )

    def _rename(self, collection: Collection) -> None:
        name = self._questions().collection_name(self, collection.name)
        if name and name != collection.name:
            self._autosave.store.ask(
                lambda store: rename_collection(store, collection.name, name),
                lambda _none: self._changed(),
                self._fail,
            )

    def _remove(self, collection: Collection) -> None:
        def done(_none: None) -> None:
            self._changed()
            told = tr("Collection “{name}” removed; its recipes stay.", name=collection.name)
            self.removed.emit(told, partial(self._put_back, collection))

        self._autosave.store.ask(
            lambda store: remove_collection(store, collection.name), done, self._fail
        )

    def _changed(self) -> None:
        self.follow()
        self.changed.emit()

    def _fail(self, fault: str) -> None:
        self.said.emit(fault, True)
