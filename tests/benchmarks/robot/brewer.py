"""The robot itself: hands on the program, eyes on the screen and on the disk, and a model beside.

Deeds (editing.py, keeping.py, trouble.py) are functions of a `Brewer`. Every deed says what must
have changed; everything else must be as it was.
"""

from __future__ import annotations

import random
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from tests.benchmarks.robot.disk import Disk, Facts, Held, differences, key_of
from tests.benchmarks.robot.model import Model, State, found_on_disk
from tests.benchmarks.robot.program import Answers, EndedError, Program
from tests.benchmarks.robot.world import World

HUMAN_S, POLL_S = (0.04, 0.15), 0.04
GIVEN_UP = ("do not save", "leave it", "without", "give up", "discard", "overwrite", "write over",
            "theirs", "take what", "not keep", "from the file", "from the disk")  # fmt: skip
PUT_AWAY = "Put away"
NO_ANSWERS = (PUT_AWAY, "Undo")
"""Buttons of messages that ask nothing."""
LOSS, WRONG, STDERR, FREEZE, DAMAGE, STUCK, UNREADABLE = (
    "loss", "wrong value", "stderr", "freeze", "damaged store", "stuck", "unreadable",
)  # fmt: skip


class StopError(Exception):
    """The sitting cannot go on."""


@dataclass(frozen=True)
class Finding:
    """Something that must not be: what kind, at which action, and in words."""

    kind: str
    action: int
    words: str


@dataclass
class Counts:
    """What was done in a sitting."""

    actions: int = 0
    starts: int = 0
    closes: int = 0
    kills: int = 0
    faults: int = 0
    checks: int = 0


@dataclass
class Brewer:
    """One brewer at one program in one world."""

    seed: int
    world: World
    options: dict[str, Any]
    limit_s: float = 1.0
    model: Model = field(default_factory=Model)
    answers: Answers = field(default_factory=Answers)
    counts: Counts = field(default_factory=Counts)
    findings: list[Finding] = field(default_factory=list)
    log: list[str] = field(default_factory=list)
    draw: random.Random = field(default_factory=random.Random)
    program: Program | None = None
    touched: bool = False
    names: int = 0
    idle: int = 0
    early: str = ""

    def __post_init__(self) -> None:
        self.disk = Disk(self.world.folder)
        self.comma = bool(self.options.get("comma"))
        self._errors_seen = 0
        self._began = time.monotonic()

    # telling

    def say(self, words: str) -> None:
        """Put a line into the log of actions."""
        at = time.monotonic() - self._began
        trouble = f" [{self.world.trouble}]" if self.world.trouble else ""
        self.log.append(f"{at:8.2f} s  {self.counts.actions:4}{trouble}  {words}")

    def find(self, kind: str, words: str) -> None:
        """Note something that must not be."""
        self.findings.append(Finding(kind, self.counts.actions, words))
        self.say(f"!!! {kind.upper()}: {words}")

    # hands

    @property
    def on(self) -> Program:
        """The program that runs."""
        assert self.program is not None
        return self.program

    def press(self, key: str, modifiers: str = "") -> None:
        """Press one key, and wait until it has been answered."""
        self.on.ask("key", key=key, **{"with": modifiers})

    def type(self, text: str, *, human: bool) -> None:
        """Type a text, key by key in a hand's time, or as fast as it is taken."""
        if not human:
            self.on.ask("keys", text=text)
            return
        for sign in text:
            self.press(sign)
            self.on.sleep(self.draw.uniform(*HUMAN_S))

    def click(self, how: str = "click", modifiers: str = "", **at: Any) -> bool:
        """Click somewhere; False if there is nothing to click on."""
        reply = self.on.ask("click", at=at, how=how, **{"with": modifiers})
        if "cannot" in reply:
            self.say(f"cannot click: {reply['cannot']}")
        return "cannot" not in reply

    def aim_and_click(self, modifiers: str = "", **at: Any) -> bool:
        """See where something is, move there in a hand's time, and click on that point."""
        reply = self.on.ask("where", at=at)
        if "cannot" in reply:
            return False
        self.on.sleep(self.draw.uniform(0.05, 0.3))
        return self.click(modifiers=modifiers, point=reply["seen"])

    def is_human(self) -> bool:
        """Whether the next text is typed at a hand's speed."""
        return self.draw.random() < float(self.options.get("human", 0.25))

    def new_name(self, what: str) -> str:
        """Return a name that no catalogue has and that was not used before."""
        self.names += 1
        return f"{what} {self.seed}-{self.names}"

    # eyes

    def look(self) -> dict[str, Any]:
        """Return what the window shows."""
        return dict(self.on.ask("look")["seen"])

    def page(self) -> dict[str, Any]:
        """Return tables and fields of the page shown."""
        return dict(self.on.ask("page")["seen"])

    def document(self) -> Facts:
        """Return the facts of the open recipe, as a file of it would be opened again."""
        from designer.errors import DesignerError
        from tests.benchmarks.robot.disk import facts_of_text

        seen = self.on.ask("document")["seen"]
        if "gone" in seen:
            raise EndedError
        self.model.path, self.model.unsaved = seen["path"], seen["unsaved"]
        try:
            return facts_of_text(seen["text"])
        except DesignerError as fault:
            self.find(UNREADABLE, f"what is open could not be opened again: {fault}")
            raise StopError from fault

    def watch_errors(self) -> None:
        """Note what the program wrote to stderr."""
        if self.program is not None:
            text = self.program.errors()
            if len(text) > self._errors_seen:
                self.find(STDERR, text[self._errors_seen :][-1500:])
            self._errors_seen = len(text)

    # the model

    def check(
        self, changes: Facts, *, free: tuple[str, ...] = (), steps_known: bool = True
    ) -> None:
        """The recipe must be what it was with some changes; places that begin so are free."""
        facts = self.document()
        self.counts.checks += 1
        before = self.last_facts()
        wanted = {**before, **changes}
        wrong = {
            place: values
            for place, values in differences(wanted, facts).items()
            if not (free and place.startswith(free)) and values != (None, None)
        }
        if wrong:
            told = "; ".join(
                f"{place}: should be {want!r}, is {got!r}"
                for place, (want, got) in list(wrong.items())[:4]
            )
            self.find(WRONG, told)
        self.touched = self.touched or key_of(before) != key_of(facts)
        self.model.edited(facts, steps_known=steps_known and not wrong)

    def last_facts(self) -> Facts:
        """Return the facts of the last state that was looked at."""
        return next(each for each in reversed(self.model.trail) if not each.typing).facts

    def typing(self, *places: str) -> None:
        """Something is going to be typed at some places."""
        self.model.typing(*places)
        self.touched = True

    def take_over(self, *, opened: bool) -> None:
        """Take what is shown for the recipe that is open, whatever it is."""
        facts = self.document()
        if opened:
            self.model.opened(facts, self.model.path)
            self.touched = False
        else:
            self.model.edited(facts, steps_known=False)

    def glance(self, *, surely: bool = False) -> dict[str, Any]:
        """Look; where the header says kept, it must be so on disk (looked up now and then)."""
        seen = self.look()
        if says_kept(seen["state"]) and not self.model.now.typing and self.touched:
            self.model.confirm()
            if surely or self.world.trouble or self.draw.random() < 0.3:
                self.counts.checks += 1
                if not self.is_on_disk(self.model.now):
                    self.find(LOSS, f"the header says “{seen['state']}”, and it is nowhere on disk")
        return seen

    def is_on_disk(self, state: State) -> bool:
        """Whether a state is in the store or in a recipe file."""
        return found_on_disk([state], self.disk.held(), self.file_facts()) is not None

    def file_facts(self) -> list[Facts]:
        """Return what all recipe files hold that can be read."""
        found = [self.disk.file(path) for path in self.recipe_files()]
        return [each[1] for each in found if each is not None]

    def recipe_files(self) -> list[Path]:
        """Return every recipe file in the folders that the brewer uses."""
        folders = (self.world.files, self.world.elsewhere, self.world.disk / "recipes of before")
        return [path for each in folders if each.is_dir() for path in each.glob("*.hobwort")]

    def until(self, wanted: Callable[[], bool], seconds: float) -> bool:
        """Wait until something is so; False if it is not within a time."""
        waited, last = 0.0, time.monotonic()
        while not wanted():
            if waited > seconds:
                return False
            self.on.sleep(POLL_S)
            now = time.monotonic()
            waited += min(now - last, 3 * POLL_S)  # a machine with other work to do counts less
            last = now
        return True

    def until_kept(self, seconds: float = 8.0) -> bool:
        """Wait until the header says that it is kept."""
        return self.until(lambda: says_kept(self.look()["state"]), seconds)

    # after it has ended

    def audit(self, ended_at: float, *, why: str) -> State | None:
        """With the program gone: is everything there? Return what was open, as it is on disk."""
        self.counts.checks += 1
        damage = self.disk.sound()
        if damage:
            self.find(DAMAGE, f"after {why}: {damage}")
        held = self.disk.held()
        if held.unreadable:
            self.find(UNREADABLE, f"{len(held.unreadable)} documents in the store cannot be opened")
        for words in self.model.missing(held):
            self.find(LOSS, f"after {why} this is gone: {words}")
        self._check_files()
        if not self.touched:
            return None
        allowed: list[State] = self.model.may_be_left(ended_at, self.answers.machine_late())
        found = found_on_disk(allowed, held, self.file_facts())
        if found is None and any(each.clean for each in allowed):
            return None
        if found is None:
            self.find(LOSS, f"after {why} the open recipe is nowhere: {self._nearest(held)}")
        return found

    def _nearest(self, held: Held) -> str:
        """Say how the nearest recipe on disk differs from what should be there."""
        facts = self.last_facts()
        all_of_them = [*held.drafts.values(), *held.versions.values()]
        if not all_of_them:
            return "the store holds nothing"
        nearest = min(all_of_them, key=lambda each: len(differences(facts, each)))
        return f"nearest on disk (wanted, found): {list(differences(facts, nearest).items())[:4]}"

    def _check_files(self) -> None:
        """Each recipe file holds what was written last, and nothing of other hands is lost."""
        if "files gone" in self.world.trouble:
            return
        for path, key in self.model.files.items():
            found = self.disk.file(path)
            if found is None or found[0] != key:
                self.find(LOSS, f"{path.name} does not hold what was saved to it")
                self.model.files[path] = found[0] if found is not None else ""
        if self.model.theirs:
            held, files = self.disk.held(), [key_of(each) for each in self.file_facts()]
            for key, words in list(self.model.theirs.items()):
                if not held.has(key) and key not in files:
                    self.find(LOSS, f"{words} was written over unasked")
                    del self.model.theirs[key]


def says_kept(state: str) -> bool:
    """Whether the words of the header promise that the recipe is kept."""
    plain = state.lower()
    if any(each in plain for each in ("keeping", "not kept", "not yet", "unkept")):
        return False
    return "kept" in plain or plain.startswith("saved")


def gives_up(button: str) -> bool:
    """Whether a button, by its words, lets something go that was not kept."""
    return any(each in button.lower() for each in GIVEN_UP)
