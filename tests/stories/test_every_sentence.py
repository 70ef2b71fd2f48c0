"""No sentence is left out where the program speaks another language.

Its own words are looked up in a language that marks every letter (`tests/pseudo_language.py`), and
everything that is said, on a page, in a message or on the command line, is read for English. The
sheet has a language of its own, see `tests/sheet/test_translations.py`.
"""

import ast
import re
from dataclasses import fields, is_dataclass, replace
from pathlib import Path

import pytest

from designer import translation
from designer.brewday.aiming import make_it, means_for
from designer.brewday.day import brew
from designer.brewday.findings import findings
from designer.brewday.fit.scaling import scale
from designer.brewday.fit.substitution import substitute
from designer.brewday.fit.ways import ways
from designer.brewday.fit.wish import HopInHand, wish_for
from designer.brewday.outlook import look_ahead
from designer.brewday.stock import OtherAlpha, take_bag
from designer.brewday.time_line import at_stage
from designer.command_line import run
from designer.errors import DesignerError, RefusedInputError
from designer.library.catalogue import styles
from designer.library.recipe_file import load, read_document, save
from designer.recipe.choices import Turn
from designer.recipe.comparing import differences
from designer.recipe.document import LINE_TYPES, PART_TYPES, Recipe
from designer.recipe.edits import BRING_IN, PASTE, changing, lines_added, set_locked
from designer.recipe.fields import quantity_fields
from designer.recipe.kinds import KINDS, typed
from designer.recipe.message import Message
from designer.recipe.quantity import Kind
from designer.resource_files import resource_path
from designer.spoken_language import LANGUAGES
from designer.units import read, read_when
from designer.workbench.what_if import NAMES
from tests.brewday.test_finding_places import FOUND
from tests.brewday.test_leaflet import SLIPS
from tests.pseudo_language import assert_said, catalogue_texts, english_left, own_texts
from tests.shown_texts import shown_texts
from tests.workbench.planned_red import (
    WRITTEN,
    two_boils,
    two_buckets,
    with_own_hops,
    with_own_yeast,
)

ROOT = Path(__file__).parents[2] / "designer"
EXAMPLES = sorted(resource_path("examples").glob("*.hobwort"))
SPEAKING = ("brewday", "command_line", "library", "recipe", "sheet", "units", "workbench")
"""Packages below the window; a refusal raised there is a message."""


@pytest.fixture(params=EXAMPLES, ids=lambda path: path.stem)
def example(request):
    return load(request.param)


def messages_in(value):
    """Yield every message within a value, however deep."""
    if isinstance(value, Message):
        yield value
    elif isinstance(value, dict):
        yield from messages_in(tuple(value.values()))
    elif isinstance(value, tuple):
        for each in value:
            yield from messages_in(each)
    elif is_dataclass(value):
        for each in fields(value):
            yield from messages_in(getattr(value, each.name))


# what stands out and what does not


def test_a_text_that_was_never_looked_up_is_found_out(pseudo):
    said = translation.tr("{amount} of {name} is too much", amount="20 g", name="Fuggle")
    assert english_left(said, {"Fuggle"}) == []
    assert english_left(said) == ["Fuggle"]
    assert english_left(f"{said} for the pot", {"Fuggle"}) == ["for", "the", "pot"]
    assert english_left("68 °C, 1.052, 35 IBU") == []
    assert pseudo.said == {"{amount} of {name} is too much"}
    pseudo.said.clear()  # it is no sentence of the program


# the core


def _codes():
    """The ids of all findings, as they stand in the source."""
    for path in (ROOT / "brewday").glob("findings_*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "Finding":
                yield from _constants(node.args[2].args[0])


def _constants(node):
    if isinstance(node, ast.IfExp):
        return [*_constants(node.body), *_constants(node.orelse)]
    return [node.value]


def test_every_finding_and_its_cure_is_said(pseudo):
    found = [each for _, recipe, *_ in FOUND for each in findings(recipe, brew(recipe))]
    assert {each.code for each in found} >= set(_codes())
    own = {text for _, recipe, *_ in FOUND for text in own_texts(recipe)}
    cures = [each.fix for each in found if each.fix is not None]
    typed = {text for cure in cures for text in own_texts(getattr(cure, "value", ()))}
    assert_said({each.message.text for each in found}, own)
    assert_said({cure.text.text for cure in cures}, own | typed)
    assert_said({each.offer.text for each in found if each.makes is not None}, own | typed)


def test_every_slip_in_a_leaflet_is_said(pseudo):
    recipes = [recipe for recipe, _ in SLIPS.values()]
    found = [each for recipe in recipes for each in findings(recipe, brew(recipe)) if each.fix]
    own = {text for recipe in recipes for text in own_texts(recipe)} | {"gal", "imp", "lb", "kg"}
    assert len({each.offer.text for each in found}) >= len(SLIPS) - 4
    assert_said({each.message.text for each in found}, own)
    assert_said({each.offer.text for each in found}, own)


def test_every_way_to_fit_is_said(pseudo, example):
    hops = (
        HopInHand("Magnum", typed(Kind.FRACTION, 0.12), 0.05),
        HopInHand("Fuggle", typed(Kind.FRACTION, 0.045), 0.01),
    )
    own = own_texts(example) | {"Magnum", "Fuggle"}
    said = set()
    for pot, fermenters in ((5.0, (12.0,)), (9.0, (6.0, 6.0)), (30.0, (40.0,)), (2.0, (2.0,))):
        wish = replace(wish_for(example, pot, fermenters), hops_in_hand=hops)
        for terms in (wish, replace(wish, whole_packs=True, second_pot=wish.pot)):
            answer = ways(example, terms)
            said |= {each.text for each in messages_in(replace(answer, original=None))}
            said |= {translation.tr(each.name) for each in (*answer.ways, *answer.no_ways)}
            said |= {each.words.text for way in answer.ways for each in way.must_buy}
            own |= {text for way in answer.ways for one in way.recipes for text in own_texts(one)}
    assert len(said) > 30
    assert_said(said, own)


def test_every_edit_is_said_in_the_undo_menu(pseudo, porter):
    hop, malt = porter.hops[0], porter.fermentables[0]
    edits = [
        make_it(porter, key, value, means).edit
        for key, value in (("original_gravity", 1.046), ("bitterness_ibu", 25.0))
        for means in means_for(key, porter)
    ]
    edits += [
        take_bag(porter, OtherAlpha(hop.line_id, hop.name, 0.072, 0.06)),
        substitute(porter, hop.line_id, replace(hop, name="Fuggle")).edit,
        scale(porter, 6.5).edit,
        lines_added([("hops", hop)], PASTE),
        lines_added([("hops", hop), ("fermentables", malt)], BRING_IN),
        set_locked("hops", hop, True),
        set_locked("hops", hop, False),
    ]
    said = {each.text.text for each in edits if each is not None}
    said |= {changing(label).text for label in _labels()}
    assert len(said) > 40
    assert_said(said, own_texts(porter) | {"Fuggle", "SG"})


def _labels():
    for part in (*PART_TYPES.values(), *LINE_TYPES.values()):
        yield from (facts.label for _, facts in quantity_fields(part))


def test_every_cause_of_doubt_and_what_would_make_it_surer_is_said(pseudo, example):
    causes = [each for found in look_ahead(example).forecasts.values() for each in found.causes]
    assert_said({each.words.text for each in causes}, own_texts(example))
    assert_said({translation.tr(each.advice) for each in causes if each.advice}, ())


def test_every_stage_of_the_day_is_said(pseudo, example):
    day = brew(example)
    assert_said({each.label.text for each in day.spans}, ())
    in_pot = [each.key for each in day.spans if each.key not in ("move", "top up")]
    assert_said({at_stage(key).text for key in in_pot}, ())


REFUSED = (
    '{"hobwort": 1, "colour": "red"}',
    '{"hobwort": 99}',
    '{"hobwort": 1, "hops": {}}',
    '{"hobwort": 1, "hops": [{"name": 3, "when": "noon", "alpha": "much"}]}',
    '{"hobwort": 1, "process": {"boil_time": "3 years", "start_time": "25:00"}}',
    '{"hobwort": 1, "pot": {"stove": "coal", "volume": 3}}',
    "[1, 2",
)
RAISED = re.compile(r"(RefusedInput|Designer|Store|NotIn|NotRead|BeingLookedUp)\w*Error")
PLACES = {
    "amber.hobwort", "hobwort", "hops[1].name", "hops[1].when", "hops[1].alpha", "hops",
    "process.boil_time", "process.start_time", "pot.stove", "pot.volume", "JSON",
    "expecting ',' delimiter",
}  # fmt: skip
"""What a file is called, its keys, and the names of notations are the same in any language."""


def test_refusals_are_said(pseudo):
    said = []
    for kind in KINDS:
        for text in ("", "seven", "1.5 quux", "1 2 3 4", "x" * 500, "2 h ± 1 kg"):
            said += _refusals(lambda kind=kind, text=text: read(kind, text))
    for text in ("", "noon", "x" * 500):
        said += _refusals(lambda text=text: read_when(text))
    for text in REFUSED:
        said += _refusals(lambda text=text: read_document(text, "amber.hobwort"))
    assert len(said) > 60
    unquoted = {re.sub(r"“[^”]*”", "", each) for each in said}
    assert_said(unquoted, PLACES | set(_keys_of_files()))


def _keys_of_files():
    for part in (Recipe, *PART_TYPES.values(), *LINE_TYPES.values()):
        for each in fields(part):
            yield from (each.name, *each.metadata.get("choices", ()))


def _refusals(act):
    try:
        act()
    except RefusedInputError as fault:
        return list(fault.problems)
    except DesignerError as fault:
        return [str(fault)]
    return []


def test_no_refusal_below_the_window_is_a_bare_text():
    """What is raised is a message, or is looked up as it is raised."""
    bare, seen = [], 0
    for path in (each for room in SPEAKING for each in (ROOT / room).rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            name = getattr(getattr(node, "func", None), "id", "")
            seen += name == "refused"  # which makes a message of what it is given
            if RAISED.fullmatch(name):
                seen += 1
                if any(_is_bare(each) for each in node.args):
                    bare.append(f"{path.relative_to(ROOT)}:{node.lineno}")
    assert seen > 100
    assert bare == []


def _is_bare(node):
    """Whether an argument is a text of the source with words in it, or may be one."""
    if isinstance(node, ast.IfExp):
        return _is_bare(node.body) or _is_bare(node.orelse)
    if not isinstance(node, ast.Constant | ast.JoinedStr | ast.BinOp):
        return False
    texts = (each.value for each in ast.walk(node) if isinstance(each, ast.Constant))
    return any(re.search(r"[A-Za-z]", text) for text in texts if isinstance(text, str))


def whole_sentences(lines):
    """Lines in which each sentence is whole again: a name may have been broken where it wraps."""
    found = []
    for line in lines:
        if found and found[-1].count("⟦") > found[-1].count("⟧"):
            found[-1] += f" {line.strip()}"
        else:
            found.append(line)
    return found


CODES = {each.code for each in styles()}
WHAT_IF = ["--what-if", "process.boil_time=0 min", "--what-if", "pot.volume=4 L"]


@pytest.mark.parametrize(
    "words",
    [["forecast"], ["forecast", *WHAT_IF], ["styles"], ["fit", "--pot", "5 L"], ["check"]],
    ids=" ".join,
)
@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_the_command_line_says_all_of_it(pseudo, capsys, words, path):
    assert run([words[0], str(path), *words[1:]]) == 0
    own = own_texts(load(path)) | catalogue_texts() | CODES | {str(path)}
    lines = whole_sentences([line for line in capsys.readouterr().out.splitlines() if line.strip()])
    assert sum("⟦" in line for line in lines) > (5 if words[0] != "check" else 0)
    left = {line: {*english_left(line, own)} - {*NAMES} for line in lines}
    assert {line: found for line, found in left.items() if found} == {}


@pytest.mark.parametrize("plan", [two_boils(), two_buckets(9.0, 11.0), with_own_hops()])
def test_the_command_line_says_all_of_a_plan(pseudo, capsys, plan, tmp_path):
    path = tmp_path / "plan.hobwort"
    save(plan, path)
    assert run(["forecast", str(path)]) == run(["check", str(path)]) == 0
    own = own_texts(plan) | {str(path), "Harbour hop"}
    lines = whole_sentences([line for line in capsys.readouterr().out.splitlines() if line.strip()])
    left = {line: english_left(line, own) for line in lines}
    assert {line: found for line, found in left.items() if found} == {}


def test_what_differs_between_two_plans_is_said(pseudo):
    plan = two_boils()
    others = (
        WRITTEN,
        two_buckets(9.0, 11.0),
        with_own_hops(),
        with_own_yeast(),
        two_boils(Turn.ANOTHER_DAY, share=None, evaporation=typed(Kind.EVAPORATION, 1.0)),
        replace(plan, fermenters=(replace(plan.fermenters[0], wort_from=()),)),
    )
    for other in others:
        own = own_texts(plan) | own_texts(other) | {"Harbour hop", "Lager, unnamed"}
        for one, two in ((plan, other), (other, plan)):
            found = differences(one, two)
            assert found
            left = [
                english_left(text, own)
                for each in found
                for text in (each.what, each.before, each.after)
            ]
            assert not any(left), (found, left)


# the window


ROOMS = ("begin", "box", "compose", "fit", "kitchen", "sheet", "window")
KEYS = r"\b(?:Ctrl|Alt|Shift|Meta)(?:\+\w+)+|\bF\d+\b"
DAYS = r"\b\d{1,2} \w{3} \d{4}\b"
"""The machine's own names of months."""
LEAST_TEXTS = 10
"""A room that shows fewer has not been seen."""


@pytest.fixture
def whole(pseudo, qtbot, opened, on_a_box):
    """A window in which every page was opened, with a recipe in its box and a message shown."""
    made = on_a_box(opened, 1280, 800)
    made.files.save()
    qtbot.waitUntil(lambda: not made.autosave.store.busy, timeout=10_000)
    made.compose.process.more_button.setChecked(True)
    made.show_page(1)
    qtbot.waitUntil(lambda: made.fit.answer is not None, timeout=20_000)
    made.fit.hands_button.setChecked(True)
    made.show_page(2)
    qtbot.waitUntil(lambda: made.sheet.pages.isVisible(), timeout=10_000)
    made.show_page(made.page_names.index("Recipe box"))
    qtbot.waitUntil(lambda: bool(made.box.model.rows_read), timeout=10_000)
    made.box.table.selectRow(0)
    qtbot.waitUntil(lambda: made.box.details.versions_model.rowCount() == 1, timeout=10_000)
    made.box.show_backups()
    made.show_page(made.page_names.index("Kitchen"))
    made.kitchen.show_packs()
    made.begin()
    made.show_help()
    qtbot.waitUntil(lambda: not made.autosave.store.busy, timeout=10_000)
    return made


def test_every_room_of_the_window_is_said(whole, porter, tmp_path):
    own = own_texts(porter) | catalogue_texts() | set(LANGUAGES.values())
    own |= {str(tmp_path), str(tmp_path / "box" / "backups"), "Hobwort", "A4"}
    own |= {"N", "T"}  # keys of one letter, in the overlay of keys
    said = {room: set() for room in ROOMS}
    for room, text in shown_texts(whole):
        said[room].add(re.sub(f"{KEYS}|{DAYS}", " ", text))
    for room, texts in said.items():
        assert len([text for text in texts if re.search(r"[^\W\d_]", text)]) >= LEAST_TEXTS, room
    left = {room: {text for text in said[room] if english_left(text, own)} for room in ROOMS}
    assert {room: texts for room, texts in left.items() if texts} == {}
