"""`hobwort sheet`: one recipe or many, in each form, and each wish that cannot be met in words."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from pypdf import PdfReader

from designer.command_line import run
from designer.library.packs import pack_size
from designer.library.store import Store
from designer.library.store.shop import keep_shop_packs
from designer.recipe.quantity import Quantity
from designer.resource_files import resource_path
from designer.sheet.language import language
from designer.spoken_language import LANGUAGES

PORTER = str(resource_path("examples/harbour_lamp_porter.hobwort"))
BITTER = str(resource_path("examples/slipway_bitter.hobwort"))


@pytest.fixture
def sheet(capsys, qapp, monkeypatch):
    """Runs the command; returns its exit code and the lines of both outputs."""
    for key in ("LANGUAGE", "LC_ALL", "LC_MESSAGES"):
        monkeypatch.delenv(key, raising=False)
    monkeypatch.setenv("LANG", "C.UTF-8")

    def wanted(*words):
        code = run(["sheet", *map(str, words)])
        output = capsys.readouterr()
        return code, output.out.splitlines(), output.err.splitlines()

    return wanted


def _said(path):
    return " ".join(" ".join(page.extract_text() for page in PdfReader(path).pages).split())


def test_several_recipes_go_into_a_folder_that_is_made(sheet, tmp_path):
    folder = tmp_path / "sheets" / "today"
    code, lines, complaints = sheet(PORTER, BITTER, "-o", folder)
    assert (code, complaints) == (0, [])
    assert lines == [
        f"{folder}/harbour_lamp_porter.pdf: 2 pages.",
        f"{folder}/slipway_bitter.pdf: 2 pages.",
    ]
    assert "Slipway Bitter" in _said(folder / "slipway_bitter.pdf")


def test_recipes_of_one_name_get_sheets_of_their_own(sheet, tmp_path):
    other = tmp_path / "Harbour_Lamp_Porter.hobwort"
    other.write_bytes(resource_path("examples/foghorn_wheat.hobwort").read_bytes())
    assert sheet(PORTER, other, PORTER, "-o", tmp_path / "out")[0] == 0
    names = sorted(path.name for path in (tmp_path / "out").iterdir())
    assert names == [
        "Harbour_Lamp_Porter-2.pdf", "harbour_lamp_porter-3.pdf", "harbour_lamp_porter.pdf",
    ]  # fmt: skip


def test_one_recipe_goes_into_a_folder_that_is_there(sheet, tmp_path):
    assert sheet(PORTER, "-o", tmp_path, "--html")[0] == 0
    assert [path.name for path in tmp_path.iterdir()] == ["harbour_lamp_porter.html"]


def test_several_sheets_do_not_go_into_one_file(sheet, tmp_path):
    kept = tmp_path / "kept"
    kept.write_text("mine", encoding="utf-8")
    for output in (kept, tmp_path / "all.pdf", tmp_path / "all.html"):
        code, lines, complaints = sheet(PORTER, BITTER, "-o", output)
        assert (code, lines) == (1, [])
        assert complaints == [f"{output}: 2 sheets do not go into one file; name a folder"]
    assert kept.read_text(encoding="utf-8") == "mine"
    code, _, complaints = sheet(PORTER, BITTER, "-o", kept / "below")
    assert code == 1
    assert complaints[0].startswith(f"{kept}/below: the folder could not be made")


def test_nothing_is_written_if_one_of_the_recipes_is_refused(sheet, tmp_path):
    broken = tmp_path / "broken.hobwort"
    broken.write_text("{", encoding="utf-8")
    output = tmp_path / "out"
    code, lines, complaints = sheet(PORTER, broken, tmp_path / "none.hobwort", "-o", output)
    assert (code, lines, len(complaints)) == (1, [], 2)
    assert not output.exists()


def test_the_suffix_says_what_is_written(sheet, tmp_path):
    assert sheet(PORTER, "-o", tmp_path / "a.html")[1] == [f"{tmp_path}/a.html: a web page."]
    assert sheet(PORTER, "-o", tmp_path / "a.txt")[1] == [f"{tmp_path}/a.txt: plain text."]
    assert sheet(PORTER, "-o", tmp_path / "a.pdf", "--html")[1] == [
        f"{tmp_path}/a.html: a web page."
    ]
    assert (tmp_path / "a.html").read_text(encoding="utf-8").startswith("<!DOCTYPE html>")
    assert "Challenger" in (tmp_path / "a.txt").read_text(encoding="utf-8")
    assert not (tmp_path / "a.pdf").exists()


def test_with_the_brew_day_every_day_has_its_date(sheet, tmp_path):
    output = tmp_path / "a.pdf"
    assert sheet(PORTER, "-o", output, "--date", "2026-03-28")[0] == 0
    said = _said(output)
    assert "Sat 28 March 2026" in said
    assert "Day 14 Sat 11 Apr" in said


@pytest.mark.parametrize("typed", ["28.3.2026", "2026-02-30", "tomorrow", "", "2026-13-01"])
def test_what_is_no_day_is_refused_in_words(sheet, tmp_path, typed):
    code, lines, complaints = sheet(PORTER, "-o", tmp_path / "a.pdf", f"--date={typed}")
    assert (code, lines, len(complaints)) == (1, [], 1)
    assert complaints[0].startswith("--date: “")
    assert complaints[0].endswith("is not a day; write year, month and day, such as 2026-03-28")
    assert not (tmp_path / "a.pdf").exists()


def test_the_card_large_print_and_a_shop_s_name_are_a_word_away(sheet, tmp_path):
    output = tmp_path / "a.pdf"
    assert sheet(PORTER, "-o", output, "--variant", "bench")[1] == [f"{output}: 1 page."]
    _, (line,), _ = sheet(PORTER, "-o", output, "--large", "--shop", "Quay Street Homebrew")
    assert int(line.removeprefix(f"{output}: ").split()[0]) >= 4
    assert _said(output).startswith("Quay Street Homebrew Harbour Lamp Porter")


def test_the_card_can_be_had_on_two_pages_in_larger_type(sheet, tmp_path):
    output = tmp_path / "a.pdf"
    assert sheet(BITTER, "-o", output, "--variant", "bench", "--pages", "2")[0] == 0
    assert len(PdfReader(output).pages) <= 2


def test_the_language_is_asked_for_or_that_of_the_locale(sheet, tmp_path, monkeypatch):
    output = tmp_path / "a.txt"
    for code, words in (("de", "Stammwürze: 1,046"), ("fr", "Densité initiale"), ("en", "1.046")):
        assert sheet(PORTER, "-o", output, "--language", code)[0] == 0
        assert words in output.read_text(encoding="utf-8")
    monkeypatch.setenv("LANG", "de_CH.UTF-8")
    sheet(PORTER, "-o", output)
    assert "Brautag" in output.read_text(encoding="utf-8").title()
    sheet(PORTER, "-o", output, "--language", "en")
    assert "BREW DAY" in output.read_text(encoding="utf-8")


def test_a_language_whose_words_are_not_there_is_named_with_the_way_out(
    sheet, tmp_path, monkeypatch
):
    def no_words(name):
        raise FileNotFoundError(2, "No such file or directory", f"translations/{name}.po")

    monkeypatch.setattr("designer.sheet.language.catalogue_of", no_words)
    language.cache_clear()
    code, _, [told] = sheet(PORTER, "-o", tmp_path / "de.pdf", "--language", "de")
    assert code == 1
    assert told == (
        "The words of the sheet in Deutsch cannot be read: translations/de.po. Choose another "
        "language for the sheet, or install Hobwort anew."
    )
    assert not list(tmp_path.glob("*.pdf"))


def test_the_command_offers_the_languages_there_are(sheet):
    code, lines, _ = sheet("--help")
    assert code == 0
    assert f"--language {{{','.join(LANGUAGES)}}}" in " ".join(" ".join(lines).split())


@pytest.mark.parametrize(
    "wish", [["--variant", "poster"], ["--pages", "3"], ["--language", "xx"], ["--paper", "a3"]]
)
def test_a_wish_that_there_is_not_ends_with_2(sheet, tmp_path, wish):
    code, lines, complaints = sheet(PORTER, "-o", tmp_path / "a.pdf", *wish)
    assert (code, lines) == (2, [])
    assert complaints[0].startswith("usage: hobwort sheet")


def test_help_names_every_option(sheet):
    code, lines, _ = sheet("--help")
    said = " ".join(lines)
    assert code == 0
    for option in ("--html", "--paper", "--units", "--start", "--date", "--variant", "--pages",
                   "--large", "--shop", "--language", "--set"):  # fmt: skip
        assert option in said


@pytest.mark.parametrize("output", ["brew.hobwort", "another.hobwort", "link.pdf"])
def test_a_sheet_never_goes_over_a_recipe_file(sheet, tmp_path, monkeypatch, output):
    monkeypatch.chdir(tmp_path)
    for name in ("brew.hobwort", "another.hobwort"):
        Path(name).write_bytes(Path(PORTER).read_bytes())
    Path("link.pdf").symlink_to("brew.hobwort")
    code, printed, complaints = sheet("brew.hobwort", "-o", output)
    assert code == 1
    assert printed == []
    assert complaints == [
        f"{output}: a sheet does not go over a recipe file; name a file that ends in .pdf, .html "
        "or .txt"
    ]
    for name in ("brew.hobwort", "another.hobwort"):
        assert Path(name).read_bytes() == Path(PORTER).read_bytes()


@pytest.mark.parametrize(
    ("key", "says"),
    [
        ("one boil", "Into fermenter 2: 3.2 L"),
        ("two boils", "Do all of this twice"),
    ],
)
def test_a_way_written_by_fit_is_brewed_from_its_sheet(sheet, capsys, tmp_path, key, says):
    kit = str(resource_path("examples/breakwater_red.hobwort"))
    kitchen = ["--pot", "9 L", "--fermenter", "12 L", "--fermenter", "12 L"]
    assert run(["fit", kit, *kitchen, "--json"]) == 0
    ways = json.loads(capsys.readouterr().out)["ways"]
    rank = next(each["rank"] for each in ways if each["key"] == key)
    planned = tmp_path / "planned.hobwort"
    assert run(["fit", kit, *kitchen, "--use", str(rank), "-o", str(planned)]) == 0
    capsys.readouterr()
    code, lines, complaints = sheet(planned, "-o", tmp_path / "sheet.pdf", "--language", "en")
    assert (code, complaints) == (0, [])
    assert lines[0].endswith("sheet.pdf: 2 pages.")
    assert says in _said(tmp_path / "sheet.pdf")


def test_what_is_bought_is_told_in_the_packs_kept_in_the_recipe_box(sheet, tmp_path, monkeypatch):
    monkeypatch.setenv("HOBWORT_STORE", str(tmp_path))
    own = (pack_size("dry extract", Quantity(0.45, "450 g"), "pouch"),)
    with Store.open(tmp_path) as store:
        keep_shop_packs(store, "metric", own)
    page = tmp_path / "porter.html"
    assert sheet(PORTER, "--html", "-o", page)[0] == 0
    assert "450 g pouch, 50 g left" in page.read_text(encoding="utf-8")
    assert sheet(PORTER, "--html", "-o", page, "--units", "us")[0] == 0
    assert "1 lb bag" in page.read_text(encoding="utf-8")
