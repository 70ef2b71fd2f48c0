"""What keeps the recipe of a window: its file, and the Recipe box, each from when it is wanted."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from designer.window.session.recipe_window import RecipeWindow

if TYPE_CHECKING:
    from designer.window.session.autosave import Autosave
    from designer.window.session.box_trouble import BoxTrouble
    from designer.window.session.brew_keeping import BrewKeeping
    from designer.window.session.brew_trouble import BrewTrouble
    from designer.window.session.saving import Saving
    from designer.window.session.taken_figures import TakenFigures

STOPPING_S, LEFT_S = 10.0, 0.5
"""How long the end of the program waits for the store; if the brewer has left what it owes."""


class Keeping(QObject):
    """For one window. Without `make_autosave` there is no Recipe box.

    `brews` keeps the logs of brews, `taken` tells the open recipe what was taken of what they
    taught; both are there from when the box is opened.

    With `looks_back` what was open last is shown once the box tells. `state_changed` tells that
    something else is to be said of what holds the recipe, and `unkept_changed` in words why the box
    keeps nothing, "" if it does, and whether it is damaged.
    """

    state_changed = Signal()
    unkept_changed = Signal(str, bool)
    version_wanted = Signal(object)
    begun = Signal()
    """From now on the box can be asked."""
    looked_back = Signal()
    """What was open last is shown now, if there is such a thing."""

    def __init__(
        self, window: RecipeWindow, make_autosave: Callable[[], Autosave] | None = None
    ) -> None:
        super().__init__(window)
        self._window, self._make_autosave = window, make_autosave
        self._saving: Saving | None = None
        self.looks_back = True
        self.trouble: BoxTrouble | None = None
        self.brews: BrewKeeping | None = None
        self.brew_trouble: BrewTrouble | None = None
        self.taken: TakenFigures | None = None

    @property
    def has_box(self) -> bool:
        """Whether there is a Recipe box, opened yet or not."""
        return self._make_autosave is not None

    @property
    def saving(self) -> Saving:
        """What reads, writes and watches the file; put together when the window is seen."""
        if self._saving is None:
            from designer.window.session.saving import Saving

            self._saving = Saving(self._window, self.say_trouble_again)
            self._saving.on_disk.trouble_changed.connect(self.state_changed)
        return self._saving

    def begin(self) -> None:
        """From now on the Recipe box keeps what is done here; what was open last is shown."""
        window = self._window
        if window.autosave is not None or self._make_autosave is None:
            return
        window.autosave = autosave = self._make_autosave()
        self._connect(autosave)
        autosave.written = window.settings.written
        autosave.begin(look_back=self.looks_back)
        if window.maintenance is not None:
            window.maintenance.begin()
        if self.taken is not None:
            self.taken.refresh()
        self.begun.emit()

    def _connect(self, autosave: Autosave) -> None:
        # They come with the Recipe box, once the window has been painted.
        from designer.window.session.box_maintenance import BoxMaintenance
        from designer.window.session.box_trouble import BoxTrouble
        from designer.window.session.brew_keeping import BrewKeeping
        from designer.window.session.brew_trouble import BrewTrouble
        from designer.window.session.taken_figures import TakenFigures

        window = self._window
        self.taken = TakenFigures(autosave, window.opened, self)
        self.brews = BrewKeeping(autosave, self)
        self.brews.state_changed.connect(self.state_changed)
        self.brew_trouble = BrewTrouble(window, self.brews)
        window.maintenance = maintenance = BoxMaintenance(autosave)
        autosave.said.connect(lambda text, grave: window.messages.say(text, grave=grave))
        autosave.offered.connect(lambda text, ways: window.messages.say(text, actions=ways))
        autosave.state_changed.connect(self.state_changed)
        self.saving.on_disk.trouble_changed.connect(autosave.note_last)
        autosave.version_wanted.connect(self.version_wanted)
        autosave.looked_back.connect(self.looked_back)
        autosave.holds_newest.connect(window.settings.forget_written)
        autosave.file_is_newest.connect(window.settings.note_written)
        self.trouble = BoxTrouble(window, autosave, maintenance, self.saving.save_as)
        self.trouble.unkept_changed.connect(self.unkept_changed)

    def say_trouble_again(self) -> None:
        """Say once more what keeps the box from keeping."""
        if self.trouble is not None:
            self.trouble.say_again()

    def state(self) -> str:
        """What holds the recipe of what is not in its file, in words; "" without a Recipe box."""
        return self._window.autosave.state if self._window.autosave is not None else ""

    # the whole box

    def copy_everything(self) -> None:
        """Ask for a file and copy everything into it."""
        window = self._window
        path = window.questions.copy_where(window)
        if path is not None and window.maintenance is not None:
            window.maintenance.copy_all(path)

    def bring_everything_back(self) -> None:
        """Ask for a backup or a copy and put it in place."""
        window = self._window
        if window.autosave is not None and window.maintenance is not None:
            path = window.questions.which_copy(window, str(window.autosave.backup_folder))
            if path is not None:
                window.maintenance.bring_back_all(path)

    def save_version(self) -> None:
        """Ask for a name and keep a version under it."""
        window = self._window
        window.finish_typing()
        if window.autosave is not None and window.opened.is_open:
            name = window.questions.version_name(window)
            if name is not None:
                window.autosave.save(name)

    def stop(self, *, was_left: bool) -> bool:
        """Let file and store go, for the end of the program; False if the store does not answer.

        Where the brewer has left what the store never answered, it need not be waited for.
        """
        self.saving.on_disk.stop()
        autosave, maintenance = self._window.autosave, self._window.maintenance
        if autosave is None or maintenance is None:
            return True
        is_left = not autosave.settled or (was_left and autosave.store.busy)
        within_s = LEFT_S if is_left else STOPPING_S
        if self.brews is not None:
            self.brews.close(within_s)
        has_cared = maintenance.close(within_s)
        return autosave.close(within_s) and has_cared
