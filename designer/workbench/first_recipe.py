"""A first recipe of one's own, solved through the day: three to choose from, and a study.

Answers are understood (`first_words`, `first_aims`), what may go in is taken from the catalogue and
the cupboard (`first_larder`), the shares are sought (`brewday.first.grist`) and weighed out through
the day (`brewday.first.weighing`); then it is said why each line is there and what gave way.
"""

from __future__ import annotations

from dataclasses import replace

from designer.brewday.first.amounts import Task
from designer.brewday.first.grist import best_grist
from designer.brewday.first.kitchen import (
    SMALLEST_BATCH_L,
    batch_for,
    gives_wort,
    most_beer_l,
    wort_l,
)
from designer.brewday.first.larder import Aim, Larder
from designer.brewday.first.weighing import weighed
from designer.brewday.outlook import look_ahead
from designer.brewday.stock import needs
from designer.errors import RefusedInputError
from designer.library.flavours import flavour_entries
from designer.library.packs import pack_set_for, packs
from designer.recipe.document import Fermentable, Recipe
from designer.recipe.kind_defaults import extract_fraction
from designer.recipe.message import Message, refused, say, word
from designer.recipe.quantity import Kind
from designer.recipe.severity import Severity
from designer.translation import named, tr
from designer.workbench.first_aims import TILTS, VESSELS, Wanted, aim_of, wanted, wished_of
from designer.workbench.first_answers import (
    Answers,
    Draft,
    Flavour,
    LineReason,
    Reading,
    Wished,
)
from designer.workbench.first_hops import bittering_hop
from designer.workbench.first_larder import fermentable, larder_of, other_form, study_larder
from designer.workbench.first_misses import misses
from designer.workbench.first_packs import whole_packs
from designer.workbench.first_reasons import reasons
from designer.workbench.first_scale import scale_for
from designer.workbench.first_wishes import Wishes, flavours_of
from designer.workbench.first_words import read_words
from designer.wort.extract import extract_for

__all__ = [
    "Answers",
    "Draft",
    "Flavour",
    "LineReason",
    "Reading",
    "Wished",
    "first_recipes",
    "flavours",
    "read_words",
    "study_recipe",
    "wished",
]
NO_BOIL = "no-boil"
ALTERNATIVES: dict[str, tuple[Message, Message]] = {
    "drier": (
        say("draft-drier", "Drier"),
        say("draft-drier-about", "ferments further, with less sweetness left"),
    ),
    "rounder": (
        say("draft-rounder", "Rounder"),
        say("draft-rounder-about", "fuller, with more left in the beer"),
    ),
    "hoppier": (
        say("draft-hoppier", "Hoppier"),
        say("draft-hoppier-about", "scent rather than bite"),
    ),
    "study": (
        say("draft-study", "One malt, one hop"),
        say("draft-study-about", "to learn what each of them tastes of"),
    ),
}
"""The name of each alternative and what it is about."""


def flavours() -> tuple[Flavour, ...]:
    """Return what a first recipe can be asked to taste of."""
    return tuple(Flavour(each.key, each.name) for each in flavour_entries())


def wished(answers: Answers) -> Wished:
    """Return what a recipe is aimed at; raises RefusedInputError for what no recipe can be."""
    asked = wanted(answers)
    return wished_of(asked, _batch_l(answers) or max(most_beer_l(_kitchen(answers)), 1.0))


def first_recipes(answers: Answers) -> tuple[Draft, Draft, Draft]:
    """Return three to choose from: drier, rounder, hoppier.

    Raises RefusedInputError for what no recipe can be; of what cannot be met the nearest is taken,
    and the draft says what gave way.
    """
    asked = wanted(answers)
    drier, rounder, hoppier = (_draft(asked, key) for key in ("drier", "rounder", "hoppier"))
    return drier, rounder, hoppier


def study_recipe(answers: Answers) -> Draft:
    """Return a beer of one malt and one hop, which teaches what they taste of; raises as above."""
    return _draft(wanted(answers), "study")


def _draft(asked: Wanted, key: str) -> Draft:
    answers = asked.answers
    chosen = flavours_of(asked.flavours)
    wishes = Wishes(chosen, answers.in_hand)
    aim = aim_of(asked, TILTS[key])
    larder = study_larder(asked.grist, wishes) if key == "study" else larder_of(asked.grist, wishes)
    found = weighed(_task(asked, key, larder, aim))
    style = asked.style.name if asked.style is not None else ""
    name, about = ALTERNATIVES[key]
    called = tr("My {style}", style=named(style)) if style else tr("My first recipe")
    recipe = replace(found.recipe, name=called, style=style)
    outlook = look_ahead(recipe, ranges=False)
    grave = [each for each in outlook.findings if each.severity is Severity.STOP]
    if any(each.code == NO_BOIL for each in grave):
        raise RefusedInputError([each.message for each in grave if each.code == NO_BOIL])
    missing = sum(1 for each in needs(recipe, answers.in_hand) if each.missing > 1e-9)
    return Draft(
        key,
        name,
        about,
        recipe,
        outlook,
        reasons(key, found, chosen, answers.in_hand),
        (
            *misses(key, asked, found, () if key == "study" else chosen),
            *(each.message for each in grave),
        ),
        missing,
    )


def _task(asked: Wanted, key: str, larder: Larder, aim: Aim) -> Task:
    answers = asked.answers
    grist = best_grist(larder, aim)
    one_hop = key == "study" or answers.is_simple
    late = larder.late[:1] if one_hop else larder.late
    bittering = bittering_hop(larder, aim.near["bitterness_ibu"], late, is_simple=one_hop)
    task = Task(
        _kitchen(answers),
        larder,
        aim,
        grist,
        bittering,
        late,
        scale_for(answers.units),
        _batch_l(answers),
    )
    return replace(task, packs=_packs(answers, task)) if answers.whole_packs else task


def _kitchen(answers: Answers) -> Recipe:
    """Return what is known of the kitchen, with the vessels that were said.

    Raises RefusedInputError for a pot out of which next to nothing would come.
    """
    known = answers.kitchen
    kitchen = replace(
        known,
        pot=replace(known.pot, volume=answers.pot),
        fermenter=replace(known.fermenter, volume=answers.fermenter),
    )
    if not gives_wort(kitchen):
        raise refused(
            "pot-gives-no-wort",
            "{name}: of {0} no more than {1} would be left below the foam line after half an hour "
            "of boiling, less what stays behind; type a larger pot, or less evaporation.",
            (Kind.VOLUME, answers.pot),
            (Kind.VOLUME, wort_l(kitchen)),
            name=word(VESSELS["pot"][-1]),
        )
    return kitchen


def _batch_l(answers: Answers) -> float | None:
    """Return the batch that was asked for, as far as the fermenter takes it."""
    if answers.batch is None:
        return None
    most = max(most_beer_l(_kitchen(answers)), SMALLEST_BATCH_L)
    return min(answers.batch.value, int(10.0 * most + 1e-6) / 10.0)


def _packs(answers: Answers, task: Task) -> tuple[tuple[Fermentable, float], ...]:
    """Return the whole packs of the base extract for about the batch that is wanted."""
    grist = task.grist
    base, share = grist.shares[0]
    extract = sum(part_share * extract_fraction(part.line) for part, part_share in grist.shares)
    batch_l = batch_for(task.kitchen, grist.original_gravity, task.batch_l)
    most_l = batch_for(task.kitchen, grist.original_gravity, None)
    of_base = share * extract_fraction(base.line) / extract
    wanted_kg = of_base * 1.05 * float(extract_for(grist.original_gravity, batch_l))
    sizes = answers.packs or packs(pack_set_for(answers.units))
    forms = [base.line, fermentable(other_form(base.line.name))]
    return whole_packs(forms, wanted_kg, max(most_l / batch_l, 1.0), sizes)
