"""What a brewer does with whole recipes: save, open, begin anew, close; and what a crash does."""

from __future__ import annotations

import time
from pathlib import Path
from typing import Any

from tests.benchmarks.robot import editing
from tests.benchmarks.robot.brewer import (
    LOSS,
    NO_ANSWERS,
    STUCK,
    WRONG,
    Brewer,
    StopError,
    gives_up,
    says_kept,
)
from tests.benchmarks.robot.disk import Facts, differences, key_of
from tests.benchmarks.robot.model import State, found_on_disk
from tests.benchmarks.robot.program import EndedError, Program, SilentError

EARLY = "0.91 kg"
NOTHING_OPEN, EXAMPLE = "Hobwort", "Harbour Lamp Porter"


# starting


def start(brewer: Brewer, *, arguments: tuple[str, ...] = (), early: bool = False) -> None:
    """Start the program; `early` opens the example and types as soon as the window is seen."""
    brewer._errors_seen = 0
    brewer.counts.starts += 1
    brewer.program = Program(
        brewer.world.folder, brewer.answers, brewer.options, arguments, brewer.limit_s
    )
    brewer.on.wait_shown()
    brewer.say(f"window seen{' and typed in at once' if early else ''}")
    if early:
        waited = brewer.draw.choice((0.0, 0.02, 0.05, 0.1, 0.15, 0.25))
        brewer.on.sleep(waited)
        _open_example(brewer)
        before = brewer.look()["focus"]
        brewer.type(EARLY, human=False)
        brewer.early = f"after {waited} s, keys went to {before}, then to {brewer.look()['focus']}"
        brewer.press("Return")


def _open_example(brewer: Brewer) -> bool:
    """Go through the third door to the example."""
    brewer.press("N", "CS")
    brewer.press("3", "A")
    return brewer.click(button=EXAMPLE)


def open_something(brewer: Brewer) -> bool:
    """Open the example if nothing is open; tell whether that was so."""
    is_needed = brewer.look()["title"] == NOTHING_OPEN
    if is_needed:
        brewer.say("nothing is open: the example")
        _open_example(brewer)
        brewer.on.sleep(1.0)
    return is_needed


def go_on(brewer: Brewer, left: list[State], *, early: bool = False) -> None:
    """After a start: what was left must be shown, or be found in the box."""
    keys = {each.key for each in left}
    usual = 2.0 if early else 8.0 if left else 1.5
    shown = _settled(brewer, keys, usual + 6.0 * brewer.answers.machine_late())
    if open_something(brewer):
        shown = brewer.document()
    brewer.model.opened(shown, brewer.model.path)
    brewer.model.somewhere.pop(key_of(shown), None)  # it is open now, and may be changed
    brewer.touched = False
    if early:
        _check_early(brewer, left, shown)
        return
    brewer.model.undo = brewer.model.redo = None
    if left and key_of(shown) not in keys and not any(each.is_held_by(shown) for each in left):
        _must_be_in_box(brewer, left)
        return
    brewer.touched = bool(left) and brewer.model.unsaved
    if left and key_of(shown) == left[-1].key:
        brewer.say("going on where it was left")


def _settled(brewer: Brewer, keys: set[str], seconds: float) -> Facts:
    """Wait until one of some recipes is shown, or until it is clear that none will be."""
    end = time.monotonic() + seconds
    while True:
        facts = brewer.document()
        seen = brewer.look()
        is_late = time.monotonic() > end
        if (keys and key_of(facts) in keys) or (is_late and not seen["busy"]):
            return facts
        if time.monotonic() > end + 30.0:
            return facts
        said = seen["message"]["text"].lower()
        if keys and any(each in said for each in ("going on", "is kept", "find it in")):
            brewer.on.sleep(0.3)
            return brewer.document()
        brewer.on.sleep(0.05)


def _must_be_in_box(brewer: Brewer, left: list[State]) -> None:
    held = brewer.disk.held()
    found = found_on_disk(left, held, brewer.file_facts())
    if found is None:
        said = brewer.look()["message"]["text"]
        brewer.find(LOSS, f"what was left is neither shown nor in the box; it says “{said}”")
        return
    where = "as a draft" if found.key in held.drafts else "as a version"
    where = where if held.has(found.key) else "in a file"
    said = brewer.look()["message"]["text"]
    brewer.say(f"what was left is not shown, but it is there {where}; it says “{said}”")
    if held.has(found.key):
        brewer.model.leave([found], "what the last sitting left")


def _check_early(brewer: Brewer, left: list[State], shown: Facts) -> None:
    """What was typed at once is there, and what was left is there as well."""
    brewer.touched = True
    brewer.model.undo = brewer.model.redo = None
    # In a recipe without lines it is typed where a new line is named.
    as_typed = {".amount": "0.91", ".name": EARLY}
    if not any(as_typed.get(place[place.rfind(".") :]) == value for place, value in shown.items()):
        seen = brewer.look()
        told = f"“{seen['title']}”, {seen['page']}, keys go to {seen['focus']}, "
        told += f"it says “{seen['message']['text']}”"
        what = f"{EARLY} typed as soon as the window was seen is not in the recipe"
        brewer.find(LOSS, f"{what} ({brewer.early}; now {told})")
    if not left:
        return
    is_shown = any(
        all(place.startswith("fermentables") for place in differences(each.facts, shown))
        for each in left
    )
    if not is_shown:
        brewer.on.sleep(0.5)
        _must_be_in_box(brewer, left)


# leaving


def answer(brewer: Brewer, seen: dict[str, Any]) -> str:
    """Press one of the buttons that a dialog or the message offers; return its text."""
    dialog = seen["dialog"]
    offered = dialog["buttons"] if dialog else seen["message"]["buttons"]
    offered = [each for each in offered if each not in NO_ANSWERS]
    if not offered:
        return ""
    chosen = str(brewer.draw.choice(offered))
    words = " ".join(dialog["texts"]) if dialog else seen["message"]["text"]
    brewer.say(f"asked “{words[:160]}”: press “{chosen}” of {offered}")
    brewer.on.ask("answers", answers={"save": str(_new_file(brewer, brewer.world.elsewhere))})
    return chosen if brewer.click(button=chosen) else ""


def _new_file(brewer: Brewer, folder: Path) -> Path:
    brewer.names += 1
    return folder / f"recipe {brewer.names}.hobwort"


def left_states(brewer: Brewer) -> list[State]:
    """Return what is open as it must be kept when it is left; nothing if there is nothing."""
    facts = brewer.document()
    if not brewer.touched or not brewer.model.unsaved:
        return []
    return [State(facts, time.monotonic())]


def after_leaving(brewer: Brewer, left: list[State], before: Facts, what: str) -> bool:
    """Wait until another recipe is open; what was left must be on disk by then."""
    patience = 12.0 if brewer.world.store_trouble else 6.0
    limit = time.monotonic() + (patience if left else 1.5)
    given_up = False
    while time.monotonic() < limit:
        seen = brewer.look()
        facts = brewer.document()
        if key_of(facts) != key_of(before):
            break
        asked = seen["dialog"] is not None or any(
            each not in NO_ANSWERS for each in seen["message"]["buttons"]
        )
        if asked and left and brewer.world.store_trouble:
            pressed = answer(brewer, seen)
            given_up = given_up or gives_up(pressed)
        brewer.on.sleep(0.05)
    else:
        brewer.say(f"{what}: the recipe stays open")
        brewer.check({})
        if not left:  # an empty recipe was open, and one is open now
            brewer.model.undo = brewer.model.redo = None
        return False
    if left and not given_up:
        _must_be_kept(brewer, left, what)
    brewer.model.opened(brewer.document(), brewer.model.path)
    brewer.touched = False
    return True


def _must_be_kept(brewer: Brewer, left: list[State], what: str) -> None:
    patience = 0.0 if brewer.world.store_trouble else 2.0
    end = time.monotonic() + patience
    while found_on_disk(left, brewer.disk.held(), brewer.file_facts()) is None:
        if time.monotonic() >= end:
            brewer.find(LOSS, f"{what}: the recipe that was open is nowhere on disk")
            return
        brewer.on.sleep(0.05)
    if found_on_disk(left, brewer.disk.held(), []) is not None:
        brewer.model.leave(left, f"left by {what} at action {brewer.counts.actions}")
        return
    for path in brewer.recipe_files():  # saved to a file, which may be saved to again
        found = brewer.disk.file(path)
        if found is not None and found[0] == left[-1].key:
            brewer.model.files[path] = found[0]


def new_recipe(brewer: Brewer) -> None:
    """Begin an empty recipe."""
    editing.on_compose(brewer)
    brewer.say("new, empty")
    left, before = left_states(brewer), brewer.last_facts()
    brewer.press("N", "C")
    after_leaving(brewer, left, before, "New")


def begin(brewer: Brewer) -> None:
    """Go through one of the doors of the Begin page."""
    doors = ("Start from this", "Create the kit recipe", EXAMPLE)
    number = brewer.draw.randrange(len(doors))
    door = doors[number]
    brewer.say(f"begin: {door}")
    left, before = left_states(brewer), brewer.last_facts()
    brewer.press("N", "CS")
    brewer.press(str(number + 1), "A")
    if not brewer.click(button=door):
        brewer.find(STUCK, f"the Begin page has no button “{door}”")
        return
    after_leaving(brewer, left, before, "Begin")


def open_file(brewer: Brewer) -> None:
    """Open one of the recipe files."""
    files = [each for each in brewer.recipe_files() if str(each) != brewer.model.path]
    if not files:
        return
    path = brewer.draw.choice(sorted(files))
    held = brewer.disk.file(path)
    brewer.say(f"open {path.name}")
    left, before = left_states(brewer), brewer.last_facts()
    brewer.on.ask("answers", answers={"open": str(path)})
    brewer.press("O", "C")
    if held is None or held[0] == key_of(before):
        brewer.on.sleep(0.5)
        brewer.take_over(opened=True)
        return
    if after_leaving(brewer, left, before, "Open"):
        wrong = differences(held[1], brewer.last_facts())
        if wrong:
            brewer.find(
                WRONG, f"{path.name} opened otherwise than it is: {list(wrong.items())[:3]}"
            )
        brewer.model.files[path] = held[0]
        brewer.model.theirs.pop(held[0], None)


def open_from_box(brewer: Brewer) -> None:
    """Open a recipe of the Recipe box by a double click or the Return key."""
    brewer.say("open from the Recipe box")
    left, before = left_states(brewer), brewer.last_facts()
    brewer.press("4", "C")
    brewer.on.sleep(0.5)
    if not brewer.click("double", listed=brewer.draw.randrange(4)):
        return
    brewer.on.sleep(0.6)
    facts = brewer.document()
    if key_of(facts) == key_of(before) and brewer.look()["page"] != "Compose":
        brewer.check({})
        return
    if key_of(facts) != key_of(before):
        after_leaving(brewer, left, before, "opening from the box")
    else:
        brewer.take_over(opened=True)
    held = brewer.disk.held()
    if key_of(brewer.last_facts()) not in held.versions:
        brewer.find(WRONG, "what was opened from the Recipe box is no version in it")


# saving


def save(brewer: Brewer) -> None:
    """Save, and wait until it is said to be kept."""
    brewer.say(f"save{' to ' + Path(brewer.model.path).name if brewer.model.path else ''}")
    brewer.press("S", "C")
    saved(brewer)


def saved(brewer: Brewer) -> None:
    """After Save: the box has a version of it, and the file, if there is one, holds it."""
    trouble = bool(brewer.world.trouble)
    is_done = brewer.until(
        lambda: says_kept(brewer.look()["state"]) and not _unsaved(brewer),
        2.5 if trouble else 8.0,
    )
    brewer.check({})
    seen = brewer.look()
    theirs = bool(brewer.model.theirs)
    if not is_done:
        if not trouble and not theirs:
            words = f"the header says “{seen['state']}”, the message “{seen['message']['text']}”"
            brewer.say(f"the window that has the keyboard: {seen['active']}")
            brewer.find(STUCK, f"Save is not answered: {words}")
        return
    brewer.model.confirm()
    key = brewer.last_facts()
    wanted = key_of(key)
    patience = 0.0 if trouble else 4.0
    if brewer.until(lambda: wanted in brewer.disk.held().versions, patience):
        brewer.model.versions[wanted] = f"the version kept at action {brewer.counts.actions}"
    elif not trouble:
        brewer.find(LOSS, f"saved, says “{seen['state']}”, but no such version is in the box")
    elif not brewer.is_on_disk(brewer.model.now):
        brewer.find(LOSS, f"saved, says “{seen['state']}”, but it is nowhere on disk")
    _file_holds(brewer, wanted)


def _unsaved(brewer: Brewer) -> bool:
    return bool(brewer.on.ask("document")["seen"].get("unsaved"))


def _file_holds(brewer: Brewer, wanted: str) -> None:
    if not brewer.model.path or "files gone" in brewer.world.trouble:
        return
    path = Path(brewer.model.path)

    def holds() -> bool:
        found = brewer.disk.file(path)
        return found is not None and found[0] == wanted

    state = brewer.look()["state"]
    at_once = holds()
    if at_once or (not brewer.world.trouble and brewer.until(holds, 3.0)):
        brewer.model.files[path] = wanted
    elif not brewer.model.theirs and not brewer.world.trouble:
        brewer.find(LOSS, f"saved, says “{state}”, but {path.name} does not hold it")
    if not at_once and state == "saved":
        brewer.find(LOSS, f"said “{state}” before {path.name} held it")


def save_as(brewer: Brewer) -> None:
    """Save to a new file."""
    folder = brewer.draw.choice((brewer.world.files, brewer.world.elsewhere))
    path = _new_file(brewer, folder)
    brewer.say(f"save as {path.name} in {folder.name}")
    brewer.on.ask("answers", answers={"save": str(path)})
    brewer.press("S", "CS")
    trouble = bool(brewer.world.trouble)
    brewer.until(lambda: str(path) in brewer.look()["message"]["text"], 2.0 if trouble else 8.0)
    brewer.check({})
    said = brewer.look()["message"]["text"]
    if said.startswith("Saved to") and str(path) in said:
        found = brewer.disk.file(path)
        if found is None or found[0] != key_of(brewer.last_facts()):
            brewer.find(LOSS, f"“{said}”, but {path.name} does not hold it")
        else:
            brewer.model.files[path] = found[0]
            brewer.model.confirm()
    elif not trouble:
        brewer.find(STUCK, f"Save as is not answered: it says “{said}”")


# closing and crashing


def close(brewer: Brewer) -> None:
    """Close the window and start again; the process must end by itself, with everything kept."""
    left = close_for_good(brewer)
    if left is not None:
        restart(brewer, left)


def close_for_good(brewer: Brewer) -> list[State] | None:
    """Close the window; return what is to be shown next, or None if it had to be killed."""
    brewer.say("close")
    left = left_states(brewer)
    brewer.press("Q", "C")
    given_up = _wait_closed(brewer, left)
    if not brewer.on.ended:
        limit = brewer.world.trouble or "nothing"
        if not brewer.world.store_trouble:
            brewer.find(STUCK, f"the window does not close, with {limit} wrong")
        else:
            brewer.say("it does not close; killed")
        kill_now(brewer, "a kill after it would not close")
        return None
    brewer.counts.closes += 1
    code = brewer.on.process.returncode
    if code != 0:
        brewer.find(STUCK, f"the program ended with code {code}")
    brewer.watch_errors()
    if given_up:
        brewer.touched = False
        left = []
    else:
        found = brewer.audit(time.monotonic(), why="closing")
        left = [found] if left and found is not None else []
    brewer.on.kill()
    return left


def _wait_closed(brewer: Brewer, left: list[State]) -> bool:
    """Wait for the end, answering what is asked; return whether the recipe was given up."""
    given_up = False
    end = time.monotonic() + 20.0
    asked_before = ""
    while time.monotonic() < end:
        if brewer.on.wait_ended(0.1):
            break
        try:
            seen = brewer.look()
            if "gone" in seen:
                continue
            words = str(seen["dialog"]) + str(seen["message"])
            offered = seen["dialog"] or any(
                each not in NO_ANSWERS for each in seen["message"]["buttons"]
            )
            if offered and left and words != asked_before:
                asked_before = words
                given_up = gives_up(answer(brewer, seen)) or given_up
        except EndedError:
            brewer.on.process.wait(10)
    return given_up


def kill(brewer: Brewer) -> None:
    """Kill the program at some moment: at rest, or in the middle of typing or saving."""
    moment = brewer.draw.choice(("at rest", "at once", "while typing", "while saving"))
    brewer.say(f"kill {moment}")
    if moment == "at rest":
        brewer.until_kept(2.0)
        brewer.glance(surely=True)
    elif moment == "while typing":
        text = brewer.new_name("Half typed")
        brewer.typing("name")
        if brewer.click(field="Name of the recipe"):
            brewer.press("A", "C")
            brewer.type(text[: brewer.draw.randint(3, len(text))], human=brewer.draw.random() < 0.5)
        brewer.on.sleep(brewer.draw.uniform(0.0, 0.5))
    elif moment == "while saving":
        if brewer.model.path:  # it may have been written, or not
            brewer.model.files.pop(Path(brewer.model.path), None)
        brewer.on.send("key", key="S", **{"with": "C"})
        brewer.on.sleep(brewer.draw.uniform(0.0, 0.06))
    kill_now(brewer, f"a kill {moment}")


def kill_now(brewer: Brewer, why: str) -> None:
    """Kill, look what is on disk, and start again."""
    at = time.monotonic()
    brewer.on.kill()
    brewer.counts.kills += 1
    brewer.watch_errors()
    left = brewer.audit(at, why=why)
    restart(brewer, [left] if left is not None and brewer.touched else [])


def restart(brewer: Brewer, left: list[State]) -> None:
    """Start again; what was left is shown, or in the box."""
    brewer.model.files.update()
    if brewer.world.store_trouble:
        brewer.world.heal()
        brewer.model.writable_since = time.monotonic()
    early = brewer.draw.random() < 0.35
    try:
        start(brewer, early=early)
        go_on(brewer, left, early=early)
    except SilentError as fault:
        brewer.find(STUCK, f"after a start: {fault}")
        raise StopError from fault
