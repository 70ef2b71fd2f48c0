"""Watch out: each finding has its cause, its figures, and a cure that cures."""

from dataclasses import replace

import pytest

from designer.brewday.findings_safety import hot_water_on_extract
from designer.brewday.outlook import look_ahead
from designer.recipe.document import Fermentable, Hop, Recipe
from designer.recipe.quantity import Quantity, Stage, When


def codes(recipe):
    return {finding.code for finding in look_ahead(recipe, ranges=False).findings}


def with_process(recipe, **changes):
    typed = {
        name: Quantity(value, str(value)) if isinstance(value, float) else value
        for name, value in changes.items()
    }
    return replace(recipe, process=replace(recipe.process, **typed))


CAUSES = {
    "pot-overflows": lambda r, k: with_process(r, start_water=9.5),
    "foam-room": lambda r, k: with_process(r, start_water=6.5),
    "fermenter-overflows": lambda r, k: with_process(r, top_up_to=13.0),
    "krausen-room": lambda r, k: with_process(r, top_up_to=11.0),
    "no-top-up": lambda r, k: with_process(r, top_up_to=5.0),
    "no-water": lambda r, k: with_process(r, start_water=0.0),
    "steep-too-hot": lambda r, k: with_process(r, steep_temperature=85.0),
    "steep-too-cool": lambda r, k: with_process(r, steep_temperature=50.0),
    "too-warm": lambda r, k: with_process(r, cool_to=60.0, frozen_top_up=0.0),
    "too-cold": lambda r, k: with_process(r, frozen_top_up=2.5),
    "frozen-left-over": lambda r, k: with_process(r, frozen_top_up=8.0),
    "hot-into-glass": lambda r, k: replace(
        with_process(r, cool_to=95.0), fermenter=replace(r.fermenter, kind="glass carboy")
    ),
    "hot-water-into-glass": lambda r, k: replace(
        r,
        fermentables=(
            replace(r.fermentables[0], when=When(Stage.FERMENTER, "fermenter")),
            *r.fermentables[1:],
        ),
        fermenter=replace(r.fermenter, kind="glass carboy"),
    ),
    "hot-to-pour": lambda r, k: with_process(r, cool_to=60.0, frozen_top_up=0.0),
    "bottle-pressure": lambda r, k: with_process(r, carbonation=3.2),
    "bottle-strain": lambda r, k: with_process(r, carbonation=2.4),
    "evaporation-too-high": lambda r, k: with_process(r, evaporation=6.0),
    "evaporation-held": lambda r, k: replace(
        with_process(r, evaporation=1.5), pot=replace(r.pot, power=k.q(1500, "W"))
    ),
    "boils-dry": lambda r, k: with_process(r, start_water=2.0, evaporation=3.0),
    "boil-range": lambda r, k: with_process(r, boil_time=150.0),
    "no-boil": lambda r, k: replace(r, pot=replace(r.pot, power=k.q(200, "W"))),
    "slow-stove": lambda r, k: replace(r, pot=replace(r.pot, power=k.q(500, "W"))),
    "nothing-to-ferment": lambda r, k: Recipe(),
    "all-left-in-pot": lambda r, k: with_process(r, left_in_pot=100.0),
    "hops-hold-all": lambda r, k: replace(r, hops=(replace(r.hops[0], amount=k.q(100, "kg")),)),
    "no-hops": lambda r, k: replace(r, hops=()),
    "no-yeast": lambda r, k: replace(r, yeast=replace(r.yeast, name="", amount=None)),
    "yeast-short": lambda r, k: replace(
        r, yeast=replace(r.yeast, amount=Quantity(6, "6 g", unit="g"))
    ),
    "extract-darkens": lambda r, k: replace(r, fermentables=r.fermentables[:2]),
    "yeast-little": lambda r, k: replace(
        r, yeast=replace(r.yeast, amount=Quantity(2, "2 g", unit="g"))
    ),
    "extract-early": lambda r, k: r,
    "alpha-unknown": lambda r, k: replace(r, hops=(replace(r.hops[0], alpha=None),)),
    "alpha-too-high": lambda r, k: replace(r, hops=(replace(r.hops[0], alpha=k.q(0.6)),)),
    "pot-bitterness": lambda r, k: replace(
        r,
        fermentables=(
            *r.fermentables,
            Fermentable("Kit", "hopped kit extract", k.q(1), k.boil(5), label_bitterness=k.q(900)),
        ),
    ),
    "more-hops-than-dissolve": lambda r, k: replace(
        r, hops=(replace(r.hops[0], amount=k.q(0.2, "kg")),)
    ),
    "longer-than-boil": lambda r, k: replace(r, hops=(replace(r.hops[0], when=k.boil(90)),)),
    "no-amount": lambda r, k: replace(r, hops=(*r.hops, Hop("Fuggle", alpha=k.q(0.045)))),
    "needs-mash": lambda r, k: replace(
        r,
        fermentables=(
            *r.fermentables,
            Fermentable("Flaked oats", "mash grain", k.q(0.2, "kg"), When(Stage.STEEP, "steep")),
        ),
    ),
    "much-sugar": lambda r, k: replace(
        r,
        fermentables=(
            *r.fermentables,
            Fermentable("Table sugar", "sugar", k.q(1, "kg"), k.boil(10)),
        ),
    ),
    "strong": lambda r, k: replace(
        r, fermentables=(replace(r.fermentables[0], amount=k.q(6, "kg")),)
    ),
}


@pytest.mark.parametrize("code", CAUSES)
def test_what_causes_it_is_said(code, harbour_porter, kitchen):
    recipe = CAUSES[code](harbour_porter, kitchen)
    findings = [f for f in look_ahead(recipe, ranges=False).findings if f.code == code]
    assert findings
    assert "{" not in findings[0].message.text


@pytest.mark.parametrize("code", CAUSES)
def test_a_cure_cures(code, harbour_porter, kitchen):
    recipe = CAUSES[code](harbour_porter, kitchen)
    for finding in look_ahead(recipe, ranges=False).findings:
        if finding.code == code and finding.fix is not None:
            cured = finding.fix.apply(recipe)
            assert cured != recipe
            places = [f.about for f in look_ahead(cured, ranges=False).findings if f.code == code]
            assert finding.about not in places or code == "extract-early"


def test_a_sound_recipe_has_nothing_to_stop_for(harbour_porter):
    findings = look_ahead(
        with_process(
            harbour_porter,
            start_water=5.9,
            frozen_top_up=1.0,
            bottle="heavy refillable beer bottles",
        )
    ).findings
    assert not [finding for finding in findings if finding.severity != "note"]


def test_the_worst_is_said_first(harbour_porter):
    found = look_ahead(with_process(harbour_porter, start_water=9.5, carbonation=2.8)).findings
    order = {"stop": 0, "care": 1, "note": 2}
    ranks = [order[finding.severity] for finding in found]
    assert ranks == sorted(ranks)
    assert ranks[0] == 0


@pytest.mark.parametrize(
    ("kind", "stage", "kg", "cracks"),
    [
        ("dry extract", Stage.FERMENTER, 0.5, True),
        ("sugar", Stage.DRY_HOP, 0.2, True),
        ("dry extract", Stage.BOIL, 0.5, False),
        ("steeping grain", Stage.FERMENTER, 0.5, False),
        ("dry extract", Stage.FERMENTER, 0.0, False),
        ("dry extract", Stage.FERMENTER, None, False),
    ],
)
def test_what_is_dissolved_in_hot_water_for_a_glass_is_warned_of_where_there_is_any(
    harbour_porter, kind, stage, kg, cracks
):
    amount = None if kg is None else Quantity(kg, f"{kg} kg")
    line = Fermentable("Late", kind, amount, When(stage, "its time", 10.0), line_id=77)
    glass = replace(harbour_porter.fermenter, kind="glass carboy")
    recipe = replace(harbour_porter, fermenter=glass, fermentables=(line,))
    found = [each.fix.line_id for each in hot_water_on_extract(recipe, None)]
    assert found == ([77] if cracks else [])
    in_bucket = replace(recipe, fermenter=harbour_porter.fermenter)
    assert not list(hot_water_on_extract(in_bucket, None))
