"""Typing into the search: words, figures, ingredients, and half-typed words on the way."""

import json

import pytest

from designer import translation
from designer.library.store import Summary
from designer.library.store.search_words import Within, read_search

BOX = [
    ("Harbour Lamp Porter", "English Porter", "Flaked oats", 34.4, 1.052, 5.1, 24.0, 7.1, "winter"),
    ("Slipway Bitter", "Best Bitter", "Crystal malt", 40.4, 1.043, 4.2, 11.0, 8.9, "session"),
    ("Foghorn Wheat", "Wheat Beer", "Wheat malt", 14.0, 1.048, 4.9, 4.0, 9.4, "boat race"),
    ("Oatmeal Stout", "Stout", "Flaked oats", 30.2, 1.060, 6.0, 35.0, 12.0, "winter"),
    ("Kölsch", "Pale Ale", "Saaz & sugar", 22.0, 1.045, 4.6, 4.5, 6.0, "session"),
]  # fmt: skip


@pytest.fixture
def full(box):
    for name, style, thing, ibu, og, abv, srm, fullest, tag in BOX:
        document = {
            "hobwort": 1,
            "name": name,
            "style": style,
            "notes": f"Note on {name}: 3.3 lb tin",
            "fermentables": [{"name": thing}],
            "hops": [{"name": "East Kent Golding"}],
        }
        figures = Summary(style=style, ibu=ibu, og=og, abv=abv, srm=srm, pot_fullest_l=fullest)
        box.recipes.add(json.dumps(document), figures, tags=[tag])
    return box


def names(store, typed, **ways):
    unhurried = {"hurry_s": None} | ways  # a busy machine finds as much
    return [row.name for row in store.finder.find(typed, **unhurried).rows]


FOUND = [
    ("harbour", {"Harbour Lamp Porter"}),
    ("port harb", {"Harbour Lamp Porter"}),
    ("oat", {"Harbour Lamp Porter", "Oatmeal Stout"}),
    ("KOLSCH", {"Kölsch"}),
    ("golding", {name for name, *_ in BOX}),
    ('"kent golding"', {name for name, *_ in BOX}),
    ('"golding kent"', set()),
    ("3.3 lb", {name for name, *_ in BOX}),
    ("ibu 30..40", {"Harbour Lamp Porter", "Slipway Bitter", "Oatmeal Stout"}),
    ("ibu 40..30", {"Harbour Lamp Porter", "Slipway Bitter", "Oatmeal Stout"}),
    ("ibu ..20", {"Foghorn Wheat"}),
    ("ibu 35..", {"Slipway Bitter"}),
    ("IBU 34", {"Harbour Lamp Porter"}),
    ("og 1.040..1.050", {"Slipway Bitter", "Foghorn Wheat", "Kölsch"}),
    ("og 1,040..1,044", {"Slipway Bitter"}),
    ("abv 4..5", {"Slipway Bitter", "Foghorn Wheat", "Kölsch"}),
    ("abv 5", {"Harbour Lamp Porter", "Foghorn Wheat", "Kölsch"}),
    ("srm 10..20", {"Slipway Bitter"}),
    ("abv 4..5 ibu 20..", {"Slipway Bitter", "Kölsch"}),
    ("with oats", {"Harbour Lamp Porter", "Oatmeal Stout"}),
    ("with oats ibu 32..", {"Harbour Lamp Porter"}),
    ('with "flaked oats" stout', {"Oatmeal Stout"}),
    ("without oats", {"Slipway Bitter", "Foghorn Wheat", "Kölsch"}),
    ("without oats without wheat", {"Slipway Bitter", "Kölsch"}),
    ("golding without oats abv ..4.5", {"Slipway Bitter"}),
    ("abv <5", {"Slipway Bitter", "Foghorn Wheat", "Kölsch"}),
    ("abv<4.9", {"Slipway Bitter", "Kölsch"}),
    ("abv < 4.6 %", {"Slipway Bitter"}),
    ("abv <=4.6%", {"Slipway Bitter", "Kölsch"}),
    ("abv ≤ 4.6", {"Slipway Bitter", "Kölsch"}),
    ("ABV >5.1", {"Oatmeal Stout"}),
    ("abv >= 5.1", {"Harbour Lamp Porter", "Oatmeal Stout"}),
    ("ibu >30 <41", {"Harbour Lamp Porter", "Slipway Bitter"}),
    ("og>1.048", {"Harbour Lamp Porter", "Oatmeal Stout"}),
    ("stout abv >4", {"Oatmeal Stout"}),
    ("fits 9 L", {"Harbour Lamp Porter", "Kölsch"}),  # up to the foam line at 7.2 L
    ("fits 9L", {"Harbour Lamp Porter", "Kölsch"}),
    ("fits 12 L", {"Harbour Lamp Porter", "Slipway Bitter", "Foghorn Wheat", "Kölsch"}),
    ("fits 2 gal", {"Kölsch"}),
    ("fits 1 3/4 gal harbour", set()),
    ("tagged session", {"Slipway Bitter", "Kölsch"}),
    ('tagged "boat race"', {"Foghorn Wheat"}),
    ("tagged winter with oats ibu 34", {"Harbour Lamp Porter"}),
    ("style porter", {"Harbour Lamp Porter"}),
    ("style ale", {"Kölsch"}),
    ("state kept", set()),
]


@pytest.mark.parametrize(("typed", "expected"), FOUND, ids=[typed for typed, _ in FOUND])
def test_a_search_finds_these_and_no_others(full, typed, expected):
    found = full.finder.find(typed, hurry_s=None)
    assert {row.name for row in found.rows} == expected
    assert found.problems == ()


HALF_TYPED = [
    ("porter ibu", "“ibu” wants a range, as in: ibu 30..40 or ibu <40"),
    ("porter ibu 3x", "“3x” is not a range; “ibu” wants a range, as in: ibu 30..40 or ibu <40"),
    ("porter og", "“og” wants a range, as in: og 1.040..1.050 or og <1.050"),
    ("porter with", "“with” wants an ingredient, as in: with oats"),
    ("porter without", "“without” wants an ingredient, as in: without wheat"),
    ("porter style", "“style” wants a style, as in: style porter"),
    ("porter tagged", "“tagged” wants a tag, as in: tagged session"),
    ("porter fits", "“fits” wants the pot's volume, as in: fits 9 L"),
]


@pytest.mark.parametrize(("typed", "told"), HALF_TYPED, ids=[typed for typed, _ in HALF_TYPED])
def test_what_is_half_typed_is_told_while_the_rest_is_searched(full, typed, told):
    found = full.finder.find(typed)
    assert [row.name for row in found.rows] == ["Harbour Lamp Porter"]
    assert found.problems == (told,)


@pytest.mark.parametrize(
    "typed",
    ["", " ", '"', '""', "*", "+ -", "C++", "a:b", "NEAR(a b)", "AND", "(", "name : x", "^x", "'",
     "%", "ibu ..", "\0", "\ud83c", "🍺", "with \"", "fits -3 L", "x" * 5000, "a " * 4000,
     "ibu 1e400..2", "ibu 99999999999999999999..", "without \"\""],
)  # fmt: skip
def test_nothing_that_can_be_typed_is_an_error(full, typed):
    for length in range(min(len(typed), 20) + 1):
        full.finder.find(typed[:length])
    full.finder.find(typed)


def test_every_key_of_every_search_can_be_typed(full):
    for typed, _ in FOUND:
        for length in range(len(typed)):
            full.finder.find(typed[:length])


def test_one_of_our_words_between_quotes_is_a_word_like_others(full):
    full.recipes.add('{"hobwort": 1, "name": "Brewed with style"}', Summary(), tags=["style"])
    assert names(full, '"style"') == ["Brewed with style"]


def test_an_open_or_closed_range_is_read_with_the_digits_that_are_shown():
    assert read_search("ibu 30..40").within == (Within("ibu", 29.5, 40.5),)
    assert read_search("og 1.040..").within == (Within("og", 1.0395, None),)
    assert read_search("batch ..10,5").within == (Within("batch_l", None, 10.55),)


def test_recipes_whose_name_matches_come_first_then_the_latest(full):
    full.recipes.add('{"hobwort": 1, "name": "Latest", "notes": "like oatmeal"}', Summary())
    assert names(full, "oatmeal") == ["Oatmeal Stout", "Latest"]
    assert names(full, "")[0] == "Latest"


@pytest.mark.parametrize(
    ("order", "descending", "first"),
    [
        ("name", None, "Foghorn Wheat"),
        ("ibu", True, "Slipway Bitter"),
        ("ibu", False, "Foghorn Wheat"),
        ("abv", True, "Oatmeal Stout"),
        ("colour", None, "Foghorn Wheat"),
        ("og", True, "Oatmeal Stout"),
        ("style", None, "Slipway Bitter"),
        ("changed", None, "Kölsch"),
    ],
)
def test_a_list_is_put_in_any_order_searched_or_not(full, order, descending, first):
    assert names(full, "", order=order, descending=descending)[0] == first
    assert names(full, "golding", order=order, descending=descending)[0] == first
    assert names(full, "ibu 1..", order=order, descending=descending)[0] == first


def test_a_long_list_comes_in_pages_without_gaps_or_doubles(box):
    many = [(f'{{"hobwort": 1, "name": "Ale {n}"}}', Summary(ibu=n % 7), ()) for n in range(130)]
    box.recipes.add_many(many)
    for typed in ("", "ale", "ibu 0.."):
        pages = [box.finder.find(typed, order="ibu", offset=at) for at in (0, 50, 100)]
        found = [row for page in pages for row in page.rows]
        assert [page.more for page in pages] == [True, True, False]
        assert len({row.id for row in found}) == 130
        assert [row.summary.ibu for row in found] == sorted(n % 7 for n in range(130))


def test_a_search_without_time_says_so_and_finds_all_without_hurry(box):
    many = [
        (json.dumps({"hobwort": 1, "name": f"Ale {n}"}), Summary(ibu=5.0), ()) for n in range(900)
    ]
    box.recipes.add_many(many)
    hurried = box.finder.find("ale ibu 4..6", hurry_s=0.0)
    assert hurried.hurried
    assert hurried.more
    assert len(box.finder.find("ale ibu 4..6", limit=900, hurry_s=None).rows) == 900


def test_a_changed_recipe_is_found_by_its_new_words_alone(full, porter):
    row = full.finder.find("foghorn").rows[0]
    full.recipes.save(row.id, '{"hobwort": 1, "name": "Lighthouse"}', porter, base=row.newest)
    assert names(full, "foghorn") == []
    assert names(full, "lighthouse") == ["Lighthouse"]
    full.tags.put([row.id], add=["regatta"], drop=["boat race"])
    assert names(full, "tagged regatta") == ["Lighthouse"]
    assert names(full, "boat") == []


def test_a_tag_is_found_as_a_whole_and_longer_ones_are_not(full):
    for name, tag in (("One", "ipa"), ("Two", "ipa-like"), ("Three", "white ipa"), ("Four", "IPA")):
        full.recipes.add(f'{{"hobwort": 1, "name": "{name}"}}', Summary(), tags=[tag, "ours"])
    assert set(names(full, "tagged ipa")) == {"One", "Four"}
    assert names(full, 'tagged "white IPA"') == ["Three"]
    assert names(full, "tagged ours tagged ipa-like") == ["Two"]
    assert names(full, "tagged ip") == []


def test_a_figure_that_is_not_known_meets_no_range(box):
    box.recipes.add('{"hobwort": 1, "name": "Unknown"}', Summary(og=float("nan")))
    assert names(box, "og 0..9") == []
    assert names(box, "unknown") == ["Unknown"]


def test_the_lowest_of_very_many_is_first_when_there_is_no_hurry(box):
    many = [(f'{{"hobwort": 1, "name": "Ale {n}"}}', Summary(ibu=n + 1.0), ()) for n in range(700)]
    box.recipes.add_many(many)
    hurried = box.finder.find("ale", order="ibu", hurry_s=60.0)
    assert hurried.more
    assert hurried.rows[0].summary.ibu > 100.0  # of the latest ones only
    patient = box.finder.find("ale", order="ibu", hurry_s=None)
    assert patient.rows[0].summary.ibu == 1.0
    last = box.finder.find("ale", order="ibu", hurry_s=None, offset=690)
    assert [row.summary.ibu for row in last.rows] == [float(n) for n in range(691, 701)]
    assert not last.more


def test_what_is_not_known_comes_last_in_either_direction(full):
    full.recipes.add('{"hobwort": 1, "name": "Golding unknown"}', Summary())
    for down in (True, False):
        for typed in ("", "golding"):
            assert names(full, typed, order="ibu", descending=down)[-1] == "Golding unknown"


def test_what_only_a_boil_or_a_fermenter_of_a_plan_has_is_found(full):
    document = {
        "hobwort": 2,
        "name": "Breakwater Red",
        "hops": [{"name": "Fuggle"}],
        "yeast": {"name": "Kit sachet"},
        "boils": [{}, {"hops": [{"name": "Harbour hop"}]}],
        "fermenters": [{"yeast": {"name": "Cellar lager"}}],
    }
    full.recipes.add(json.dumps(document), Summary())
    for typed in ("with harbour", "with fuggle", '"cellar lager"', "kit sachet"):
        assert "Breakwater Red" in names(full, typed), typed


@pytest.mark.parametrize("plan", [{"boils": 3}, {"fermenters": [None, {"yeast": []}]}])
def test_a_plan_that_is_none_hides_no_recipe(full, plan):
    full.recipes.add(json.dumps({"hobwort": 2, "name": "Odd brew", **plan}), Summary())
    assert names(full, "odd") == ["Odd brew"]


@pytest.mark.parametrize(
    ("code", "typed", "found"),
    [
        ("de", "haferflocken", {"Harbour Lamp Porter", "Oatmeal Stout"}),
        ("de", "Weizenmalz", {"Foghorn Wheat"}),
        ("de", "englisches port", {"Harbour Lamp Porter"}),
        ("de", "with haferflocken ibu 32..", {"Harbour Lamp Porter"}),
        ("de", "oats ohne haferflocken", set()),
        ("de", "mit Weizenmalz", {"Foghorn Wheat"}),
        ("fr", "avec avoine ibu 32..", {"Harbour Lamp Porter"}),
        ("de", "oat", {"Harbour Lamp Porter", "Oatmeal Stout"}),
        ("fr", "flocons d'avoine", {"Harbour Lamp Porter", "Oatmeal Stout"}),
        ("fr", "avoine", {"Harbour Lamp Porter", "Oatmeal Stout"}),
        ("en", "haferflocken", set()),
    ],
)
def test_names_are_found_in_the_language_and_in_english(full, code, typed, found):
    translation.use(None, code)
    try:
        assert set(names(full, typed)) == found
    finally:
        translation.use(None)
