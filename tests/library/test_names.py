"""What other languages call the ingredients and styles of the catalogue."""

import pytest

from designer import translation
from designer.library import catalogue
from designer.library.new_lines import kind_by_name, new_line
from designer.recipe.choices import FermentableKind
from designer.recipe.message import say
from designer.spoken_language import LANGUAGES, names_in
from designer.translation import named

CODES = [code for code in LANGUAGES if code != "en"]


@pytest.fixture
def german():
    translation.use(None, "de", names_in("de"))
    yield
    translation.use(None)


@pytest.mark.parametrize("code", CODES)
def test_each_row_of_the_catalogue_is_found_by_its_name_in_any_language(code):
    said = names_in(code).gettext
    for find, rows in (
        (catalogue.find_fermentable, catalogue.fermentables()),
        (catalogue.find_aid, catalogue.aids()),
        (catalogue.find_style, catalogue.styles()),
        (catalogue.find_hop, catalogue.hops()),
    ):
        assert [find(said(each.name)) for each in rows] == list(rows)
    for each in catalogue.yeasts():
        assert catalogue.find_yeast(said(each.name), each.form) is each


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ("Weizen Trockenmalzextrakt", "Wheat dry malt extract"),
        ("muenchner malz, dunkel", "Munich malt, dark"),
        ("ROESTGERSTE", "Roasted barley"),
        ("Trockenmalzextrakt hell", "Light dry malt extract"),
        ("extrait de malt sec de ble", "Wheat dry malt extract"),
        ("flocons d'avoine", "Flaked oats"),
        ("Karamellmalz 60 L", "Crystal malt 60 °L"),
    ],
)
def test_accents_umlauts_and_hyphens_do_not_matter(typed, name):
    line = new_line("fermentables", typed)
    assert line.name == name
    assert line.extract is not None


def test_styles_are_found_by_either_name():
    assert catalogue.find_style("Dunkles Weissbier").code == "10B"
    assert catalogue.find_style("dunkles weißbier").code == "10B"
    assert catalogue.find_style("stout irlandais").code == "15B"


def test_a_name_is_said_in_the_language_and_a_brewers_own_stays(german):
    assert named("Chocolate malt") == "Schokoladenmalz"
    assert named("Grandma's chocolate malt") == "Grandma's chocolate malt"
    assert named("") == ""
    told = say("half", "more {name} and {other}", name="Honey", other="{Honey}")
    assert told.text == "more Honig and {Honey}"


@pytest.mark.parametrize(
    ("name", "kind"),
    [
        ("Trockenextrakt aus dem Laden", FermentableKind.DRY_EXTRACT),
        ("extrait sec du magasin", FermentableKind.DRY_EXTRACT),
        ("Waldhonig", FermentableKind.SUGAR),
        ("sucre candi maison", FermentableKind.SUGAR),
        ("Malz vom Nachbarn", FermentableKind.STEEPING_GRAIN),
        ("Malzextrakt vom Nachbarn", FermentableKind.LIQUID_EXTRACT),
        ("extrait houblonné ambré", FermentableKind.HOPPED_KIT),
    ],
)
def test_an_unknown_name_speaks_of_its_kind_in_any_language(name, kind):
    assert kind_by_name(name) is kind
