"""The program in other languages: what a translation must keep; what its words mean no test tells.

`python -m tests.translations CODE` tells translators the same, and what is missing.
"""

import pytest

from designer import spoken_language, translation
from designer.spoken_language import speak_as_wanted
from designer.translation import tr

from . import translations
from .translations import SAME, catalogues, faults, merged, missing

COMPLETE: tuple[str, ...] = ("de", "fr")
"""The languages whose every sentence is translated."""
HEAD = 'msgid ""\nmsgstr "{head}\\n"\n\n'
TEMPLATE = """\
msgid ""
msgstr ""

#: a.py
msgid "&Add {name}…"
msgstr ""

#: a.py
msgid "{number} bag"
msgid_plural "{number} bags"
msgstr[0] ""
msgstr[1] ""
"""


@pytest.mark.parametrize("catalogue", catalogues(), ids="_".join)
def test_a_translation_keeps_what_its_sentence_puts_in(catalogue):
    assert faults(*catalogue) == []


@pytest.mark.parametrize("code", COMPLETE)
def test_every_sentence_is_translated(code):
    assert {kind: missing(kind, code) for kind in translations.TEMPLATES} == {
        kind: [] for kind in translations.TEMPLATES
    }


AMBIGUOUS = {"de": ("aufgehoben", "aufzuheben"), "fr": ("remesur",)}
"""What is also what was cancelled; and a second word for what is read once more."""


@pytest.mark.parametrize("code", COMPLETE)
def test_what_is_kept_or_read_again_is_said_in_one_word(code):
    said = spoken_language.catalogue_of(f"program_{code}").pairs()
    assert [text for _, text in said if any(each in text.lower() for each in AMBIGUOUS[code])] == []


@pytest.fixture
def written(tmp_path, monkeypatch):
    """What writes a catalogue of the program."""
    monkeypatch.setattr(translations, "path_of", lambda kind, code: tmp_path / f"{kind}_{code}.po")
    monkeypatch.setattr(translations, "TEMPLATES", {"program": lambda: TEMPLATE})

    def write(code, text):
        head = HEAD.format(head=translations._HEADS[code])
        (tmp_path / f"program_{code}.po").write_text(head + text, encoding="utf-8")

    return write


@pytest.mark.parametrize(
    ("code", "one", "said", "fault"),
    [
        ("de", "Add {name}", "{nam} zugeben", "what is put in"),
        ("de", "Add {name:>5}", "{name} zugeben", "what is put in"),
        ("de", "Add {name}", "{name", "'{name'"),
        ("de", "<b>Add</b>", "Zugeben", "marks of rich text"),
        ("de", "one\\ntwo", "eins zwei", "number of lines"),
        ("de", "one ", "eins", "spaces at the ends"),
        ("de", "Open…", "Öffnen", "sign at the end"),
        ("de", "Done.", "Fertig", "sign at the end"),
        ("de", "&Add", "Zugeben", "key after &"),
        ("de", "Malt & hops", "Malz & Hopfen && &mehr", "key after &"),
        ("de", "Kept in {name}", "Kept in {name}", "as the English is"),
        ("de", "In the pot", "In “den” Topf", ""),
        ("de", "“{name}” is kept", "“{name}” ist da", "German quotes"),
        ("fr", "“{name}” is kept", "“{name}” est gardé", "French quotes"),
        ("fr", "What? Yes", "Quoi? Oui", "French has a space"),
        ("de", "In it", "Darin  ist", "two spaces"),
    ],
)
def test_what_a_translation_lost_is_told(written, code, one, said, fault):
    written(code, f'msgid "{one}"\nmsgstr "{said}"\n')
    told = faults("program", code)
    assert told
    assert fault in told[0]


@pytest.mark.parametrize(
    ("one", "said"),
    [
        ("Add {name}", "{name} zugeben"),
        ("“{name}” is kept.", "„{name}“ ist aufgehoben."),
        ("Malt &amp; {name}", "Malz &amp; {name}"),
        ("{value} °P", "{value} °P"),
        ("&Add…", "&Zugeben…"),
    ],
)
def test_a_good_translation_is_let_be(written, one, said):
    written("de", f'msgid "{one}"\nmsgstr "{said}"\n')
    assert faults("program", "de") == []


def test_a_word_that_is_meant_to_be_the_same_is_marked_above_it(written):
    written("de", f'{SAME} in German\nmsgid "Extract"\nmsgstr "Extract"\n')
    assert faults("program", "de") == []


def test_what_was_translated_is_kept_when_the_sentences_change(written):
    known = (
        '# remark\n#: old.py\nmsgid "&Add {name}…"\nmsgstr "{name} &dazu…"\n\n'
        'msgid "{number} bag"\nmsgstr "{number} Beutel"\n\nmsgid "gone"\nmsgstr "weg"\n'
    )
    made = merged("program", "de", known)
    assert '# remark\n#: a.py\nmsgid "&Add {name}…"\nmsgstr "{name} &dazu…"\n' in made
    assert 'msgstr[0] "{number} Beutel"\nmsgstr[1] ""\n' in made
    assert "gone" not in made
    assert merged("program", "de", made) == made
    written("de", made.partition("\n\n")[2])
    assert missing("program", "de") == [("{number} bag", "{number} bags")]


def test_french_has_narrow_spaces_where_the_translator_wrote_plain_ones(monkeypatch, tmp_path):
    (tmp_path / "translations").mkdir()
    path = tmp_path / "translations" / "program_fr.po"
    path.write_text('msgid "Kept: {name}?"\nmsgstr "Gardé : « {name} » ?"\n', encoding="utf-8")
    monkeypatch.setattr(spoken_language, "resource_path", lambda name: tmp_path / name)
    monkeypatch.setenv("LANGUAGE", "fr")
    try:
        speak_as_wanted()
        said = tr("Kept: {name}?", name="a : b")
    finally:
        translation.use(None)
    assert said == "Gardé\u202f: «\u202fa : b\u202f»\u202f?"
