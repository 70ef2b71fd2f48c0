"""A beer that is brought as far as a test wants it, by what a brewer types and by time."""

import re

from PySide6.QtCore import QDate, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from designer.window.brew.part_names import Part
from tests.shown_texts import shown_texts

DAY_S = 86_400.0
GRAMS = re.compile(r"\d\s*(?:g|kg|oz|lb)\b")


class Beer:
    """The beer on a page of a brew day, and the part that shows it."""

    def __init__(self, qtbot, page, clock):
        self.qtbot, self.page, self.clock = qtbot, page, clock

    @property
    def part(self):
        return self.page.parts.of(Part.FERMENTING)

    @property
    def packing(self):
        return self.part.packing

    @property
    def known(self):
        return self.page.brew.beer.fermenting

    def settle(self):
        """Wait until all that follows is known and shown."""
        self.qtbot.waitUntil(lambda: not self.page.brew.reckoning_beer, timeout=30_000)

    def pitch(self):
        """Do the day at the stove, and finish it."""
        if self.page.brew.brewing is None:
            self.page.do()
        while (step := self.page.brew.brewing.now) is not None:
            self.clock.go_on(max(60.0 * step.minutes - self.clock.true_s, 0.0))
            self.page.brew.done(step.key)
        self.page.brew.finish()
        self.settle()
        self.page.show_part(Part.FERMENTING)
        self.settle()
        return self

    def on_day(self, day):
        """Let time go by until so many days after pitching."""
        since = self.clock.now().wall - self.page.brew.beer.pitched
        self.clock.go_on(max(day * DAY_S - since, 0.0))
        self.page.brew.look_at_beer()
        self.settle()

    def type_reading(self, text, *, scale="SG", sample="", by="", day=None):
        """Type a reading by keys, days after pitching if it was not now."""
        self.part.take_focus()
        self.press(Qt.Key.Key_N)
        form = self.part.reading_form
        assert form.isVisible()
        self.keys(text)
        form.scale.setCurrentText(scale)
        form.scale.activated.emit(form.scale.currentIndex())
        if by:
            form.by.setCurrentText(by)
            form.by.activated.emit(form.by.currentIndex())
        if sample:
            form.sample.setFocus()
            self.keys(sample)
        if day is not None:
            start = self.page.brew.beer.when(day)
            form.moment.day.setDate(QDate(start.year, start.month, start.day))
        self.press(Qt.Key.Key_Return)
        self.settle()
        return form

    def read_until_done(self, gravity="1.013"):
        """Read the same on days enough that nobody doubts it."""
        for day in (9, 12, 15, 18):
            self.on_day(day)
            self.type_reading(gravity)

    def press(self, key, modifier=Qt.KeyboardModifier.NoModifier):
        QTest.keyClick(QApplication.focusWidget(), key, modifier)

    def keys(self, text):
        QTest.keyClicks(QApplication.focusWidget(), text)

    def figure(self, field, text):
        """Type a figure of packaging and leave the field."""
        field.setFocus()
        field.selectAll()
        QTest.keyClicks(field, text)
        QTest.keyClick(field, Qt.Key.Key_Return)

    def click(self, widget):
        self.part.area.ensureWidgetVisible(widget)
        QTest.mouseClick(widget, Qt.MouseButton.LeftButton)

    def amounts(self):
        """All amounts of mass that the panels of packaging show, say or keep in a tip."""
        texts = {text for _, text in shown_texts(self.packing)}
        return {text for text in texts if GRAMS.search(text) and "g a litre" not in text} | {
            text for text in texts if "a litre" in text
        }

    def written(self, what):
        """The entries of that kind that count."""
        return [each for each in self.page.brew.brewing.live if each.what is what]
