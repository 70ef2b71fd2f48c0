"""What can be saved of a damaged Recipe box: `python tests/benchmarks/damage_harness.py [seeds]`.

A box of 40 recipes in some 100 versions, with drafts, vessels and brew logs, is damaged in many
seeded ways: cut off, pages zeroed, exchanged or filled with chance bytes, its first page, its
schema, its list of free pages or its log hurt. For each it is told what an offer promised, what
going on with it gave, and how many versions stood on the disk unhurt. Promise and gift must be
equal; no version may differ from what was written.
"""

from __future__ import annotations

import json
import random
import shutil
import sqlite3
import sys
import tempfile
from collections.abc import Callable, Iterable
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from designer.library.recipe_file import document_text, load
from designer.library.store import Draft, Store, Summary, rescue
from designer.library.store.kitchen import FermenterRecord, PotRecord
from designer.resource_files import resource_path

RECIPES, VERSIONS, PAGE = 40, 100, 4096
FILE = "recipe-box.db"
Damage = Callable[[bytearray, bytearray, random.Random], None]


def build(folder: Path) -> dict[tuple[int, int], str]:
    """Make the box in a folder, as a killed program leaves it: some of it is only in the log.

    Beside it, in `closed`, the box as it is when the log was worked in. Returns the text of each
    version by recipe and number.
    """
    values = json.loads(document_text(load(resource_path("examples/harbour_lamp_porter.hobwort"))))
    chance = random.Random(7)
    work = folder / "work"
    written = {}

    def text(name: str) -> str:
        days = range(chance.choice((1, 2, 20, 90, 400)))
        notes = " ".join(f"{name}, day {day} in the cellar." for day in days)
        return json.dumps({**values, "name": name, "notes": notes}, indent=2)

    with Store.open(work) as store:
        kept = [store.recipes.add(text(f"Ale {n}"), Summary(ibu=n), tags=["harbour"])
                for n in range(RECIPES)]  # fmt: skip
        written.update({(each.recipe, 1): each.document for each in kept})
        for step in range(VERSIONS - RECIPES):
            number = chance.randrange(RECIPES)
            base = kept[number]
            made = text(f"Ale {number}, step {step}")
            kept[number] = store.recipes.save(base.recipe, made, Summary(ibu=step), base=base.id)
            written[kept[number].recipe, kept[number].number] = made
            store.drafts.put(Draft(f"w{step % 2}", made, undo=(base.document, made), position=1))
            if step == 45:
                gone = [store.recipes.add(text(f"Gone {n}"), Summary()).recipe for n in range(4)]
                store.trash.put(gone)
                store.trash.delete(gone)
                store.connection.db.conn.execute("pragma wal_checkpoint(truncate)")
        store.pots.insert(PotRecord("Kitchen pot", volume="9 L"))
        store.fermenters.insert(FermenterRecord("Small bucket", "12 L"))
        brew = store.brews.start(kept[0])
        store.brews.append(brew.id, {"what": "reading", "gravity": "1.048"})
        for ending in ("", "-wal"):
            shutil.copyfile(f"{store.path}{ending}", folder / f"{FILE}{ending}")
    (folder / "closed").mkdir()
    shutil.copyfile(work / FILE, folder / "closed" / FILE)
    return written


def cut_off(file: bytearray, log: bytearray, chance: random.Random) -> None:
    del file[chance.randrange(1, len(file)) :]


def tail_of_zeros(file: bytearray, log: bytearray, chance: random.Random) -> None:
    at = chance.randrange(PAGE, len(file))
    file[at:] = bytes(len(file) - at)


def zero_pages(file: bytearray, log: bytearray, chance: random.Random) -> None:
    for _ in range(chance.choice((1, 3, 8))):
        at = PAGE * chance.randrange(len(file) // PAGE)
        file[at : at + PAGE] = bytes(PAGE)


def chance_bytes(file: bytearray, log: bytearray, chance: random.Random) -> None:
    for _ in range(chance.choice((1, 5, 30, 200))):
        file[chance.randrange(len(file))] = chance.randrange(256)


def chance_pages(file: bytearray, log: bytearray, chance: random.Random) -> None:
    for _ in range(chance.choice((1, 3, 8))):
        at = PAGE * chance.randrange(len(file) // PAGE)
        file[at : at + PAGE] = chance.randbytes(PAGE)


def sector_heads(file: bytearray, log: bytearray, chance: random.Random) -> None:
    for _ in range(chance.choice((3, 8, 20))):
        at = PAGE * chance.randrange(len(file) // PAGE)
        file[at : at + 100] = chance.randbytes(100)


def swapped_pages(file: bytearray, log: bytearray, chance: random.Random) -> None:
    for _ in range(chance.choice((1, 2, 5))):
        a, b = (PAGE * chance.randrange(len(file) // PAGE) for _ in range(2))
        file[a : a + PAGE], file[b : b + PAGE] = file[b : b + PAGE], file[a : a + PAGE]


def first_header(file: bytearray, log: bytearray, chance: random.Random) -> None:
    at = chance.randrange(0, 96)
    width = chance.randrange(1, 101 - at)
    file[at : at + width] = chance.randbytes(width)


def first_page(file: bytearray, log: bytearray, chance: random.Random) -> None:
    file[:PAGE] = bytes(PAGE) if chance.random() < 0.5 else chance.randbytes(PAGE)


def schema_pages(file: bytearray, log: bytearray, chance: random.Random) -> None:
    for page in range(1, chance.randrange(2, 34)):
        at = PAGE * page * chance.choice((0, 1))
        file[at + (100 if not at else 0) : at + PAGE] = bytes(PAGE - (100 if not at else 0))


def roots_of_tables(file: bytearray, log: bytearray, chance: random.Random) -> None:
    for page in chance.sample((6, 7, 8, 16, 18, 20, 22, 25, 27), 3):
        file[PAGE * page : PAGE * page + PAGE] = bytes(PAGE)


def free_list(file: bytearray, log: bytearray, chance: random.Random) -> None:
    file[32:40] = chance.randbytes(8)


def first_and_cut(file: bytearray, log: bytearray, chance: random.Random) -> None:
    file[:100] = bytes(100)
    cut_off(file, log, chance)


def log_lost(file: bytearray, log: bytearray, chance: random.Random) -> None:
    log.clear()
    chance_bytes(file, log, chance)


def log_hurt(file: bytearray, log: bytearray, chance: random.Random) -> None:
    log[chance.randrange(32, len(log))] ^= 0xFF
    zero_pages(file, log, chance)


def file_of_log_lost(file: bytearray, log: bytearray, chance: random.Random) -> None:
    file.clear()


WAYS: tuple[Damage, ...] = (
    cut_off, tail_of_zeros, zero_pages, chance_bytes, chance_pages, sector_heads, swapped_pages,
    first_header, first_page, schema_pages, roots_of_tables, free_list, first_and_cut, log_lost,
    log_hurt, file_of_log_lost,
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Sound:
    """The box before it is hurt: its file and log, the texts in it, and where they stand."""

    with_log: tuple[bytes, bytes]
    closed: tuple[bytes, bytes]
    written: dict[tuple[int, int], str]
    pieces_with_log: list[list[tuple[int, bytes]]]
    pieces_closed: list[list[tuple[int, bytes]]]


def sound_box(folder: Path) -> Sound:
    """Return a box, built in a folder."""
    written = build(folder)
    with_log = ((folder / FILE).read_bytes(), (folder / f"{FILE}-wal").read_bytes())
    closed = ((folder / "closed" / FILE).read_bytes(), b"")
    places = [pieces_of(written, b"".join(each)) for each in (with_log, closed)]
    return Sound(with_log, closed, written, *places)


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of one damage. Versions: on the disk unhurt, promised, given; wrong ones."""

    way: str
    seed: int
    state: str
    unhurt: int
    promised: str
    given: str
    versions: int
    wrong: int
    lost_told: int


def pieces_of(written: dict[tuple[int, int], str], files: bytes) -> list[list[tuple[int, bytes]]]:
    """Return the pieces in which each text stands in sound files, and where.

    Those that reach over the end of a page are left out: they stand nowhere in one piece.
    """
    found = []
    for text in written.values():
        raw = text.encode()
        pieces = [raw[at : at + 64] for at in range(0, len(raw), 64)]
        places = [(files.find(piece), piece) for piece in pieces]
        found.append([each for each in places if each[0] >= 0])
    return found


def unhurt_in(files: bytes, pieces: list[list[tuple[int, bytes]]]) -> int:
    """Return how many texts still stand in the files with all their pieces."""
    return sum(
        all(files[at : at + len(piece)] == piece or piece in files for at, piece in each)
        for each in pieces
    )


def try_one(folder: Path, damage: Damage, seed: int, sound: Sound) -> Outcome | None:
    """Damage a copy of the box, take the offer, and compare; None if the box is still sound.

    Every second one is hurt with its log, the others with the log worked in.
    """
    with_log = seed % 2 or "log" in damage.__name__
    file, log = map(bytearray, sound.with_log if with_log else sound.closed)
    damage(file, log, random.Random(f"{damage.__name__} {seed}"))
    place = folder / f"{damage.__name__}-{seed}"
    place.mkdir()
    (place / FILE).write_bytes(file)
    if log:
        (place / f"{FILE}-wal").write_bytes(log)
    pieces = sound.pieces_with_log if with_log else sound.pieces_closed
    unhurt = unhurt_in(bytes(file) + bytes(log), pieces)
    found = rescue.offer(place)
    if found.health.state == "sound":
        return None
    promised = found.salvaged.whole
    given, lost = "nothing", 0
    versions = wrong = 0
    if promised:
        done = rescue.go_on_with_salvage(place)
        given, lost = str(done.holds), done.lost
        with closing(sqlite3.connect(place / FILE)) as conn:
            for recipe, number, text in conn.execute(
                "select recipe, number, document from versions"
            ):
                versions += sound.written.get((recipe, number)) == text
                wrong += sound.written.get((recipe, number), text) != text
    shutil.rmtree(place)
    words = str(promised) if promised else "nothing"
    return Outcome(damage.__name__, seed, found.health.state, unhurt, words, given, versions,
                   wrong, lost)  # fmt: skip


def outcomes(folder: Path, seeds: Iterable[int]) -> list[Outcome]:
    """Try each way of damage so many times; those that left the box sound are left out."""
    whole = folder / "whole"
    whole.mkdir()
    sound = sound_box(whole)
    found = []
    for damage in WAYS:
        for seed in seeds:
            one = try_one(folder, damage, seed, sound)
            if one is not None:
                found.append(one)
    return found


def main(seeds: int) -> None:
    with tempfile.TemporaryDirectory() as name:
        found = outcomes(Path(name), range(seeds))
    for one in found:
        print(  # noqa: T201
            f"{one.way:16} {one.seed:2} {one.state:8} unhurt {one.unhurt:3} saved {one.versions:3}"
            f" told lost {one.lost_told:3}  {one.promised}"
            f"{'' if one.promised == one.given else '   BUT GAVE ' + one.given}"
        )
    count = len(found) or 1
    print(  # noqa: T201
        f"{len(found)} damaged boxes of {VERSIONS} versions; saved on average"
        f" {sum(one.versions for one in found) / count:.1f}, unhurt on the disk"
        f" {sum(one.unhurt for one in found) / count:.1f}; nothing saved in"
        f" {sum(not one.versions for one in found)}; promise and gift differ in"
        f" {sum(one.promised != one.given for one in found)}; wrong versions"
        f" {sum(one.wrong for one in found)}"
    )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 5)
