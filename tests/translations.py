"""For translators: `python -m tests.translations de` brings a catalogue up to date and checks it.

What was translated is kept, new sentences come in empty, those that are gone are dropped; then what
is missing is listed (`--all`: every one) and what is wrong. Without a language all catalogues are
checked and none is written. A translation that is meant to be as the English is has a comment above
it that begins with "# same". French: plain spaces before : ; ? ! % and within « » are written, the
program sets narrow ones.
"""

import argparse
import re
import string
import sys
from collections import Counter

from designer.po_file import IN_CONTEXT, messages_of
from designer.resource_files import resource_path
from designer.spoken_language import LANGUAGES

from . import catalogue_names
from .sentences import template

TEMPLATES = {"program": template, "names": catalogue_names.template}
"""Of each catalogue what makes its template: `program_de.po` is the program's in German."""
ALIKE = ("names",)
"""Catalogues in which a name may be the same in each language, as those of styles often are."""
CODES = [code for code in LANGUAGES if code != "en"]
SAME = "# same"
_HEADS = {
    "de": "Plural-Forms: nplurals=2; plural=(n != 1);",
    "fr": "Plural-Forms: nplurals=2; plural=(n > 1);",
}
_TAG = re.compile(r"</?[a-z][^<>]*>")
_MNEMONIC = re.compile(r"&(?!\w+;)\S")
_WORD = re.compile(r"[^\W\d_]{2,}")
_MOST_LISTED = 40
_NO_SPACE = re.compile(r"[^\W\d_}»)][:;?!](?=\s|$)")
"""French sets a space before these."""


def path_of(kind, code):
    return resource_path(f"translations/{kind}_{code}.po")


def catalogues():
    """Return the catalogues that there are, as kind and language."""
    return [(kind, code) for kind in TEMPLATES for code in CODES if path_of(kind, code).is_file()]


def remarks_of(source):
    """Return what translators remarked about messages: id to the lines above it."""
    found, lines = {}, []
    for block in re.split(r"\n\s*\n", source):
        lines = [each for each in block.splitlines() if each.startswith("# ")]
        wanted = next(iter(messages_of(re.sub(r"(?m)^#.*\n?", "", block))), None)
        if lines and wanted:
            found[wanted] = lines
    return found


def merged(kind, code, source):
    """Return a catalogue with the sentences of today, what was translated in its place."""
    known, remarks = messages_of(source), remarks_of(source)
    by_one = {ids[0]: said for ids, said in known.items() if ids != ("",)}
    first = f"# {LANGUAGES[code]}: made of {kind}.pot by python -m tests.translations {code}"
    head = ["Content-Type: text/plain; charset=UTF-8", "Content-Transfer-Encoding: 8bit"]
    head += [f"Language: {code}", _HEADS[code]]
    blocks = ["\n".join([first, 'msgid ""', 'msgstr ""', *(f'"{each}\\n"' for each in head)])]
    for block in TEMPLATES[kind]().split("\n\n")[1:]:
        (ids,) = messages_of(block)
        lines = [line for line in block.splitlines() if not line.startswith("msgstr")]
        said = known.get(ids) or by_one.get(ids[0], ())
        said = (*said, *([""] * len(ids)))[: len(ids)]
        marks = ["msgstr"] if len(ids) == 1 else [f"msgstr[{place}]" for place in range(len(ids))]
        lines += [f"{mark} {quoted(text)}" for mark, text in zip(marks, said, strict=True)]
        blocks.append("\n".join([*remarks.get(ids, []), *lines]))
    return "\n\n".join(blocks) + "\n"


def quoted(text):
    escaped = text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n")
    return '"' + escaped.replace("\t", "\\t") + '"'


def missing(kind, code):
    """Return the sentences of today that a catalogue has no words for."""
    known = messages_of(path_of(kind, code).read_text(encoding="utf-8"))
    wanted = messages_of(TEMPLATES[kind]())
    return [ids for ids in wanted if ids != ("",) and not all(known.get(ids, ("",)))]


def faults(kind, code):
    """Return what is wrong with the translations of a catalogue, each with its sentence."""
    source = path_of(kind, code).read_text(encoding="utf-8")
    found, remarks = messages_of(source), remarks_of(source)
    twice = [ids for ids, times in Counter(ids[0] for ids in found).items() if times > 1]
    told = [f"{ids!r}: is there twice" for ids in twice]
    for ids, said in found.items():
        if ids == ("",):
            told += [] if _HEADS[code] in said[0] else [f"the head lacks {_HEADS[code]!r}"]
        elif any(said):
            is_meant = kind in ALIKE or any(line.startswith(SAME) for line in remarks.get(ids, ()))
            told += [f"{ids[0]!r}: {fault}" for fault in _faults(code, ids, said, is_meant)]
    return told


def _faults(code, ids, said, is_meant):
    if len(said) != len(ids) or not all(said):
        yield f"{len(ids)} forms are wanted, not {sum(map(bool, said))}"
        return
    for one, text in zip(map(_of_message, ids), said, strict=True):
        yield from _different(one, text)
        yield from _of_language(code, text)
        if "  " in text.strip() and "  " not in one.strip():
            yield f"{text!r}: two spaces"
    if said[0] == _of_message(ids[0]) and not is_meant and _words(said[0]):
        yield f"is as the English is; if that is meant, put a line {SAME!r} above it"


def _of_message(one):
    """The message alone, without the context that it may have."""
    return one.rpartition(IN_CONTEXT)[2]


def _words(text):
    """The words of a sentence that are not put in."""
    return _WORD.findall(_TAG.sub(" ", re.sub(r"\{[^}]*\}|&\w+;", " ", text)))


def _different(one, text):
    """What a translation must have as its sentence has it."""
    for what, of in (
        ("what is put in", _parts),
        ("marks of rich text", lambda each: sorted(_TAG.findall(each))),
        ("the number of lines", lambda each: each.count("\n")),
        ("tabs", lambda each: each.count("\t")),
        ("spaces at the ends", _ends),
        ("the sign at the end", _last),
        ("the key after &", lambda each: len(_MNEMONIC.findall(each.replace("&&", "")))),
    ):
        try:
            wanted, found = of(one), of(text)
        except ValueError as fault:
            yield f"{text!r}: {fault}"
            continue
        if wanted != found:
            yield f"{text!r}: {what} is {found!r}, not {wanted!r}"


def _parts(text):
    parsed = string.Formatter().parse(text)
    return sorted({(name, form) for _, name, form, _ in parsed if name is not None})


def _ends(text):
    return text[: len(text) - len(text.lstrip())], text[len(text.rstrip()) :]


def _last(text):
    """The sign that ends a sentence, before a quotation mark or bracket."""
    bare = text.rstrip(" \u00a0\u202f\n»”“\"')")
    return bare[-1] if bare[-1:] and bare[-1] in ".?!…:" else ""


def _of_language(code, text):
    if code == "de" and "”" in text:
        yield f"{text!r}: German quotes are „ and “"
    if code == "fr" and re.search("[“”„]", text):
        yield f"{text!r}: French quotes are « and »"
    if code == "fr" and _NO_SPACE.search(_TAG.sub(" ", text)):
        yield f"{text!r}: French has a space before : ; ? !"


def _report(kind, code, *, lists_all):
    """Say what a catalogue lacks and what is wrong with it; return how much is wrong."""
    lacking, wrong = missing(kind, code), faults(kind, code)
    count = len(messages_of(TEMPLATES[kind]())) - 1
    yield f"{kind}_{code}.po: {count - len(lacking)} of {count} translated, {len(wrong)} faults"
    shown = lacking if lists_all else lacking[:_MOST_LISTED]
    yield from (f"  missing: {' | '.join(ids)!r}" for ids in shown)
    if len(shown) < len(lacking):
        yield f"  ... and {len(lacking) - len(shown)} more (--all lists them)"
    yield from (f"  wrong: {each}" for each in wrong)


def main(words):
    parser = argparse.ArgumentParser(prog="python -m tests.translations", description=__doc__)
    parser.add_argument("codes", nargs="*", choices=[*CODES, []], help="catalogues to bring up")
    parser.add_argument("--all", action="store_true", help="list all that is missing")
    chosen = parser.parse_args(words)
    for kind in TEMPLATES:
        for code in chosen.codes:
            path = path_of(kind, code)
            source = path.read_text(encoding="utf-8") if path.is_file() else ""
            path.write_text(merged(kind, code, source), encoding="utf-8")
    for kind, code in catalogues():
        if not chosen.codes or code in chosen.codes:
            lines = _report(kind, code, lists_all=chosen.all)
            sys.stdout.writelines(f"{line}\n" for line in lines)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
