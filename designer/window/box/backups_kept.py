"""How much room backups may take, and the folder on another disk that each is copied to."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QWidget

from designer.errors import DesignerError
from designer.library.store.backup_keeping import (
    ROOMS_MB,
    BackupKeeping,
    keep_so,
    keeping_of,
    place_of_copies,
)
from designer.translation import message, tr
from designer.window.parts.buttons import button
from designer.window.parts.eliding import ElidedLabel
from designer.window.parts.icons import Choice
from designer.window.parts.questions import Questions
from designer.window.session.autosave import Autosave
from designer.window.session.recipe_window import RecipeWindow

USUAL = message("1 GB, or twice the box")
NOWHERE = message("nowhere else")
KEPT_SO = message("Heeded from the next backup on.")


class BackupsKept(QWidget):
    """A row below the backups; each choice is kept at once."""

    said = Signal(str, bool)

    def __init__(self, autosave: Autosave) -> None:
        super().__init__()
        self._autosave = autosave
        self._kept = BackupKeeping()
        self.room = Choice()
        self.room.setAccessibleName(tr("Room for backups"))
        for megabytes in ROOMS_MB:
            self.room.addItem(_size(megabytes), megabytes)
        self.room.activated.connect(self._choose_room)
        self.place = ElidedLabel()
        self.choose = button(
            tr("Copy each to…"),
            tr("Copy each backup to a folder as well, on another disk say"),
            self.choose_place,
        )
        self.nowhere = button(
            tr("No copies"), tr("Copy backups nowhere else; copies there stay"), self.choose_nowhere
        )
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        label = QLabel(tr("Room for backups"))
        label.setBuddy(self.room)
        row.addWidget(label)
        row.addWidget(self.room)
        row.addSpacing(18)
        row.addWidget(self.place, 1)
        row.addWidget(self.choose)
        row.addWidget(self.nowhere)

    def look(self) -> None:
        """Show what is kept."""
        self._kept = keeping_of(self._autosave.folder)
        self.room.setCurrentIndex(self.room.findData(self._kept.room_mb))
        copies = tr(NOWHERE)
        if self._kept.elsewhere:
            copies = str(place_of_copies(self._autosave.folder, Path(self._kept.elsewhere)))
        self.place.setText(tr("Copies: {place}", place=copies))
        self.nowhere.setEnabled(bool(self._kept.elsewhere))

    def choose_place(self) -> None:
        """Ask for the folder that copies go to."""
        window = self.window()
        questions = window.questions if isinstance(window, RecipeWindow) else Questions()
        folder = questions.which_backup_folder(self, self._kept.elsewhere)
        if folder is not None:
            self._keep(replace(self._kept, elsewhere=str(folder.absolute())))

    def choose_nowhere(self) -> None:
        """Have no copies from now on."""
        self._keep(replace(self._kept, elsewhere=""))

    def _choose_room(self) -> None:
        self._keep(replace(self._kept, room_mb=self.room.currentData()))

    def _keep(self, keeping: BackupKeeping) -> None:
        try:
            keep_so(self._autosave.folder, keeping)
        except DesignerError as fault:
            self.said.emit(str(fault), True)
        else:
            self.said.emit(tr(KEPT_SO), False)
        self.look()


def _size(megabytes: int) -> str:
    if not megabytes:
        return tr(USUAL)
    if megabytes < 1000:
        return tr("{number} MB", number=megabytes)
    return tr("{number} GB", number=megabytes // 1000)
