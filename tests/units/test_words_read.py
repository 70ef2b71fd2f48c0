"""The words of units: what each was ever read as it is read as, in the fields it belongs to alone.

`words_read.csv` holds every word that was read when units were still written by hand in a table of
the program: kitchen words, those put together from two, and pint's; by kind, with what was read.
"""

import csv
import math
from collections import defaultdict
from pathlib import Path

import pytest

from designer.errors import RefusedInputError
from designer.recipe.kinds import KINDS
from designer.recipe.quantity import Kind
from designer.units import definitions, read
from designer.units.quick_words import FACTORS, TEMPERATURES
from tests.units.pints_own import pints_own

with Path(__file__).with_name("words_read.csv").open(encoding="utf-8") as file:
    READ = defaultdict(dict)
    for kind, text, value, unit in csv.reader(file):
        READ[Kind(kind)][text] = (float(value), unit)
WORDS = {text.partition(" ")[2] for texts in READ.values() for text in texts}
SURVEYED = 2e-5
"""How far words of pint alone may move: from 0.26 on its acre-feet and cables are of the
international foot, not of the one of surveys, which is longer by two parts in a million."""


@pytest.fixture(scope="module")
def registry():
    """Pint's units with those of the trade over them."""
    return definitions.registry()


@pytest.mark.parametrize("kind", READ)
def test_every_word_means_what_it_always_did(kind):
    for text, (value, unit) in READ[kind].items():
        found = read(kind, text)
        is_ours = any(text.partition(" ")[2] in words for words in FACTORS.values())
        closely = 1e-13 if is_ours else SURVEYED
        assert math.isclose(found.value, value, rel_tol=closely), text
        assert found.unit == unit, text


@pytest.mark.parametrize("kind", [kind for kind in READ if kind is not Kind.DOSE])
def test_no_word_is_read_in_a_field_of_another_dimension(kind):
    known = {text.partition(" ")[2] for text in READ[kind]}
    for word in WORDS - known:
        with pytest.raises(RefusedInputError):
            read(kind, f"12 {word}")


def test_the_quick_table_is_what_the_definitions_say():
    """After a change of resources/units.txt: `python -m designer.units.definitions`."""
    assert definitions.quick_words() == (FACTORS, TEMPERATURES)
    assert definitions.QUICK_MODULE.read_text(encoding="utf-8") == definitions.quick_module()


def test_every_word_of_the_file_is_one_that_can_be_typed():
    for name, words in definitions.declared():
        for word in words:
            assert word == word.lower().strip(), name
            in_factors = any(word in known for known in FACTORS.values())
            assert in_factors or word in TEMPERATURES, word


def test_the_units_of_the_trade_win_over_pints_own(registry):
    """Beer barrel 31 US gallons, firkin nine imperial ones (common practice, no source)."""
    own = pints_own()
    assert own.Quantity(1.0, "barrel").to("gallon").magnitude == pytest.approx(31.5)
    assert float(registry.Quantity(1, "barrel").to("gallon").magnitude) == 31.0
    assert float(registry.Quantity(1, "firkin").to("imperial_gallon").magnitude) == 9.0
    assert float(registry.Quantity(1, "oil_barrel").to("gallon").magnitude) == 42.0


def test_what_pint_itself_knows_is_taken_from_pint(registry):
    """No unit that pint has is defined anew but those that the trade means otherwise."""
    own = pints_own()
    lines = definitions.resource_path(definitions.UNITS_FILE).read_text(encoding="utf-8")
    names = [line.split(" = ")[0] for line in lines.splitlines() if " = " in line]
    defined = [name for name in names if not name.startswith(("@alias", "#"))]
    for name in defined:
        if name in own and name != "barrel":
            known = registry.Quantity(1, name).to_base_units()
            assert float(known.magnitude) == pytest.approx(
                own.Quantity(1.0, name).to_base_units().magnitude, rel=1e-12
            ), name


@pytest.mark.parametrize("kind", [kind for kind, facts in KINDS.items() if facts.pint])
def test_the_unit_of_the_values_of_a_kind_is_its_last_metric_form(kind):
    form = KINDS[kind].metric[-1]
    if kind in FACTORS:
        assert FACTORS[kind][form.unit.lower()] * form.per_base == pytest.approx(1.0)
    else:
        assert TEMPERATURES[form.unit.lower()] == (0.0, 1.0)


@pytest.mark.parametrize("kind", KINDS)
def test_every_form_and_step_of_a_kind_is_in_a_unit_that_it_reads(kind):
    facts = KINDS[kind]
    units = {form.unit for form in (*facts.metric, *facts.us, *facts.rounded)}
    for unit in units | facts.steps.keys():
        number = 1.05 if kind is Kind.GRAVITY else 50
        assert read(kind, f"{number} {unit}".strip()).value > 0.0
