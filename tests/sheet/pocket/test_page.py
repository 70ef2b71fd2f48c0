"""The pocket page as it is written: whole, small, closed to all outside, and safe from names."""

from __future__ import annotations

import base64
import hashlib
import json
import re
from dataclasses import replace
from html.parser import HTMLParser
from pathlib import Path

import numpy as np
import pytest

from designer.brewday.instrument import true_gravity
from designer.brewday.outlook import look_ahead
from designer.command_line import run
from designer.resource_files import resource_path
from designer.sheet.blocks import plain_words
from designer.sheet.pocket.page import pocket_page
from designer.sheet.pocket.recipe_id import recipe_id
from designer.sheet.pocket.words import WORDS
from designer.sheet.stove import stove_steps
from designer.spoken_language import LANGUAGES
from designer.units import ShownUnits
from tests.sheet.plans import two_boils, two_buckets, two_into_one, two_pots, unlike

PORTER = str(resource_path("examples/harbour_lamp_porter.hobwort"))
BITTER = str(resource_path("examples/slipway_bitter.hobwort"))
PLANS = (two_boils, two_buckets, two_into_one, two_pots, unlike)
WISHES = {"shown": ShownUnits.METRIC, "start": None, "brew_date": None}
POCKET = Path(pocket_page.__code__.co_filename).parent
MOST_BYTES = 200_000  # the brief: under 200 kB


class Elements(HTMLParser):
    """All elements with their attributes, and the texts of scripts and styles."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.found: list[tuple[str, dict[str, str | None]]] = []
        self.raw: list[tuple[str, str]] = []
        self.feed(page)
        self.close()

    def handle_starttag(self, tag, attrs):
        self.found.append((tag, dict(attrs)))

    def handle_data(self, data):
        if self.cdata_elem:
            self.raw.append((self.cdata_elem, data))

    def of(self, tag):
        return [each for name, each in self.found if name == tag]


def page_of(recipe, language="en", units=ShownUnits.METRIC):
    outlook = look_ahead(recipe, ranges=False)
    return pocket_page(recipe, outlook, **{**WISHES, "shown": units}, language=language)


def data_of(page):
    [text] = re.findall(r'<script type="application/json" id="recipe">(.*?)</script>', page)
    return json.loads(text)


@pytest.fixture
def sheet(capsys, monkeypatch):
    for key in ("LANGUAGE", "LC_ALL", "LC_MESSAGES"):
        monkeypatch.delenv(key, raising=False)
    monkeypatch.setenv("LANG", "C.UTF-8")

    def wanted(*words):
        code = run(["sheet", *map(str, words)])
        output = capsys.readouterr()
        return code, output.out.splitlines(), output.err.splitlines()

    return wanted


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_step_of_the_brew_day_can_be_ticked(porter, language):
    for recipe in (porter, *(plan() for plan in PLANS)):
        page = page_of(recipe, language)
        outlook = look_ahead(recipe, ranges=False)
        steps = stove_steps(recipe, outlook, **WISHES, language=language)
        found = Elements(page)
        assert len(page.encode()) < MOST_BYTES
        items = [each["data-key"] for each in found.of("li") if "data-key" in each]
        assert items == [each.key for each in steps]
        ticks = [each for each in found.of("input") if each.get("aria-label")]
        assert [each["type"] for each in ticks] == ["checkbox"] * len(steps)
        plain = re.sub("[ \n]+", " ", re.sub(r"<[^>]*>", "", page)).replace("&#x27;", "'")
        for step in steps:
            said = plain_words(step.do).replace("\n", " ")
            assert said in plain
            assert all(each.text in plain for each in step.asides)
        blanks = [each["data-blank"] for each in found.of("div") if "data-blank" in each]
        assert len(blanks) == len(set(blanks)) == sum(len(each.blanks) for each in steps)
        assert set(data_of(page)["blanks"]) == set(blanks)


def test_nothing_is_loaded_from_outside_and_only_its_own_scripts_may_run(porter):
    page = page_of(porter)
    found = Elements(page)
    for tag, attributes in found.found:
        assert tag not in ("link", "img", "iframe", "object", "embed", "base", "audio", "source")
        assert not attributes.keys() & {"src", "style", "onclick", "onload", "action", "formaction"}
        assert attributes.get("href", "#").startswith("#")
    [policy] = [
        each["content"]
        for each in found.of("meta")
        if each.get("http-equiv") == "Content-Security-Policy"
    ]
    [style] = [text for tag, text in found.raw if tag == "style"]
    script = [text for tag, text in found.raw if tag == "script"][-1]
    told = dict(each.split(" ", 1) for each in policy.split("; "))
    assert told == {
        "default-src": "'none'", "base-uri": "'none'", "form-action": "'none'",
        "script-src": hash_of(script), "style-src": hash_of(style),
    }  # fmt: skip
    assert "url(" not in style
    assert "@import" not in style
    for way in (
        "innerHTML",
        "outerHTML",
        "insertAdjacentHTML",
        "document.write",
        "eval(",
        "fetch(",
    ):
        assert way not in script
    assert not re.findall(r"https?:", page)


def hash_of(text):
    return f"'sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}'"


def test_a_name_is_never_taken_for_markup(porter):
    wild = '</script><img src=x onerror="alert(1)">&amp;{name}$title'
    recipe = replace(
        porter,
        name=wild,
        hops=tuple(replace(each, name=wild) for each in porter.hops),
    )
    page = page_of(recipe)
    assert not Elements(page).of("img")
    assert data_of(page)["title"] == wild
    assert wild in data_of(page)["steps"][7]["label"]


def test_what_is_read_is_told_in_the_units_that_are_shown(porter):
    metric = data_of(page_of(porter))["blanks"]["water in the pot 1 1"]
    us = data_of(page_of(porter, units=ShownUnits.US))["blanks"]["water in the pot 1 1"]
    both = data_of(page_of(porter, units=ShownUnits.BOTH))["blanks"]["water in the pot 1 1"]
    assert (metric["value"], metric["unit"], metric["places"]) == (6.0, "L", 0)
    assert (us["value"], us["unit"]) == (1.59, "gal")  # 6 L / 3.785 L
    assert both == metric


def test_the_same_recipe_has_the_same_log_in_any_language(porter):
    english, german = data_of(page_of(porter)), data_of(page_of(porter, "de"))
    assert english["id"] == german["id"] == recipe_id(porter)
    assert [each["key"] for each in english["steps"]] == [each["key"] for each in german["steps"]]
    assert english["blanks"].keys() == german["blanks"].keys()
    assert recipe_id(replace(porter, name="Another")) != recipe_id(porter)


def test_the_command_writes_one_page_and_says_how_large_it_is(sheet, tmp_path):
    place = tmp_path / "pocket.html"
    code, lines, complaints = sheet(PORTER, "-o", place, "--pocket", "--language", "de")
    assert (code, complaints) == (0, [])
    page = place.read_text("utf-8")
    size = round(len(page.encode()) / 1000)
    assert lines == [f"{place}: a page for a phone’s browser, {size} kB."]
    assert '<html lang="de">' in page
    assert "Erledigt, weiter" in page


def test_pages_of_several_recipes_go_into_a_folder(sheet, tmp_path):
    assert sheet(PORTER, BITTER, "-o", tmp_path / "phone", "--pocket")[0] == 0
    names = sorted(each.name for each in (tmp_path / "phone").iterdir())
    assert names == ["harbour_lamp_porter.html", "slipway_bitter.html"]


def test_the_table_for_the_hydrometer_says_what_a_reading_is_worth(porter):
    """Between its points straight, right to 0.0002 of what the program itself reckons."""
    told = data_of(page_of(porter))["hydrometer"]
    assert told["usual"] == 20.0
    for at, temp_c in enumerate(told["temperatures"][:-1]):
        for shown in (1.0, 1.015, 1.045, 1.1):
            adds = [np.interp(shown, told["gravities"], told["adds"][at + n]) for n in (0, 1)]
            middle = true_gravity(shown, temp_c + 2.5, porter.process) - shown
            assert sum(adds) / 2 == pytest.approx(middle, abs=2e-4)


def test_every_sentence_of_the_page_is_said_somewhere_in_it():
    places = [*resource_path("pocket").iterdir(), *POCKET.glob("*.py")]
    said = "\n".join(path.read_text("utf-8") for path in places if path.name != "words.py")
    assert [key for key in WORDS if not re.search(rf"\b{key}\b", said)] == []
