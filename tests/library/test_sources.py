"""Where the figures of the catalogue are from: how good that is, and that users are told exactly.

The counts are those of the look-up of sources in November 2026; a row that is counted otherwise
since says why.
"""

import re
from collections import Counter
from dataclasses import fields

import pytest

from designer.brewday.predictions import PREDICTIONS
from designer.library import catalogue
from designer.library.flavours import flavour_entries
from designer.library.sources import STYLE_NUMBERS, Standing, source_words
from designer.library.style_grists import style_families, style_grists
from designer.recipe.document import LINE_TYPES, PART_TYPES
from designer.recipe.kind_defaults import FERMENTABLE_DEFAULTS
from designer.resource_files import resource_path
from designer.wort.bitterness_methods import BITTERNESS_METHODS
from designer.wort.colour import COLOUR_METHODS
from designer.wort.fermentation import ALCOHOL_METHODS
from tests.sentences import ROOT, sentences

CATALOGUE = {
    "hops": catalogue.hops,
    "fermentables": catalogue.fermentables,
    "yeasts": catalogue.yeasts,
    "aids": catalogue.aids,
    "styles": catalogue.styles,
    "style_families": style_families,
    "style_grists": style_grists,
    "flavours": flavour_entries,
}
PUBLISHED, PARTLY, PRACTICE, MEMORY = Standing

# cited, partly, common practice, memory: rows as they were found
FOUND = {
    "hops": (59, 5, 0, 11),
    "fermentables": (16, 48, 1, 11),
    "yeasts": (0, 21, 0, 0),
    "aids": (1, 2, 4, 2),
    "styles": (71, 0, 0, 0),
    "style_families": (0, 0, 0, 16),
    "style_grists": (0, 0, 71, 0),
    "flavours": (0, 0, 0, 8),
}

COUNTED_OTHERWISE = {
    # The upper end was of a page whose author is not known, or of a merchant who is not named.
    ("hops", "CTZ"): (PUBLISHED, PARTLY),
    ("hops", "Progress"): (PUBLISHED, PARTLY),
    # The dose is that of a maker of finings who is not named.
    ("aids", "Irish moss (dried carrageen flakes)"): (PUBLISHED, PARTLY),
    # Attenuation is that of makers who are not named.
    ("yeasts", "Saison ale (often diastatic)"): (PARTLY, PRACTICE),
    # Yield and colour are published, how much of a mash ferments is a judgement.
    **{
        ("fermentables", name): (PUBLISHED, PARTLY)
        for name in (
            "Two-row pale (lager) malt", "Six-row pale malt", "Pale ale malt", "Pilsner malt",
            "Mild malt", "Vienna malt", "Wheat malt", "Rye malt", "Smoked malt", "Biscuit malt",
            "Amber malt", "Brown malt", "Aromatic malt",
        )
    },
}  # fmt: skip


@pytest.mark.parametrize("part", FOUND)
def test_the_words_for_how_good_the_sources_are_count_up_to_what_was_found(part):
    entries = {each.name: each for each in CATALOGUE[part]()}
    counted = Counter(each.standing for each in CATALOGUE[part]())
    for (of, name), (before, now) in COUNTED_OTHERWISE.items():
        if of == part:
            assert entries[name].standing is now
            counted.update({before: 1, now: -1})
    assert tuple(counted[each] for each in Standing) == FOUND[part]


NOTHING_TO_CITE = """
    Vanguard; WGV; Phoenix; Sovereign; Mandarina Bavaria; Huell Melon; Hallertau Blanc; Celeia;
    Marynka; Green Bullet; Sticklebract; Invert sugar syrup, pale; Golden syrup; Candi syrup, amber;
    Candi syrup, dark; Rice syrup solids; Corn syrup, high maltose; Pale chocolate malt;
    Dehusked black malt; Chocolate wheat malt; Chocolate rye malt; Melanoidin malt;
    Isinglass solution; Polyvinylpolypyrrolidone powder;
    American and international lager; European pale lager; Amber and dark lager;
    Bock and strong lager; Kölsch and altbier; Wheat beer; British bitter and pale ale;
    Scottish and Irish red ale; Mild and brown ale; Porter; Stout; British strong ale;
    American pale and amber ale; India pale ale; American strong ale; Belgian and French ale;
    toffee; flowers; bread crust; dried fruit; nuts; roast; orange peel; pine
"""


def test_what_is_from_memory_is_what_nothing_was_found_for():
    found = {row.name for of in CATALOGUE.values() for row in of() if row.standing is MEMORY}
    assert found == {" ".join(each.split()) for each in NOTHING_TO_CITE.split(";")}


def every_row():
    return [(part, row) for part, of in CATALOGUE.items() for row in of()]


def test_a_row_that_is_partly_published_says_which_part_is_not_and_a_published_one_says_none():
    unpublished = ("from memory", "common practice", "a judgement")
    for part, row in every_row():
        says = any(words in row.source for words in unpublished)
        if row.standing is PARTLY:
            assert says, row.name
        if row.standing is PUBLISHED and row.name != "Lactose":  # of which another figure is told
            assert not says, (part, row.name)


def test_words_and_source_stand_in_one_sentence():
    malt = catalogue.find_fermentable("Melanoidin malt")
    assert source_words(malt.standing, malt.source) == (
        "Figures of the catalogue, from memory: class of strongly kilned malts"
    )


HOST = re.compile(
    r"\bwww\.|https?:|docslib|\b[\w-]+\.(?:com|org|net|eu|de|it|us|uk|edu|gov|info)\b"
)
NAMELESS = re.compile(
    r"\b(?:1997 list|digest|blogs?|forums?|public library|stored cop\w+|suppliers?|"
    r"handbooks? print|published web table|hop merchant|encyclopaedia|unnamed source|several pages|"
    r"a page|a web page|an article)\b"
)
"""Words that stand for a source without its name; Homebrew Digest, which has one, is written so."""


def declared_sources():
    for part in (*PART_TYPES.values(), *LINE_TYPES.values()):
        for each in fields(part):
            facts = each.metadata.get("facts")
            if facts is not None:
                yield from (facts.source, facts.spread_source)
    for each in (*PREDICTIONS, *FERMENTABLE_DEFAULTS.values()):
        yield each.source
    for methods in (BITTERNESS_METHODS, COLOUR_METHODS, ALCOHOL_METHODS):
        yield from (method.source for method in methods.values())
    yield from (row.source for _, row in every_row())


def test_a_source_has_a_name_and_is_not_a_host():
    for source in declared_sources():
        assert not HOST.search(source), source
        assert not NAMELESS.search(source), source


def test_a_chapter_or_table_of_a_book_is_told_with_its_edition():
    for source in (*declared_sources(), *(ids[0] for ids in sentences())):
        for of_palmer in re.findall(r"Palmer, How to Brew[^;]*", source):
            if re.search(r"\b(?:ch\.|table) \d", of_palmer):
                assert "1st ed., online" in of_palmer, source


def test_no_sentence_of_the_program_or_the_sheet_names_a_host():
    said = [text for ids in sentences() for text in ids]
    said.append(resource_path("translations/sheet.pot").read_text(encoding="utf-8"))
    said += [(ROOT / "README.md").read_text(encoding="utf-8").replace(STYLE_NUMBERS, "")]
    for text in said:
        assert not HOST.search(text), text


@pytest.mark.parametrize(
    "words", ["measured in boils", "was measured for boils", "suppliers print"]
)
def test_the_span_of_a_computed_table_is_not_called_a_measurement(words):
    """Tinseth's table goes from 1.030 to 1.130; his page does not say in what he measured."""
    for ids in sentences():
        assert words not in ids[0]


def test_whose_the_styles_are_is_told_as_they_ask_without_claim_of_a_permission():
    """Source: BJCP, how its guidelines may be used: the copyright, and where the newest are."""
    assert STYLE_NUMBERS == (
        "Style names and numbers: BJCP Beer Style Guidelines 2021, © 2021 Beer Judge Certification "
        "Program, Inc. Newest edition: bjcp.org"
    )
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    assert STYLE_NUMBERS in readme
    for text in (readme, *(ids[0] for ids in sentences())):
        assert "permission of the BJCP" not in text
        assert "with permission" not in text
