"""All units that there are: pint's own, and those of the trade over them.

`resources/units.txt` says in pint's way which units are typed in a kitchen, by which words, and
what they are where pint does not know or means another. Two tables of plain factors are made here:
the quick one, a module that every key uses, and that of all rarer units, made when one is first
typed. Run as a program it writes the quick table anew: `python -m designer.units.definitions`.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from typing import Any

from designer.recipe.kinds import KINDS
from designer.recipe.quantity import Kind
from designer.resource_files import resource_path
from designer.wort.carbonation import CO2_G_L_PER_VOLUME
from designer.wort.extract import POINTS_L_PER_KG_OF_PPG, SUCROSE_PPG

UNITS_FILE = "units.txt"
QUICK_MODULE = Path(__file__).with_name("quick_words.py")
_TEMPERATURES = (Kind.TEMPERATURE, Kind.TEMPERATURE_DIFFERENCE)
_SCIENCE = (
    "volume_of_carbon_dioxide = [carbonation]",
    f"gram_of_carbon_dioxide_per_liter = volume_of_carbon_dioxide / {CO2_G_L_PER_VOLUME}",
    "extract_yield = [extract_yield]",
    f"point_per_pound_and_gallon = extract_yield / {SUCROSE_PPG}",
    f"liter_degree_per_kilogram = point_per_pound_and_gallon / {POINTS_L_PER_KG_OF_PPG}",
)
"""Units of the trade that are worth what the calculations say."""

_HEAD = '''"""What the words of a kitchen's units are worth: written by `definitions`, not by hand.

Made from `resources/units.txt`; `python -m designer.units.definitions` writes it anew.
"""

from __future__ import annotations

from designer.recipe.quantity import Kind

'''


def registry() -> Any:
    """Return pint's registry with the units of the trade loaded over its own. Imports pint."""
    import pint  # a third of a second: nothing but a rare word waits for it

    made: Any = pint.UnitRegistry(
        non_int_type=Fraction, on_redefinition="ignore", autoconvert_offset_to_baseunit=True
    )
    for line in _SCIENCE:
        made.define(line)
    made.load_definitions(resource_path(UNITS_FILE))
    return made


def declared() -> Iterator[tuple[str, list[str]]]:
    """Yield each unit of the file, by its name in pint, with the words that are typed for it."""
    for line in resource_path(UNITS_FILE).read_text(encoding="utf-8").splitlines():
        definition, _, comment = line.partition("#")
        if not definition.strip():
            continue
        name, *words = (each.strip() for each in definition.removeprefix("@alias ").split("="))
        words = [name, *(words if line.startswith("@alias") else words[1:])]
        words = [each.replace("_", " ").lower() for each in words]
        also = comment.strip().removeprefix("also ") if comment.startswith(" also ") else ""
        yield name, list(dict.fromkeys([*words, *filter(None, also.split(", "))]))


def quick_words() -> tuple[dict[Kind, dict[str, float]], dict[str, tuple[float, float]]]:
    """Return what each word of the file is worth.

    By kind, one of each word in the base unit; then, of each word of temperature, its figure at
    0 °C and how many of its degrees a kelvin is.
    """
    known = registry()
    kinds = {
        known.get_dimensionality(known.parse_units(facts.pint)): kind
        for kind, facts in KINDS.items()
        if facts.pint
    }
    factors: dict[Kind, dict[str, float]] = {}
    temperatures: dict[str, tuple[float, float]] = {}
    for name, words in declared():
        kind = kinds[known.get_dimensionality(name)]
        if kind in _TEMPERATURES:
            zero, one = (known.Quantity(Fraction(c), "degree_Celsius").to(name) for c in (0, 1))
            scale = (float(zero.magnitude), float(one.magnitude - zero.magnitude))
            temperatures |= dict.fromkeys(words, scale)
        else:
            one = known.Quantity(Fraction(1), name).to(KINDS[kind].pint)
            factors.setdefault(kind, {}).update(dict.fromkeys(words, float(one.magnitude)))
    return factors, temperatures


def quick_module() -> str:
    """Return the text of the module with the quick table."""
    factors, temperatures = quick_words()
    lines = ["FACTORS: dict[Kind, dict[str, float]] = {\n"]
    for kind, words in factors.items():
        lines.append(f"    Kind.{kind.name}: {{\n")
        lines += (f"        {_quoted(word)}: {factor!r},\n" for word, factor in words.items())
        lines.append("    },\n")
    lines += ["}\n", '"""What one of each word is in the base unit of its kind."""\n\n']
    lines.append("TEMPERATURES: dict[str, tuple[float, float]] = {\n")
    lines += (f"    {_quoted(word)}: {scale!r},\n" for word, scale in temperatures.items())
    lines += ["}\n", '"""What a scale shows at 0 °C, and how many of its degrees a kelvin is."""\n']
    return _HEAD + "".join(lines)


def _quoted(word: str) -> str:
    return "'\"'" if word == '"' else f'"{word}"'


def rare_words(kinds: tuple[Kind, ...], shortest: int) -> dict[Kind, dict[str, float]]:
    """Return all units of the registry in the dimensions of some kinds, with their factors.

    Left out are words of fewer letters than `shortest`, which are symbols of other trades, those
    that mean two things when written small, and scales that do not begin at nothing.
    """
    import pint

    known = registry()
    bases = {known.get_dimensionality(KINDS[kind].pint): kind for kind in kinds}
    found: dict[Kind, dict[str, float]] = {kind: {} for kind in kinds}
    doubtful: set[tuple[Kind, str]] = set()
    for name in known:
        word = name.replace("_", " ").lower()
        if len(word) < shortest or not all(sign.isalpha() or sign == " " for sign in word):
            continue
        try:
            kind = bases.get(known.get_dimensionality(name))
            if kind is None:
                continue
            one, two = (
                float(known.Quantity(Fraction(count), name).to(KINDS[kind].pint).magnitude)
                for count in (1, 2)
            )
        except (pint.PintError, ValueError, OverflowError, TypeError):
            continue  # a name of pint's that it cannot itself convert
        if abs(two - 2.0 * one) > 1e-9 * abs(one):
            continue
        if found[kind].setdefault(word, one) != one:
            doubtful.add((kind, word))
    for kind, word in doubtful:
        del found[kind][word]
    return found


if __name__ == "__main__":
    QUICK_MODULE.write_text(quick_module(), encoding="utf-8")
