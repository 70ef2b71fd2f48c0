"""What a brewer does to the recipe: typing in cells and fields, lines, drags, undo."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

from tests.benchmarks.robot.brewer import Brewer
from tests.benchmarks.robot.disk import key_of
from tests.benchmarks.robot.words import FIELDS, Pen, Typed, label_of

LISTS = {"Fermentables": "fermentables", "Hops": "hops", "Extras": "extras"}
NOUNS = {"Fermentables": "F", "Hops": "H", "Extras": "X"}
COLUMNS = {
    "Amount": "amount", "Goes in": "when", "Colour": "colour", "Alpha acid": "alpha",
    "Fermentable": "name", "Hop": "name", "Extra": "name",
}  # fmt: skip
NAMES = {"Fermentables": "Quay malt", "Hops": "Pier hop", "Extras": "Mole finings"}


def on_compose(brewer: Brewer) -> dict[str, Any]:
    """Be on the page of the editors; return what is seen there."""
    seen = brewer.look()
    if seen["page"] != "Compose" or seen.get("begin"):
        brewer.press("1", "C")
    return brewer.page()


def _written(brewer: Brewer, table: str, heading: str) -> Typed:
    pen = Pen(brewer.draw, comma=brewer.comma)
    name = COLUMNS[heading]
    if name == "name":
        text = brewer.new_name(NAMES[table])
        return Typed(text, text)
    if name == "amount":
        amounts = {"Fermentables": pen.mass, "Hops": pen.weight, "Extras": pen.dose}
        return amounts[table]()
    return {"when": pen.when, "colour": pen.colour, "alpha": pen.alpha}[name]()


def _cells(page: dict[str, Any]) -> list[tuple[str, int, str]]:
    """Return the cells of lines that can be typed in."""
    found = []
    for name, table in page["tables"].items():
        for row, each in enumerate(table["rows"][:-1]):
            for column, heading in enumerate(table["headings"]):
                is_one = heading in COLUMNS and heading not in table["hidden"]
                if is_one and each["edits"][column]:
                    found.append((name, row, heading))
    return found


def _go_into(brewer: Brewer, cell: tuple[str, int, str]) -> bool:
    """Choose a cell in one of the ways there are, ready to be typed in anew."""
    way = brewer.draw.choice(("click", "aim", "again", "again", "f2", "double", "return"))
    place = list(cell)
    brewer.log[-1] += f" ({way})"
    close_editor(brewer)
    chosen = brewer.aim_and_click(cell=place) if way == "aim" else brewer.click(cell=place)
    if not chosen:
        return False
    if way == "again":  # on a cell that is chosen already, then typing after a moment
        brewer.on.sleep(brewer.draw.uniform(0.45, 0.8))
        brewer.click(cell=place)
    brewer.on.sleep(brewer.draw.choice((0.0, 0.05, 0.12, 0.2, 0.3, 0.5)))
    if way == "double":
        brewer.click("double", cell=place)
    elif way in ("f2", "return"):
        brewer.press("F2" if way == "f2" else "Return")
    if way in ("f2", "return", "double"):
        brewer.press("A", "C")
    return True


def type_in_cell(brewer: Brewer) -> None:
    """Type a new value into a cell and go on."""
    cells = _cells(on_compose(brewer))
    if not cells:
        return
    cell = brewer.draw.choice(cells)
    typed = _written(brewer, cell[0], cell[2])
    place = f"{LISTS[cell[0]]}.{cell[1]}.{COLUMNS[cell[2]]}"
    human = brewer.is_human()
    brewer.say(f"type {typed.text!r} into {cell}{' by hand' if human else ''}")
    brewer.typing(place)
    if not _go_into(brewer, cell):
        brewer.check({})
        return
    brewer.type(typed.text, human=human)
    free = (f"{LISTS[cell[0]]}.{cell[1]}.label",)
    if brewer.draw.random() < float(brewer.options.get("open", 0.12)):
        brewer.say("and leave the editor open")
        leave_open(brewer, {place: typed.value}, free)
        return
    _leave_cell(brewer)
    brewer.check({place: typed.value}, free=free)


def leave_open(brewer: Brewer, changes: dict[str, Any], free: tuple[str, ...]) -> None:
    """Do something else while the editor is open: what was typed must be put in."""
    way = brewer.draw.choice(("save", "page", "undo and redo", "wait"))
    brewer.log[-1] += f": {way}"
    if way == "save":
        brewer.model.files.pop(Path(brewer.model.path), None)  # what it holds is asked later
        brewer.press("S", "C")
    elif way == "page":
        brewer.press("3", "C")
    elif way == "wait":
        brewer.on.sleep(brewer.draw.uniform(0.4, 1.2))
        brewer.press("Return")
        brewer.press("Return" if is_editing(brewer) else "Escape")
    else:
        brewer.press("Return")
        if is_editing(brewer):
            brewer.press("Return")
        brewer.press("Z", "C")
        brewer.press("Y", "C")
    brewer.check(changes, free=free)


def _leave_cell(brewer: Brewer) -> None:
    way = brewer.draw.choice(("Return", "Return", "Tab", "name"))
    brewer.log[-1] += f", {way}"
    if way == "name":
        for _ in range(2):  # the first click may only put the suggestions away
            brewer.click(field="Name of the recipe")
            if not is_editing(brewer):
                break
    else:
        brewer.press(way)
        if way == "Return" and is_editing(brewer):
            brewer.press("Return")  # the first one picked from what is offered


def refused_entry(brewer: Brewer) -> None:
    """Type what no weight can be, or take typing back: nothing may change, nor may Redo know it."""
    cells = [each for each in _cells(on_compose(brewer)) if each[2] == "Amount"]
    cells = [each for each in cells if each[0] != "Extras"]
    if not cells:
        return
    cell = brewer.draw.choice(cells)
    takes_back = brewer.draw.random() < 0.5
    pen = Pen(brewer.draw, comma=brewer.comma)
    text = pen.mass().text if takes_back else pen.refused()
    brewer.say(f"type {text!r} into {cell} and {'take it back' if takes_back else 'be refused'}")
    redo = brewer.model.redo
    brewer.typing(f"{LISTS[cell[0]]}.{cell[1]}.amount")
    if not _go_into(brewer, cell):
        brewer.check({})
        return
    brewer.type(text, human=brewer.is_human())
    brewer.press("Escape" if takes_back else "Return")
    if not takes_back:
        _leave_line(brewer)
    undo = brewer.model.undo
    brewer.check({})
    brewer.model.undo = undo
    before = brewer.last_facts()
    if brewer.draw.random() < 0.6:
        brewer.press("Y", "C")
        facts = brewer.document()
        known = [key_of(before)] + [key_of(each) for each in (redo or [])[-1:]]
        if redo is not None and key_of(facts) not in known:
            brewer.find("wrong value", f"Redo after {text!r} put in what was never entered")
        brewer.model.edited(facts, steps_known=False)
    brewer.model.redo = None


def type_name(brewer: Brewer) -> None:
    """Rename the recipe in the header."""
    on_compose(brewer)
    text, human = brewer.new_name("Harbour brew"), brewer.is_human()
    brewer.say(f"name the recipe {text!r}{' by hand' if human else ''}")
    if _type_over(brewer, "Name of the recipe", "name", text, human):
        if brewer.draw.random() < 0.7:
            brewer.press("Return")
        brewer.check({"name": text})


def _type_over(brewer: Brewer, label: str, place: str, text: str, human: bool) -> bool:
    """Type a text over what stands in a field; False if the field cannot be reached."""
    be_out_of(brewer, label)
    brewer.typing(place)
    if not brewer.click(field=label):
        brewer.check({})
        return False
    brewer.press("A", "C")
    brewer.type(text, human=human)
    return True


def type_in_field(brewer: Brewer) -> None:
    """Type a figure of the process."""
    page = on_compose(brewer)
    places = [each for each in FIELDS if label_of(each) in page["fields"]]
    if not places:
        return
    place = brewer.draw.choice(places)
    typed, human = Pen(brewer.draw, comma=brewer.comma).field(place), brewer.is_human()
    brewer.say(f"type {typed.text!r} into {label_of(place)}{' by hand' if human else ''}")
    if _type_over(brewer, label_of(place), place, typed.text, human):
        if brewer.draw.random() < 0.8:
            brewer.press(brewer.draw.choice(("Return", "Tab")))
        brewer.check({place: typed.value})


def add_line(brewer: Brewer) -> None:
    """Add a line: amount and name in one."""
    on_compose(brewer)
    table = brewer.draw.choice(tuple(LISTS))
    lines = LISTS[table]
    amount = _written(brewer, table, "Amount")
    if " " not in amount.text and table == "Extras":
        return
    name = brewer.new_name(NAMES[table])
    text = f"{amount.text} {name}"
    brewer.say(f"add {text!r} to {table}")
    number = brewer.last_facts()[lines]
    brewer.typing(lines)
    brewer.press(NOUNS[table], "CS")
    brewer.type(text, human=brewer.is_human())
    brewer.press("Return")
    _leave_line(brewer)
    _check_added(brewer, lines, number, [(amount, name)])


def _leave_line(brewer: Brewer) -> None:
    """Close what stands open to be typed in, of whatever kind."""
    focus = brewer.look()["focus"]
    if focus and "LineEdit" in focus[0]:
        brewer.press("Escape")


def _check_added(brewer: Brewer, lines: str, number: int, many: list[tuple[Typed, str]]) -> None:
    """After lines were added behind the others: amounts and names are known, the rest is free."""
    wanted: dict[str, Any] = {lines: number + len(many)}
    starts = []
    for at, (amount, name) in enumerate(many, number):
        starts.append(f"{lines}.{at}.")
        wanted |= {f"{lines}.{at}.name": name, f"{lines}.{at}.amount": amount.value}
    facts = brewer.document()
    free = {place: facts[place] for place in facts if place.startswith(tuple(starts))}
    brewer.check({**free, **wanted})


def _lines(brewer: Brewer, page: dict[str, Any], least: int) -> tuple[str, int] | None:
    """Return a table with so many lines and one of its rows."""
    found = [name for name, each in page["tables"].items() if len(each["rows"]) > least]
    if not found:
        return None
    table = brewer.draw.choice(found)
    return table, brewer.draw.randrange(len(page["tables"][table]["rows"]) - 1)


def _names(brewer: Brewer, lines: str) -> list[dict[str, Any]]:
    """Return the lines of a list as the last facts have them."""
    facts = brewer.last_facts()
    rows = []
    for number in range(facts[lines]):
        start = f"{lines}.{number}."
        rows.append({k[len(start) :]: v for k, v in facts.items() if k.startswith(start)})
    return rows


def _as_facts(brewer: Brewer, lines: str, rows: list[dict[str, Any]]) -> dict[str, Any]:
    """Return changes that make a list what `rows` says."""
    changes: dict[str, Any] = {
        place: None for place in brewer.last_facts() if place.startswith(f"{lines}.")
    }
    for number, row in enumerate(rows):
        changes |= {f"{lines}.{number}.{name}": value for name, value in row.items()}
    return {**changes, lines: len(rows)}


def _select_row(brewer: Brewer, table: str, row: int) -> bool:
    """Choose a line; an editor that was open is left first."""
    page = brewer.page()["tables"][table]
    heading = next(each for each in page["headings"] if COLUMNS.get(each) == "name")
    if not brewer.click(cell=[table, row, heading]):
        return False
    _leave_line(brewer)
    return True


def remove_line(brewer: Brewer) -> None:
    """Take a line out with the Delete key."""
    found = _lines(brewer, on_compose(brewer), 2)
    if found is not None:
        _do_to_line(brewer, "remove", found, [("Delete",)], lambda rows, row: rows.pop(row))


def duplicate_line(brewer: Brewer) -> None:
    """Copy a line below itself."""
    found = _with_room(brewer)
    if found is not None:
        _do_to_line(
            brewer,
            "duplicate",
            found,
            [("D", "C")],
            lambda rows, row: rows.insert(row + 1, dict(rows[row])),
        )


def copy_and_paste(brewer: Brewer) -> None:
    """Copy a line and paste it at the end."""
    found = _with_room(brewer)
    if found is not None:
        _do_to_line(
            brewer,
            "copy and paste",
            found,
            [("C", "C"), ("V", "C")],
            lambda rows, row: rows.append(dict(rows[row])),
        )


def _with_room(brewer: Brewer) -> tuple[str, int] | None:
    """Return a table that may get longer and one of its rows."""
    found = _lines(brewer, on_compose(brewer), 1)
    if found is None or brewer.last_facts()[LISTS[found[0]]] > 8:
        return None
    return found


def _do_to_line(
    brewer: Brewer,
    doing: str,
    found: tuple[str, int],
    keys: list[tuple[str, ...]],
    change: Callable[[list[dict[str, Any]], int], object],
) -> None:
    """Choose a line and press keys; then the list must be what `change` makes of its rows."""
    table, row = found
    rows = _names(brewer, LISTS[table])
    brewer.say(f"{doing} line {row} of {table}")
    brewer.typing(LISTS[table])
    if _select_row(brewer, table, row):
        for key in keys:
            brewer.press(*key)
        change(rows, row)
    brewer.check(_as_facts(brewer, LISTS[table], rows))


def move_line(brewer: Brewer) -> None:
    """Move a line by keys or by dragging it."""
    found = _lines(brewer, on_compose(brewer), 2)
    if found is None:
        return
    table, row = found
    rows = _names(brewer, LISTS[table])
    alike = any(row in rows[:at] for at, row in enumerate(rows))
    drags = brewer.draw.random() < 0.6
    to = brewer.draw.randrange(len(rows))
    brewer.say(f"{'drag' if drags else 'move'} line {row} of {table} to {to}")
    brewer.typing(LISTS[table])
    if not _select_row(brewer, table, row):
        brewer.check({})
        return
    if drags:
        _drag(brewer, table, row, to)
        _check_moved(brewer, table, rows, row)
        _forget_steps_of_alike(brewer, alike=alike)
        return
    for _ in range(abs(to - row)):
        brewer.press("Up" if to < row else "Down", "A")
    rows.insert(to, rows.pop(row))
    brewer.check(_as_facts(brewer, LISTS[table], rows), steps_known=abs(to - row) == 1)
    _forget_steps_of_alike(brewer, alike=alike)


def _forget_steps_of_alike(brewer: Brewer, *, alike: bool) -> None:
    """A line that was moved past one like it is a step that nobody sees in the recipe."""
    if alike:
        brewer.model.undo = brewer.model.redo = None


def _drag(brewer: Brewer, table: str, row: int, to: int) -> None:
    """Drag a line over another. The press, moves and release are not waited for: a drag holds."""
    heading = brewer.page()["tables"][table]["headings"][0]
    brewer.click("press", cell=[table, row, heading])
    target = {"cell": [table, to, heading]}
    sent = []
    for by in ((0, 3), (0, 9), (2, 14)):
        sent.append(brewer.on.send("move", at={"cell": [table, row, heading]}, by=by))
        brewer.on.sleep(0.03)
    for by in ((0, 2), (0, 4)):
        sent.append(brewer.on.send("move", at=target, by=by))
        brewer.on.sleep(0.03)
    sent.append(brewer.on.send("click", at=target, how="release"))
    brewer.on.sleep(0.05)
    for each in sent:
        brewer.on.wait(each, 10.0)


def _check_moved(brewer: Brewer, table: str, rows: list[dict[str, Any]], row: int) -> None:
    """After a drag the line is somewhere among the others, and nothing else has changed."""
    lines = LISTS[table]
    moved = rows.pop(row)
    facts = brewer.document()
    for to in range(len(rows) + 1):
        wanted = [*rows[:to], moved, *rows[to:]]
        changes = _as_facts(brewer, lines, wanted)
        if all(facts.get(place) == value for place, value in changes.items()):
            brewer.log[-1] += f" (now {to})"
            brewer.check(changes)
            return
    brewer.check(_as_facts(brewer, lines, [*rows[:row], moved, *rows[row:]]))


def paste_text(brewer: Brewer) -> None:
    """Paste rows of a spreadsheet, amount and name with their units."""
    found = _with_room(brewer)
    if found is None or found[0] == "Extras":
        return
    table, row = found
    lines = LISTS[table]
    number = brewer.last_facts()[lines]
    pen = Pen(brewer.draw, comma=brewer.comma)
    amount = {"Fermentables": pen.mass_in_a_table, "Hops": pen.weight}[table]
    many = [(amount(), brewer.new_name(NAMES[table])) for _ in range(2)]
    text = "\n".join(f"{amount.text}\t{name}" for amount, name in many) + "\n"
    brewer.say(f"paste {text!r} into {table}")
    brewer.typing(lines)
    if not _select_row(brewer, table, row):
        brewer.check({})
        return
    brewer.on.ask("copy", text=text)
    brewer.press("V", "C")
    _check_added(brewer, lines, number, many)


def undo(brewer: Brewer) -> None:
    """Take steps back; each must be what was before it."""
    _walk(brewer, "undo", "Z", back=True)


def redo(brewer: Brewer) -> None:
    """Do again what was taken back."""
    _walk(brewer, "redo", "Y", back=False)


def _walk(brewer: Brewer, word: str, key: str, *, back: bool) -> None:
    """Walk one to three steps through the history, by key or button, as far as it goes."""
    by_key = brewer.draw.random() < 0.6
    for _ in range(brewer.draw.randint(1, 3)):
        steps = brewer.model.undo if back else brewer.model.redo
        if steps is not None and not steps:
            break
        brewer.say(f"{word} by {'key' if by_key else 'button'}")
        if not _step(brewer, word.capitalize(), key if by_key else ""):
            break
        _check_step(brewer, steps[-1] if steps else None, back=back)


def close_editor(brewer: Brewer) -> None:
    """Close a cell's editor that stands open with nothing typed in it."""
    if is_editing(brewer):
        brewer.press("Escape")


def is_editing(brewer: Brewer) -> bool:
    """Whether the editor of a cell is open and has the keyboard."""
    focus = brewer.look()["focus"]
    return bool(focus) and focus[0] == "QLineEdit" and focus[1] in COLUMNS


def be_out_of(brewer: Brewer, label: str) -> None:
    """Finish what was typed in a field before: one stay in a field is one step of the history."""
    if brewer.look()["focus"] == ["TextField", label]:
        brewer.press("Return")


def _step(brewer: Brewer, word: str, key: str) -> bool:
    if key:
        close_editor(brewer)
        brewer.press(key, "C")
        return True
    return brewer.click(button=word)


def _check_step(brewer: Brewer, wanted: dict[str, Any] | None, *, back: bool) -> None:
    """After one step back or on: is it the recipe that is known to have been there?"""
    model = brewer.model
    before, undo_before, redo_before = brewer.last_facts(), model.undo, model.redo
    if wanted is None:
        model.edited(brewer.document(), steps_known=False)
        model.undo = model.redo = None
        return
    blank = dict.fromkeys(before, None)
    brewer.check({**blank, **wanted})
    if back:
        model.undo = undo_before[:-1] if undo_before else undo_before
        model.redo = [*redo_before, before] if redo_before is not None else None
    else:
        model.redo = redo_before[:-1] if redo_before else redo_before
        model.undo = [*undo_before, before] if undo_before is not None else None
