"""The sheet as plain text, to copy into a message or a note."""

from __future__ import annotations

from designer.sheet.blocks import (
    Block,
    Drawings,
    Head,
    Item,
    ItemList,
    Lines,
    Paragraph,
    Reading,
    Sheet,
    SideBySide,
    Step,
    Steps,
    Table,
    plain_words,
)
from designer.sheet.language import Language, language

BLANK = "________"
_SIGNS = {"care": "! ", "stop": "!! "}


def sheet_text(sheet: Sheet) -> str:
    """Return all that the sheet says, in order, one thing a line."""
    spoken = language(sheet.language)
    lines = _head(sheet.head, spoken)
    for section in sheet.sections:
        title = section.title.upper()
        lines += ["", f"{title} ({section.lead})" if section.lead else title]
        for block in section.blocks:
            lines += _block(block, spoken)
    return "\n".join([*lines, "", sheet.foot, ""])


def _head(head: Head, spoken: Language) -> list[str]:
    about = " · ".join(part for part in (head.subtitle, head.vessels) if part)
    blanks = ", ".join(f"{label} {known or BLANK}" for label, known in head.blanks)
    figures = [
        f"  {spoken.say('{label}:', label=each.label)} {each.value} ({each.span})"
        + (f", {each.means}" if each.means else "")
        for each in head.figures
    ]
    lines = (head.shop, head.title, about, head.credit)
    return [*filter(None, lines), blanks, *figures]


def _block(block: Block, spoken: Language) -> list[str]:
    if isinstance(block, Steps):
        return [line for step in block.steps for line in _step(step, spoken)]
    if isinstance(block, SideBySide):
        return [line for each in (*block.left, *block.right) for line in _list(each, spoken)]
    if isinstance(block, Paragraph):
        return [_SIGNS.get(block.kind, "") + plain_words(block.words)]
    if isinstance(block, Table):
        rows = ("  ".join(f"{cell:>9}" for cell in row) for row in (block.head, *block.rows))
        caption = spoken.say("{label}:", label=block.caption)
        return [f"  {caption}", *(f"    {row}" for row in rows)]
    if isinstance(block, Drawings):
        return [f"  {each.says}" for each in block.drawings]
    return [BLANK * 8] * block.count if isinstance(block, Lines) else []


def _list(whole: ItemList, spoken: Language) -> list[str]:
    title = spoken.say("{label}:", label=whole.title)
    return [title, *(_item(item, spoken) for item in whole.items)]


def _item(item: Item, spoken: Language) -> str:
    mark = f"{spoken.say('{label}:', label=item.mark)} " if item.mark else ""
    amount = f"{item.amount} " if item.amount else ""
    note = f" ({item.note})" if item.note else ""
    return f"  {'[ ]' * item.boxes} {mark}{amount}{item.name}{note}"


def _step(step: Step, spoken: Language) -> list[str]:
    boxes, when = _boxes(step)
    lead = ", ".join(part for part in (when, step.left) if part)
    before = "".join(f"{spoken.say('{label}:', label=each)} " for each in (lead, step.bag) if each)
    lines = [f"  {boxes}{before}{plain_words(step.do)}"]
    lines += [f"        {portion.amount} {portion.name}" for portion in step.listed]
    lines += [f"        {_reading(reading, spoken)}" for reading in step.readings]
    return lines + [f"        {_SIGNS.get(each.kind, '')}{each.text}" for each in step.asides]


def _boxes(step: Step) -> tuple[str, str]:
    """The boxes of a step, each with its number where there are several, and the time of all."""
    whens = [" ".join(each.split()) for each in step.whens]
    if not step.turns:
        return "[ ] ", whens[0]
    if len(whens) == 1:
        return "".join(f"{turn.number} [ ] " for turn in step.turns), whens[0]
    each = (f"{turn.number} [ ] {' '.join(turn.when.split())}" for turn in step.turns)
    return "", ", ".join(each)


def _reading(reading: Reading, spoken: Language) -> str:
    also = f" {reading.also} {BLANK} {reading.unit}" if reading.also else ""
    label = spoken.say("{label}:", label=reading.label)
    blanks = ", ".join(f"{number} {BLANK}{also}" for number in reading.turns)
    return f"{label} {reading.forecast}, {spoken.say('read')} {blanks or BLANK + also}"
