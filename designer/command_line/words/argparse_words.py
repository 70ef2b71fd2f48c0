"""What argparse says by itself, as sentences of the program.

It asks gettext for each of its sentences by a name that is looked up here instead: no catalogue of
gettext's own is needed on the disk. Sentences about parsers that are put together wrongly are
nothing that a user reads, and stay as they are.
"""

from __future__ import annotations

import argparse
import re

from designer.translation import message, tr

SENTENCES = {
    "usage: ": message("usage: "),
    "positional arguments": message("arguments"),
    "options": message("options"),
    "show this help message and exit": message("print this help"),
    "show program's version number and exit": message("print the versions"),
    "argument %(argument_name)s: %(message)s": message("{argument_name}: {message}"),
    "not allowed with argument %s": message("does not go with {what}"),
    "ignored explicit argument %r": message("takes no value, but has {what}"),
    "expected one argument": message("a value is missing"),
    "expected at most one argument": message("takes one value at most"),
    "expected at least one argument": message("a value is missing; it takes one or more"),
    "the following arguments are required: %s": message("missing: {what}"),
    "one of the arguments %s is required": message("one of these is missing: {what}"),
    "ambiguous option: %(option)s could match %(matches)s": message(
        "{option} can mean any of {matches}"
    ),
    "invalid %(type)s value: %(value)r": message("{value} is not a whole number"),
}
"""What argparse says, to what the program says; `{what}` is what argparse has no name for.

The only type that has no words of its own is that of whole numbers.
"""
_PLACE = re.compile(r"%(?:\((\w+)\))?[rs]")


def said(text: str) -> str:
    """Return what is said for a text of argparse, with places as argparse fills them."""
    found = tr(SENTENCES[text]) if text in SENTENCES else text
    places = {each[1] or "what": each[0] for each in _PLACE.finditer(text)}
    if not places or text not in SENTENCES:
        return found
    return found.replace("%", "%%").format(**places)


def speak_for_argparse() -> None:
    """Let argparse say the program's sentences from now on."""
    vars(argparse)["_"] = said
