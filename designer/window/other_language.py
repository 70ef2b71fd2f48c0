"""Another language was chosen: the window is opened anew in it, now or at the next start.

What a window shows was put into words when each part was made, so the whole program starts anew. It
closes as it always does, once all is kept, and goes on where it was: draft, file and brew. Only the
steps that Undo knows end with it, as at each end of the program; that is said beforehand.
"""

from __future__ import annotations

from designer.spoken_language import LANGUAGES, catalogue_if_any, wanted_language
from designer.translation import message, spoken
from designer.window.session.recipe_window import RecipeWindow

TOPIC = "language"
NEXT_START = message("Hobwort speaks {language} from its next start on.")
ANEW = message(
    "It can open anew now: all is kept, and it goes on where you are. Undo begins anew then."
)
OPEN_ANEW = message("Open anew now")


class OtherLanguage:
    """For one window; `opens_anew` tells that it closed to be opened anew."""

    def __init__(self, window: RecipeWindow) -> None:
        self._window = window
        self.opens_anew = False

    def say(self) -> None:
        """Say, in the language that was chosen, when it will be spoken."""
        self._window.settings.write_out()  # what is wanted is read from the file
        wanted = wanted_language()
        if wanted == spoken():
            self._window.messages.withdraw(TOPIC)
            return
        catalogue = catalogue_if_any(f"program_{wanted}")
        soon, anew, button = (
            text if catalogue is None else catalogue.gettext(text)
            for text in (NEXT_START, ANEW, OPEN_ANEW)
        )
        said = f"{soon.format(language=LANGUAGES[wanted])} {anew}"
        self._window.messages.say(said, actions=[(button, self._open)], topic=TOPIC)

    def _open(self) -> None:
        self.opens_anew = True
        self._window.close()
