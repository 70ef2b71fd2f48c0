"""Units, scales, decimal sign and paper of commands: as told, as chosen, as the locale has it."""

import json
import re

import pytest
from pypdf import PdfReader
from PySide6.QtCore import QLocale

from designer import translation
from designer.command_line import run
from designer.command_line.system_habits import measures_in_us, writes_comma
from designer.library.store import Store
from designer.resource_files import resource_path
from designer.spoken_language import LANGUAGES, language_code
from tests.taught_kitchen import brewed

pytestmark = pytest.mark.usefixtures("qapp")  # PDFs are written in this process
PORTER = str(resource_path("examples/harbour_lamp_porter.hobwort"))
RED = str(resource_path("examples/breakwater_red.hobwort"))
READING = ["reading", RED, "--sg", "1.037", "--at", "24 °C", "--from", "top", "--stirred", "no"]
METRIC = r"\d (?:L|mL|kg|°C|cm|bar)(?![/\w])"
NAMED_SO = r"100 mL|the \S+ L pot|Read: 1\.037|--set \S+?=\".*?\""
"""Energy is told of so much beer, a pot is called by its size, and what was read is as it was."""
US = r"\d (?:gal|qt|fl oz|lb|oz|°F|in|psi)(?![/\w])"


@pytest.fixture
def system(monkeypatch):
    """Sets the system's locale, or one category of it."""
    for name in ("LC_ALL", "LC_MEASUREMENT", "LC_NUMERIC", "LC_MESSAGES", "LANGUAGE", "LANG"):
        monkeypatch.delenv(name, raising=False)

    def speaks(name, category="LANG"):
        monkeypatch.setenv(category, name)

    return speaks


@pytest.fixture
def chosen(system, monkeypatch, tmp_path):
    """Chooses in the window's preferences; the system speaks British English."""
    system("en_GB.UTF-8")
    monkeypatch.setenv("HOBWORT_SETTINGS", str(tmp_path))

    def choose(**values):
        lines = [f"{key}={value}" for key, value in values.items()]
        (tmp_path / "hobwort.ini").write_text("\n".join(["[General]", *lines, ""]), "utf-8")

    yield choose
    translation.use(None)


@pytest.fixture
def told(capsys):
    """What a command prints; it is a command that goes well."""

    def tell(*words):
        assert run([str(each) for each in words]) == 0
        return capsys.readouterr().out

    return tell


@pytest.mark.parametrize(
    "name",
    [
        *("en_US", "en_GB", "en_CA", "en_ZA", "en_LR", "de_DE", "de_AT", "de_CH", "fr_FR", "fr_CA"),
        *("fr_CH", "es_ES", "es_MX", "es_US", "it_IT", "it_CH", "nl_NL", "pt_BR", "pl_PL", "sv_SE"),
        *("da_DK", "nb_NO", "fi_FI", "cs_CZ", "ja_JP", "zh_CN", "ko_KR", "ru_RU", "he_IL", "C"),
    ],
)
def test_the_locale_measures_and_writes_as_it_does_in_the_window(system, name):
    system(f"{name}.UTF-8")
    qt = QLocale(name)
    assert measures_in_us() is (
        qt.measurementSystem() is QLocale.MeasurementSystem.ImperialUSSystem
    )
    code = language_code(name)
    translation.use(None, code if code in LANGUAGES else "en")
    try:
        assert writes_comma() is (qt.decimalPoint() == ",")
    finally:
        translation.use(None)


def test_a_category_of_the_locale_says_more_than_lang_and_less_than_lc_all(system):
    system("en_GB.UTF-8")
    assert not measures_in_us()
    system("en_US.UTF-8", "LC_MEASUREMENT")
    assert measures_in_us()
    system("en_IE.UTF-8", "LC_ALL")
    assert not measures_in_us()


@pytest.mark.parametrize(
    "words",
    [
        ["forecast", RED],
        ["forecast", PORTER, "--what-if", "process.boil_time=45 min"],
        ["fit", RED, "--pot", "9 L", "--fermenter", "12 L"],
        ["check", RED],
        READING,
        ["packaging", "--beer", "9.6 L", "--warmest", "21 °C", "--finished", "yes"],
        ["packaging", "--beer", "2.5 gal", "--warmest", "70 °F", "--finished", "yes"],
        ["kit", "Red", "--tin", "1.7 kg", "--makes", "20 L", "--pot", "9 L", "--fermenter", "30 L"],
        ["styles", PORTER],
        ["catalogue", "Yeast nutrient"],
        ["catalogue", "English Porter"],
    ],
    ids=lambda words: " ".join(words[::4] if len(words) > 2 else words)[:30],
)
def test_every_figure_is_in_the_units_and_scales_that_are_asked_for(chosen, told, words):
    chosen(units="us", gravity="plato", colour="srm")
    scales = [] if words[0] == "packaging" else ["--gravity", "sg", "--colour", "ebc"]
    metric = told(*words, "--units", "metric", *scales)
    assert not re.search(US, metric), metric
    assert "SRM" not in metric
    assert "°P" not in metric
    us = re.sub(NAMED_SO, "", told(*words))
    assert not re.search(METRIC, us), us
    assert "EBC" not in us
    assert not re.search(r"\b1\.\d{3}\b", us), us
    both = told(*words, "--units", "both")
    assert bool(re.search(METRIC, metric)) is bool(re.search(METRIC, both))
    assert bool(re.search(US, us)) is bool(re.search(US, both))


def test_what_brews_taught_is_told_in_the_units_that_are_asked_for(
    chosen, told, tmp_path, monkeypatch
):
    monkeypatch.setenv("HOBWORT_STORE", str(tmp_path / "box"))
    with Store.open(tmp_path / "box") as store:
        brewed(store)
    figures = told("learned")
    assert re.search(r"now \S+ L/h, \S+ L/h to \S+ L/h", figures)
    in_us = told("learned", "--units", "us")
    assert re.search(r"now \S+ gal/h, \S+ gal/h to \S+ gal/h", in_us)
    assert not re.search(METRIC, in_us), in_us
    # 1 L/h is 0.264 gal/h (NIST SP 811: 1 gal = 3.785412 L).
    first, other = (
        float(re.search(r"evaporation\)\n.*at the start (\S+) ", each)[1])
        for each in (figures, in_us)
    )
    assert other == pytest.approx(first / 3.785412, rel=0.02)
    chosen(units="us")
    assert told("learned") == in_us
    assert "is taken" in told("learned", "take", "evaporation", "Kitchen pot")
    assert re.search(r"taken: 0\.3\d+ gal/h ± \d+ %", told("learned"))


def test_an_american_system_is_told_in_american_units_and_srm(system, told):
    system("en_US.UTF-8")
    text = told("forecast", PORTER)
    assert re.search(US, text)
    assert not re.search(METRIC, re.sub(NAMED_SO, "", text))
    assert re.search(r"Colour +\d+ SRM", text)
    system("en_GB.UTF-8")
    text = told("forecast", PORTER)
    assert not re.search(US, text)
    assert re.search(r"Colour +\d+ EBC", text)


@pytest.mark.parametrize(
    "words", [["forecast", RED], ["fit", RED], READING], ids=lambda each: each[0]
)
def test_figures_have_the_decimal_sign_of_the_language(chosen, told, words):
    chosen(language="de")
    text = told(*words)
    assert re.search(r"\d,\d", text)
    left = re.sub(r"--set \S+", "", text)
    assert not re.findall(r".{12}\d\.\d.{12}", left)


@pytest.mark.parametrize(
    "words",
    [
        ["forecast", RED],
        ["fit", RED, "--pot", "9 L"],
        ["check", RED],
        READING,
        ["glossary", "krausen"],
    ],
    ids=lambda each: each[0],
)
def test_json_is_the_same_whatever_is_chosen_and_whoever_asks(chosen, system, told, words):
    plain = told(*words, "--json")
    chosen(units="us", gravity="plato", colour="srm", language="de", paper="letter")
    system("en_US.UTF-8", "LC_ALL")
    assert told(*words, "--json") == plain
    assert json.loads(plain)


def test_sheets_take_paper_units_shop_and_language_from_the_window_unless_told_otherwise(
    chosen, told, tmp_path
):
    chosen(units="us", paper="letter", shop="Quay Street", sheet_language="fr")
    told("sheet", PORTER, RED, "-o", tmp_path / "all")
    for name in ("harbour_lamp_porter.pdf", "breakwater_red.pdf"):
        (page, *_) = PdfReader(tmp_path / "all" / name).pages
        assert tuple(map(round, page.mediabox[2:])) == (612, 792)
        text = page.extract_text().replace("\t", " ")
        assert "Quay Street" in text
        assert "°F" in text
        assert "au fermenteur" in text
    words = ["--paper", "a4", "--units", "metric", "--shop", "", "--language", "en"]
    told("sheet", PORTER, "-o", tmp_path / "other.pdf", *words)
    (page, *_) = PdfReader(tmp_path / "other.pdf").pages
    assert tuple(map(round, page.mediabox[2:])) == (595, 842)
    text = page.extract_text().replace("\t", " ")
    assert "in the fermenter" in text.replace("\u00a0", " ")
    assert "Quay Street" not in text
    assert "°F" not in text


def test_what_nobody_can_choose_counts_as_not_chosen(chosen, told):
    usual = told("forecast", PORTER)
    chosen(units="cubits", gravity="@Invalid()", colour="lovibond", language="tlh")
    assert told("forecast", PORTER) == usual
