"""Every word of every sheet is of its language: all variants of odd recipes, as text and HTML.

A word is English that stands in some message of the sheet and in no translation of it. What a
brewer typed is in a language of its own, so the recipes here are named without letters.
"""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date
from functools import cache

import pytest

from designer.brewday.outlook import look_ahead
from designer.po_file import messages_of
from designer.recipe.choices import GrainBag, SyrupTin, is_grain
from designer.recipe.document import (
    BOTTLES,
    COOLING_WAYS,
    FERMENTER_KINDS,
    PRIMING_SUGARS,
    STOVES,
    Extra,
)
from designer.recipe.edits import with_line_ids
from designer.recipe.quantity import Kind, Quantity, Stage, When
from designer.resource_files import resource_path
from designer.sheet.blocks import Form, plain_words
from designer.sheet.content import brew_sheet
from designer.sheet.figures import PIECES, Figures
from designer.sheet.html import sheet_html
from designer.sheet.language import language
from designer.sheet.plain import sheet_text
from designer.spoken_language import LANGUAGES
from designer.units import ShownUnits

from . import plans
from .messages import messages

OTHERS = [code for code in LANGUAGES if code != "en"]
WORD = re.compile(r"[^\W\d_]{3,}")
BOTH = {"min", "psi", "gal", "bar", "SRM", "EBC", "IBU", "kcal", "Hobwort", "html", "NaN"}
"""Units and names that are the same in any language."""


def words(text):
    return {each.lower() for each in WORD.findall(re.sub(r"\{\w*\}", " ", text))}


@cache
def english_words(code):
    """Words of the English messages that no translation of them has, read of the sources once."""
    po = resource_path(f"translations/{code}.po").read_text(encoding="utf-8")
    english = {word for ids in messages() for text in ids for word in words(text)}
    theirs = {word for said in messages_of(po).values() for text in said for word in words(text)}
    return frozenset(english - theirs - {each.lower() for each in BOTH})


def nameless(recipe):
    """The recipe with nothing typed in words."""
    return replace(
        recipe,
        name="1", style="2", notes="3",
        pot=replace(recipe.pot, name="4"),
        fermenter=replace(recipe.fermenter, name="5"),
        yeast=replace(recipe.yeast, name="6"),
        fermentables=tuple(replace(each, name="7") for each in recipe.fermentables),
        hops=tuple(replace(each, name="8") for each in recipe.hops),
        extras=tuple(replace(each, name="9") for each in recipe.extras),
        boils=tuple(
            replace(
                each,
                pot=replace(each.pot, name="4"),
                fermentables=each.fermentables
                and tuple(replace(line, name="7") for line in each.fermentables),
                hops=each.hops and tuple(replace(line, name="8") for line in each.hops),
            )
            for each in recipe.boils
        ),
        fermenters=tuple(
            replace(
                each,
                fermenter=replace(each.fermenter, name="5"),
                yeast=None if each.yeast is None else replace(each.yeast, name="6"),
            )
            for each in recipe.fermenters
        ),
    )  # fmt: skip


def changed(recipe, pot=None, fermenter=None, **process):
    typed = {
        name: Quantity(value, str(value)) if isinstance(value, float) else value
        for name, value in process.items()
    }
    return replace(
        recipe,
        pot=replace(recipe.pot, **(pot or {})),
        fermenter=replace(recipe.fermenter, **(fermenter or {})),
        process=replace(recipe.process, **typed),
    )


def extras_of_every_unit(recipe):
    made = tuple(
        Extra("9", "", Quantity(count, "?", unit=unit), When(Stage.BOIL, "boil 5 min", 5.0))
        for unit in PIECES
        for count in (0.5, 1.0, 1.5, 4.0)
    )
    return with_line_ids(replace(recipe, extras=made))


def said_in(code, recipe):
    """All sheets of a recipe in a language, as text and as HTML."""
    outlook = look_ahead(recipe, ranges=False)
    for variant, units in (("full", "metric"), ("full", "us"), ("bench", "both")):
        sheet = brew_sheet(
            recipe, outlook, shown=ShownUnits(units), start="23:30",
            brew_date=date(2026, 3, 28), variant=variant, language=code, form=Form(large=True),
        )  # fmt: skip
        yield sheet_text(sheet)
        yield re.sub(r"(?s)<style>.*?</style>|<[^>]*>", " ", sheet_html(sheet))


ODD = {
    "as it is": lambda r: r,
    "no hops": lambda r: replace(r, hops=()),
    "a lager": lambda r: changed(r, pitch_temperature=10.0),
    "into a keg": lambda r: changed(r, package="keg"),
    "too hot for glass": lambda r: changed(r, fermenter={"kind": "glass carboy"}, cool_to=95.0),
    "overfull": lambda r: changed(r, start_water=12.0, top_up_to=20.0),
    "chlorine": lambda r: changed(r, chlorine=2.0, disinfectant="chloramine, as NH2Cl"),
    "every unit": extras_of_every_unit,
    "no water": lambda r: changed(r, start_water=0.0),
    "tin and bag rinsed": lambda r: changed(
        r, syrup_tin=SyrupTin.RINSED, grain_bag=GrainBag.RINSED
    ),
    "tin rinsed of cold water": lambda r: changed(
        replace(r, fermentables=tuple(each for each in r.fermentables if not is_grain(each.kind))),
        syrup_tin=SyrupTin.RINSED,
    ),
    **{f"stove {each}": lambda r, each=each: changed(r, pot={"stove": each}) for each in STOVES},
    **{each: lambda r, each=each: changed(r, cooling=each) for each in COOLING_WAYS},
    **{each: lambda r, each=each: changed(r, fermenter={"kind": each}) for each in FERMENTER_KINDS},
    **{each: lambda r, each=each: changed(r, bottle=each) for each in BOTTLES},
    **{each: lambda r, each=each: changed(r, priming_sugar=each) for each in PRIMING_SUGARS},
}  # fmt: skip


@pytest.mark.parametrize("code", OTHERS)
@pytest.mark.parametrize("odd", ODD)
def test_no_word_of_english_is_left_on_any_sheet(example, code, odd):
    left = english_words(code)
    for name in ("harbour_lamp_porter", "slipway_bitter"):
        for said in said_in(code, nameless(ODD[odd](example(name)))):
            assert words(said) & left == set()


@pytest.mark.parametrize("code", OTHERS)
@pytest.mark.parametrize("plan", plans.ALL)
def test_no_word_of_english_is_left_on_the_sheet_of_any_plan(plan, code):
    left = english_words(code)
    recipe = nameless(plans.ALL[plan]())
    for said in said_in(code, recipe):
        assert words(said) & left == set()


@pytest.mark.parametrize("code", LANGUAGES)
@pytest.mark.parametrize("plan", plans.ALL)
def test_every_sentence_of_a_plan_begins_with_a_capital_or_a_figure(plan, sheet_of, code):
    sheet = sheet_of(nameless(plans.ALL[plan]()), ranges=False, language=code)
    for step in sheet.steps:
        for sentence in re.split(r"(?<=[.!?])\s+", plain_words(step.do)):
            assert not sentence[:1].islower(), sentence


@pytest.mark.parametrize("code", LANGUAGES)
@pytest.mark.parametrize("odd", ODD)
def test_every_sentence_of_a_step_begins_with_a_capital_or_a_figure(example, sheet_of, code, odd):
    recipe = nameless(ODD[odd](example("slipway_bitter")))
    for step in sheet_of(recipe, ranges=False, language=code).steps:
        for sentence in re.split(r"(?<=[.!?])\s+", plain_words(step.do)):
            assert not sentence[:1].islower(), sentence


@pytest.mark.parametrize(
    ("code", "count", "said"),
    [
        ("en", 0.5, "½ tablet"), ("en", 1.0, "1 tablet"), ("en", 1.5, "1 ½ tablets"),
        ("en", 4.0, "4 tablets"), ("de", 0.5, "½ Tablette"), ("de", 4.0, "4 Tabletten"),
        ("fr", 1.5, "1 ½ comprimé"), ("fr", 2.0, "2 comprimés"), ("fr", 0.5, "½ comprimé"),
    ],
)  # fmt: skip
def test_things_are_counted_as_the_language_counts_them(code, count, said):
    """French counts one up to two, English and German up to one; from memory of grammars."""
    one, many = PIECES["tablet"]
    shown = {0.5: "½", 1.0: "1", 1.5: "1 ½", 2.0: "2", 4.0: "4"}[count]
    assert language(code).count_of(one, many, count, shown) == said


@pytest.mark.parametrize(("code", "said"), [("en", "2 packets"), ("de", "2 Päckchen")])
def test_packets_that_are_typed_as_packets_are_no_pieces(code, said):
    typed = Quantity(2.0, "2 packets", unit="packets")
    assert Figures(ShownUnits.METRIC, language(code)).amount(typed, Kind.DOSE) == said


def test_french_says_between_where_it_means_a_span(example, sheet_of):
    text = sheet_text(sheet_of(example("harbour_lamp_porter"), ranges=False, language="fr"))
    assert re.search(r"Entre 16 et 21 °C, ajouter", text)
    assert "entre 18 et 22 °C" in text
    assert not re.search(r"(?i)entre \S+ à ", text)


@pytest.mark.parametrize("code", OTHERS)
def test_a_sheet_in_english_would_be_found_out(example, sheet_of, code):
    said = words(sheet_text(sheet_of(example("harbour_lamp_porter"), ranges=False)))
    assert len(said & english_words(code)) > 100
