"""Sizes in which a shop sells extract, grain, hops and yeast: two sets, and those of one's own.

A file is CSV with the columns kind, amount, label, source; amounts are written as anywhere else in
the program: `1.5 kg`, `3.3 lb`, `1 oz`.
"""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from designer.errors import DesignerError, RefusedInputError
from designer.library.system_reason import reason_of
from designer.recipe.document import FERMENTABLE_KINDS
from designer.recipe.message import refused, say, word
from designer.recipe.quantity import Kind, Quantity
from designer.resource_files import resource_path
from designer.translation import in_signs, labelled, message, tr
from designer.units import ShownUnits, read

PACK_SETS = ("metric", "us")
PACK_KINDS = (*FERMENTABLE_KINDS, message("hops"), message("yeast"))
COLUMNS = ("kind", "amount", "label", "source")
LARGEST_FILE_BYTES = 1_000_000
MOST_SIZES = 12
LONGEST_LABEL = 40
_SACK = ("50 g", "50 kg")
_LIMITS = {"hops": ("5 g", "10 kg"), "yeast": ("1 g", "1 kg")}
"""The least and the most that a pack can sensibly hold; a judgement, no source."""


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

    @property
    def said(self) -> str:
        """What a shop calls it, such as “25 g bag”."""
        return tr("{size} {label}", size=in_signs(self.amount.text), label=tr(self.label))


def pack_size(kind: str, amount: Quantity, label: str, source: str = "") -> PackSize:
    """Return a pack if a shop could sell it.

    Raises RefusedInputError that names the limit and what to type instead.
    """
    least, most = _LIMITS.get(kind, _SACK)
    if not read(Kind.MASS, least).value <= amount.value <= read(Kind.MASS, most).value:
        raise refused(
            "pack-beyond-limits",
            "a pack of {kind} holds from {least} to {most}, not {amount}; type what stands on "
            "the pack",
            kind=word(kind),
            least=least,
            most=most,
            amount=amount.text,
        )
    label = " ".join(label.split()) or "pack"
    if len(label) > LONGEST_LABEL:
        raise refused(
            "label-too-long",
            "{longest_label} letters are the most for what a pack is called",
            longest_label=LONGEST_LABEL,
        )
    return PackSize(kind, amount, label, source)


def checked_set(sizes: tuple[PackSize, ...]) -> tuple[PackSize, ...]:
    """Return the sizes if each is there once and none of a kind has too many to choose from.

    Raises RefusedInputError that says which to take out.
    """
    for kind in PACK_KINDS:
        own = [each for each in sizes if each.kind == kind]
        if len(own) > MOST_SIZES:
            raise refused(
                "too-many-sizes",
                "{most_sizes} sizes of {kind} are the most; take one out before adding another",
                most_sizes=MOST_SIZES,
                kind=kind,
            )
        masses = [round(each.mass_kg, 4) for each in own]
        for each, mass in zip(own, masses, strict=True):
            if masses.count(mass) > 1:
                raise refused(
                    "size-there-already",
                    "{amount} of {kind} is in the list already; change or delete that",
                    amount=each.amount.text,
                    kind=kind,
                )
    return sizes


def pack_set_for(shown: ShownUnits) -> str:
    """Return the set that belongs to the units shown: "metric" or "us"."""
    return "us" if shown is ShownUnits.US else "metric"


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
            raise DesignerError(
                say("packs-too-large", "{path} is too large for a list of packs.", path=path)
            )
        text = path.read_text(encoding="utf-8-sig")
    except OSError as fault:
        raise DesignerError(
            say(
                "cannot-be-read",
                "{path} cannot be read: {reason}. Mend that, or give another file.",
                path=path,
                reason=reason_of(fault),
            )
        ) from None
    except UnicodeDecodeError:
        raise refused("not-utf8", "{path} is not UTF-8 text.", path=path) from None
    rows = csv.DictReader(text.splitlines())
    if rows.fieldnames is None or not {"kind", "amount"} <= set(rows.fieldnames):
        raise refused(
            "packs-headings",
            "{path}: the first line must name {columns}.",
            path=path,
            columns=", ".join(COLUMNS),
        )
    problems: list[str] = []
    found = [
        _pack(row, tr("{path}, line {number}", path=path, number=rows.line_num), problems)
        for row in rows
    ]
    if problems:
        raise RefusedInputError(problems)
    return tuple(each for each in found if each is not None)


def _pack(row: dict[str, str], where: str, problems: list[str]) -> PackSize | None:
    kind = (row.get("kind") or "").strip()
    if kind not in PACK_KINDS:
        problems.append(
            tr(
                "{where}: kind “{kind}” is none of {pack_kinds}.",
                where=where,
                kind=kind,
                pack_kinds=", ".join(PACK_KINDS),
            )
        )
        return None
    try:
        amount = read(Kind.MASS, row.get("amount") or "")
    except RefusedInputError as fault:
        problems += [labelled(where, each) for each in fault.problems]
        return None
    if amount.value <= 0.0:
        problems.append(
            tr("{where}: a pack of {amount} holds nothing.", where=where, amount=amount.text)
        )
        return None
    return PackSize(kind, amount, (row.get("label") or "pack").strip(), row.get("source") or "")
