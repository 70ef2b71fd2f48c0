"""The catalogue: every row is whole, plausible and says where it is from."""

import csv

import pytest

from designer.library import catalogue
from designer.library.catalogue_figures import with_figures
from designer.library.document_reading import checked_quantity
from designer.recipe.document import FERMENTABLE_KINDS, Fermentable, Hop, Recipe, Yeast
from designer.recipe.fields import quantity_fields
from designer.recipe.quantity import Kind, Stage
from designer.resource_files import resource_path
from designer.units import read, read_when

FILES = {
    "fermentables.csv": catalogue.fermentables,
    "hops.csv": catalogue.hops,
    "yeasts.csv": catalogue.yeasts,
    "kettle_aids.csv": catalogue.aids,
    "styles.csv": catalogue.styles,
}


@pytest.mark.parametrize("name", FILES)
def test_every_row_is_read_and_names_its_source(name):
    with resource_path(name).open(encoding="utf-8", newline="") as file:
        rows = list(csv.reader(file))
    assert all(len(row) == len(rows[0]) for row in rows), "a row has too many or too few cells"
    entries = FILES[name]()
    assert len(entries) == len(rows) - 1 > 0
    for entry in entries:
        assert entry.name == entry.name.strip() != ""
        assert len(entry.source) > 8, entry.name


@pytest.mark.parametrize("name", FILES)
def test_no_entry_stands_twice(name):
    keys = [(each.name.casefold(), getattr(each, "form", "")) for each in FILES[name]()]
    assert len(set(keys)) == len(keys)


def test_every_fermentable_is_of_a_kind_a_recipe_knows_with_shares_below_one():
    for each in catalogue.fermentables():
        assert each.kind in FERMENTABLE_KINDS, each.name
        assert 0.0 <= each.extract <= 1.0, each.name
        assert 0.0 <= each.fermentability <= 1.0, each.name
        assert 0.0 <= each.colour <= 700.0, each.name
    assert {each.kind for each in catalogue.fermentables()} == set(FERMENTABLE_KINDS)


def test_dry_extract_gives_more_than_liquid_and_steeped_grain_less_than_both():
    """Source: Palmer, How to Brew: about 44 ppg of dry, 36 of liquid malt extract, at most about
    20 ppg of steeped crystal malt (from memory); common practice.
    """
    of_kind = {
        kind: [each.extract for each in catalogue.fermentables() if each.kind == kind]
        for kind in ("dry extract", "liquid extract", "steeping grain")
    }
    assert min(of_kind["dry extract"]) > max(of_kind["liquid extract"])
    assert min(of_kind["liquid extract"]) > max(of_kind["steeping grain"])


def test_every_hop_s_typical_alpha_acid_lies_within_its_range():
    for each in catalogue.hops():
        assert 0.01 <= each.alpha_low <= each.alpha <= each.alpha_high <= 0.25, each.name


def test_every_yeast_works_within_a_span_of_temperature_and_attenuation():
    for each in catalogue.yeasts():
        assert 0.4 <= each.attenuation_low < each.attenuation_high <= 1.0, each.name
        assert 0.0 < each.lowest_c < each.highest_c < 45.0, each.name
        assert each.form in ("dry", "liquid"), each.name


def test_every_aid_has_a_dose_for_a_volume():
    for each in catalogue.aids():
        assert 0.0 < each.dose_low <= each.dose_high, each.name
        assert each.per_volume_l > 0.0, each.name
        assert each.purpose, each.name


def test_every_style_s_brackets_are_the_right_way_round():
    for each in catalogue.styles():
        for low, high in (
            each.original_gravity,
            each.final_gravity,
            each.bitterness_ibu,
            each.colour_srm,
            each.abv_percent,
        ):
            assert low < high, each.name
        assert each.final_gravity[1] < each.original_gravity[1], each.name
        assert 0.98 < each.final_gravity[0] < each.original_gravity[0] < 1.13, each.name


@pytest.mark.parametrize(
    ("code", "original", "bitterness", "colour"),
    [
        ("11B", (1.040, 1.048), (25, 40), (8, 16)),
        ("13C", (1.040, 1.052), (18, 35), (20, 30)),
        ("10A", (1.044, 1.053), (8, 15), (2, 6)),
        ("15A", (1.036, 1.046), (18, 28), (9, 14)),
    ],
)
def test_styles_of_the_examples_are_those_of_the_guidelines(code, original, bitterness, colour):
    """Source: BJCP Style Guidelines 2021: Best Bitter, English Porter, Weissbier, Irish Red Ale
    (from memory).
    """
    style = catalogue.find_style(code)
    assert style.original_gravity == pytest.approx(original)
    assert style.bitterness_ibu == bitterness
    assert style.colour_srm == colour


def fits(part):
    """Every figure lies within the limits of its field and its text says it."""
    for each, facts in quantity_fields(part):
        quantity = getattr(part, each.name)
        if quantity is not None:
            assert checked_quantity(facts, quantity) == quantity
            assert read(facts.kind, quantity.text) == quantity, part
    return True


@pytest.mark.parametrize("entry", catalogue.fermentables(), ids=lambda entry: entry.name)
def test_a_fermentable_becomes_a_line_with_its_own_copy_of_the_figures(entry):
    line = catalogue.new_fermentable(entry)
    assert fits(line)
    assert line.amount is None
    assert line.extract.value == pytest.approx(entry.extract, rel=5e-4)
    assert line.fermentability.value == pytest.approx(entry.fermentability, rel=5e-4)
    assert line.colour.value == pytest.approx(entry.colour, rel=1e-5)
    is_grain = entry.kind in ("steeping grain", "mash grain")
    assert (line.when.stage is Stage.STEEP) is is_grain
    assert read_when(line.when.text) == line.when


def test_a_hop_and_a_yeast_become_parts_of_a_recipe():
    for entry in catalogue.hops():
        hop = catalogue.new_hop(entry)
        assert fits(hop)
        assert hop.alpha.value == pytest.approx(entry.alpha)
    for entry in catalogue.yeasts():
        yeast = catalogue.new_yeast(entry)
        assert fits(yeast)
        assert entry.attenuation_low <= yeast.attenuation.value <= entry.attenuation_high
        # 4 points as strains of one kind differ (44 batches, blog article "Observations on
        # attenuations", 2017), or the maker's range where that is wider
        half = max((entry.attenuation_high - entry.attenuation_low) / 2.0, 0.04)
        assert yeast.attenuation.spread == pytest.approx(half)
        assert (yeast.lowest.value, yeast.highest.value) == (entry.lowest_c, entry.highest_c)


@pytest.mark.parametrize("entry", catalogue.aids(), ids=lambda entry: entry.name)
@pytest.mark.parametrize("batch_l", [5.0, 19.0, 40.0])
def test_an_aid_becomes_a_line_whose_dose_can_be_typed_and_weighed(entry, batch_l):
    extra = catalogue.new_extra(entry, batch_l)
    assert fits(extra)
    assert extra.amount.value > 0.0
    if entry.unit == "tablet":
        assert (2.0 * extra.amount.value).is_integer(), "tablets are halved at most"
    else:
        share = batch_l / entry.per_volume_l
        assert extra.amount.value == pytest.approx(entry.dose_low * share, rel=0.05)


@pytest.mark.parametrize(
    ("name", "when"),
    [
        ("Carrageenan finings", "boil 10 min"),
        ("Yeast nutrient (ammonium phosphate with vitamins)", "boil 10 min"),
        ("Antifoam (food-grade dimethicone emulsion)", "first wort"),
        ("Sodium or potassium metabisulfite (water treatment)", "steep"),
        ("Gypsum (calcium sulfate)", "steep"),
        ("Gelatin", "fermenter 3 days"),
        ("Isinglass solution", "fermenter 3 days"),
        ("Polyvinylpolypyrrolidone powder", "fermenter 3 days"),
    ],
)
def test_an_aid_goes_in_when_it_does_its_work(name, when):
    """Common practice, no source: finings late in the boil, antifoam before it foams, chlorine out
    of the water before it is heated, and what clears beer into the beer.
    """
    extra = catalogue.new_extra(catalogue.find_aid(name))
    assert extra.when == read_when(when)


def test_names_are_found_whatever_their_case_and_unknown_ones_are_not():
    assert catalogue.find_hop(" challenger ").name == "Challenger"
    assert catalogue.find_fermentable("LIGHT DRY MALT EXTRACT").kind == "dry extract"
    assert catalogue.find_style("english porter") is catalogue.find_style("13C")
    assert catalogue.find_aid("carrageenan finings").unit == "tablet"
    for find in (
        catalogue.find_hop,
        catalogue.find_fermentable,
        catalogue.find_style,
        catalogue.find_aid,
        catalogue.find_yeast,
    ):
        assert find("no such thing") is None
        assert find("") is None


def test_a_yeast_sold_dry_and_liquid_is_found_by_its_form():
    assert catalogue.find_yeast("American ale, neutral", "liquid").form == "liquid"
    assert catalogue.find_yeast("American ale, neutral", "dry").form == "dry"
    assert catalogue.find_yeast("Dry English ale yeast", "liquid").form == "dry"


def test_figures_left_out_are_copied_and_figures_typed_are_kept():
    typed = read(Kind.FRACTION, "9 %")
    recipe = with_figures(
        Recipe(
            fermentables=(
                Fermentable("Light dry malt extract", "dry extract"),
                Fermentable("Light dry malt extract", "sugar"),
                Fermentable("Seaweed", "sugar"),
            ),
            hops=(Hop("challenger"), Hop("Challenger", alpha=typed), Hop("Kelp")),
            yeast=Yeast("Dry English ale yeast"),
        )
    )
    extract, other_kind, unknown = recipe.fermentables
    assert fits(extract)
    assert extract.extract is not None
    assert extract.colour is not None
    assert other_kind.extract is None, "a name of another kind is another thing"
    assert unknown.extract is None
    assert recipe.hops[0].alpha is not None
    assert recipe.hops[1].alpha is typed
    assert recipe.hops[2].alpha is None
    assert recipe.yeast.attenuation is not None
    assert with_figures(recipe) == recipe
