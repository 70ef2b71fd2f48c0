"""The guide holds together: links, words of the screen, languages alike, nothing half written."""

from pathlib import Path

import pytest

from designer import translation
from designer.command_line.usage import COMMANDS
from designer.guide.blocks import Grid, Heading, Lines, Listing, Note, Picture, Way, spans_of
from designer.guide.headings import Headed, headed_pages
from designer.guide.reading import read_page
from designer.guide.screen_words import ScreenWords
from designer.resource_files import resource_path
from designer.spoken_language import LANGUAGES, catalogue_if_any
from designer.window import paged_window
from designer.window.guide_at_hand import DOORS
from designer.workbench.guide import guide
from tests.sentences import sentences

TOP = Path(__file__).parents[2]
ENGLISH = sorted(resource_path("guide/en").glob("*.md"))
TRANSLATED = [
    path for code in ("de", "fr") for path in sorted(resource_path(f"guide/{code}").glob("*.md"))
]


def read(path):
    return read_page(path.stem.partition("_")[2], path.read_text(encoding="utf-8"))


def label_of(path):
    return f"{path.parent.name} {path.stem}"


@pytest.mark.parametrize("path", [*ENGLISH, *TRANSLATED], ids=label_of)
def test_every_link_leads_to_a_page_of_the_guide_or_of_the_program(path):
    names = {page.name for page in guide("en").pages()}
    shown = {each.name for each in paged_window.PAGES} | {DOORS}
    for span in spans_of(read(path).blocks):
        assert span.way is not Way.LINK or span.target in names
        assert span.way is not Way.SHOW or span.target in shown


@pytest.fixture(scope="module")
def words_of_the_program():
    return ScreenWords({text: text for ids in sentences() for text in ids})


@pytest.mark.parametrize("path", ENGLISH, ids=label_of)
def test_what_the_guide_calls_a_word_of_the_screen_the_program_says(path, words_of_the_program):
    named = [each.text for each in spans_of(read(path).blocks) if each.way is Way.SCREEN]
    assert [each for each in named if words_of_the_program.find(each) is None] == []


def test_words_of_the_screen_are_found_alone_and_in_their_menu():
    said = ScreenWords({"&File": "&Datei", "Save &as…": "Speichern &unter …", "A, b": "B, a",
                        "Leave out": "Auslassen", "Leave out…": "Überspringen …"})  # fmt: skip
    assert (said.find("Leave out"), said.find("Leave out…")) == ("Auslassen", "Überspringen …")
    assert said.find("File") == "Datei"
    assert said.find("File, Save as") == "Datei, Speichern unter"
    assert said.find("File, A, b") == "Datei, B, a"
    assert said.find("File, Wrong") is None


def shape(blocks):
    """What a translation keeps: kinds, levels, numbers, pictures, links, words of the screen."""
    for block in blocks:
        kind = type(block).__name__
        if isinstance(block, Heading):
            yield kind, block.level
        elif isinstance(block, Listing):
            yield kind, block.first, tuple(tuple(shape(each)) for each in block.items)
        elif isinstance(block, Note):
            yield kind, block.is_caution, tuple(shape(block.blocks))
        elif isinstance(block, Grid):
            yield kind, len(block.head), len(block.rows)
        elif isinstance(block, Picture):
            yield kind, block.name
        else:
            yield kind, block.is_formula if isinstance(block, Lines) else None


def told(path):
    page = read(path)
    spans = list(spans_of(page.blocks))
    links = sorted(each.target for each in spans if each.way in (Way.LINK, Way.SHOW))
    return list(shape(page.blocks)), links, {each.text for each in spans if each.way is Way.SCREEN}


@pytest.mark.parametrize("path", TRANSLATED, ids=label_of)
def test_a_translated_page_is_built_as_the_english_one(path):
    english, translated = told(resource_path(f"guide/en/{path.name}")), told(path)
    assert translated[0] == english[0]
    assert translated[1] == english[1], "links lead where the English ones do"
    assert translated[2] == english[2], (
        "words between single stars stay in English: they are shown as the program says them"
    )


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("A page without a title", "begins with its title"),
        ("# T\n\n> quoted", "begins with"),
        ("# T\n\n[away](http://a.example)", "leads to"),
        ("# T\n\n[Show me](show:Brew day)", "without spaces"),
        ("# T\n\n---\n", "has no hr"),
        ("# T\n\n![a](a.png) beside text\n", "has no image"),
    ],
)
def test_what_no_form_of_the_guide_could_show_is_refused(text, fault):
    with pytest.raises(ValueError, match=fault):
        read_page("page", text)


def test_html_in_a_page_is_text():
    page = read_page("page", "# T\n\nA <script>alert(1)</script> b\n")
    assert [each.text for each in spans_of(page.blocks)] == ["A <script>alert(1)</script> b"]


def test_every_page_is_there_in_every_language_and_the_readme_leads_to_it():
    names = sorted(path.name for path in ENGLISH)
    for code in ("de", "fr"):
        assert sorted(path.name for path in TRANSLATED if path.parent.name == code) == names
    readme = (TOP / "README.md").read_text(encoding="utf-8")
    assert [name for name in names if f"(resources/guide/en/{name})" not in readme] == []


def test_every_command_has_its_row():
    page = guide("en").page("command_line")
    told = {each.text for each in spans_of(page.blocks) if each.way is Way.TYPED}
    named = {words.split()[1] for words in told if words.startswith("hobwort ")}
    assert set(COMMANDS) - {"open"} <= named


@pytest.mark.parametrize("language", LANGUAGES)
def test_keys_and_glossary_are_in_the_guide_of_each_language(language):
    found = guide(language)
    assert found.page("keys").title
    assert len(next(b for b in found.page("glossary").blocks if isinstance(b, Grid)).rows) > 60
    assert next(found.pages()).name == "own_recipe"


@pytest.mark.parametrize("language", LANGUAGES)
def test_headings_found_without_reading_the_pages_are_those_of_the_pages(language):
    with translation.speaking(catalogue_if_any(f"program_{language}"), language):
        headed_pages.cache_clear()
        found = headed_pages(language)
    headed_pages.cache_clear()
    assert found == tuple(
        Headed(
            page.name,
            page.title,
            tuple(
                "".join(span.text for span in each.words)
                for each in page.blocks
                if isinstance(each, Heading)
            ),
        )
        for page in guide(language).pages()
    )
