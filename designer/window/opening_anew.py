"""Another language or size was chosen: the window is opened anew in it, now or at the next start.

What a window shows was put into words, and Qt told its scale, when the program began; so the whole
program starts anew. It closes as it always does, once all is kept, and goes on where it was: draft,
file and brew. Only the steps that Undo knows end with it, as at each end of the program; that is
said beforehand.
"""

from __future__ import annotations

from designer.spoken_language import LANGUAGES, catalogue_if_any, wanted_language
from designer.translation import message, spoken
from designer.window.parts.interface_size import drawn_size
from designer.window.session.recipe_window import RecipeWindow

TOPIC = "opening anew"
NEXT_START = message("Hobwort speaks {language} from its next start on.")
NEXT_SIZE = message("Hobwort is drawn at {size} % from its next start on.")
ANEW = message(
    "It can open anew now: all is kept, and it goes on where you are. Undo begins anew then."
)
OPEN_ANEW = message("Open anew now")


class OpeningAnew:
    """For one window; `opens_anew` tells that it closed to be opened anew."""

    def __init__(self, window: RecipeWindow) -> None:
        self._window = window
        self.opens_anew = False

    def say(self) -> None:
        """Say, in the language that was chosen, what will be otherwise; nothing if all is as is."""
        self._window.settings.write_out()  # what is wanted is read from the file
        wanted, size = wanted_language(), self._window.settings.size
        catalogue = catalogue_if_any(f"program_{wanted}")

        def said(text: str) -> str:
            return text if catalogue is None else catalogue.gettext(text)

        told = []
        if wanted != spoken():
            told.append(said(NEXT_START).format(language=LANGUAGES[wanted]))
        if size != drawn_size():
            told.append(said(NEXT_SIZE).format(size=size))
        if not told:
            self._window.messages.withdraw(TOPIC)
            return
        text = " ".join([*told, said(ANEW)])
        self._window.messages.say(text, actions=[(said(OPEN_ANEW), self._open)], topic=TOPIC)

    def _open(self) -> None:
        self.opens_anew = True
        self._window.close()
