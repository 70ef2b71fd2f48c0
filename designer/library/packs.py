"""Sizes in which a shop sells extract, grain, hops and yeast: two sets, and files of one's own.

A file is CSV with the columns kind, amount, label, source; amounts are written as anywhere else in
the program: `1.5 kg`, `3.3 lb`, `1 oz`.
"""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from designer.errors import DesignerError, RefusedInputError
from designer.recipe.document import FERMENTABLE_KINDS
from designer.recipe.quantity import Kind, Quantity
from designer.resource_files import resource_path
from designer.units import read

PACK_SETS = ("metric", "us")
PACK_KINDS = (*FERMENTABLE_KINDS, "hops", "yeast")
COLUMNS = ("kind", "amount", "label", "source")
LARGEST_FILE_BYTES = 1_000_000


@dataclass(frozen=True, slots=True)
class PackSize:
    """A pack of one kind of ingredient: how much is in it, and what a shop calls it."""

    kind: str
    amount: Quantity
    label: str
    source: str

    @property
    def mass_kg(self) -> float:
        """The mass in the pack."""
        return self.amount.value


@cache
def packs(pack_set: str) -> tuple[PackSize, ...]:
    """Return the packs of a set, "metric" or "us"; KeyError for any other."""
    if pack_set not in PACK_SETS:
        raise KeyError(pack_set)
    return read_packs(resource_path(f"packs_{pack_set}.csv"))


def read_packs(path: Path) -> tuple[PackSize, ...]:
    """Return the packs that a file lists.

    Raises RefusedInputError, one problem a row, for what it says, and DesignerError for a file that
    cannot be read.
    """
    try:
        if path.stat().st_size > LARGEST_FILE_BYTES:
            raise DesignerError(f"{path} is too large for a list of packs.")
        text = path.read_text(encoding="utf-8-sig")
    except OSError as fault:
        raise DesignerError(f"{path} cannot be read: {fault.strerror or fault}.") from None
    except UnicodeDecodeError:
        raise RefusedInputError(f"{path} is not UTF-8 text.") from None
    rows = csv.DictReader(text.splitlines())
    if rows.fieldnames is None or not {"kind", "amount"} <= set(rows.fieldnames):
        raise RefusedInputError(f"{path}: the first line must name {', '.join(COLUMNS)}.")
    problems: list[str] = []
    found = [_pack(row, f"{path}, line {rows.line_num}", problems) for row in rows]
    if problems:
        raise RefusedInputError(problems)
    return tuple(each for each in found if each is not None)


def _pack(row: dict[str, str], where: str, problems: list[str]) -> PackSize | None:
    kind = (row.get("kind") or "").strip()
    if kind not in PACK_KINDS:
        problems.append(f"{where}: kind “{kind}” is none of {', '.join(PACK_KINDS)}.")
        return None
    try:
        amount = read(Kind.MASS, row.get("amount") or "")
    except RefusedInputError as fault:
        problems += [f"{where}: {each}" for each in fault.problems]
        return None
    if amount.value <= 0.0:
        problems.append(f"{where}: a pack of {amount.text} holds nothing.")
        return None
    return PackSize(kind, amount, (row.get("label") or "pack").strip(), row.get("source") or "")
