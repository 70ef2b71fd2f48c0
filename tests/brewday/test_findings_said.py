"""The figures that findings say are those of the day, and their edges those that are told.

The day is that of the porter with single numbers put where they are wanted. Limits are those of the
modules' docstrings.
"""

from dataclasses import replace

import pytest

from designer.brewday import (
    findings_beer,
    findings_lines,
    findings_safety,
    findings_vessels,
    findings_wort,
)
from designer.brewday.bottles import Bottled
from designer.brewday.checked_cures import _is_worse, _made
from designer.brewday.contributions import contributions
from designer.brewday.darkening import _small
from designer.brewday.day import brew
from designer.brewday.other_methods import _outside_alcohol, _outside_bitterness, _outside_colour
from designer.brewday.results import Contribution, Finding
from designer.library.recipe_file import load
from designer.recipe.message import say
from designer.recipe.place import Place
from designer.recipe.quantity import Kind, Stage, When
from designer.recipe.severity import Severity
from tests.brewday.days import with_figures
from tests.brewday.quantities import ONE_GRAIN_PORTER, q

PORTER = load(ONE_GRAIN_PORTER)
DAY = brew(PORTER)
IBU, SG, KG, LITRES, DEGREES = (
    Kind.BITTERNESS, Kind.GRAVITY, Kind.MASS, Kind.VOLUME, Kind.TEMPERATURE,
)  # fmt: skip


def said(finder, recipe=PORTER, **figures):
    found = [each.with_cure for each in finder(recipe, with_figures(DAY, **figures))]
    return {each.code: list(each.message.figures) for each in found}


def changed(part, recipe=PORTER, **fields):
    return replace(recipe, **{part: replace(getattr(recipe, part), **fields)})


def test_little_yeast_is_told_beside_what_the_batch_wants():
    found = said(findings_beer.yeast_short, yeast_wanted_g=30.0, batch_l=10.0)
    assert found == {"yeast-little": [
        (KG, 0.011), (KG, 0.030), (LITRES, 10.0), (SG, float(DAY.beer.original_gravity)),
    ]}  # fmt: skip
    found = said(findings_beer.yeast_short, yeast_wanted_g=20.0)
    assert found == {"yeast-short": [
        (KG, 0.011), (KG, pytest.approx(0.015)), (KG, pytest.approx(0.024)),
    ]}  # fmt: skip
    assert said(findings_beer.yeast_short, yeast_wanted_g=30.0, original_gravity=1.0009) == {}
    assert "yeast-little" in said(
        findings_beer.yeast_short, yeast_wanted_g=30.0, original_gravity=1.001
    )


def test_without_a_name_and_an_amount_no_yeast_is_chosen():
    none = changed("yeast", name="", amount=None)
    assert said(findings_beer.yeast_short, none) == {"no-yeast": []}
    assert said(findings_beer.yeast_short, changed("yeast", amount=None)) == {}
    assert said(findings_beer.yeast_short, changed("yeast", name=""), yeast_wanted_g=5.0) == {}


def test_bitterness_is_rough_outside_the_published_table():
    """Tinseth's table goes from 1.030 to 1.130 and to 120 min."""
    found = said(findings_beer.outside_published_range, boil_gravity_end=1.140)
    assert found == {"bitterness-range": [(SG, 1.130), (SG, 1.140)]}
    found = said(findings_beer.outside_published_range, boil_gravity_end=1.020)
    assert found == {"bitterness-range-weak": [(SG, 1.030), (SG, 1.020)]}
    nothing = {"boil_gravity_end": 1.020, "boil_gravity_start": 0.0}
    assert said(findings_beer.outside_published_range, **nothing) == {}
    no_hops = replace(PORTER, hops=())
    assert said(findings_beer.outside_published_range, no_hops, boil_gravity_end=1.140) == {}
    assert said(findings_beer.outside_published_range, no_hops, boil_gravity_end=1.020) == {}
    long = changed("process", boil_time=q(121, "min"))
    assert said(findings_beer.outside_published_range, long) == {
        "boil-range": [(Kind.TIME, 120.0), (Kind.TIME, 121.0)]
    }
    assert said(findings_beer.outside_published_range, changed("process", boil_time=q(120))) == {}
    assert said(findings_beer.outside_published_range, replace(long, hops=())) == {}
    assert said(findings_beer.outside_published_range, original_gravity=1.121)["strong"] == [
        (SG, 1.121)
    ]


def test_hops_that_do_not_dissolve_are_told_beside_what_is_boiled():
    figures = {
        "bitterness_ibu": 50.0, "from_pot_l": 5.0, "lost_to_trub_l": 0.3, "lost_to_hops_l": 0.2,
        "evaporated_l": 0.9,
    }  # fmt: skip
    found = said(findings_lines.too_bitter_for_the_pot, undissolved_ibu=6.0, **figures)
    assert found == {"more-hops-than-dissolve": [
        (LITRES, pytest.approx(6.4)), (IBU, 50.0), (IBU, 6.0),
    ]}  # fmt: skip
    assert said(findings_lines.too_bitter_for_the_pot, undissolved_ibu=4.9, **figures) == {}


def test_sugar_is_told_as_its_share_of_the_points():
    """1 lb of sugar at 46 points and 3 lb of dry extract at 42 are 46 of 172 points in a gallon.

    They add up, as pounds times points by the pound (Palmer, How to Brew, 1st ed., ch. 3.4).
    """
    sugar, powder = PORTER.fermentables[0], PORTER.fermentables[1]
    sweet = (
        replace(sugar, kind="sugar", amount=q(0.45359, "kg"), extract=q(46 / 46.21)),
        replace(powder, amount=q(3 * 0.45359, "kg"), extract=q(42 / 46.21)),
    )
    recipe = replace(PORTER, fermentables=sweet)
    (finding,) = findings_lines.much_sugar(recipe, brew(recipe))
    assert finding.message.figures == ((Kind.FRACTION, pytest.approx(46 / 172, rel=0.01)),)


def test_what_late_extract_brings_is_said_from_half_an_ibu_on():
    start = with_figures(DAY, boil_gravity_start=1.070, bitterness_ibu=30.0)
    for ibu, figures in ((30.49, [(SG, 1.070)]), (30.5, [(SG, 1.070), (IBU, 0.5)])):
        late = with_figures(DAY, bitterness_ibu=ibu).beer
        assert list(findings_lines._early_extract(start, "Syrup", late).figures) == figures
    assert findings_lines._early_extract(start, "", DAY.beer).text.startswith(
        "The boil starts at 1.070. A line without a name in the last 15 min"
    )


@pytest.mark.parametrize(("share", "told"), [(0.0, True), (0.29, True), (0.30, False)])
def test_base_malt_that_gives_half_of_a_mash_is_one(share, told):
    grain = replace(PORTER.fermentables[2], kind="mash grain", extract=q(share))
    recipe = replace(PORTER, fermentables=(*PORTER.fermentables[:2], grain))
    assert ("needs-mash" in said(findings_lines.needs_a_mash, recipe)) is told
    steeped = replace(grain, kind="steeping grain", extract=q(0.0))
    plain = replace(PORTER, fermentables=(*PORTER.fermentables[:2], steeped))
    assert said(findings_lines.needs_a_mash, plain) == {}


def test_wort_too_hot_to_pour_is_told_and_cooled_further():
    """Glass cracks above 30 °C, wort above 50 °C scalds; half a degree is no difference."""
    glass = changed("fermenter", kind="glass carboy")
    moved = findings_safety.hot_wort_moved
    assert said(moved, glass, cool_to_c=30.4) == {}
    assert said(moved, glass, cool_to_c=31.0) == {
        "hot-into-glass": [(DEGREES, 31.0), (DEGREES, 30.0)]
    }
    assert said(moved, cool_to_c=50.0) == {}
    assert said(moved, cool_to_c=50.1) == {"hot-to-pour": [(DEGREES, 50.1), (DEGREES, 40.0)]}
    assert said(moved, cool_to_c=80.0, from_pot_l=0.0) == {}
    assert "hot-to-pour" in said(moved, cool_to_c=80.0, from_pot_l=0.5)
    hot = changed("process", cool_to=q(60, "°C"))
    (found,) = findings_safety.hot_wort_moved(hot, with_figures(DAY, cool_to_c=60.0))
    assert found.fix.apply(hot).process.cool_to.value == 40.0
    for typed in (None, q(40, "°C"), q(25, "°C")):
        other = changed("process", cool_to=typed)
        (found,) = findings_safety.hot_wort_moved(other, with_figures(DAY, cool_to_c=60.0))
        assert found.fix is None


def test_extract_for_a_fermenter_of_glass_is_dissolved_in_a_pan():
    late = replace(PORTER.fermentables[1], when=When(Stage.FERMENTER, "fermenter"), name="")
    glass = changed("fermenter", kind="glass carboy")

    def found(line, recipe=glass):
        recipe = replace(recipe, fermentables=(line,))
        return list(findings_safety.hot_water_on_extract(recipe, DAY))

    (one,) = found(late)
    assert one.message.text.startswith("A line without a name for the fermenter is dissolved")
    assert one.fix.apply(glass).fermentables[1].when.stage is Stage.FLAME_OUT
    assert len(found(replace(late, when=When(Stage.DRY_HOP, "dry hop 3 d", days=3.0)))) == 1
    assert found(replace(late, name="Honey"))[0].message.text.startswith("Honey for the fermenter")
    assert found(replace(late, amount=None)) == found(replace(late, amount=q(0))) == []
    assert found(replace(late, kind="steeping grain")) == []
    assert found(PORTER.fermentables[1]) == []
    assert found(late, PORTER) == []


def bottles(most, comfortable=3.0, never=4.0):
    return replace(DAY, beer=replace(DAY.beer, bottled=Bottled("any", most, comfortable, never)))


@pytest.mark.parametrize(
    ("most", "limits", "code"),
    [
        (3.0, {}, None),
        (3.1, {}, "bottle-strain"),
        (4.0, {}, "bottle-strain"),
        (4.1, {}, "bottle-pressure"),
        (0.5, {"comfortable": 0.0, "never": 0.0}, "bottle-pressure"),
    ],
)
def test_bottles_are_at_ease_or_strained_or_refused(most, limits, code):
    day = bottles(most, **limits)
    found = [each.code for each in findings_safety.bottle_pressure(PORTER, day)]
    assert found == ([code] if code else [])
    told = day.beer.bottled
    assert told.is_refused is (code == "bottle-pressure")
    assert told.is_made_for_pressure is not limits.__contains__("never")
    if code == "bottle-pressure" and told.is_made_for_pressure:
        (finding,) = findings_safety.bottle_pressure(PORTER, day)
        assert finding.message.figures[1] == (DEGREES, 30.0)
        assert finding.message.figures[2] == (Kind.PRESSURE, 4.0)


def test_water_is_not_strained_beer():
    weak = with_figures(bottles(3.5), original_gravity=1.0009)
    assert list(findings_safety.bottle_pressure(PORTER, weak)) == []
    assert (
        len(
            list(
                findings_safety.bottle_pressure(PORTER, with_figures(weak, original_gravity=1.001))
            )
        )
        == 1
    )


def test_no_wort_is_moved_where_it_stays_in_the_pot_or_the_hops():
    """A hundredth of what the pot holds is next to nothing."""
    wort = findings_wort.no_wort
    left = {"lost_to_trub_l": 5.0, "lost_to_hops_l": 1.0}
    assert said(wort, from_pot_l=0.061, **left) == {}
    found = said(wort, from_pot_l=0.059, **left)["all-left-in-pot"]
    assert found == [(LITRES, 0.3), (LITRES, pytest.approx(6.059)), (LITRES, 0.3)]
    hops = {"lost_to_trub_l": 1.0, "lost_to_hops_l": 5.0, "from_pot_l": 0.05}
    assert said(wort, **hops)["hops-hold-all"] == [
        (KG, pytest.approx(sum(each.amount.value for each in PORTER.hops))),
        (LITRES, pytest.approx(5.05)),
    ]
    even = {"lost_to_trub_l": 3.0, "lost_to_hops_l": 3.0, "from_pot_l": 0.0}
    assert list(said(wort, **even)) == ["all-left-in-pot"]
    assert list(said(wort, replace(PORTER, fermentables=()), **hops)) == []
    small = with_figures(DAY, lost_to_trub_l=0.6, lost_to_hops_l=0.0, from_pot_l=0.0)
    (finding,) = wort(PORTER, small)
    assert finding.fix is None
    (finding,) = wort(PORTER, with_figures(small, lost_to_trub_l=0.61))
    assert finding.fix is not None


@pytest.mark.parametrize(
    ("kg", "meant"), [(0.9, None), (1.0, 0.001), (1000.0, 1.0), (1001.0, None)]
)
def test_kilograms_of_hops_may_have_been_grams(kg, meant):
    fix = findings_wort._grams_for_kilograms(replace(PORTER.hops[0], amount=q(kg, "kg")))
    assert (fix is None) is (meant is None)
    if meant:
        assert fix.apply(PORTER).hops[0].amount.value == pytest.approx(meant)


def test_a_fermenter_is_told_what_it_holds_and_how_far_it_may_be_filled():
    full = findings_vessels.fermenter_too_full
    assert said(full, batch_l=11.0) == {"krausen-room": [
        (LITRES, 11.0), (LITRES, 12.0), (LITRES, pytest.approx(10.2)),
    ]}  # fmt: skip
    assert list(said(full, batch_l=12.5)) == ["fermenter-overflows"]
    emptier = changed("fermenter", headspace=q(0.95))
    assert said(full, emptier, batch_l=11.0)["krausen-room"][0] == (Kind.FRACTION, 0.95)
    assert list(said(full, emptier, batch_l=12.5)) == ["fermenter-overflows"]
    edge = changed("fermenter", headspace=q(0.9))
    assert said(full, edge, batch_l=11.0)["krausen-room"][0] == (LITRES, 11.0)
    from_pot = with_figures(DAY, batch_l=11.0, from_pot_l=10.3)
    (finding,) = full(PORTER, from_pot)
    assert finding.fix is None
    (finding,) = full(changed("process", top_up_to=None), with_figures(DAY, batch_l=11.0))
    assert finding.fix is None
    assert said(full, changed("fermenter", volume=None), batch_l=99.0) == {}


@pytest.mark.parametrize(
    ("pitch", "mixed", "code"),
    [
        (19.0, 24.0, None), (19.0, 24.1, "too-warm"), (22.0, 25.0, None), (22.0, 25.1, "too-warm"),
        (30.0, 30.0, None), (30.0, 30.1, "too-warm"), (19.0, 14.0, None), (19.0, 13.9, "too-cold"),
    ],
)  # fmt: skip
def test_wort_is_to_be_within_five_degrees_of_its_yeast_and_no_warmer_than_25(pitch, mixed, code):
    recipe = changed("process", pitch_temperature=q(pitch, "°C"))
    found = said(findings_vessels.pitching_heat, recipe, mixed_c=mixed)
    assert found == ({code: [(DEGREES, mixed), (DEGREES, pitch)]} if code else {})


@pytest.mark.parametrize(
    ("typed", "code"),
    [(59.9, "steep-too-cool"), (60.0, None), (77.0, None), (77.1, "steep-too-hot")],
)
def test_a_steep_has_its_window(typed, code):
    """66 to 77 °C: Palmer, How to Brew."""
    recipe = changed("process", steep_temperature=q(typed, "°C"))
    assert list(said(findings_vessels.steep_heat, recipe, steeped_c=typed)) == (
        [code] if code else []
    )
    no_grain = replace(recipe, fermentables=PORTER.fermentables[:2])
    assert said(findings_vessels.steep_heat, no_grain, steeped_c=20.0) == {}


def test_ice_that_is_left_over_is_told_before_ice_that_does_not_melt():
    left = findings_vessels.frozen_left_over
    assert said(left, frozen_kg=1.2) == {"frozen-left-over": [(KG, 1.5), (KG, 1.2)]}
    assert said(left, frozen_kg=1.46, frozen_melted=False) == {"ice-remains": [(KG, 1.46)]}
    assert said(left, frozen_kg=1.46) == {}


def finding(code, severity=Severity.CARE, **others):
    return Finding(severity, Place("process", "top_up_to"), say(code, "…"), **others)


def test_a_cure_is_worse_where_its_finding_stays_or_one_as_grave_comes():
    known = {("known", Place("process", "top_up_to"))}
    cured = finding("cured")
    assert _is_worse(cured, known, [finding("cured", Severity.NOTE)])
    assert not _is_worse(cured, known, [finding("known", Severity.STOP)])
    assert _is_worse(cured, known, [finding("new", Severity.STOP)])
    assert _is_worse(cured, known, [finding("new", Severity.CARE)])
    assert not _is_worse(cured, known, [finding("new", Severity.NOTE)])
    assert not _is_worse(cured, known, [])
    typing = finding("cured", mends_typing=True)
    assert not _is_worse(typing, known, [finding("new", Severity.STOP)])
    elsewhere = Finding(Severity.CARE, Place("hops"), say("known", "…"))
    assert _is_worse(cured, known, [elsewhere])


def test_what_a_cure_makes_is_told_where_a_kitchen_could_tell():
    """A thousandth of gravity, an IBU, half of an SRM."""
    before = with_figures(DAY, original_gravity=1.050, bitterness_ibu=30.0, colour_srm=10.0)
    small = with_figures(before, original_gravity=1.0509, bitterness_ibu=30.9, colour_srm=10.4)
    assert _made(before, small) is None
    after = with_figures(before, original_gravity=1.048, bitterness_ibu=32.0, colour_srm=9.0)
    assert _made(before, after).text == "that makes OG 1.048, 32 IBU, 9 SRM"
    assert _made(before, with_figures(before, bitterness_ibu=28.0)).text == "that makes 28 IBU"


@pytest.mark.parametrize(
    ("litres", "part"), [(5.0, 1.0), (6.0, 1.0), (6.5, 0.75), (8.0, 0.0), (9.0, 0.0)]
)
def test_extract_darkens_further_in_a_small_pot(litres, part):
    assert float(_small(litres)) == pytest.approx(part)


def test_a_method_says_where_it_was_not_measured():
    """Tinseth: 1.030 to 1.130, 120 min; the tables of Rager and of Garetz end at 90."""

    def outside(method, end=1.060, minutes=60.0):
        recipe = changed("process", boil_time=q(minutes, "min"))
        hops = tuple(replace(each, when=When(Stage.BOIL, "boil", 60.0)) for each in recipe.hops)
        day = with_figures(DAY, boil_gravity_end=end)
        return _outside_bitterness(method, replace(recipe, hops=hops), day)

    assert outside("Tinseth", end=1.030) == outside("Tinseth", end=1.130) == ""
    assert "1.029" in outside("Tinseth", end=1.029)
    assert "1.131" in outside("Tinseth", end=1.131)
    assert outside("Tinseth", minutes=120.0) == outside("Rager", minutes=90.0) == ""
    assert "121 min" in outside("Tinseth", minutes=121.0)
    assert "ends at 90 min" in outside("Garetz", minutes=91.0)
    for mcu, mosher, daniels in ((6.9, True, True), (7.0, False, True), (11.0, False, False)):
        day = replace(DAY, gives={1: Contribution(0.0, mcu - 2.0, 0.0), 2: Contribution(0.0, 2.0)})
        assert bool(_outside_colour("Mosher", day)) is mosher
        assert bool(_outside_colour("Daniels", day)) is daniels


@pytest.mark.parametrize(
    ("gravity", "hall", "cutaia"),
    [
        (1.0459, False, True),
        (1.0460, False, False),
        (1.0700, False, False),
        (1.0710, True, False),
        (1.0730, True, False),
        (1.0735, True, True),
    ],
)
def test_a_method_of_alcohol_says_where_it_runs_off(gravity, hall, cutaia):
    """Hall's formula runs high above 1.070, the linear one low; Cutaia's brews: 1.046 to 1.073."""
    day = with_figures(DAY, original_gravity=gravity)
    assert ("high" in _outside_alcohol("Hall", day)) is hall
    assert ("low" in _outside_alcohol("linear", day)) is hall
    assert ("1.046" in _outside_alcohol("Cutaia", day)) is cutaia
    assert _outside_alcohol("Balling", day) == ""


class Run:
    """What is asked of a run to tell what its lines give."""

    def __init__(self, extracts, late, extract_kg):
        self.inputs = type("Inputs", (), {"extracts": (*extracts, *late)})
        self.plan = type("Plan", (), {"fermenter": tuple(late)})
        self.fermenter = type("Contents", (), {"extract_kg": extract_kg})


class Line:
    """A fermentable as the pot sees it."""

    def __init__(self, line_id, extract_kg, colour_units=0.0, label_mg=0.0):
        self.line_id, self.extract_kg = line_id, extract_kg
        self.colour_units, self.label_mg = colour_units, label_mg


def test_what_stays_in_the_pot_brings_nothing_and_what_goes_straight_in_all_of_it():
    """8.345 colour units of a kilogram and degree Lovibond in a litre; an IBU is a mg/L."""
    run = Run([Line(1, 1.0, 10.0, 500.0)], [Line(2, 0.2, 2.0, 100.0)], 1.0)
    day = with_figures(DAY, moved_fraction=0.8, batch_l=10.0, original_gravity=1.050)
    day = with_figures(day, hop_ibu={7: 12.0})
    given = contributions(run, day.fermenter, day.beer)
    assert (given[1].points, given[2].points) == pytest.approx((40.0, 10.0))
    assert (given[1].bitterness_ibu, given[2].bitterness_ibu) == pytest.approx((40.0, 10.0))
    assert given[1].colour_mcu == pytest.approx(8.345 * 0.8, rel=1e-3)
    assert given[2].colour_mcu == pytest.approx(8.345 * 0.2, rel=1e-3)
    assert given[7] == Contribution(0.0, 0.0, 12.0)
    none = contributions(Run([Line(1, 0.0, 0.0, 9.0)], [], 0.0),
                         with_figures(day, batch_l=0.0).fermenter, day.beer)  # fmt: skip
    assert (none[1].points, none[1].bitterness_ibu) == (0.0, 0.0)
