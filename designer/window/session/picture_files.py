"""Pictures of a window on the clipboard and in files."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtGui import QGuiApplication

from designer.library.file_names import file_name
from designer.translation import tr
from designer.window.parts.inks import LIGHT, Inks, inks_for
from designer.window.parts.picture_out import PNG, SVG, Picture, to_clipboard, written
from designer.window.session.recipe_window import RecipeWindow
from designer.window.session.saving import Saving


class PictureFiles:
    """Copies and saves what is drawn in a window."""

    def __init__(self, window: RecipeWindow, saving: Saving) -> None:
        self._window, self._saving = window, saving

    @property
    def wears_paper(self) -> bool:
        """Whether pictures are in light inks on paper, whatever the window wears."""
        return self._window.settings.pictures_on_paper

    @wears_paper.setter
    def wears_paper(self, on_paper: bool) -> None:
        self._window.settings.pictures_on_paper = on_paper

    def _inks(self) -> Inks:
        return LIGHT if self.wears_paper else inks_for(QGuiApplication.palette())

    def copy(self, picture: Picture) -> None:
        """Put a picture on the clipboard."""
        to_clipboard(picture, self._inks())
        self._window.messages.say(
            tr("The picture is on the clipboard: {picture}.", picture=picture.title)
        )

    def save(self, picture: Picture) -> None:
        """Ask for a file and write a picture to it, by its ending as PNG or as SVG."""
        window = self._window
        name = file_name(f"{picture.about} {picture.title}") + PNG
        path = window.questions.picture_where(window, str(Path(window.folder()) / name))
        if path is None:
            return
        ending = path.suffix.lower()
        if ending not in (PNG, SVG):
            window.messages.say(
                tr(
                    "“{name}” was not written: a picture is saved as .png or as .svg. Name it so.",
                    name=path.name,
                ),
                refused=True,
            )
            return
        content = written(picture, ending, self._inks())
        self._saving.write(path, content, tr("Saved the picture to {path}.", path=path))
