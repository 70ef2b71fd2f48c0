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
    lines = _head(sheet.head)
    spoken = language(sheet.language)
    for section in sheet.sections:
        title = section.title.upper()
        lines += ["", f"{title} ({section.lead})" if section.lead else title]
        for block in section.blocks:
            lines += _block(block, spoken)
    return "\n".join([*lines, "", sheet.foot, ""])


def _head(head: Head) -> list[str]:
    about = " · ".join(part for part in (head.subtitle, head.vessels) if part)
    blanks = ", ".join(f"{label} {known or BLANK}" for label, known in head.blanks)
    figures = [
        f"  {each.label}: {each.value} ({each.span})" + (f", {each.means}" if each.means else "")
        for each in head.figures
    ]
    lines = (head.shop, head.title, about, head.credit)
    return [*filter(None, lines), blanks, *figures]


def _block(block: Block, spoken: Language) -> list[str]:
    if isinstance(block, Steps):
        return [line for step in block.steps for line in _step(step, spoken)]
    if isinstance(block, SideBySide):
        return [line for each in (*block.left, *block.right) for line in _list(each)]
    if isinstance(block, Paragraph):
        return [_SIGNS.get(block.kind, "") + plain_words(block.words)]
    if isinstance(block, Table):
        rows = ("  ".join(f"{cell:>9}" for cell in row) for row in (block.head, *block.rows))
        return [f"  {block.caption}:", *(f"    {row}" for row in rows)]
    if isinstance(block, Drawings):
        return [f"  {each.says}" for each in block.drawings]
    return [BLANK * 8] * block.count if isinstance(block, Lines) else []


def _list(whole: ItemList) -> list[str]:
    return [whole.title + ":", *(_item(item) for item in whole.items)]


def _item(item: Item) -> str:
    mark = f"{item.mark}: " if item.mark else ""
    amount = f"{item.amount} " if item.amount else ""
    note = f" ({item.note})" if item.note else ""
    return f"  [ ] {mark}{amount}{item.name}{note}"


def _step(step: Step, spoken: Language) -> list[str]:
    when = " ".join(step.when.split())
    lead = ", ".join(part for part in (when, step.left) if part)
    bag = f"{step.bag}: " if step.bag else ""
    lines = [f"  [ ] {f'{lead}: ' if lead else ''}{bag}{plain_words(step.do)}"]
    lines += [f"        {portion.amount} {portion.name}" for portion in step.listed]
    lines += [f"        {_reading(reading, spoken)}" for reading in step.readings]
    return lines + [f"        {_SIGNS.get(each.kind, '')}{each.text}" for each in step.asides]


def _reading(reading: Reading, spoken: Language) -> str:
    also = f" {reading.also} {BLANK} {reading.unit}" if reading.also else ""
    label = spoken.say("{label}:", label=reading.label)
    return f"{label} {reading.forecast}, {spoken.say('read')} {BLANK}{also}"
