"""`hobwort catalogue`: an ingredient or a style with its figures, and where they are from."""

import json
import re

import pytest

from designer import translation
from designer.command_line import run
from designer.library import catalogue
from designer.library.flavours import flavour_entries
from designer.library.sources import STYLE_NUMBERS, Standing, source_said
from designer.library.style_grists import style_families, style_grists
from designer.spoken_language import catalogue_of

EVERY = {
    "fermentables": catalogue.fermentables,
    "hops": catalogue.hops,
    "yeasts": catalogue.yeasts,
    "extras": catalogue.aids,
    "styles": catalogue.styles,
}
BEHIND = {
    "style_families": style_families,
    "style_grists": style_grists,
    "flavours": flavour_entries,
}
"""What first recipes are made by."""


@pytest.fixture
def said(capsys):
    """Run the command and return its exit code, its output and its complaints."""

    def run_and_read(*words):
        code = run(("catalogue", *words))
        out, err = capsys.readouterr()
        return code, out, err

    return run_and_read


def test_an_ingredient_is_told_with_its_source_and_a_word_for_how_good_that_is(said):
    code, out, err = said("Crystal malt 60 °L")
    assert (code, err) == (0, "")
    told = " ".join(out.split())
    assert told.startswith("Crystal malt 60 °L steeping grain; extract 39 %")
    assert (
        "Figures of the catalogue, partly published: Palmer, How to Brew, 1st ed., online, ch. 12, "
        "table 9, 'Medium Crystal (60-75 °L)'; colour as in the name; fermentability from memory"
    ) in told


def test_figures_are_in_the_units_scales_and_signs_that_are_asked_for(said, monkeypatch):
    monkeypatch.setenv("LANGUAGE", "de")
    _, out, _ = said("Irish moss", "--units", "us")
    # 19 L are 5.02 gal (NIST SP 811: 1 gal = 3.785412 L).
    assert "1 bis 3 g für 5,02 gal" in out
    _, out, _ = said("American ale, neutral", "--units", "us")
    assert "von 61 °F bis 72 °F" in out  # 16 and 22 °C
    _, out, _ = said("13C", "--gravity", "plato", "--colour", "ebc")
    # 1.040 to 1.052 are 10.0 to 12.9 °P, 20 to 30 SRM 39 to 59 EBC (ASBC tables; EBC = 1.97 SRM).
    told = " ".join(out.split())
    assert "10,0 bis 12,9 °P" in told
    assert "39 bis 59 EBC" in told


@pytest.mark.parametrize("part", EVERY)
def test_every_row_is_found_by_its_name_and_tells_its_source(said, part):
    for entry in EVERY[part]():
        code, out, _ = said(entry.name, "--json")
        assert code == 0
        rows = json.loads(out)["rows"]
        assert any(
            row["part"] == part
            and row["name"] == entry.name
            and row["source"] == entry.source
            and row["standing"] == entry.standing
            for row in rows
        ), entry.name


def test_a_style_tells_the_shares_that_a_first_recipe_of_it_may_hold(said):
    told = " ".join(said("Best Bitter")[1].split())
    assert (
        "First recipes of this family, British bitter and pale ale: crystal malt 4 to 15, roast "
        "0.5 to 2.5, sugar up to 10 % of all that is weighed in. Figures of the catalogue, from "
        "memory: handbooks give shares of the malt: Daniels"
    ) in told


def test_words_need_no_quotes_accents_or_capitals(said):
    assert said("kolsch")[1] == said("Kölsch")[1]
    assert said("light", "dry", "malt", "extract")[1].startswith("Light dry malt extract\n")


def test_an_old_name_leads_to_the_new_one_and_says_so(said):
    _, out, _ = said("Columbus")
    assert out.startswith("Columbus is called CTZ here.\n\nCTZ\n")


def test_a_yeast_sold_dry_and_liquid_is_told_twice(said):
    _, out, _ = said("American ale, neutral", "--json")
    assert [row["form"] for row in json.loads(out)["rows"]] == ["dry", "liquid"]


def test_a_word_of_a_name_leads_to_all_that_have_it(said):
    _, out, _ = said("crystal", "--json")
    names = [row["name"] for row in json.loads(out)["rows"]]
    assert names[0] == "Crystal"
    assert {"Crystal malt 10 °L", "Crystal malt 120 °L"} <= set(names)


def test_a_style_is_told_with_whose_it_is(said):
    for name in ("English Porter", "13C", "13c"):
        _, out, _ = said(name)
        assert out.startswith("English Porter\n")
        assert STYLE_NUMBERS in " ".join(out.split())
    (row,) = json.loads(said("13C", "--json")[1])["rows"]
    assert row["colour_srm"] == [20, 30]
    assert row["attribution"] == STYLE_NUMBERS
    assert row["standing"] == Standing.PUBLISHED


def test_what_is_not_there_is_refused_with_a_way_out(said):
    code, out, err = said("harbour wall")
    assert (code, out) == (1, "")
    assert err.startswith("The catalogue has no ingredient or style called “harbour wall”")
    assert "Try one word of it" in err


def test_without_a_name_the_rows_are_counted_by_how_good_their_sources_are(said):
    _, out, _ = said()
    assert "Hops: 57 published, 7 partly published, 11 from memory" in out
    counted = json.loads(said("--json")[1])["rows"]
    assert {part: sum(of.values()) for part, of in counted.items()} == {
        part: len(rows()) for part, rows in {**EVERY, **BEHIND}.items()
    }


def test_lines_are_no_wider_than_a_terminal(said):
    for words in (("saaz",), ("chocolate malt",), ("13C",), ()):
        assert max(len(line) for line in said(*words)[1].splitlines()) <= 100


@pytest.mark.parametrize(
    ("language", "name", "told"),
    [
        (
            "de", "Crystal malt 60 °L",
            "Werte des Katalogs, zum Teil veröffentlicht: Palmer, How to Brew, 1st ed., online, "
            "ch. 12, table 9, 'Medium Crystal (60-75 °L)'; Farbe wie im Namen; Vergärbarkeit aus "
            "dem Gedächtnis",
        ),
        (
            "fr", "Cascade",
            "plage sur 7 ans 5.1-8.9, moyenne 6.3 ; USDA-ARS, hop cultivar description, accession "
            "56013: moyenne sur 10 ans 6.2 ; Hop Growers of America, USA Hop Variety Manual 2013, "
            "'Cascade': 4.5-7.0",
        ),
    ],
)  # fmt: skip
def test_a_source_is_told_in_the_language_but_for_author_and_title(
    said, monkeypatch, language, name, told
):
    monkeypatch.setenv("LANGUAGE", language)
    assert told in " ".join(said(name)[1].split()).replace("\N{NARROW NO-BREAK SPACE}", " ")


@pytest.mark.parametrize("language", ["de", "fr"])
def test_no_words_of_our_own_are_left_in_english_in_any_source(language):
    ours = re.compile(
        r"from memory|common practice|class of|mean \d|-year|crop of|US crop|as reprinted"
    )
    with translation.speaking(catalogue_of(f"program_{language}"), language):
        for rows in (*EVERY.values(), *BEHIND.values()):
            for row in rows():
                assert not ours.findall(source_said(row.source)), row.source
    assert source_said("colour from memory") == "colour from memory"
