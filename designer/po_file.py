"""Translations from a `.po` file, compiled to the form that the standard library's gettext reads.

Both forms: GNU gettext manual, "The Format of PO Files" and "The Format of GNU MO Files".
"""

from __future__ import annotations

import ast
import struct

_MAGIC = 0x950412DE
_WORDS = ("msgctxt", "msgid_plural", "msgid", "msgstr")


def compiled(source: str) -> bytes:
    """Return the `.mo` form of the text of a `.po` file; untranslated messages are left out.

    Raises ValueError for a line that belongs in no such file.
    """
    found = messages_of(source)
    texts = {
        "\0".join(ids).encode(): "\0".join(said).encode()
        for ids, said in found.items()
        if all(said)
    }
    ids = sorted(texts)
    start = 7 * 4
    place = start + 16 * len(ids)
    tables: tuple[list[int], list[int]] = ([], [])
    body = b""
    for table, strings in zip(tables, (ids, [texts[each] for each in ids]), strict=True):
        for each in strings:
            table += [len(each), place + len(body)]
            body += each + b"\0"
    head = [_MAGIC, 0, len(ids), start, start + 8 * len(ids), 0, 0]
    numbers = [*head, *tables[0], *tables[1]]
    return struct.pack(f"<{len(numbers)}I", *numbers) + body


def messages_of(source: str) -> dict[tuple[str, ...], tuple[str, ...]]:
    """Return the messages of a `.po` file: id (and plural) to their translations, in order."""
    found: dict[tuple[str, ...], tuple[str, ...]] = {}
    entry: dict[str, str] = {}
    key = ""
    for number, line in enumerate([*source.splitlines(), 'msgid ""'], 1):
        text = line.strip()
        if not text or text.startswith("#"):
            continue
        if not text.startswith('"'):
            key, _, text = text.partition(" ")
            if not key.startswith(_WORDS) or not text.startswith('"'):
                raise ValueError(f"line {number}: {line}")
            if key == "msgid":
                _keep(entry, found)
                entry = {}
        entry[key] = entry.get(key, "") + ast.literal_eval(text)
    return found


def _keep(entry: dict[str, str], found: dict[tuple[str, ...], tuple[str, ...]]) -> None:
    if not entry:
        return
    ids = tuple(entry[key] for key in ("msgid", "msgid_plural") if key in entry)
    found[ids] = tuple(said for key, said in entry.items() if key.startswith("msgstr"))
