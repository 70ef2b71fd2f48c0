"""Each finding says how bad it is, where in the recipe to look, its figures, and its cure.

A place that is named must be one that the recipe has; limits are those of the modules' docstrings.
"""

from dataclasses import replace

import pytest

from designer.brewday import findings_lines, findings_vessels
from designer.brewday.day import brew
from designer.brewday.findings import findings
from designer.library.places import set_field
from designer.library.recipe_file import load
from designer.recipe.quantity import Kind, Quantity, Stage, When
from tests.brewday.days import with_figures
from tests.brewday.quantities import ONE_GRAIN_PORTER

PORTER = load(ONE_GRAIN_PORTER)
HOP = f"hops.{PORTER.hops[0].line_id}"
MALT, DRY, GRAIN = (f"fermentables.{line.line_id}" for line in PORTER.fermentables)
LITRES, DEGREES, SHARE = Kind.VOLUME, Kind.TEMPERATURE, Kind.FRACTION


def typed(*changes):
    recipe = PORTER
    for place, text in changes:
        recipe = set_field(recipe, place, text)
    return recipe


def one_hop(**changes):
    return replace(PORTER, hops=(replace(PORTER.hops[0], **changes),))


# code, recipe, severity, place, its figures (None: that of the day, whatever it is), the cure
FOUND = [
    ("pot-unknown", replace(PORTER, pot=replace(PORTER.pot, volume=None)), "note", "pot.volume",
     [], None),
    ("foam-room", PORTER, "care", "process.start_water",
     [(LITRES, None), (LITRES, 7.2), (LITRES, 9.0)], "Start with 6 L"),
    ("pot-overflows", typed(("pot.volume", "5.5 L")), "stop", "process.start_water",
     [(LITRES, None), (LITRES, 5.5)], "Start with 3.2 L"),
    ("fermenter-overflows", typed(("process.top_up_to", "13 L")), "stop", "process.top_up_to",
     [(LITRES, 13.0), (LITRES, 12.0), (LITRES, 10.2)], "Top up to 10.2 L"),
    ("krausen-room", typed(("process.top_up_to", "11.5 L")), "care", "process.top_up_to",
     [(LITRES, 11.5), (LITRES, 12.0), (LITRES, 10.2)], "Top up to 10.2 L"),
    ("no-top-up", typed(("process.top_up_to", "5 L")), "care", "process.top_up_to",
     [(LITRES, None), (LITRES, 5.0)], "Make it 6.3 L"),
    ("leaflet-differs", typed(("leaflet.original_gravity", "1.110")), "note",
     "leaflet.original_gravity", [], None),
    ("leaflet-gravities", typed(("leaflet.original_gravity", "1.015")), "note",
     "leaflet.original_gravity", [(Kind.GRAVITY, None)], "Put it right"),
    ("no-water", typed(("process.start_water", "0 L")), "stop", "process.start_water", [], None),
    ("boils-dry", typed(("process.start_water", "2 L"), ("process.evaporation", "3 L/h")), "stop",
     "process.start_water", [(Kind.GRAVITY, None)], None),
    ("no-boil", typed(("pot.power", "300 W")), "stop", "pot.power", [(Kind.POWER, 300.0)], None),
    # 600 W x 0.80 less 4 W/K x the kelvins above 20 °C: 5 L and the grain take over four hours
    ("slow-stove", typed(("pot.power", "500 W")), "care", "pot.power",
     [(Kind.POWER, 500.0), (Kind.TIME, None)], None),
    # 2000 W x 0.74 less 4 W/K x 80 K, by 2257 kJ/kg: 1.85 kg of steam an hour
    ("evaporation-too-high", typed(("process.evaporation", "3 L/h")), "note",
     "process.evaporation",
     [(Kind.EVAPORATION, 3.0), (Kind.POWER, 2000.0), (Kind.EVAPORATION, 1.85)], None),
    ("evaporation-held", typed(("process.evaporation", "1.5 L/h"), ("pot.power", "1500 W")), "note",
     "process.evaporation",
     [(Kind.EVAPORATION, 1.5), (Kind.POWER, 1500.0), (Kind.EVAPORATION, 1.26)],
     "Count on 1.26 L/h"),
    ("steep-too-hot", typed(("process.steep_temperature", "85 °C")), "care",
     "process.steep_temperature", [(DEGREES, 85.0), (DEGREES, 77.0)], "Steep at 68 °C"),
    ("steep-too-cool", typed(("process.steep_temperature", "50 °C")), "note",
     "process.steep_temperature", [(DEGREES, 50.0)], "Steep at 68 °C"),
    ("steep-not-reached", typed(("process.start_water", "0 L")), "care",
     "process.steep_temperature", [(DEGREES, 20.0), (DEGREES, 68.0)], None),
    ("too-warm", typed(("process.cool_to", "50 °C"), ("process.frozen_top_up", "0 kg")), "care",
     "process.frozen_top_up", [(DEGREES, None), (DEGREES, 19.0)], "Freeze 1.6 kg of it"),
    ("too-cold", PORTER, "care", "process.frozen_top_up",
     [(DEGREES, None), (DEGREES, 19.0)], "Freeze 1 kg of it"),
    ("frozen-left-over", typed(("process.top_up_to", "5 L")), "note", "process.frozen_top_up",
     [(Kind.MASS, 1.5), (Kind.MASS, 0.0)], None),
    ("ice-remains", typed(("process.start_water", "0 L")), "care", "process.frozen_top_up",
     [(Kind.MASS, 1.5)], None),
    ("nothing-to-ferment", replace(PORTER, fermentables=()), "stop", "recipe", [], None),
    ("nothing-to-ferment",
     typed(*((f"fermentables.{number}.extract", "0 %") for number in (1, 2, 3))), "stop", "recipe",
     [(Kind.MASS, 2.25)], None),
    ("nothing-to-ferment", typed(("process.top_up_to", "10000 L")), "stop", "process.top_up_to",
     [(Kind.MASS, None), (Kind.VOLUME, 10_000.0), (Kind.GRAVITY, None)], None),
    ("all-left-in-pot", typed(("process.left_in_pot", "100 L")), "stop", "process.left_in_pot",
     [(Kind.VOLUME, 100.0), (Kind.VOLUME, None), (Kind.VOLUME, 0.3)], "Leave 0.3 L"),
    ("hops-hold-all", one_hop(amount=Quantity(100.0, "100 kg")), "stop", HOP,
     [(Kind.MASS, 100.0), (Kind.VOLUME, None)], "Make it 100 g"),
    ("krausen-room", typed(("fermenter.headspace", "100 %")), "care", "fermenter.headspace",
     [(SHARE, 1.0), (Kind.VOLUME, 0.0), (SHARE, 0.15)], "Leave 15 %"),
    ("no-hops", replace(PORTER, hops=()), "care", "recipe", [], None),
    ("no-amount", one_hop(amount=None), "care", HOP, [], None),
    ("alpha-unknown", one_hop(alpha=None), "care", HOP, [(SHARE, 0.06)], None),
    ("alpha-too-high", typed(("hops.1.alpha", "60 %")), "care", HOP,
     [(SHARE, 0.6), (SHARE, 0.25)], None),
    ("longer-than-boil", typed(("hops.1.when", "boil 90 min")), "note", HOP,
     [(Kind.TIME, 90.0), (Kind.TIME, 60.0)], "Boil it 60 min"),
    ("more-hops-than-dissolve", typed(("hops.1.amount", "200 g")), "care", "hops",
     [(Kind.VOLUME, None), (Kind.BITTERNESS, None), (Kind.BITTERNESS, None)], None),
    ("pot-bitterness", typed(("fermentables.2.kind", "hopped kit extract"),
                             ("fermentables.2.label_bitterness", "2000 IBU")),
     "care", "hops", [(Kind.BITTERNESS, None), (Kind.BITTERNESS, 100.0)], None),
    ("needs-mash", typed(("fermentables.3.kind", "mash grain"), ("fermentables.3.extract", "0 %")),
     "care", GRAIN, [(Kind.MASS, 0.0), (Kind.TEMPERATURE, 62.0), (Kind.TEMPERATURE, 70.0),
     (Kind.MASS, None)], "Count it as mashed, 60 %"),
    ("much-sugar", typed(("fermentables.2.kind", "sugar")), "note", "fermentables",
     [(SHARE, None)], None),
    ("extract-early", PORTER, "note", MALT, [(Kind.GRAVITY, None), (Kind.BITTERNESS, None)],
     "Put it in 15 min before the end"),
    ("bottle-pressure", typed(("process.carbonation", "3.2 vol")), "stop", "process.carbonation",
     [(Kind.PRESSURE, 4.66), (DEGREES, 30.0), (Kind.PRESSURE, 3.7), (Kind.CARBONATION, 2.0)],
     "Carbonate to 2 vol"),
    ("boil-range", typed(("process.boil_time", "150 min")), "note", "process.boil_time",
     [(Kind.TIME, 120.0), (Kind.TIME, 150.0)], None),
    ("bitterness-range", typed(("process.start_water", "0 L")), "note", "hops",
     [(Kind.GRAVITY, 1.13), (Kind.GRAVITY, None)], None),
    ("bitterness-range-weak", replace(PORTER, fermentables=()), "note", "hops",
     [(Kind.GRAVITY, 1.03), (Kind.GRAVITY, 1.0)], None),
    ("strong", typed(("fermentables.1.amount", "6 kg")), "care", "fermentables",
     [(Kind.GRAVITY, None)], None),
    ("colour-range", typed(("fermentables.3.amount", "9 kg")), "note", "fermentables",
     [(Kind.BEER_COLOUR, 50.0)], None),
    ("yeast-little", typed(("yeast.amount", "3 g")), "care", "yeast.amount",
     [(Kind.MASS, 0.003), (Kind.MASS, None), (LITRES, 10.0), (Kind.GRAVITY, None)],
     "Pitch a packet, 11 g"),
    ("yeast-short", typed(("yeast.amount", "5 g")), "note", "yeast.amount",
     [(Kind.MASS, 0.005), (Kind.MASS, None), (Kind.MASS, None)], "Pitch a packet, 11 g"),
    ("no-yeast", replace(PORTER, yeast=replace(PORTER.yeast, name="", amount=None)), "care",
     "yeast.name", [], None),
]  # fmt: skip


@pytest.mark.parametrize(
    ("code", "recipe", "severity", "about", "figures", "cure"), FOUND, ids=[row[0] for row in FOUND]
)
def test_a_finding_says_how_bad_and_where_and_by_how_much(
    code, recipe, severity, about, figures, cure
):
    found = next(each for each in findings(recipe, brew(recipe)) if each.code == code)
    assert (found.severity, str(found.about)) == (severity, about)
    assert [kind for kind, _ in found.message.figures] == [kind for kind, _ in figures]
    for (_, value), (_, expected) in zip(found.message.figures, figures, strict=True):
        assert expected is None or value == pytest.approx(expected, rel=0.01, abs=2e-5)
    assert (found.fix.text.text if found.fix else None) == cure
    assert "{" not in found.message.text


@pytest.mark.parametrize(("code", "recipe"), [row[:2] for row in FOUND if row[5]])
def test_the_cure_does_away_with_what_it_cures(code, recipe):
    found = next(each for each in findings(recipe, brew(recipe)) if each.code == code)
    cured = found.fix.apply(recipe)
    again = [each.code for each in findings(cured, brew(cured)) if each.about == found.about]
    assert code not in again


def test_figures_of_the_day_are_told_as_they_are():
    day = brew(PORTER)
    told = {
        each.code: [value for _, value in each.message.figures] for each in findings(PORTER, day)
    }
    assert told["foam-room"][0] == day.pot.fullest_boiling_l
    assert told["too-cold"][0] == day.fermenter.mixed_c
    early = [each for each in findings(PORTER, day) if each.code == "extract-early"]
    late = brew(early[0].fix.apply(PORTER))
    gain = late.beer.bitterness_ibu - day.beer.bitterness_ibu
    assert told["extract-early"] == [day.pot.boil_gravity_start, pytest.approx(gain)]
    small = typed(("pot.volume", "5 L"))
    (overflows,) = findings_vessels.pot_too_full(small, brew(small))
    assert overflows.message.figures[0][1] == brew(small).pot.fullest_l


def test_a_pot_a_spoonful_too_full_is_not_worth_a_word():
    """0.05 L is less than the marks of a pot show; common practice, no source."""
    day = brew(PORTER)
    for litres, told in ((7.2 + 0.04, set()), (7.2 + 0.06, {"foam-room"})):
        nearly = with_figures(day, fullest_boiling_l=litres, fullest_l=litres)
        assert {each.code for each in findings_vessels.pot_too_full(PORTER, nearly)} == told
    for batch_l, told in ((10.24, set()), (10.26, {"krausen-room"})):
        nearly = with_figures(day, batch_l=batch_l)
        assert {each.code for each in findings_vessels.fermenter_too_full(PORTER, nearly)} == told


def test_without_a_mark_to_lower_a_full_fermenter_has_no_cure():
    full = typed(("process.start_water", "13 L"))
    full = replace(full, process=replace(full.process, top_up_to=None))
    (found,) = findings_vessels.fermenter_too_full(full, brew(full))
    assert found.fix is None
    more = typed(("process.start_water", "13 L"), ("process.top_up_to", "13 L"))
    (found,) = findings_vessels.fermenter_too_full(more, brew(more))
    assert found.fix is None  # the pot alone gives more than the fermenter holds


def test_grain_of_either_kind_is_steeped_within_its_window():
    for kind in ("steeping grain", "mash grain"):
        hot = typed(("fermentables.3.kind", kind), ("process.steep_temperature", "85 °C"))
        assert [each.code for each in findings_vessels.steep_heat(hot, brew(hot))] == [
            "steep-too-hot"
        ]
    none = replace(PORTER, fermentables=PORTER.fermentables[:2])
    assert list(findings_vessels.steep_heat(none, brew(none))) == []


def test_a_late_addition_is_offered_for_the_extract_alone_that_could_go_late():
    day = brew(PORTER)
    (found,) = findings_lines.extract_could_go_late(PORTER, day)
    after = found.fix.apply(PORTER)
    assert after.fermentables[0].when.minutes == 15.0
    assert after.fermentables[0].when.stage is Stage.BOIL
    assert after.fermentables[0].when.text == "boil 15 min"
    assert after.fermentables[1:] == PORTER.fermentables[1:]


def test_the_largest_extract_that_boils_long_is_told_dry_or_liquid(porter_boiling_all):
    """Whichever weighs most; one without an amount weighs nothing, a locked one stays."""
    day = brew(PORTER)

    def told(**amounts):
        lines = tuple(
            replace(line, amount=amounts.get(key))
            for key, line in zip(
                ("liquid", "dry", "grain"), porter_boiling_all.fermentables, strict=True
            )
        )
        recipe = replace(porter_boiling_all, fermentables=lines)
        return [str(each.about) for each in findings_lines.extract_could_go_late(recipe, day)]

    kilo, pound = Quantity(1.0, "1 kg"), Quantity(0.4536, "1 lb")
    assert told(liquid=kilo, dry=pound) == [MALT]
    assert told(liquid=pound, dry=kilo) == [DRY]
    assert told(dry=pound) == [DRY]
    assert told(liquid=pound) == [MALT]


@pytest.fixture
def porter_boiling_all():
    """All of its extract from the start of the boil."""
    return typed(("fermentables.1.when", "boil 60 min"), ("fermentables.2.when", "boil 60 min"))


def test_dry_hops_may_be_of_unknown_strength_but_those_after_them_not():
    first, second = (replace(hop, alpha=None) for hop in PORTER.hops)
    dry = replace(first, when=When(Stage.DRY_HOP, "dry hop 3 days", days=3.0))
    recipe = replace(PORTER, hops=(dry, second))
    found = [str(each.about) for each in findings_lines.alpha_acid_doubtful(recipe, brew(recipe))]
    assert found == [f"hops.{second.line_id}"]


def test_a_time_beyond_the_boil_is_cured_into_its_start():
    recipe = typed(("hops.1.when", "boil 90 min"))
    (found,) = findings_lines.longer_than_the_boil(recipe, brew(recipe))
    assert found.fix.apply(recipe).hops[0].when == When(Stage.BOIL, "boil 60 min", 60.0)


def test_every_line_without_an_amount_is_told_malt_and_hops():
    recipe = replace(
        PORTER,
        fermentables=(replace(PORTER.fermentables[0], amount=None), *PORTER.fermentables[1:]),
        hops=(PORTER.hops[0], replace(PORTER.hops[1], name="{0}", amount=None)),
    )
    found = list(findings_lines.no_amount(recipe, brew(recipe)))
    assert [str(each.about) for each in found] == [MALT, f"hops.{PORTER.hops[1].line_id}"]
    # Braces in a name are no figures.
    assert found[1].message.text.startswith("{0} is not counted yet")
    nameless = replace(recipe, hops=(replace(PORTER.hops[0], name="", amount=None),))
    assert list(findings_lines.no_amount(nameless, brew(nameless)))[1].message.text.startswith(
        "A line without a name"
    )


def test_what_a_cure_types_in_is_what_it_says():
    """2 volumes are what unknown bottles bear with ease; grams of yeast are a dose in grams."""
    fizzy = typed(("process.carbonation", "3.2 vol"))
    found = next(each for each in findings(fizzy, brew(fizzy)) if each.code == "bottle-pressure")
    assert found.fix.apply(fizzy).process.carbonation == Quantity(2.0, "2 vol")
    short = typed(("yeast.amount", "5 g"))
    found = next(each for each in findings(short, brew(short)) if each.code == "yeast-short")
    assert found.fix.apply(short).yeast.amount == Quantity(11.0, "11 g", unit="g")
