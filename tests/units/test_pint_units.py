"""Units that are not in the tables: put together from those that are, or asked of pint."""

import json
import subprocess
import sys

import pytest

from designer.errors import RefusedInputError
from designer.recipe.quantity import Kind
from designer.units import pint_units, read, read_when
from designer.units.quick_words import FACTORS
from tests.units.pints_own import pints_own

KITCHEN_WORDS = [(kind, word) for kind, known in FACTORS.items() for word in known]


@pytest.fixture
def nothing_looked_up(monkeypatch):
    """As at the start of the program: pint was not asked yet."""
    monkeypatch.setattr(pint_units, "_table", {})


@pytest.mark.parametrize(
    ("kind", "text", "exact", "base"),
    [
        (Kind.VOLUME, "5 cubic inches", "5 inch ** 3", "liter"),
        (Kind.VOLUME, "5 cu in", "5 inch ** 3", "liter"),
        (Kind.VOLUME, "5 in3", "5 inch ** 3", "liter"),
        (Kind.VOLUME, "5 in^3", "5 inch ** 3", "liter"),
        (Kind.VOLUME, "0.5 ft³", "0.5 foot ** 3", "liter"),
        (Kind.EVAPORATION, "3 pints/h", "3 pint / hour", "liter / hour"),
        (Kind.EVAPORATION, "10 mL per min", "10 milliliter / minute", "liter / hour"),
        (Kind.CONCENTRATION, "2 grains/gal", "2 grain / gallon", "milligram / liter"),
        (Kind.ABSORPTION, "2 pints/lb", "2 pint / pound", "liter / kilogram"),
    ],
)
def test_units_put_together_from_known_ones_need_no_looking_up(
    nothing_looked_up, kind, text, exact, base
):
    with pint_units.without_waiting():
        found = read(kind, text)
    assert found.value == pytest.approx(pints_own().Quantity(exact).to(base).magnitude, rel=1e-9)
    assert not pint_units.is_table_known()


@pytest.mark.parametrize(
    ("kind", "text", "exact", "base"),
    [
        (Kind.MASS, "3 troy ounces", "3 troy_ounce", "kilogram"),
        (Kind.MASS, "1 hundredweight", "1 hundredweight", "kilogram"),
        (Kind.VOLUME, "2 hogsheads", "2 hogshead", "liter"),
        (Kind.VOLUME, "2 imperial bushels", "2 imperial_bushel", "liter"),
        (Kind.VOLUME, "1 cubic fathom", "1 fathom ** 3", "liter"),
        (Kind.LENGTH, "2 furlongs", "2 furlong", "meter"),
        (Kind.TIME, "1 fortnight", "1 fortnight", "minute"),
        (Kind.POWER, "2 boiler horsepower", "2 boiler_horsepower", "watt"),
        (Kind.EVAPORATION, "1 peck per fortnight", "1 peck / fortnight", "liter / hour"),
    ],
)
def test_a_rare_unit_is_worth_what_pint_says(kind, text, exact, base):
    exact_value = pints_own().Quantity(exact).to(base).magnitude
    assert read(kind, text).value == pytest.approx(exact_value, rel=1e-9)


@pytest.mark.parametrize(
    ("kind", "text"),
    [
        (Kind.VOLUME, "2 stone"),  # a unit of another dimension
        (Kind.MASS, "2 hogsheads"),
        (Kind.TEMPERATURE, "2 grain"),
        (Kind.MASS, "3 farad"),
        (Kind.MASS, "3 kiloslugs"),  # a guessed prefix
        (Kind.MASS, "3 u"),  # a symbol of another trade
        (Kind.POWER, "3 decibelwatt"),  # a scale that does not begin at nothing
        (Kind.NUMBER, "3 dozen"),
    ],
)
def test_a_rare_unit_is_a_whole_word_in_the_dimension_of_its_field(kind, text):
    with pytest.raises(RefusedInputError):
        read(kind, text)


def read_at_once(kind, text):
    """Return the quantity, None for a text refused, the error for one that is to be looked up."""
    return answered_at_once(lambda: read(kind, text))


def when_at_once(text):
    """Return when something goes in, None or the error in the same way."""
    return answered_at_once(lambda: read_when(text))


def answered_at_once(reading):
    try:
        with pint_units.without_waiting():
            return reading()
    except pint_units.BeingLookedUpError as fault:
        return fault
    except RefusedInputError:
        return None


@pytest.mark.parametrize(("kind", "word"), KITCHEN_WORDS)
def test_no_word_of_a_kitchen_is_looked_up_at_any_letter(nothing_looked_up, kind, word):
    answers = [read_at_once(kind, f"1 {word[:count]}") for count in range(1, len(word) + 1)]
    assert not [each for each in answers if isinstance(each, pint_units.BeingLookedUpError)]
    assert answers[-1] is not None
    assert not pint_units.is_table_known()


@pytest.mark.parametrize("word", ["tablet", "sachet", "packet", "pinch", "bag", "tonne", "drop"])
def test_a_dose_is_never_looked_up(nothing_looked_up, word):
    for count in range(1, len(word) + 1):
        with pint_units.without_waiting():
            assert read(Kind.DOSE, f"1 {word[:count]}").value > 0.0


def test_a_rare_unit_is_put_off_where_nobody_waits_and_known_once_the_table_is_there(
    nothing_looked_up,
):
    with pint_units.without_waiting(), pytest.raises(pint_units.BeingLookedUpError) as told:
        read(Kind.MASS, "1 slug")
    assert str(told.value) == "looking up “slug” among rarer units"
    pint_units.take_table(pint_units.table_text())
    with pint_units.without_waiting():
        assert read(Kind.MASS, "1 slug").value == pytest.approx(14.5939, rel=1e-5)
        with pytest.raises(RefusedInputError, match="unit “slugg” is not known here"):
            read(Kind.MASS, "1 slugg")


@pytest.mark.parametrize(
    "text",
    ["stand 20 min at 80 °C", "hop stand 20 min at 176 F", "boil 45 min", "dry hop 4 days",
     "first wort", "flame-out"],
)  # fmt: skip
def test_no_time_of_the_day_is_looked_up_at_any_letter(nothing_looked_up, text):
    answers = [when_at_once(text[:count]) for count in range(1, len(text) + 1)]
    assert not [each for each in answers if isinstance(each, pint_units.BeingLookedUpError)]
    assert answers[-1].text == text
    assert not pint_units.is_table_known()


def test_a_rare_unit_of_time_is_put_off_where_nobody_waits(nothing_looked_up):
    with pint_units.without_waiting(), pytest.raises(pint_units.BeingLookedUpError):
        read_when("dry hop 1 sennight")


def test_every_unit_of_the_table_is_a_word_with_a_finite_factor():
    table = json.loads(pint_units.table_text())
    assert table.keys() == {"mass", "volume", "time", "length", "power"}
    for known in table.values():
        assert all(len(word) >= pint_units.SHORTEST_WORD for word in known)
        assert all(0.0 < factor < float("inf") for factor in known.values())


def test_the_units_of_a_kitchen_are_read_without_pint():
    code = (
        "import sys\n"
        "from designer.recipe.quantity import Kind\n"
        "from designer.units import read\n"
        "for text in ('1 tablet', '2 tsp', '1 t', '1 stone', '3 packets'):\n"
        "    read(Kind.DOSE, text)\n"
        "read(Kind.MASS, '1 stone 2 lb'), read(Kind.VOLUME, '1 firkin'), read(Kind.POWER, '1 hp')\n"
        "assert 'pint' not in sys.modules\n"
    )
    subprocess.run([sys.executable, "-c", code], check=True)
