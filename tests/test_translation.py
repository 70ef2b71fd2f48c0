import ast

import pytest

from designer import spoken_language, translation
from designer.command_line import run
from designer.po_file import PoCatalogue, messages_of
from designer.recipe.message import Number, say
from designer.recipe.quantity import Kind, Quantity
from designer.resource_files import resource_path
from designer.translation import tr, tr_of, trn

from .sentences import ROOT, listed, template

SAYING = ("say", "refused", "doubt", "no_way")
"""What makes a message."""


class _Turned:
    """A language that says the parts of a sentence the other way round."""

    def gettext(self, text):
        return {"{name} in {pot}": "in {pot}: {name}"}.get(text, text)

    def ngettext(self, one, many, number):
        return f"{{number}} x {one if number == 1 else many}"


@pytest.fixture
def turned():
    translation.use(_Turned())
    yield
    translation.use(None)


def test_parts_are_put_in_after_the_sentence_was_looked_up(turned):
    assert tr("{name} in {pot}", name="{pot} malt", pot="a pot") == "in a pot: {pot} malt"
    assert trn("one {what}", "many {what}", 2, what="bags") == "2 x many bags"


def test_english_needs_no_catalogue():
    assert tr("{name} in {pot}", name="malt", pot="a pot") == "malt in a pot"
    assert trn("{number} bag", "{number} bags", 1) == "1 bag"
    assert tr("100 % of {it}") == "100 % of {it}"
    assert tr("") == ""


def test_the_template_for_translators_has_all_sentences_of_the_program(update_golden):
    path = resource_path("translations/program.pot")
    if update_golden:
        path.write_text(template(), encoding="utf-8")
    assert path.read_text(encoding="utf-8") == template()


def test_a_message_is_put_into_words_and_units_only_where_it_is_shown(turned):
    half = say("half", "{0} of {name}", (Kind.VOLUME, 2.0), name="{pot}")
    whole = say("both", "{name} in {pot}", name=half, pot="a pot")
    assert whole.text == "in a pot: 2 L of {pot}"
    assert whole.said(lambda kind, value: f"{value:.0f} {kind}") == "in a pot: 2 volume of {pot}"
    typed = say("typed", "{0}", (Kind.VOLUME, Quantity(2.0, "2000 mL")))
    assert (typed.text, typed.said(typed=lambda kind, _: kind)) == ("2000 mL", "volume")


GERMAN = """
msgid ""
msgstr "Content-Type: text/plain; charset=UTF-8\\nPlural-Forms: nplurals=2; plural=(n != 1);\\n"

msgid "{number} page"
msgid_plural "{number} pages"
msgstr[0] "{number} Seite"
msgstr[1] "{number} Seiten"
"""


@pytest.fixture
def translated(monkeypatch, tmp_path):
    """A program that was translated into German."""
    (tmp_path / "translations").mkdir()
    path = tmp_path / "translations" / "program_de.po"
    path.write_text(GERMAN, encoding="utf-8")
    monkeypatch.setattr(spoken_language, "resource_path", lambda name: tmp_path / name)
    for key in ("LC_ALL", "LC_MESSAGES", "LANG"):
        monkeypatch.delenv(key, raising=False)
    yield
    translation.use(None)


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ("de_AT.UTF-8", "2 Seiten"),
        ("fr:de", "2 Seiten"),
        ("German_Germany.1252", "2 Seiten"),
        ("en_GB:de", "2 pages"),
        ("fr", "2 pages"),
        ("C", "2 pages"),
        ("../../de", "2 pages"),
    ],
)
def test_the_program_speaks_the_first_language_of_the_system_that_it_knows(
    translated, monkeypatch, capsys, asked, said
):
    monkeypatch.setenv("LANGUAGE", asked)
    assert run(["convert", "1 kg", "g"]) == 0
    assert trn("{number} page", "{number} pages", 2) == said
    capsys.readouterr()


@pytest.mark.parametrize(
    ("chosen", "said"), [("de", "2 Seiten"), ("system", "2 pages"), ("xx", "2 pages")]
)
def test_the_language_that_was_chosen_goes_before_that_of_the_system(
    translated, monkeypatch, capsys, tmp_path, chosen, said
):
    monkeypatch.setenv("LANGUAGE", "en_GB")
    monkeypatch.setenv("HOBWORT_SETTINGS", str(tmp_path))
    (tmp_path / "hobwort.ini").write_text(f"[General]\nlanguage={chosen}\n", encoding="utf-8")
    assert run(["convert", "1 kg", "g"]) == 0
    assert trn("{number} page", "{number} pages", 2) == said
    capsys.readouterr()


def test_names_are_said_again_after_another_language_was_spoken_for_a_while():
    french = spoken_language.catalogue_of("names_fr")
    with translation.speaking(None, "en"):
        translation.use(None, "fr", french)
        with translation.speaking(None, "de"):
            assert translation.named("Crystal malt 60 °L") == "Crystal malt 60 °L"
        assert translation.named("Crystal malt 60 °L") == "Malt caramel 60 °L"


@pytest.mark.parametrize(
    ("code", "shown"),
    [
        ("en", "12,345 of 1.050, 45%, 2.5 min, 7"),
        ("de", "12.345 of 1,050, 45\u202f%, 2,5 min, 7"),
        ("fr", "12\u202f345 of 1,050, 45\u202f%, 2,5 min, 7"),
    ],
)
def test_numbers_in_a_sentence_have_the_signs_of_the_language(code, shown):
    template = "{many:,} of {gravity:.3f}, {share:.0%}, {minutes:g} min, {number}"
    parts = {"many": 12345, "gravity": 1.05, "share": 0.45, "minutes": 2.5}
    with translation.speaking(None, code):
        assert tr(template, number=7, **parts) == shown
        assert trn("", template, 7, **parts) == shown


@pytest.mark.parametrize(("code", "shown"), [("en", "4.4"), ("de", "4,4"), ("fr", "4,4")])
def test_a_bare_number_within_a_message_has_the_signs_of_the_language(code, shown):
    for number in (Number("4.4"), 4.4):
        near = say("abv-near", "near {abv} %", abv=number)
        with translation.speaking(None, code):
            assert say("read-as", "read as: {beer}", beer=near).text == f"read as: near {shown} %"


def test_no_message_holds_a_number_with_decimals_as_mere_text():
    """It would keep the English point in every language."""
    found = []
    for path in sorted((ROOT / "designer").rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and getattr(node.func, "id", "") in SAYING:
                texts = [each.value for each in node.keywords]
                found += [
                    f"{path.relative_to(ROOT)}:{text.lineno}" for text in texts if _decimals(text)
                ]
    assert found == []


def _decimals(text):
    """Whether an expression is a text with a number in it that may have decimals."""
    formats = [
        ast.unparse(each.format_spec).strip("f'")
        for each in ast.walk(text)
        if isinstance(text, ast.JoinedStr) and isinstance(each, ast.FormattedValue)
        if each.format_spec is not None
    ]
    return any(each.endswith("g") or ("." in each and each != ".0") for each in formats)


def test_one_command_lists_every_string_to_be_read_through():
    lines = list(listed())
    assert [line.split(":")[0] for line in lines if line.startswith("# ")] == [
        "# The program",
        "# The brew sheet",
    ]
    assert "Top-up mark" in lines
    assert "print what a term of the trade means" in lines


def test_a_word_that_means_two_things_is_said_as_it_is_meant():
    german = PoCatalogue(
        'msgid "Next"\nmsgstr "Als Nächstes"\n\n'
        'msgctxt "hit"\nmsgid "Next"\nmsgstr "Weiter"\n\n'
        'msgid "Nothing"\nmsgstr "Nichts"\n'
    )
    with translation.speaking(german, "de"):
        assert (tr("Next"), tr_of("hit", "Next")) == ("Als Nächstes", "Weiter")
        assert tr("Nothing") == "Nichts"
        assert tr_of("another", "Next") == "Next"
        assert tr_of("tasting", "Mark {mark}", mark=3) == "Mark 3"
    assert tr_of("hit", "Next") == "Next"
    found = messages_of('msgctxt "hit"\nmsgid "Next"\nmsgstr "Weiter"\n\nmsgid "a"\nmsgstr "b"')
    assert found == {("hit\4Next",): ("Weiter",), ("a",): ("b",)}
