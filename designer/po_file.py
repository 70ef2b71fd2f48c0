"""Translations read from a `.po` file as it is: nothing is compiled, so a start does not wait.

A file is taken apart at its entries (2 ms for four thousand); what is said is taken out of its
quotes when it is first wanted. Form: GNU gettext manual, "The Format of PO Files". Comments, and
with them the mark "fuzzy", are passed over.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Callable, Iterator
from gettext import c2py  # argparse has loaded gettext

IN_CONTEXT = "\4"
"""Between a context and the message that is said in it, as gettext has it."""
_WORDS = ("msgctxt", "msgid_plural", "msgid", "msgstr")
_WRAPPED = re.compile(r'"[ \t]*\n[ \t]*"')
"""Where a string goes on in the next line."""
_SAID = re.compile(r'^msgstr(?:\[\d\])? "(.*)"', re.MULTILINE)
_PLURAL = re.compile(r"plural=(.+?);?$", re.MULTILINE)
_ESCAPED = re.compile(r'[\\"\n\t\r]')
_ESCAPES = {"\\": "\\\\", '"': '\\"', "\n": "\\n", "\t": "\\t", "\r": "\\r"}


class PoCatalogue:
    """The messages of a `.po` file, as gettext's catalogues give them.

    What is not translated, or not wholly, comes back as it is; what is, `typeset` as the language
    has it.
    """

    def __init__(self, source: str = "", typeset: Callable[[str], str] = str) -> None:
        self._typeset = typeset
        if '\n"' in (
            source.partition("\n\n")[2] or source
        ):  # only the head has several lines as we write it
            source = _WRAPPED.sub("", source)
        plain, *in_context = f"\n{source}".split('\nmsgctxt "')
        self._entries = dict(_entries(plain))
        for each in in_context:
            context, _, rest = each.partition('"\n')
            (one, said), *others = _entries(f"\n{rest}")
            self._entries |= {f"{context}{IN_CONTEXT}{one}": said, **dict(others)}
        self._texts: dict[str, tuple[str, ...]] = {}
        self._place: Callable[[int], int] | None = None

    def gettext(self, message: str, /) -> str:
        """Return a message in the language."""
        said = self._texts_of(message)
        return said[0] if said else message

    def pgettext(self, context: str, message: str, /) -> str:
        """Return a message in the language, as it is said in a context."""
        said = self._texts_of(f"{context}{IN_CONTEXT}{message}")
        return said[0] if said else message

    def ngettext(self, one: str, many: str, number: int, /) -> str:
        """Return one message or the other, as the language counts."""
        said = self._texts_of(one)
        if not said:
            return one if number == 1 else many
        if self._place is None:
            rule = _PLURAL.search(self.gettext(""))
            self._place = c2py(rule[1] if rule else "n != 1")
        return said[min(self._place(number), len(said) - 1)]

    def pairs(self) -> Iterator[tuple[str, str]]:
        """Yield each message with its translation."""
        messages = (_unescaped(each) for each in self._entries if each)
        return ((message, self.gettext(message)) for message in messages)

    def _texts_of(self, message: str) -> tuple[str, ...]:
        """The translations of a message: one, or one for each way to count; else none."""
        known = self._texts.get(message, ())
        if not known:
            entry = self._entries.get(_ESCAPED.sub(lambda sign: _ESCAPES[sign[0]], message), "")
            said = _SAID.findall(_WRAPPED.sub("", entry))
            found = tuple(self._typeset(_unescaped(each)) for each in said)
            if found and all(found):
                known = self._texts[message] = found
        return known


def _entries(source: str) -> Iterator[tuple[str, str]]:
    """Yield the entries of a part of a file: the quoted message, and what stands below it."""
    for each in source.split('\nmsgid "')[1:]:
        one, _, said = each.partition('"\n')
        yield one, said


def _unescaped(text: str) -> str:
    return str(ast.literal_eval(f'"{text}"')) if "\\" in text else text


def messages_of(source: str) -> dict[tuple[str, ...], tuple[str, ...]]:
    """Return the messages of a `.po` file: id (and plural) to their translations, in order.

    The id of one that has a context begins with that and `IN_CONTEXT`.

    Raises ValueError for a line that belongs in no such file.
    """
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
            if key == "msgctxt" or (key == "msgid" and list(entry) != ["msgctxt"]):
                _keep(entry, found)
                entry = {}
        entry[key] = entry.get(key, "") + ast.literal_eval(text)
    return found


def _keep(entry: dict[str, str], found: dict[tuple[str, ...], tuple[str, ...]]) -> None:
    if not entry:
        return
    ids = tuple(entry[key] for key in ("msgid", "msgid_plural") if key in entry)
    if "msgctxt" in entry:
        ids = (f"{entry['msgctxt']}{IN_CONTEXT}{ids[0]}", *ids[1:])
    found[ids] = tuple(said for key, said in entry.items() if key.startswith("msgstr"))
