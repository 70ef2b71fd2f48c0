"""The sheet as one HTML page that needs nothing else: for a browser, a message, the tests.

Every text passes through `escape`; drawings are SVG within the page. It prints in black and white
as it does in colour.
"""

from __future__ import annotations

from html import escape

from designer.sheet.blocks import (
    Block,
    Drawing,
    Drawings,
    Head,
    Item,
    ItemList,
    Label,
    Lines,
    Paragraph,
    Reading,
    Section,
    Shape,
    Sheet,
    SideBySide,
    Step,
    Steps,
    Strong,
    Table,
    Words,
)
from designer.sheet.language import Language, language

INKS = {
    "ink": "#1d2a2b",
    "soft": "#4f5c5b",
    "faint": "#b9c1be",
    "care": "#7b2018",
    "water": "#cfdfe6",
    "wort": "#e6d0ae",
    "foam": "#f3ecdf",
}

STYLE = """
body { font: 11pt/1.35 "Noto Sans", "DejaVu Sans", sans-serif; color: #1d2a2b; max-width: 60em;
  margin: 2em auto; padding: 0 1em; }
body.large { font-size: 15pt; } .shop { font-weight: bold; }
h1, h2, h3, .clock, .bag { color: #1f4a43; } h1 { margin: 0; }
h2 { border-top: 2px solid #1f4a43; margin: 1.2em 0 .4em; } h2 small { float: right; color: #4f5c5b;
  font-weight: normal; font-size: .7em; }
ul, ol { list-style: none; padding: 0; margin: 0; } li { break-inside: avoid; }
.columns { display: flex; gap: 2em; } .columns > * { flex: 1; }
.figures { display: flex; background: #eef1ef; } .figures div { flex: 1; padding: .4em; }
.figures b { display: block; font-size: 1.5em; }
.step { display: grid; grid-template-columns: 6em 1.5em 1fr 16em; gap: .6em; margin: .5em 0; }
.left, .aside, .note { font-size: .85em; }
.left, .clock { font-weight: bold; }
.bag { border: 1px solid; border-radius: 1em; padding: 0 .35em; font-weight: bold;
  font-size: .85em; }
.care, .stop { color: #7b2018; font-weight: bold; } .why { color: #4f5c5b; }
.blank { display: inline-block; min-width: 5em; border-bottom: 1px solid; }
.rule { border-bottom: 1px solid #b9c1be; height: 2em; } p { margin: .3em 0; }
td, th { padding: 0 .8em 0 0; text-align: left; } footer { margin-top: 2em; font-size: .8em; }
"""
BOX = '<span class="box">☐</span>'
_SIGNS = {"care": "⚠ ", "stop": "⛔ "}
BLANK = '<span class="blank">&nbsp;</span>'


def sheet_html(sheet: Sheet) -> str:
    """Return the sheet as a whole HTML document."""
    spoken = language(sheet.language)
    sections = "\n".join(_section(section, spoken) for section in sheet.sections)
    form = f"{sheet.variant}{' large' if sheet.form.large else ''}"
    return (
        f'<!DOCTYPE html>\n<html lang="{escape(sheet.language)}">\n<head>\n<meta charset="utf-8">\n'
        f"<title>{escape(sheet.head.title)}</title>\n<style>{STYLE}</style>\n</head>\n"
        f'<body class="{escape(form)}">\n{_head(sheet.head)}\n{sections}\n'
        f"<footer>{escape(sheet.foot)}</footer>\n</body>\n</html>\n"
    )


def _head(head: Head) -> str:
    about = " · ".join(part for part in (head.subtitle, head.vessels) if part)
    blanks = " ".join(
        f"{escape(label)} {f'<b>{escape(known)}</b>' if known else BLANK}"
        for label, known in head.blanks
    )
    figures = "\n".join(
        f"<div>{escape(each.label)}<b>{escape(each.value)}</b>{escape(each.span)}<br>"
        f"{escape(each.means)}</div>"
        for each in head.figures
    )
    glass = "" if head.glass is None else svg(head.glass)
    shop = f'<p class="shop">{escape(head.shop)}</p>\n' if head.shop else ""
    credit = f'<p class="note">{escape(head.credit)}</p>\n' if head.credit else ""
    strip = f'\n<div class="figures">\n{figures}\n</div>' if figures else ""
    return (
        f'<header>\n<div class="columns"><div>\n{shop}<h1>{escape(head.title)}</h1>\n'
        f"<p>{escape(about)}</p>\n{credit}<p>{blanks}</p>\n</div>\n{glass}</div>{strip}\n</header>"
    )


def _section(section: Section, spoken: Language) -> str:
    lead = f"<small>{escape(section.lead)}</small>" if section.lead else ""
    blocks = "\n".join(_block(block, spoken) for block in section.blocks)
    return (
        f'<section id="{escape(section.key)}">\n<h2>{lead}{escape(section.title)}</h2>\n{blocks}\n'
        "</section>"
    )


def _block(block: Block, spoken: Language) -> str:
    if isinstance(block, Steps):
        return "<ol>\n" + "\n".join(_step(step, spoken) for step in block.steps) + "\n</ol>"
    if isinstance(block, SideBySide):
        columns = ("\n".join(_list(each) for each in side) for side in (block.left, block.right))
        return '<div class="columns">' + "".join(f"<div>\n{x}\n</div>" for x in columns) + "</div>"
    if isinstance(block, Paragraph):
        return f'<p class="{escape(block.kind)}">{_words(block.words)}</p>'
    if isinstance(block, Table):
        return _table(block)
    if isinstance(block, Drawings):
        return '<div class="columns">\n' + "\n".join(map(svg, block.drawings)) + "\n</div>"
    return '<div class="rule"></div>\n' * block.count if isinstance(block, Lines) else ""


def _words(words: Words) -> str:
    return "".join(
        f"<b>{escape(run.text)}</b>" if isinstance(run, Strong) else escape(run) for run in words
    )


def _list(whole: ItemList) -> str:
    items = "\n".join(_item(item) for item in whole.items)
    return f"<h3>{escape(whole.title)}</h3>\n<ul>\n{items}\n</ul>"


def _item(item: Item) -> str:
    mark = f'<span class="bag">{escape(item.mark)}</span> ' if item.mark else ""
    amount = f"<b>{escape(item.amount)}</b> " if item.amount else ""
    note = f' <span class="note">{escape(item.note)}</span>' if item.note else ""
    return f"<li>{BOX * item.boxes} {mark}{amount}{escape(item.name)}{note}</li>"


def _step(step: Step, spoken: Language) -> str:
    when = "<br>".join(escape(each).replace("\n", "<br>") for each in step.whens)
    boxes = _boxes(step)
    left = f'<br><span class="left">{escape(step.left)}</span>' if step.left else ""
    bag = f'<span class="bag">{escape(step.bag)}</span> ' if step.bag else ""
    parts = [f"{bag}{_words(step.do)}"]
    parts += [f"<b>{escape(each.amount)}</b> {escape(each.name)}" for each in step.listed]
    parts += [_reading(reading, spoken) for reading in step.readings]
    asides = "".join(
        f'<p class="aside {escape(each.kind)}">{_SIGNS.get(each.kind, "")}{escape(each.text)}</p>'
        for each in step.asides
    )
    done = "<br>\n".join(parts)
    return (
        f'<li class="step"><span><span class="clock">{when}</span>{left}</span>{boxes}'
        f"<div>{done}</div>\n<div>{asides}</div></li>"
    )


def _boxes(step: Step) -> str:
    """The box of a step, or one for each of its turns with its number."""
    if not step.turns:
        return BOX
    boxes = "<br>".join(f"{BOX}&nbsp;<b>{turn.number}</b>" for turn in step.turns)
    return f'<span class="boxes">{boxes}</span>'


def _reading(reading: Reading, spoken: Language) -> str:
    also = f" {escape(reading.also)} {BLANK} {escape(reading.unit)}" if reading.also else ""
    label = spoken.say("{label}:", label=reading.label)
    blanks = ", ".join(f"<b>{number}</b> {BLANK}{also}" for number in reading.turns)
    return (
        f'<span class="note">{escape(label)} <b>{escape(reading.forecast)}</b> '
        f"{blanks or BLANK + also}</span>"
    )


def _table(table: Table) -> str:
    head = "".join(f'<th scope="col">{escape(cell)}</th>' for cell in table.head)
    rows = "\n".join(
        f'<tr><th scope="row">{escape(row[0])}</th>'
        + "".join(f"<td>{escape(cell)}</td>" for cell in row[1:])
        + "</tr>"
        for row in table.rows
    )
    return (
        f"<table>\n<caption>{escape(table.caption)}</caption>\n<thead><tr>{head}</tr></thead>\n"
        f"<tbody>\n{rows}\n</tbody>\n</table>"
    )


def svg(drawing: Drawing) -> str:
    """Return a drawing as SVG."""
    shapes = "\n".join(
        _svg_label(each) if isinstance(each, Label) else _svg_shape(each) for each in drawing.shapes
    )
    return (
        f'<svg role="img" width="{drawing.width:g}pt" height="{drawing.height:g}pt" '
        f'viewBox="0 0 {drawing.width:g} {drawing.height:g}">\n'
        f"<title>{escape(drawing.says)}</title>\n{shapes}\n</svg>"
    )


def _svg_shape(shape: Shape) -> str:
    points = " ".join(f"{x:.1f},{y:.1f}" for x, y in shape.points)
    fill = INKS.get(shape.fill, shape.fill) or "none"
    kind = "polygon" if shape.fill else "polyline"
    line = ""
    if shape.width > 0.0:
        tone = INKS.get(shape.tone, shape.tone)
        line = f' stroke="{escape(tone)}" stroke-width="{shape.width:g}"'
        line += ' stroke-dasharray="2 2"' if shape.dashed else ""
    return f'<{kind} points="{points}" fill="{escape(fill)}"{line}/>'


def _svg_label(label: Label) -> str:
    tone = INKS.get(label.tone, label.tone)
    weight = ' font-weight="bold"' if label.bold else ""
    return (
        f'<text x="{label.x:.1f}" y="{label.y:.1f}" font-size="{label.size:g}" '
        f'text-anchor="{escape(label.anchor)}" fill="{escape(tone)}"{weight}>'
        f"{escape(label.text)}</text>"
    )
