"""One sitting: a seed, a world, so many actions, and what came of it."""

from __future__ import annotations

import os
import random
import tempfile
import time
from collections.abc import Callable
from dataclasses import asdict
from pathlib import Path
from typing import Any

from tests.benchmarks.robot import editing, keeping, trouble
from tests.benchmarks.robot.brewer import FREEZE, STUCK, Brewer, StopError
from tests.benchmarks.robot.program import EndedError, SilentError
from tests.benchmarks.robot.world import World

DEEDS: tuple[tuple[Callable[[Brewer], None], float], ...] = (
    (editing.type_in_cell, 26),
    (editing.type_in_field, 10),
    (editing.type_name, 6),
    (editing.add_line, 7),
    (editing.remove_line, 4),
    (editing.duplicate_line, 2),
    (editing.move_line, 4),
    (editing.copy_and_paste, 2),
    (editing.paste_text, 2),
    (editing.undo, 8),
    (editing.redo, 5),
    (editing.refused_entry, 5),
    (keeping.save, 7),
    (keeping.save_as, 2),
    (keeping.open_file, 2),
    (keeping.open_from_box, 2),
    (keeping.new_recipe, 1.5),
    (keeping.begin, 1.5),
    (keeping.close, 2.5),
    (keeping.kill, 4),
)
TROUBLES: tuple[tuple[Callable[[Brewer], None], float], ...] = (
    (trouble.locked, 2),
    (trouble.full, 1.5),
    (trouble.read_only, 1),
    (trouble.files_gone, 1),
    (trouble.changed_outside, 1.5),
    (trouble.damaged, 0.7),
)


def sit(
    seed: int,
    actions: int,
    *,
    broken: str = "",
    troubles: bool = True,
    more: str = "",
    only: str = "",
    until: float = float("inf"),
    limit_s: float = 1.0,
    most: int = 4,
) -> dict[str, Any]:
    """Brew for a number of actions; return what was done and found, as plain values."""
    with tempfile.TemporaryDirectory(prefix=f"hobwort-robot-{seed}-") as name:
        world = World(Path(name) / "sitting", small_disk=troubles and seed % 2 == 0)
        options = _options(seed, broken)
        brewer = Brewer(seed, world, options, limit_s)
        try:
            _sit(brewer, actions, _weighed(troubles, more, only), until, most)
        finally:
            if brewer.program is not None:
                brewer.program.kill()
            world.close()
    return _report(brewer)


def _options(seed: int, broken: str) -> dict[str, Any]:
    draw = random.Random(f"{seed} options")
    options: dict[str, Any] = {"comma": seed % 5 == 3, "human": draw.choice((0.1, 0.25, 0.5))}
    if broken:
        options["break"] = broken
    return options


Deeds = tuple[tuple[Callable[[Brewer], None], float], ...]


def _weighed(troubles: bool, more: str, only: str) -> Deeds:
    """Return the deeds with their weights; those named in `more` weigh twenty times as much."""
    named, alone = more.split(","), only.split(",") if only else []
    deeds = (*DEEDS, *(TROUBLES if troubles else ()))
    return tuple(
        (each, 20.0 * weight if each.__name__ in named else weight)
        for each, weight in deeds
        if not alone or each.__name__ in alone
    )


def _sit(brewer: Brewer, actions: int, deeds: Deeds, until: float, most: int) -> None:
    try:
        keeping.start(brewer)
        keeping.go_on(brewer, [])
        while brewer.counts.actions < actions and time.monotonic() < until:
            brewer.counts.actions += 1
            brewer.draw = random.Random(f"{brewer.seed} {brewer.counts.actions} {brewer.idle}")
            if brewer.options.get("moving clock"):
                brewer.options["clock_h"] = brewer.draw.choice((0, 0, -30, 5))
            deed = brewer.draw.choices([each for each, _ in deeds], [w for _, w in deeds])[0]
            said = len(brewer.log)
            _do(brewer, deed)
            if len(brewer.log) == said:  # there was nothing to do it to
                brewer.counts.actions -= 1
                brewer.idle += 1
            if len(brewer.findings) >= most:
                brewer.say("enough was found")
                return
        brewer.draw = random.Random(f"{brewer.seed} end")
        keeping.close_for_good(brewer)
    except StopError:
        return


def _do(brewer: Brewer, deed: Callable[[Brewer], None]) -> None:
    found = len(brewer.findings)
    try:
        deed(brewer)
        brewer.glance()
    except EndedError:
        code = brewer.on.process.wait(10)
        brewer.watch_errors()
        brewer.find(STUCK, f"the program ended by itself, with code {code}")
        keeping.kill_now(brewer, "its sudden end")
    except SilentError as fault:
        brewer.find(FREEZE, str(fault))
        for each in brewer.answers.stuck[-1:]:
            brewer.say(f"it stood at:\n{each}")
        keeping.kill_now(brewer, "it froze")
    brewer.watch_errors()
    for each in brewer.answers.slow:
        brewer.find(FREEZE, each)
        if brewer.answers.stuck:
            brewer.say(f"it stood at:\n{brewer.answers.stuck[-1]}")
    brewer.answers.slow.clear()
    brewer.answers.stuck.clear()
    if len(brewer.findings) > found:
        resume(brewer)


def resume(brewer: Brewer) -> None:
    """After a finding: take what is there for what must be, and go on."""
    try:
        brewer.take_over(opened=False)
    except EndedError:
        return
    brewer.model.undo = brewer.model.redo = None


def _report(brewer: Brewer) -> dict[str, Any]:
    return {
        "seed": brewer.seed,
        **asdict(brewer.counts),
        "edits confirmed": brewer.model.edits_confirmed,
        "findings": [asdict(each) for each in brewer.findings],
        "worst_s": brewer.answers.worst_s,
        "worst_what": brewer.answers.worst_what,
        "platform": os.environ.get("ROBOT_PLATFORM", "offscreen"),
        "log": brewer.log,
    }
