"""No text is put on the screen that was not looked up, in states that no test gets to either.

Read in the source: what stands between quotes there and is a sentence, or is given to something
that shows it, goes through `tr`, `trn` or `message`. What is shown in the states that tests get to
is read in `tests/stories/test_every_sentence.py`.
"""

import ast
import re
from pathlib import Path

import pytest

WINDOW = Path(__file__).parents[2] / "designer" / "window"
NO_TEXTS = ("theme.py", "targets.py", "svg_texts.py")
"""The style sheets of the first are for Qt; the last has the signs of a file format."""
LOOKED_UP = {"changing", "tr", "tr_of", "trn", "message", "say", "word", "within"}
NOT_SHOWN = {
    "QKeySequence", "Thread", "TypeVar", "createMethodCall", "get", "getenv", "resource_path",
    "row", "setObjectName", "startswith",
}  # fmt: skip
"""What is given to these no one reads."""
SHOWN_BY = {
    "QAction", "QLabel", "QPushButton", "QMessageBox", "Tick", "addAction", "addButton", "addItem",
    "addItems", "addMenu", "button", "emit", "getOpenFileName", "setAccessibleDescription",
    "setAccessibleName", "setInformativeText", "setPlaceholderText", "setStatusTip", "setText",
    "setTitle", "setToolTip", "setWindowTitle", "told",
}  # fmt: skip
NO_WORDS = ("Hobwort", "Fusion", "PySide6", "Python", "EBC", "SRM", "IBU", "PDF", "QLineEdit")
KEYS = (
    r"\b(?:Ctrl|Alt|Shift|Meta)(?:\+\w*)+|\bF\d+\b|HOBWORT_\w+|OPENBLAS_\w+|[A-Z]+_DISPLAY|DISPLAY"
)
FOR_OUR_EYES = {
    "extract whens", "hop whens", "extra whens",  # what is suggested in a field
    "top up",  # a stage of the day
    "Del",  # a key
    "d MMM yyyy", "d. MMM yyyy", "HH:mm",  # how Qt is to write a day, and a time of day
    "opening anew",  # a topic of messages too
    "QT_SCALE_FACTOR",  # what Qt reads of the environment
    "Preferences",  # a class, in __all__
    "the file",  # a topic of messages
    "last open", "last recipe",  # preferences in the store
    "hobwort sheet FILE --pocket --serve",  # a command, as it is typed
    "Changed", "Tags",  # columns in the preferences, by their English titles
    ", screen ",  # which machine it is, for whoever looks after the program
}  # fmt: skip


def texts_not_looked_up(source):
    """Yield the line and the text of each in a source that is shown and was not looked up."""
    tree = ast.parse(source)
    exempt = {id(each) for node in ast.walk(tree) for each in _exempt(node)}
    shown = {id(each) for node in ast.walk(tree) for each in _shown(node)}
    for node in ast.walk(tree):
        if not isinstance(node, ast.Constant) or not isinstance(node.value, str):
            continue
        text = re.sub(KEYS, " ", node.value)
        words = [word for word in re.findall(r"[^\W\d_]{2,}", text) if word not in NO_WORDS]
        is_said = id(node) in shown or (len(words) > 1 and " " in text) or _is_like_a_label(text)
        if words and is_said and id(node) not in exempt and node.value not in FOR_OUR_EYES:
            yield node.lineno, node.value


def _is_like_a_label(text):
    return bool(re.match(r"&?[A-Z][^\W\d_]", text) or text.endswith("…"))


def _exempt(node):
    """Docstrings, names of types, and what is looked up or shown to no one."""
    if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
        return [node.value]
    if isinstance(node, ast.Dict):  # what is found by several words is shown by none of them
        return [one for key in node.keys if isinstance(key, ast.Tuple) for one in ast.walk(key)]
    if isinstance(node, ast.Subscript):
        return ast.walk(node.slice)
    if isinstance(node, ast.AnnAssign | ast.arg) and node.annotation is not None:
        return ast.walk(node.annotation)
    if isinstance(node, ast.FunctionDef) and node.returns is not None:
        return ast.walk(node.returns)
    if isinstance(node, ast.keyword) and node.arg in ("key", "topic"):
        return ast.walk(node.value)
    if isinstance(node, ast.Call) and _name(node) in NOT_SHOWN:
        return ast.walk(node)
    is_message_of_the_bar = isinstance(getattr(node, "func", None), ast.Attribute)
    if isinstance(node, ast.Call) and _name(node) in LOOKED_UP and not is_message_of_the_bar:
        return _within(node)
    return []


def _shown(node):
    is_shown = isinstance(node, ast.Call) and (_name(node) in SHOWN_BY or _name(node) == "say")
    return _within(node) if is_shown else []


def _name(call):
    return getattr(call.func, "id", getattr(call.func, "attr", ""))


def _within(call):
    """What is given to a call by its place: a keyword has a word for us."""
    return (each for argument in call.args for each in ast.walk(argument))


def test_no_text_of_the_window_is_left_out():
    sources = [each for each in WINDOW.rglob("*.py") if each.name not in NO_TEXTS]
    assert len(sources) > 100
    left = {
        f"{path.relative_to(WINDOW)}:{line}": text
        for path in sources
        for line, text in texts_not_looked_up(path.read_text(encoding="utf-8"))
    }
    assert left == {}


@pytest.mark.parametrize(
    "source",
    [
        'button.setText("saved")',
        'label = QLabel("to the pot" if full else tr("empty"))',
        'self._window.messages.say(f"{path} is gone.")',
        'TITLE = "Unsaved changes"',
        'box.addButton("Stay", role)',
        'self.done.emit(f"{count} pages")',
        'ways = [("Keep both", self.keep)]',
        'menu.addMenu("&recent")',
        'tip = "the day" + " you brew"',
    ],
)
def test_a_text_that_was_left_out_is_found(source):
    assert list(texts_not_looked_up(source))


@pytest.mark.parametrize(
    "source",
    [
        'button.setText(tr("saved"))',
        'button.setToolTip("Ctrl+Shift+P")',
        'self.setWindowTitle(f"{name}[*] – Hobwort")',
        'label = QLabel(f"<b>{tr(text)}</b>")',
        'TITLE = message("Unsaved changes")',
        'text: Message = say("earlier", "an earlier change")',
        'bar.say(trn("{number} page", "{number} pages", count), topic="sheet written")',
        'def made() -> "Made":\n    "Return what was made."',
    ],
)
def test_what_is_looked_up_or_no_text_is_let_be(source):
    assert list(texts_not_looked_up(source)) == []
