"""What the world does to the brewer in the middle of work, and what the program must make of it."""

from __future__ import annotations

import json
import time
from pathlib import Path

from tests.benchmarks.robot import editing, keeping
from tests.benchmarks.robot.brewer import DAMAGE, LOSS, PUT_AWAY, STUCK, Brewer
from tests.benchmarks.robot.disk import facts_of_text, key_of


def _work(brewer: Brewer, number: int) -> None:
    """Do some things that a brewer would do meanwhile."""
    for _ in range(number):
        brewer.counts.actions += 1
        deed = brewer.draw.choice(
            (editing.type_in_cell, editing.type_name, editing.type_in_field, editing.add_line,
             editing.undo, keeping.save)
        )  # fmt: skip
        deed(brewer)
        brewer.glance()
        brewer.watch_errors()


def _leave(brewer: Brewer) -> None:
    """Leave the recipe, or the program, while something is wrong."""
    way = brewer.draw.random()
    if way < 0.3:
        keeping.new_recipe(brewer)
    elif way < 0.5:
        keeping.close(brewer)
    elif way < 0.65:
        keeping.kill(brewer)
    elif way < 0.75:
        keeping.begin(brewer)


def _over(brewer: Brewer) -> None:
    """The trouble is over: the next save must be taken, in every place."""
    brewer.world.heal()
    brewer.model.writable_since = time.monotonic()
    brewer.say("the trouble is over")
    brewer.counts.actions += 1
    editing.type_name(brewer)
    if not brewer.until_kept(12.0):
        seen = brewer.look()
        brewer.find(STUCK, f"it is not kept though all is well again: “{seen['state']}”, "
                    f"“{seen['message']['text']}”")  # fmt: skip
        return
    brewer.glance(surely=True)
    keeping.save(brewer)


def locked(brewer: Brewer) -> None:
    """Another program holds the store for a while."""
    if not brewer.world.lock():
        return
    brewer.counts.faults += 1
    brewer.model.writable_since = float("inf")
    seconds = brewer.draw.uniform(0.2, 5.0)
    brewer.say(f"the store is locked for {seconds:.1f} s")
    end = time.monotonic() + seconds
    _work(brewer, brewer.draw.randint(1, 3))
    starts = brewer.counts.starts
    _leave(brewer)
    if brewer.counts.starts == starts and (left := end - time.monotonic()) > 0:
        brewer.on.sleep(left)
    _over(brewer)


def full(brewer: Brewer) -> None:
    """The disk is full."""
    if not brewer.world.fill(brewer.draw):
        return
    brewer.counts.faults += 1
    brewer.model.writable_since = float("inf")
    brewer.say("the disk is full")
    _work(brewer, brewer.draw.randint(1, 3))
    brewer.on.sleep(brewer.draw.uniform(0.0, 1.5))
    _leave(brewer)
    _over(brewer)


def read_only(brewer: Brewer) -> None:
    """The store may only be read, from a start on or in the middle of work."""
    if not brewer.world.forbid():
        return
    brewer.counts.faults += 1
    brewer.model.writable_since = float("inf")
    brewer.say("the store may only be read")
    _work(brewer, brewer.draw.randint(1, 2))
    _leave(brewer)
    _over(brewer)


def files_gone(brewer: Brewer) -> None:
    """The folder of the recipe files is gone: the version in the box is kept all the same."""
    path = Path(brewer.model.path) if brewer.model.path else None
    if path is None or path.parent != brewer.world.files or brewer.model.theirs:
        return
    brewer.counts.faults += 1
    brewer.say("the folder of the recipe files is gone")
    brewer.world.take_files_away()
    brewer.counts.actions += 1
    editing.type_name(brewer)
    brewer.press("S", "C")
    wanted = key_of(brewer.last_facts())
    if brewer.until(lambda: wanted in brewer.disk.held().versions, 6.0):
        brewer.model.versions[wanted] = f"the version of action {brewer.counts.actions}"
    else:
        said = brewer.look()["message"]["text"]
        brewer.find(LOSS, f"the folder of the file is gone, and no version is kept: “{said}”")
    brewer.world.bring_files_back()
    brewer.model.files.pop(path, None)
    _over(brewer)


def changed_outside(brewer: Brewer) -> None:
    """Another program writes to the open recipe file; then the brewer saves."""
    path = Path(brewer.model.path) if brewer.model.path else None
    if path is None or not path.exists() or brewer.disk.file(path) is None or brewer.world.trouble:
        return
    brewer.counts.faults += 1
    document = json.loads(path.read_text(encoding="utf-8"))
    document["name"] = brewer.new_name("Changed by another hand")
    text = json.dumps(document, ensure_ascii=False, indent=1)
    key = key_of(facts_of_text(text))
    same_time = brewer.draw.random() < 0.3
    before = path.stat()
    path.write_text(text, encoding="utf-8")
    if same_time:  # a clock that stood still: only the content tells
        import os

        os.utime(path, ns=(before.st_atime_ns, before.st_mtime_ns))
    brewer.model.theirs[key] = f"what another program wrote to {path.name}"
    brewer.model.files.pop(path, None)
    brewer.say(f"another program changes {path.name}")
    if brewer.draw.random() < 0.7:
        brewer.counts.actions += 1
        editing.type_name(brewer)
    brewer.on.sleep(brewer.draw.choice((0.0, 0.3, 2.5)))
    brewer.press("S", "C")
    _settle_outside(brewer, key)
    brewer.model.theirs.pop(key, None)
    brewer.take_over(opened=False)
    brewer.model.undo = brewer.model.redo = None
    keeping.save(brewer)


def _settle_outside(brewer: Brewer, key: str) -> None:
    """Answer what is asked about the file; without a word their text must still be somewhere."""
    end = time.monotonic() + 4.0
    mine = brewer.model.now
    while time.monotonic() < end:
        seen = brewer.look()
        offered = seen["dialog"] or any(b != PUT_AWAY for b in seen["message"]["buttons"])
        if offered:
            pressed = keeping.answer(brewer, seen)
            brewer.on.sleep(1.0)
            brewer.say(f"then it says “{brewer.look()['message']['text']}”")
            if keeping.gives_up(pressed):
                return
            break
        brewer.on.sleep(0.1)
    held, files = brewer.disk.held(), brewer.file_facts()
    shown = key_of(brewer.document())
    if not held.has(key) and key not in [key_of(each) for each in files] and shown != key:
        brewer.find(LOSS, "what another program wrote to the open file was written over unasked")
    if shown != mine.key and not brewer.is_on_disk(mine):
        brewer.find(LOSS, "what was open is gone after the file had been changed outside")


def damaged(brewer: Brewer) -> None:
    """The store's file is damaged while nothing runs: what is offered must be delivered."""
    brewer.until_kept(3.0)
    brewer.on.kill()
    brewer.counts.kills += 1
    brewer.counts.faults += 1
    how = brewer.world.damage(brewer.draw)
    size = brewer.world.store.stat().st_size
    brewer.say(f"killed, and the store is damaged: {how}")
    keeping.start(brewer)
    _be_rescued(brewer, size)
    brewer.model.versions.clear()
    brewer.model.somewhere.clear()
    brewer.on.sleep(0.5)
    keeping.open_something(brewer)
    brewer.take_over(opened=True)
    brewer.model.undo = brewer.model.redo = None
    brewer.model.writable_since = time.monotonic()
    trouble = brewer.disk.sound()
    if trouble:
        brewer.find(DAMAGE, f"after the rescue: {trouble}")
        return
    for key in brewer.disk.held().versions:
        brewer.model.versions[key] = "a version that was rescued"
    _over(brewer)


def _be_rescued(brewer: Brewer, size: int) -> None:
    """Take the ways that are offered until the store is sound; look whether they do as they say."""
    for _ in range(4):
        offered = _offered(brewer)
        if not offered:
            break
        pressed = str(brewer.draw.choice(offered))
        brewer.say(f"offered {offered}: press “{pressed}”")
        said = brewer.look()["message"]["text"]
        path = brewer.world.elsewhere / f"{brewer.new_name('rescued')}.hobwort"
        brewer.on.ask("answers", answers={"save": str(path)})
        brewer.click(button=pressed)
        brewer.until(lambda said=said: brewer.look()["message"]["text"] not in ("", said), 6.0)
        brewer.until(lambda: not brewer.disk.sound(), 3.0)
        brewer.say(f"then it says “{brewer.look()['message']['text']}”")
        _promised(brewer, pressed)
        if not brewer.disk.sound():
            break
    sizes = [each.stat().st_size for each in brewer.world.box.rglob("*") if each.is_file()]
    if brewer.disk.sound():
        seen = brewer.look()
        brewer.find(STUCK, f"the store is damaged and nothing offered helps: {seen['message']}")
        brewer.world.store.unlink(missing_ok=True)
    elif not any(each >= size for each in sizes):
        brewer.find(LOSS, "the damaged store was not set aside")


def _offered(brewer: Brewer) -> list[str]:
    """Wait for an offer; a change that cannot be kept brings it back after it was put away."""
    for patience in (12.0, 6.0):
        end = time.monotonic() + patience + 6.0 * brewer.answers.machine_late()
        while time.monotonic() < end:
            seen = brewer.look()
            found = [each for each in seen["message"]["buttons"] if each != PUT_AWAY]
            if found and seen["dialog"] is None:
                brewer.on.sleep(1.0)  # a better offer may follow
                again = brewer.look()["message"]["buttons"]
                return [each for each in again if each != PUT_AWAY] or found
            if time.monotonic() > end - patience + 4.0 and not brewer.disk.sound():
                return []
            brewer.on.sleep(0.2)
        editing.type_name(brewer)
    return []


def _promised(brewer: Brewer, pressed: str) -> None:
    """A button that names a number of recipes must give as many."""
    numbers = [int(each) for each in pressed.replace(",", "").split() if each.isdigit()]
    if numbers and "recipe" in pressed and not brewer.disk.sound():
        found = brewer.disk.held().recipes
        if found < numbers[0]:
            brewer.find(LOSS, f"“{pressed}” gave {found} recipes")
