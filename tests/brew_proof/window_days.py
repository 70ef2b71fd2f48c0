"""A simulated brewer brews in the window itself: `python -m tests.brew_proof.window_days [days]`.

Each day has a truth that the program does not see (`hidden_days`). The brewer presses Space when a
step is due, types what his instruments show into the blank that comes next, answers what the page
asks, and does what it proposes, or with `--keeps` leaves it. The clock is driven; the page, its
keys, the log on the disk and the reckoning beside the window are the program's own.

After the last day every log is read back from the disk and held against what the page knew.

Counted are, for each of the five forecasts: how many of a hundred days the last forecast holds, how
wide it is beside the plan's, and how many days end inside the plan's own band.
"""

import argparse
import os
import shutil
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path

from designer.brewday.measured.readings import Measured
from designer.library.recipe_file import load
from designer.resource_files import resource_path
from designer.workbench.brew.as_brewed import as_brewed, readings_as_brewed
from designer.workbench.brew.schedule import schedule_of
from tests.brew_proof.hidden_days import FORECASTS, HiddenDays, Taken

EXAMPLE = "harbour_lamp_porter"
WANTED = (0.87, 0.93)
PATIENCE_S = 60.0
WRITTEN = {"volume": "{:.2f} L", "temperature": "{:.1f} °C", "gravity": "{:.4f}"}


class Day:
    """One day of the brewer: what he has measured, and what is really in his vessels."""

    def __init__(self, recipe, seed):
        self.recipe, self.seed = recipe, seed
        self.taken: list[Taken] = []

    def hidden(self, brewing):
        """Return the day as it really is, of the recipe as it has become by now."""
        done = {
            each.what: each.value
            for each in readings_as_brewed(brewing)
            if each.what is Measured.TOPPED_UP  # and what was poured in since
        }
        recipe = as_brewed(self.recipe, brewing)
        return HiddenDays(recipe, tuple(self.taken), 1, self.seed, done)

    def reads(self, blank, brewing):
        """Return what his instrument shows him at a blank."""
        taken = Taken(blank.what, blank.by)
        self.taken.append(taken)
        readings = self.hidden(brewing).readings(0)
        return next(each.value for each in readings if each.what is taken.what)


class Brewer:
    """Brews days on the page of a window; `accepts` tells whether he does what is proposed."""

    def __init__(self, page, clock, accepts):
        self.page, self.clock, self.accepts = page, clock, accepts
        self.answers = Counter()
        self.logs = {}

    def brew(self, recipe, seed):
        """Brew a day from filling the pot to closing the fermenter; return how it really went."""
        from PySide6.QtCore import Qt

        from designer.window.brew.part_names import Part

        page, day = self.page, Day(recipe, seed)
        page.brew.leave()
        page.show_part(Part.STOVE)
        self._press(Qt.Key.Key_Space)  # begins the day
        self._until(lambda: page.brew.brewing is not None and not self._busy())
        while page.brew.brewing.now is not None:
            self._wait_until_due(page.brew.brewing.now.key)
            self._measure(day)
            self._answer()
            key = page.brew.brewing.now.key  # another where something was proposed before it
            self._press(Qt.Key.Key_Space)
            brewing = page.brew.brewing
            if brewing.now is not None and brewing.now.key == key:
                raise AssertionError(f"{key} cannot be done: {page.brew.doubtful}")
        self._until(lambda: not self._busy())
        self._press(Qt.Key.Key_Space)  # the day is over
        assert page.brew.brewing.finished is not None
        self._until(lambda: page.window().keeping.brews.settled)
        self.logs[page.brew.brew.uid] = [each.id for each in page.brew.brewing.entries]
        return day

    def _wait_until_due(self, key):
        brewing, now = self.page.brew.brewing, self.clock.now()
        at = {each.step.key: each.at for each in schedule_of(brewing, brewing.timers, now).steps}
        self.clock.go_on(max(at[key] - now.wall, 1.0))

    def _measure(self, day):
        """Type what is read at this step into its blanks, as they come."""
        from PySide6.QtCore import Qt
        from PySide6.QtTest import QTest

        from designer.window.brew.strip_cells import place_of

        for blank in self.page.brew.brewing.now.blanks:
            cell = self.page.strip.cells[place_of(blank)]
            if cell.cell.is_measured:
                continue  # something was proposed before this step, and done first
            field, value = cell.field, day.reads(blank, self.page.brew.brewing)
            field.setFocus()
            QTest.keyClicks(field, WRITTEN[str(blank.kind)].format(value))
            QTest.keyClick(field, Qt.Key.Key_Return)
            if self.page.brew.doubtful is not None:
                self.answers["asked whether it can be"] += 1
                *_, anyway, _again = self.page.measuring.doubt.buttons
                QTest.mouseClick(anyway, Qt.MouseButton.LeftButton)
            self._until(lambda: not self._busy())

    def _answer(self):
        """Do what is proposed, or leave it."""
        from PySide6.QtCore import Qt
        from PySide6.QtTest import QTest

        card = self.page.measuring.proposal
        for _ in range(5):
            if card.proposal is None:
                return
            self.answers[card.proposal.code] += 1
            button = card.use_button if self.accepts else card.keep_button
            QTest.mouseClick(button, Qt.MouseButton.LeftButton)
            self._until(lambda: not self._busy())

    def _busy(self):
        return self.page.brew.reckoning

    def _press(self, key):
        from PySide6.QtTest import QTest

        self.page.take_focus()
        QTest.keyClick(self.page.focusWidget() or self.page, key)

    def _until(self, holds):
        from PySide6.QtWidgets import QApplication

        end = time.monotonic() + PATIENCE_S
        while True:
            QApplication.processEvents()
            if holds():
                return
            if time.monotonic() > end:
                raise AssertionError("the page does not answer")
            time.sleep(0.001)


def opened_page(folder, name):
    """Return the page of a window on an example recipe, and the clock that drives it."""
    os.environ["HOBWORT_STORE"] = os.environ["HOBWORT_SETTINGS"] = str(folder)
    from PySide6.QtWidgets import QApplication

    from designer.window.start import Settings, made_application, opened_window
    from tests.driven_clock import DrivenClock

    application = made_application()
    path = Path(folder) / f"{name}.hobwort"
    shutil.copy(resource_path(f"examples/{name}.hobwort"), path)
    window = opened_window(path, Settings(application), keeping=True, waiting=True)
    window.brew_clock = clock = DrivenClock()
    window.resize(1280, 800)
    window.show()
    end = time.monotonic() + PATIENCE_S
    while window.autosave is None or window.autosave.store.busy:
        QApplication.processEvents()
        assert time.monotonic() < end
    window.show_page(window.page_names.index("Brew day"))
    window.activateWindow()
    QApplication.processEvents()
    return window.brew_page, clock


class Count:
    """What comes of many days, by forecast."""

    def __init__(self):
        self.days, self.held, self.inside, self.width = 0, Counter(), Counter(), Counter()

    def add(self, day, brew):
        """Count a day that is over."""
        truth, plan, now = (
            day.hidden(brew.brewing).truth,
            brew.outlook_planned.forecasts,
            brew.outlook.forecasts,
        )
        self.days += 1
        for key in FORECASTS:
            true = float(truth[key][0])
            self.held[key] += now[key].low <= true <= now[key].high
            self.inside[key] += plan[key].low <= true <= plan[key].high
            self.width[key] += (now[key].high - now[key].low) / (plan[key].high - plan[key].low)

    def said(self):
        """Return the table, and whether all shares of days lie where they are wanted."""
        heads = ("held by the forecast", "width beside the plan's", "inside the plan's band")
        lines = [f"{'':20}" + "".join(f"{head:>25}" for head in heads)]
        for key in FORECASTS:
            shares = (self.held[key], self.width[key], self.inside[key])
            lines.append(f"{key:20}" + "".join(f"{each / self.days:25.3f}" for each in shares))
        held = [self.held[key] / self.days for key in FORECASTS]
        return "\n".join(lines), all(WANTED[0] <= each <= WANTED[1] for each in held)


def brewed_days(days, *, accepts=True, first=1, name=EXAMPLE, told=None):
    """Brew so many days in a window; return what comes of them, and what the page asked."""
    folder = tempfile.mkdtemp(prefix="hobwort-days-")
    try:
        page, clock = opened_page(folder, name)
        recipe = load(resource_path(f"examples/{name}.hobwort"))
        brewer, count = Brewer(page, clock, accepts), Count()
        for seed in range(first, first + days):
            count.add(brewer.brew(recipe, seed), page.brew)
            if told is not None:
                told(count)
        _until_written(page.window().autosave.store)
        _read_back(folder, brewer.logs)
        return count, brewer.answers
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def _until_written(store):
    """Wait until the last entry is on the disk: it is written beside the window, after its key."""
    from PySide6.QtWidgets import QApplication

    end = time.monotonic() + PATIENCE_S
    QApplication.processEvents()
    while store.busy:
        QApplication.processEvents()
        assert time.monotonic() < end


def _read_back(folder, logs):
    """Hold what is on the disk, in the box or in a journal beside it, against what was logged."""
    from designer.library.store import Store
    from designer.library.store.brew_journal import journals
    from designer.workbench.brew.entries_text import entries_of

    found = {uid: set() for uid in logs}
    with Store.open(Path(folder)) as store:
        for brew in store.brews.all():
            lines = [each.entry for each in store.brews.lines(brew.id)]
            found[brew.uid] |= {each.id for each in entries_of(lines)}
    for journal in journals(Path(folder)):
        found[journal.brew.uid] |= {each.id for each in entries_of(journal.entries)}
    for uid, ids in logs.items():
        assert not set(ids) - found[uid], f"not on the disk: {set(ids) - found[uid]}"


def main():
    """Print the table; 1 if a share of days lies outside what is wanted."""
    asked = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    asked.add_argument("days", nargs="?", type=int, default=1000)
    asked.add_argument("--keeps", action="store_true", help="leave what is proposed")
    asked.add_argument("--first", type=int, default=1, help="the number of the first day")
    asked.add_argument("--example", default=EXAMPLE, help="name of the example recipe")
    given = asked.parse_args()
    start = time.monotonic()

    def told(count):
        if count.days % 50 == 0:
            sys.stderr.write(f"{count.days} days, {time.monotonic() - start:.0f} s\n")

    count, answers = brewed_days(
        given.days, accepts=not given.keeps, first=given.first, name=given.example, told=told
    )
    table, is_wanted = count.said()
    how = "proposals left" if given.keeps else "proposals taken"
    sys.stdout.write(f"{count.days} days in the window, {how}\n{table}\n{dict(answers)}\n")
    sys.stdout.flush()
    return 0 if is_wanted else 1


if __name__ == "__main__":
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    code = main()
    sys.stdout.flush()
    os._exit(code)  # windows and threads end with the process
