"""Sound on or off, how loud, and a test, behind one button that says how it stands."""

from __future__ import annotations

from PySide6.QtGui import QAction, QActionGroup
from PySide6.QtWidgets import QMenu

from designer.translation import tr
from designer.window.brew.alarm import Alarm
from designer.window.brew.large_button import LargeButton
from designer.window.parts.settings import VOLUMES, Settings


class SoundButton(LargeButton):
    """The sound of the timers."""

    def __init__(self, alarm: Alarm, settings: Settings) -> None:
        super().__init__("", "", self.open_menu)
        self._alarm, self._settings = alarm, settings
        self.menu_of_sound = QMenu(self)
        self.menu_of_sound.setObjectName("largeMenu")
        self.on_action = self._added(tr("Sound"), self._turn)
        self.on_action.setCheckable(True)
        self.test_action = self._added(tr("Test the sound"), alarm.test)
        self.menu_of_sound.addSeparator()
        self._volumes = QActionGroup(self)
        for volume in VOLUMES:
            action = self._added(tr("Volume {volume} %", volume=volume), self._set_volume)
            action.setCheckable(True)
            action.setData(int(volume))
            self._volumes.addAction(action)
        settings.changed.connect(self.refresh)
        alarm.sound.silent.connect(self.refresh)
        alarm.sound.played.connect(self.refresh)
        self.refresh()

    def _added(self, text: str, act: object) -> QAction:
        action = self.menu_of_sound.addAction(text)
        action.triggered.connect(lambda _checked=False: act())  # type: ignore[operator]
        return action

    def refresh(self) -> None:
        """Say how it stands."""
        on, trouble = self._settings.brew_sound, self._alarm.sound.trouble
        words = tr("Sound: on") if on else tr("Sound: off")
        if on and trouble:
            words = tr("No sound here")
        if words != self.text():
            self.setText(words)
        self.setToolTip(trouble or tr("Sound of the timers: on or off, how loud, and a test"))
        self.on_action.setChecked(on)
        for action in self._volumes.actions():
            action.setChecked(action.data() == self._settings.brew_volume)

    def open_menu(self) -> None:
        """Offer what can be set."""
        below = self.mapToGlobal(self.rect().bottomLeft())
        self.menu_of_sound.popup(below)

    def _turn(self) -> None:
        self._settings.brew_sound = not self._settings.brew_sound

    def _set_volume(self) -> None:
        chosen = self._volumes.checkedAction()
        if chosen is not None:
            self._settings.brew_volume = int(chosen.data())
            self._alarm.test()
