"""Kill the program at random instants while it edits and saves; nothing confirmed may be lost.

Run it: `python tests/benchmarks/store_soak.py [times]` (200 by default). Each time a process of its
own writes drafts, versions, tags, brew lines and backups as fast as it can, and says so after each
one that was confirmed; it is killed without warning (SIGKILL; TerminateProcess on Windows), often
while opening or making the store. Then the store is opened, checked, and everything it had said is
looked for. Counts are printed; the exit code is 0 only if nothing was lost.
"""

# ruff: noqa: T201 - it is run by hand and prints what it counted
from __future__ import annotations

import json
import random
import subprocess
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from designer.library.store import Conflict, Draft, Store, Summary
from designer.library.store.health import SOUND, check
from tests.benchmarks.figures import note

TIMES = 200
LONGEST_S = 0.30
WHILE_OPENING = 0.15
NEW_STORE_EVERY = 10
KINDS = ("draft", "version", "line", "backup", "tag")


def text(number: int) -> str:
    """Return the document of an edit, told from all others by its number."""
    notes = f"edit {number} " * 60
    values = {"hobwort": 1, "name": f"Ale {number}", "notes": notes, "hops": [{"name": "Saaz"}]}
    return json.dumps(values)


def brew(folder: Path, number: int) -> None:
    """Write until killed; say each thing that was confirmed, and what is begun next."""
    say("opening", number)
    with Store.open(folder) as store:
        say("opened", number)
        recipe = store.recipes.add(text(number), Summary(ibu=30.0))
        log = store.brews.start(recipe)
        base = recipe.id
        say("version", number)
        while True:
            number += 1
            kind = {3: "backup", 14: "tag"}.get(number % 25, KINDS[number % 3])
            say(f"begin-{kind}", number)
            if kind == "draft":
                history = tuple(text(n) for n in range(max(number - 20, 0), number + 1))
                store.drafts.put(Draft("w", text(number), 0, 0, history, len(history) - 1))
            elif kind == "version":
                saved = store.recipes.save(recipe.recipe, text(number), Summary(), base=base)
                assert not isinstance(saved, Conflict)
                base = saved.id
            elif kind == "line":
                store.brews.append(log.id, {"edit": number})
            elif kind == "tag":
                store.tags.put([recipe.recipe], add=[f"t{number}"])
            else:
                store.make_backup(forced=True)
            say(kind, number)


def say(kind: str, number: int) -> None:
    sys.stdout.write(f"{kind} {number}\n")
    sys.stdout.flush()


def killed_run(folder: Path, first: int, chance: random.Random) -> list[tuple[str, int]]:
    """Let a process write and kill it at a random instant; return what it had said."""
    process = subprocess.Popen(
        [sys.executable, __file__, "--brew", str(folder), str(first)],
        stdout=subprocess.PIPE,
        text=True,
    )
    assert process.stdout is not None
    opening = process.stdout.readline()
    if chance.random() > WHILE_OPENING:
        opening += process.stdout.readline()
    time.sleep(chance.uniform(0.0, LONGEST_S))
    process.kill()
    rest = process.stdout.read()
    process.wait()
    said = []
    for line in (opening + rest).splitlines():
        kind, _, number = line.partition(" ")
        if number.isdigit():
            said.append((kind, int(number)))
    return said


class Tally:
    """What was confirmed over all kills, and what of it is missing."""

    def __init__(self) -> None:
        self.counts: Counter[str] = Counter()
        self.confirmed: dict[str, set[int]] = {kind: set() for kind in KINDS}
        self.lost: list[str] = []

    def new_store(self) -> None:
        self.confirmed = {kind: set() for kind in KINDS}

    def heard(self, said: list[tuple[str, int]]) -> None:
        """Note what a process had said before it was killed, and what it was killed in."""
        last = said[-1][0] if said else "opening"
        self.counts[f"killed in {last.removeprefix('begin-') if '-' in last else last}"] += 1
        for kind, number in said:
            if kind in KINDS:
                self.confirmed[kind].add(number)
                self.counts[f"confirmed {kind}"] += 1

    def look(self, folder: Path) -> None:
        """Open the store after a kill, check it, and look for all that was confirmed."""
        health = check(folder / "recipe-box.db", deep=True)
        if health.state not in (SOUND, "missing"):
            self.lost.append(health.words)
            return
        with Store.open(folder) as store:
            self.miss("version", numbers(store, "select document as t from versions"))
            lines = {row["n"] for row in store.connection.rows(
                "select json_extract(entry, '$.edit') as n from brew_lines")}  # fmt: skip
            self.miss("line", lines)
            tags = {int(row["tag"][1:]) for row in store.connection.rows("select tag from tags")}
            self.miss("tag", tags)
            self.look_at_draft(store)
            for each in store.backups():
                if check(each.path).state != SOUND:
                    self.lost.append(f"a backup that cannot be read: {each.path.name}")
            if self.confirmed["backup"] and not store.backups():
                self.lost.append("all backups")
            found = store.finder.find("saaz", limit=1000, hurry_s=None)
            if len(found.rows) != store.recipes.count():
                self.lost.append("a recipe that the search does not find")

    def miss(self, kind: str, there: set[int]) -> None:
        for number in self.confirmed[kind] - there:
            self.lost.append(f"{kind} {number}")

    def look_at_draft(self, store: Store) -> None:
        """The draft is the last one confirmed, or one begun after it; its history is whole."""
        if not self.confirmed["draft"]:
            return
        draft = store.drafts.get("w")
        latest = max(self.confirmed["draft"])
        if draft is None or number_of(draft.document) < latest:
            self.lost.append(f"draft {latest}")
        elif draft.undo[draft.position] != draft.document:
            self.lost.append(f"undo history of draft {latest}")


def number_of(document: str) -> int:
    return int(json.loads(document)["name"].split()[1])


def numbers(store: Store, sql: str) -> set[int]:
    return {number_of(row["t"]) for row in store.connection.rows(sql)}


def main(times: int) -> int:
    chance, tally, number = random.Random(11), Tally(), 1
    with tempfile.TemporaryDirectory(prefix="hobwort-soak-") as name:
        for time_of in range(times):
            folder = Path(name) / f"store-{time_of // NEW_STORE_EVERY}"
            if time_of % NEW_STORE_EVERY == 0:
                tally.new_store()
            said = killed_run(folder, number, chance)
            number = max([number, *(each for _, each in said)]) + 1000
            tally.heard(said)
            tally.look(folder)
        left = len(list(Path(name).glob("**/.new-*")))
    print(f"{times} kills")
    for what, count in sorted(tally.counts.items()):
        print(f"  {what}: {count}")
    print(f"unfinished files left beside a store: {left}")
    print(f"lost or damaged: {len(tally.lost)}")
    for each in tally.lost[:20]:
        print(f"  {each}")
    note(f"kill -9 of the store, {times} times: lost or damaged", len(tally.lost), "", bound=0)
    return 1 if tally.lost else 0


if __name__ == "__main__":
    if sys.argv[1:2] == ["--brew"]:
        brew(Path(sys.argv[2]), int(sys.argv[3]))
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else TIMES))
