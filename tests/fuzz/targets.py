"""What is tried: each target takes bytes as they may come from elsewhere, and reads them whole.

A refusal in words (`DesignerError`) is right, any other exception a fault.
"""

import base64
import shutil
import zlib
from collections.abc import Callable, Iterator
from contextlib import suppress
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from designer.errors import DesignerError
from designer.library.pasted import pasted_table
from designer.library.recipe_file import checked_text, decoded, load, read_document
from designer.library.store import Store
from designer.library.store.brew_journal import log_of_text, log_text
from designer.library.store.rescue import offer
from designer.recipe.document import Recipe
from designer.recipe.quantity import Kind
from designer.resource_files import resource_path
from designer.units import read, read_when
from designer.workbench.brew.brewing import brewing_of
from designer.workbench.brew.entries_text import entries_of, plain
from designer.workbench.brew.log_lines import log_lines
from designer.workbench.brew.pocket_entries import pocket_brew, pocket_entries
from designer.workbench.brew.pocket_text import read_pocket
from designer.workbench.brew.warmth_csv import warmth_in
from designer.workbench.style_watch import outlook_of
from tests.workbench.brew.pocket_texts import ROWS, pasted
from tests.workbench.brew.stove_steps import STEPS

TESTS = Path(__file__).parents[1]
BOX = "recipe-box.db"
Try = Callable[[bytes, Path], None]


@dataclass(frozen=True)
class Target:
    """One way in: how bytes are tried, what is begun with, and how long they may be."""

    name: str
    attempt: Try
    seeds: Callable[[], Iterator[bytes]]
    longest: int = 20_000


def _examples() -> Iterator[bytes]:
    for path in sorted(resource_path("examples").glob("*.hobwort")):
        yield path.read_bytes()
    for path in sorted((TESTS / "old_recipes").glob("*.hobwort")):
        yield path.read_bytes()


def _recipe(data: bytes, folder: Path) -> None:
    """A file is opened, forecast, and would be written again."""
    path = folder / "typed.hobwort"
    path.write_bytes(data)
    recipe = load(path)
    outlook_of(recipe, ranges=False)
    again = read_document(checked_text(recipe, "again"), "again")
    assert again == recipe


def _clipboard(data: bytes, folder: Path) -> None:
    """A text is pasted into each list of ingredients, its lines made."""
    text = data.decode("utf-8", errors="replace")
    for lines in ("fermentables", "hops", "extras"):
        table = pasted_table(text, lines, comma=len(text) % 2 == 0, us=len(text) % 3 == 0)
        for _, line in table.found:
            assert line.name is not None
        for row in table.rows:
            assert row is not None


def _lists() -> Iterator[bytes]:
    yield b"3.3 lb Amber liquid malt extract\n1 1/2 oz Fuggle 60 min\n500 g Crystal 60\n"
    yield b"Menge;Zutat;Zeit\n1,5 kg;Pale malt;steep\n30 g;Cascade 5,5 %;15 min\n"
    yield b"Amount\tName\tColour\tWhen\n2 kg\tWheat dry malt extract\t4 L\tboil 60 min\n"
    yield b"| Hop | g | alpha | min |\n|---|---|---|---|\n| Saaz | 20 | 3.5% | 10 |\n"


@cache
def _porter() -> Recipe:
    return load(resource_path("examples/harbour_lamp_porter.hobwort"))


def _log(data: bytes, folder: Path) -> None:
    """A log that was saved to a file is folded and said in lines."""
    kept = log_of_text(data.decode("utf-8", errors="replace"), folder / "log")
    if kept is not None:
        brewing = brewing_of(_porter(), STEPS, entries_of(kept.entries))
        assert list(log_lines(brewing)) is not None


def _logs() -> Iterator[bytes]:
    """Logs of an old box, and that of a phone as the box would hold it."""
    for path in _old_stores()[-3:]:
        with TemporaryDirectory() as name:
            shutil.copy(path, Path(name) / BOX)
            with Store.open(Path(name)) as store:
                for brew in store.brews.all():
                    lines = [each.entry for each in store.brews.lines(brew.id)]
                    yield log_text(brew, lines).encode()
    log = read_pocket(pasted(_porter(), ROWS))
    yield log_text(pocket_brew(log), [plain(each) for each in pocket_entries(log)]).encode()


def _pocket(data: bytes, folder: Path) -> None:
    """A text of a phone, as it came, and its insides packed again with the right check sum."""
    text = data.decode("utf-8", errors="replace")
    for each in (text, packed(data)):
        try:
            log = read_pocket(each)
        except DesignerError:
            continue
        entries = pocket_entries(log)
        brewing_of(log.recipe, STEPS, entries)


def packed(values: bytes) -> str:
    """Return bytes as a phone would hand them over, their check sum right."""
    raw = values + zlib.crc32(values).to_bytes(4, "big")
    return f"HOBWORT BREW 1\nP{base64.b32encode(raw).decode().rstrip('=')}\n0 END"


def _pockets() -> Iterator[bytes]:
    yield pasted(_porter(), ROWS).encode()
    text = pasted(_porter(), ROWS, packed=False)
    signs = "".join(text.split("\n")[1:-2])[1:]
    yield base64.b32decode(signs + "=" * (-len(signs) % 8))[:-4]


def _warmth(data: bytes, folder: Path) -> None:
    table = warmth_in(decoded(data, "table"))
    assert table is not None


def _warmths() -> Iterator[bytes]:
    yield b"time,temperature\n2026-11-26 09:00,18.5\n2026-11-26 10:00,19.0\n"
    yield "Datum;Uhrzeit;°C\n26.11.2026;09:00;18,5\n26.11.2026;10:00;18,9\n".encode()
    yield b"epoch\ttemp_f\n1790000000\t65.1\n1790003600\t66.2\n"


def _typed(data: bytes, folder: Path) -> None:
    """An amount is typed into a field of each kind, and a time."""
    text = data.decode("utf-8", errors="replace")
    for kind in Kind:
        for comma in (False, True):
            try:
                found = read(kind, text, decimal_comma=comma)
            except DesignerError:
                continue
            assert read(kind, found.text, decimal_comma=comma, kept=True).value == found.value
    with suppress(DesignerError):
        read_when(text)


_TYPED = ("1 1/2 oz", "2 lb 4 oz", "1,5 kg", "68 °F", "7.2 % ± 0.5 %", "12.4 °P", "½ oz",
          "boil 60 min", "stand 20 min at 80 °C", "4-6 g", "1e3 g", "3 packets")  # fmt: skip


def _amounts() -> Iterator[bytes]:
    return (each.encode() for each in _TYPED)


def _old_stores() -> list[Path]:
    return sorted((TESTS / "old_stores").glob("*.db"))


def _stores() -> Iterator[bytes]:
    for path in _old_stores():
        yield path.read_bytes()


def _box(data: bytes, folder: Path) -> None:
    """A box is opened and read; where it cannot be, what is offered is found out."""
    box = folder / "box"
    shutil.rmtree(box, ignore_errors=True)
    box.mkdir()
    (box / BOX).write_bytes(data)
    try:
        with Store.open(box) as store:
            for row in store.finder.find("", limit=50).rows:
                store.recipes.versions(row.id)
            for brew in store.brews.all():
                store.brews.as_text(brew.id)
            store.pots.all()
            store.drafts.all()
    except DesignerError:
        offer(box)


def _backup(data: bytes, folder: Path) -> None:
    """A copy of everything is restored over a box that holds something."""
    box, source = folder / "kept", folder / "copy.db"
    source.write_bytes(data)
    with Store.open(box) as store:
        try:
            store.bring_back(source)
        finally:
            assert not store.read_only


TARGETS = (
    Target("recipe", _recipe, _examples),
    Target("clipboard", _clipboard, _lists, 4_000),
    Target("log", _log, _logs),
    Target("pocket", _pocket, _pockets),
    Target("warmth", _warmth, _warmths, 4_000),
    Target("typed", _typed, _amounts, 80),
    Target("box", _box, _stores, 400_000),
    Target("backup", _backup, _stores, 400_000),
)
