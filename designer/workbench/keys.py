"""The keys and what they do: the menus, the list of keys and the guide have it from here.

A `MenuKey` is an entry of a menu with its key. Most work wherever one is. One that is `here` is the
page's own, or that of what has the keyboard: the menu shows it and leaves it to the page. What no
menu has, such as how one goes from cell to cell, stands in `PAGE_KEYS`.
"""

from __future__ import annotations

from typing import NamedTuple

from designer.translation import message, tr


class MenuKey(NamedTuple):
    """An entry of a menu: its words, & before its letter, and its keys, the usual one first."""

    text: str
    keys: tuple[str, ...]
    does: str = ""
    """What it does, where the words of the menu say too little."""
    here: bool = False
    """Whether it is the page's own, or that of what has the keyboard."""
    drawing: str = ""
    """Its drawing in `resources/icons`."""


BEGIN = MenuKey(message("&Begin…"), ("Ctrl+Shift+N",), drawing="action-begin")
DOORS = (
    MenuKey(message("Design one of my own"), ("Alt+1",), here=True),
    MenuKey(message("Type in a kit"), ("Alt+2",), here=True),
    MenuKey(message("Look at one that is done"), ("Alt+3",), here=True),
)
"""The doors of Begin; their keys work there."""
NEW = MenuKey(message("&New, empty"), ("Ctrl+N",), drawing="action-new")
OPEN = MenuKey(message("&Open…"), ("Ctrl+O",), drawing="action-open")
SAVE = MenuKey(message("&Save"), ("Ctrl+S",), drawing="action-save")
SAVE_AS = MenuKey(message("Save &as…"), ("Ctrl+Shift+S",))
KEEP_VERSION = MenuKey(
    message("Keep a &version with a name…"), ("Ctrl+Alt+S",), drawing="action-keep-version"
)
NEW_WINDOW = MenuKey(message("New &window"), ("Ctrl+Alt+N",))
PRINT = MenuKey(message("&Print the sheet…"), ("Ctrl+P",), drawing="action-print")
PDF = MenuKey(message("Export the sheet as P&DF…"), ("Ctrl+Shift+P",), drawing="action-export")
CLOSE = MenuKey(message("&Close the window"), ("Ctrl+W",))
QUIT = MenuKey(message("&Quit"), ("Ctrl+Q",))

UNDO = MenuKey(message("&Undo"), ("Ctrl+Z",), drawing="action-undo")
REDO = MenuKey(message("&Redo"), ("Ctrl+Shift+Z", "Ctrl+Y"), drawing="action-redo")
OPEN_OR_EDIT = MenuKey(
    message("&Open or edit"), ("Return",), message("open or edit what is chosen"), here=True
)
ADD_FERMENTABLE = MenuKey(
    message("Add a &fermentable"), ("Ctrl+Shift+F",), drawing="ingredient-liquid-extract"
)
ADD_HOP = MenuKey(message("Add a &hop"), ("Ctrl+Shift+H",), drawing="ingredient-hops")
ADD_EXTRA = MenuKey(message("Add an e&xtra"), ("Ctrl+Shift+X",), drawing="ingredient-extra")
FIND_ANYWHERE = MenuKey(
    message("F&ind anywhere…"),
    ("Ctrl+K",),
    message("find anything: ingredient, field, word, recipe, page, or what to do"),
    drawing="action-find",
)
FIND_ON_PAGE = MenuKey(
    message("Find on the pa&ge…"), ("Ctrl+F",), message("find a text on the page, or a recipe")
)
FIND_NEXT = MenuKey(message("Find n&ext"), ("F3",))
FIND_BEFORE = MenuKey(message("Find pre&vious"), ("Shift+F3",))
WHAT_IF = MenuKey(message("&What if…"), ("Ctrl+Shift+W",), drawing="action-what-if")

CUT = MenuKey(
    message("Cu&t"), ("Ctrl+X",), message("cut lines, or text"), here=True, drawing="action-cut"
)
COPY = MenuKey(
    message("&Copy"),
    ("Ctrl+C",),
    message("copy lines, also for a spreadsheet, or text"),
    here=True,
    drawing="action-copy",
)
PASTE = MenuKey(
    message("&Paste"),
    ("Ctrl+V",),
    message("paste lines, also of a spreadsheet, or text"),
    here=True,
    drawing="action-paste",
)
DELETE = MenuKey(
    message("&Delete"),
    ("Delete",),
    message("remove what is chosen"),
    here=True,
    drawing="action-delete",
)
SELECT_ALL = MenuKey(message("Select &all"), ("Ctrl+A",), here=True)
DUPLICATE = MenuKey(
    message("Dup&licate"),
    ("Ctrl+D",),
    message("duplicate the line"),
    here=True,
    drawing="action-duplicate",
)
MOVE_UP = MenuKey(
    message("&Move up"),
    ("Alt+Up",),
    message("move the line up"),
    here=True,
    drawing="action-move-up",
)
MOVE_DOWN = MenuKey(
    message("Move dow&n"),
    ("Alt+Down",),
    message("move the line down"),
    here=True,
    drawing="action-move-down",
)


def of_page(number: int) -> str:
    """Return the key of a page, counted from 0 in the order of their buttons."""
    return f"Ctrl+{number + 1}"


PAGES = tuple(map(of_page, range(6)))
"""The keys of the pages."""

PREFERENCES = MenuKey(message("Preference&s…"), ("Ctrl+,",), drawing="action-preferences")
LARGER = MenuKey(message("La&rger"), ("Ctrl++", "Ctrl+="), message("everything larger"))
SMALLER = MenuKey(message("S&maller"), ("Ctrl+-",), message("everything smaller"))
USUAL_SIZE = MenuKey(message("Usual si&ze"), ("Ctrl+0",), message("everything in its usual size"))
FULL_SCREEN = MenuKey(message("&Full screen"), ("F11",), drawing="action-full-screen")

STEP_DONE = MenuKey(
    message("&Done, go on"),
    ("Space", "Return"),
    message("on the brew day: the step is done"),
    here=True,
    drawing="action-done",
)
STEP_BACK = MenuKey(
    message("&Back a step"), ("Backspace",), message("on the brew day: back a step"), here=True
)
TIMER = MenuKey(
    message("New &timer…"),
    ("T",),
    message("on the brew day: a new timer"),
    here=True,
    drawing="action-timer",
)
NOTE = MenuKey(
    message("&Note for the log…"),
    ("N",),
    message("on the brew day: a note for the log"),
    here=True,
    drawing="action-note",
)
READING = MenuKey(
    message("Type a &reading…"),
    ("N",),
    message("while it ferments: type a reading"),
    here=True,
    drawing="action-reading",
)

GUIDE = MenuKey(message("G&uide"), ("F1",), drawing="action-help")
HELP = MenuKey(message("&Keys and first steps"), ("Ctrl+F1",))
WHAT_IS_THIS = MenuKey(message("&What is this?"), ("Shift+F1",))

MENU_KEYS = (
    BEGIN,
    NEW,
    OPEN,
    SAVE,
    SAVE_AS,
    KEEP_VERSION,
    NEW_WINDOW,
    PRINT,
    PDF,
    CLOSE,
    QUIT,
    UNDO,
    REDO,
    CUT,
    COPY,
    PASTE,
    DELETE,
    SELECT_ALL,
    DUPLICATE,
    MOVE_UP,
    MOVE_DOWN,
    OPEN_OR_EDIT,
    ADD_FERMENTABLE,
    ADD_HOP,
    ADD_EXTRA,
    FIND_ANYWHERE,
    FIND_ON_PAGE,
    FIND_NEXT,
    FIND_BEFORE,
    WHAT_IF,
    PREFERENCES,
    LARGER,
    SMALLER,
    USUAL_SIZE,
    FULL_SCREEN,
    STEP_DONE,
    STEP_BACK,
    TIMER,
    NOTE,
    READING,
    GUIDE,
    HELP,
    WHAT_IS_THIS,
)
"""In the order of the menus."""

PAGE_KEYS = (
    (PAGES, message("Compose, Fit, Sheet, Brew day, Recipe box, Kitchen")),
    (("Return", "F2"), message("in a table: edit the cell, or keep what was typed")),
    (("Escape",), message("take back what was typed")),
    (("Shift+F10", "Menu"), message("open the menu of what has the keyboard")),
    (("Up", "Down"), message("in a number: step it; with Shift ten times as far")),
    (("Tab", "Shift+Tab"), message("to the next field or table, and back")),
    (
        ("Left", "Right"),
        message("on the day: choose an addition; with Alt move it by a minute"),
    ),
    (("Left", "Right"), message("on Fit: choose a way; Return uses it")),
    (tuple(each.keys[0] for each in DOORS), message("open a door of Begin; Ctrl+Return begins")),
    (("0–9",), message("on the brew day: type into the blank that comes next")),
)

_NAMES = {
    "Ctrl": message("Ctrl"),
    "Shift": message("Shift"),
    "Alt": message("Alt"),
    "Return": message("Return"),
    "Escape": message("Escape"),
    "Space": message("Space"),
    "Backspace": message("Backspace"),
    "Delete": message("Delete"),
    "Tab": message("Tab"),
    "Menu": message("Menu key"),
    "Up": message("Up"),
    "Down": message("Down"),
    "Left": message("Left"),
    "Right": message("Right"),
}
"""Names of keys that a language has words for; letters and figures are what they are."""


def key_said(key: str) -> str:
    """Return a key as it is called in the language: "Ctrl+Shift+S"."""
    return "+".join(tr(_NAMES[part]) if part in _NAMES else part for part in key.split("+"))


def keys_said(keys: tuple[str, ...]) -> str:
    """Return keys of which each does the same, or that go together, as they are called."""
    return ", ".join(map(key_said, keys))


def does_said(does: str) -> str:
    """Return what keys do in the language: a message of `KEYS`, without the mark of a letter."""
    return tr(does).replace("&", "").removesuffix("…")


KEYS: tuple[tuple[tuple[str, ...], str], ...] = (
    *PAGE_KEYS,
    *((each.keys, each.does or each.text) for each in MENU_KEYS),
)
"""All keys and what they do, as messages: `keys_said` and `does_said` put them into words."""
