"""A phone with the pocket page of a recipe in it: what a brewer touches, and what then is seen."""

from __future__ import annotations

import json
import re
import time
from pathlib import Path

from designer.brewday.outlook import look_ahead
from designer.recipe.document import Recipe
from designer.sheet.pocket.page import pocket_page
from designer.sheet.stove import StoveStep, stove_steps
from designer.units import ShownUnits

from .browser import Browser, Page

READY = "document.documentElement.classList.contains('js')"
CLOCK = """
(() => {
  const [now, up, Plain] = [Date.now, performance.now.bind(performance), Date];
  window.moved = {wall: WALL, up: UP};
  window.Date = class extends Plain {
    constructor(...given) {
      if (given.length) super(...given); else super(now() + window.moved.wall);
    }
    static now() { return now() + window.moved.wall; }
  };
  performance.now = () => up() + window.moved.up;
  TROUBLE
})();
"""
REFUSED = """
  for (const name of ["localStorage", "indexedDB"]) Object.defineProperty(window, name, {
    get() { throw new DOMException("refused", "SecurityError"); },
  });
"""


def written_page(
    recipe: Recipe, folder: Path, language: str = "en", units: ShownUnits = ShownUnits.METRIC
) -> tuple[Path, tuple[StoveStep, ...]]:
    """Write a page as the command does; return where, and its steps."""
    outlook = look_ahead(recipe, ranges=False)
    wishes = {"shown": units, "start": None, "brew_date": None, "language": language}
    place = folder / f"pocket-{language}.html"
    place.write_text(pocket_page(recipe, outlook, **wishes), "utf-8")
    return place, stove_steps(recipe, outlook, **wishes)


class Phone:
    """A page in a tab whose clock can be moved: both its clocks, as if time passed, or one."""

    def __init__(
        self, browser: Browser, place: Path, steps: tuple[StoveStep, ...], **shown: object
    ) -> None:
        self.browser, self.place, self.steps = browser, place, steps
        self.wall = self.up = 0.0
        self._refuses = bool(shown.pop("refuses", False))
        self._context = browser.ask("Target.createBrowserContext")["browserContextId"]
        if shown.pop("kept", False):
            self._context = ""
        self._shown = shown
        self.open()

    def open(self) -> None:
        """Open the page in a new tab."""
        self.page: Page = self.browser.page("", context=self._context, **self._shown)
        self._script = ""
        self._install_clock()
        self.page.go(self.place.as_uri())
        self.page.wait(READY)

    def again_in(self, browser: Browser) -> Phone:
        """Return the same phone with its browser started anew, its clock going on."""
        made = Phone.__new__(Phone)
        made.__dict__.update(self.__dict__)
        made.browser = browser
        made.open()
        return made

    def reload(self) -> None:
        """Load the page anew."""
        self._install_clock()
        self.page.reload()
        self.page.wait(READY)

    def close(self) -> None:
        """Shut the tab."""
        self.page.close()

    def _install_clock(self) -> None:
        if self._script:
            self.page.ask("Page.removeScriptToEvaluateOnNewDocument", identifier=self._script)
        text = CLOCK.replace("WALL", str(1000 * self.wall)).replace("UP", str(1000 * self.up))
        text = text.replace("TROUBLE", REFUSED if self._refuses else "")
        told = self.page.ask("Page.addScriptToEvaluateOnNewDocument", source=text)
        self._script = told["identifier"]

    def pass_time(self, minutes: float) -> None:
        """Let time pass; the page's next tick sees it."""
        self._move(60 * minutes, 60 * minutes)

    def now_s(self) -> float:
        """Return the time that the page goes by."""
        return float(self.page.value("Date.now()")) / 1000

    def let_it_be(self, seconds: float) -> None:
        """Let time pass until an instant of the page's clock."""
        self.pass_time((seconds - self.now_s()) / 60)

    def sleep(self, minutes: float) -> None:
        """Let the phone sleep: the wall's clock goes on, that of the page stands still."""
        self._move(60 * minutes, 0.0)

    def set_clock(self, minutes: float) -> None:
        """Set the phone's clock forward or back."""
        self._move(60 * minutes, 0.0)

    def _move(self, wall: float, up: float) -> None:
        self.wall += wall
        self.up += up
        self.page.value(
            f"window.moved = {{wall: {1000 * self.wall}, up: {1000 * self.up}}}, "
            "window.dispatchEvent(new Event('focus')), true"
        )

    # what is touched

    def number(self, key: str) -> int:
        """Return the number of a step by the end of its key."""
        [found] = [n for n, each in enumerate(self.steps, 1) if each.key.endswith(key)]
        return found

    def tick(self, key: str) -> None:
        """Tick a step's box."""
        self.page.tap(f"#step-{self.number(key)} .tick input")

    def go_on(self) -> None:
        """Press the large button of the step now."""
        self.page.tap(".step.now .act .main")

    def until(self, key: str) -> None:
        """Do all steps before that of a key."""
        for _ in range(self.number(key) - 1):
            self.go_on()

    def measure(self, label: str, text: str, sample: str = "") -> None:
        """Type into a blank of the step that is seen, and leave it."""
        places = self.page.value(
            "[...document.querySelectorAll('.blank')].filter(e => e.offsetParent && "
            f"e.querySelector('label').textContent === {json.dumps(label)}).map("
            "e => [...e.querySelectorAll('input')].map(i => i.id))"
        )
        for place, typed in zip(places[0], (text, sample), strict=False):
            if typed:
                self.page.tap(f"#{place}")
                self.page.value("document.activeElement.select(), true")
                self.page.type(typed)
                self.page.value("document.activeElement.blur(), true")

    # what is seen

    def states(self) -> dict[str, str]:
        """Return how each step stands, by its key: done, out, now, or nothing."""
        return self.page.value(
            "Object.fromEntries([...document.querySelectorAll('.step')].map(e => [e.dataset.key, "
            "['done', 'out', 'now'].find(c => e.classList.contains(c)) || '']))"
        )

    @property
    def done(self) -> list[str]:
        """The keys of the steps that are done."""
        return [key for key, state in self.states().items() if state == "done"]

    @property
    def call(self) -> str:
        """What is called for."""
        return self.page.text("#call").strip()

    def left_s(self, number: int = 1) -> float:
        """Return what a timer shows, in seconds; below 0 it is over."""
        text = self.page.text(f".timer:nth-child({number}) .left")
        parts = [int(each) for each in re.findall(r"\d+", text)]
        seconds = sum(each * 60**place for place, each in enumerate(reversed(parts)))
        return -seconds if "over" in text else seconds

    @property
    def timers(self) -> list[str]:
        """The names of the timers that are seen."""
        return self.page.value("[...document.querySelectorAll('.timer .of')].map(e => e.innerText)")

    def text_to_paste(self) -> str:
        """Return the text that takes the log to the computer."""
        self.page.tap("#show-code")
        self.page.wait("document.getElementById('code').value.includes('END')")
        return str(self.page.value("document.getElementById('code').value"))

    def wait_until_kept(self) -> None:
        """Wait until the page says that all is kept."""
        self.page.wait("document.getElementById('kept').textContent !== ''")

    def wait_for(self, text: str) -> None:
        """Wait until something is called for."""
        told = f"document.getElementById('call').innerText.includes({json.dumps(text)})"
        self.page.wait(told)

    def faults(self) -> list[str]:
        """Return what the page complained of, or was refused."""
        return [json.dumps(each["params"])[:500] for each in self.page.faults()]


def requests(browser: Browser) -> list[str]:
    """Return the addresses that any page asked for."""
    return [
        each["params"]["request"]["url"]
        for each in browser.events
        if each.get("method") == "Network.requestWillBeSent"
    ]


def soon(seconds: float) -> float:
    """Return an instant of the monotonic clock."""
    return time.monotonic() + seconds
