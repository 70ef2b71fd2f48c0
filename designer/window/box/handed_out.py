"""Recipes of the box dragged or copied out, as files.

What is dragged out is written when the drag begins, by the store's thread, into a folder that lasts
as long as the page: whoever takes the files may copy them after the drag has ended.
"""

from __future__ import annotations

import shutil
import tempfile
import time
from collections.abc import Callable, Sequence
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QMimeData, QUrl

from designer.errors import DesignerError
from designer.library.system_reason import reason_of
from designer.translation import tr
from designer.window.session.autosave import Autosave
from designer.window.session.piecewise_job import PiecewiseJob
from designer.workbench.box_files import WrittenRecipe, write_a_piece

if TYPE_CHECKING:
    from designer.library.store import RecipeRow, Store

MIME = "application/x-hobwort-recipes"
"""Names the box that recipes come from: dropped on the same box they are not brought in again."""
OUT = "hobwort-out-"
A_DAY_S = 86_400.0


class HandedOut:
    """The files of the recipes that were last dragged or copied out of a box."""

    def __init__(self, autosave: Autosave) -> None:
        self._autosave = autosave
        self._folder: Path | None = None
        self._files: dict[int, WrittenRecipe] = {}

    def write(
        self,
        rows: Sequence[RecipeRow],
        then: Callable[[], None],
        failed: Callable[[str], None],
    ) -> None:
        """Write the files in the background; `then` is called when all are there."""

        folder: list[Path] = []
        faults: list[str] = []

        def piece(store: Store, recipes: Sequence[int]) -> tuple[int, dict[int, WrittenRecipe]]:
            if not folder:
                folder.append(self._new_folder())
            return write_a_piece(store, recipes, folder[0], _write)

        def done(pieces: list[dict[int, WrittenRecipe]]) -> None:
            if faults:
                failed(faults[0])
                return
            self._files = {number: file for each in pieces for number, file in each.items()}
            then()

        job = PiecewiseJob(self._autosave.store, [row.id for row in rows], piece, self._autosave)
        job.failed.connect(faults.append)
        job.ended.connect(done)
        job.ended.connect(job.deleteLater)
        job.begin()

    def mime(self, rows: Sequence[RecipeRow]) -> QMimeData:
        """Return the recipes as files, and as text for who takes no files."""
        files = [self._files[row.id] for row in rows if row.id in self._files]
        mime = QMimeData()
        if files:
            mime.setUrls([QUrl.fromLocalFile(str(each.path)) for each in files])
            mime.setText("\n".join(each.bill for each in files))
            mime.setData(MIME, str(self._autosave.folder.absolute()).encode("utf-8"))
        return mime

    def is_own(self, mime: QMimeData) -> bool:
        """Tell whether something comes from this very box, perhaps out of another window."""
        own = str(self._autosave.folder.absolute()).encode("utf-8")
        return mime.hasFormat(MIME) and bytes(mime.data(MIME).data()) == own

    def _new_folder(self) -> Path:
        """Make a folder for one drag within that of the page; asked for on the store's thread."""
        try:
            if self._folder is None or not self._folder.is_dir():
                _clear_away()
                self._folder = Path(tempfile.mkdtemp(prefix=OUT))
            return Path(tempfile.mkdtemp(dir=self._folder))
        except OSError as fault:
            raise DesignerError(
                tr(
                    "Nothing can be written for other programs to take: {fault}.",
                    fault=reason_of(fault),
                )
            ) from fault

    def clear(self) -> None:
        """Delete the files; for the end of the program, when the store has stopped."""
        self._files = {}
        if self._folder is not None:
            shutil.rmtree(self._folder, ignore_errors=True)
            self._folder = None


def local_files(mime: QMimeData) -> list[Path]:
    """Return the files of this machine that something dropped or pasted stands for."""
    return [Path(url.toLocalFile()) for url in mime.urls() if url.isLocalFile()]


def _write(path: Path, content: bytes) -> None:
    """Write a file that another program is about to copy: that one sees to its lasting."""
    try:
        path.write_bytes(content)
    except OSError as fault:
        raise DesignerError(
            tr(
                "{name} cannot be written for other programs to take: {fault}.",
                name=path.name,
                fault=reason_of(fault),
            )
        ) from fault


def _clear_away() -> None:
    """Delete what programs that were killed left behind, more than a day ago."""
    for folder in Path(tempfile.gettempdir()).glob(f"{OUT}*"):
        with suppress(OSError):
            if time.time() - folder.stat().st_mtime > A_DAY_S:
                shutil.rmtree(folder, ignore_errors=True)
