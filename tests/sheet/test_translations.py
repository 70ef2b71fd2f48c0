"""The sheet in other languages: nothing left in English, nothing lost on the way.

That the files are sound is checked against the reading of PO files by GNU gettext where it is
installed; what the words mean, no test can tell.
"""

from __future__ import annotations

import gettext
import io
import re
import shutil
import string
import subprocess
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from designer.po_file import PoCatalogue, messages_of
from designer.resource_files import resource_path
from designer.sheet.blocks import Strong, plain_words
from designer.sheet.language import Language, language
from designer.sheet.plain import sheet_text
from designer.spoken_language import LANGUAGES, wanted_language

from .messages import messages, template

OTHERS = [code for code in LANGUAGES if code != "en"]
EXAMPLES = ("harbour_lamp_porter", "slipway_bitter", "foghorn_wheat", "breakwater_red")
SAME = {
    # Names and words that other languages spell alike.
    "{weekday} {day} {month} {year}", "{weekday} {day} {month}", "{number} volumes", "Start",
    "Notes", "pellets", "boil", "dextrose", "{label}:",
    "{one}; {next}", "{count} × {pack}", "{day} {month} {year}",
    "April", "August", "September", "November", "Jan", "Feb", "Apr", "Aug", "Sep", "Nov",
    "page {number} of {count}", "{beer}, {energy} in {size}", "+1 min", "Timer",
}  # fmt: skip


@pytest.fixture(params=OTHERS)
def code(request):
    return request.param


def _po(code):
    return resource_path(f"translations/{code}.po").read_text(encoding="utf-8")


def _parts(text):
    return sorted(name for _, name, _, _ in string.Formatter().parse(text) if name is not None)


def test_every_message_is_translated_and_no_other_one(code):
    found = messages_of(_po(code))
    assert set(found) - {("",)} == set(messages())
    for ids, said in found.items():
        assert all(said), ids


def test_a_translation_has_the_parts_of_its_message_and_as_many_stars(code):
    for ids, said in messages_of(_po(code)).items():
        if ids == ("",):
            continue
        for text in said:
            assert _parts(text) == _parts(ids[-1]), ids
            assert text.count("*") % 2 == 0, ids
            assert (text.count("*") > 0) == (ids[0].count("*") > 0), ids
        assert said[0].endswith((".", "?", "!")) == ids[0].endswith((".", "?", "!")), ids


def test_a_translation_says_it_in_its_own_words(code):
    for ids, said in messages_of(_po(code)).items():
        if said[0] == ids[0]:
            assert ids[0] in SAME, ids


def test_what_stands_out_in_english_stands_out_in_the_others(code):
    """The same parts are strong: amounts, temperatures, times."""
    for (text, *_), (said, *_) in messages_of(_po(code)).items():
        strong, theirs = (
            sorted(part for piece in each.split("*")[1::2] for part in _parts(piece))
            for each in (text, said)
        )
        assert strong == theirs, text


def test_the_template_for_translators_has_all_messages(update_golden):
    path = resource_path("translations/sheet.pot")
    if update_golden:
        path.write_text(template(), encoding="utf-8")
    assert path.read_text(encoding="utf-8") == template()


def test_our_reading_gives_what_gnu_gettext_gives(code, tmp_path):
    msgfmt = shutil.which("msgfmt")
    if msgfmt is None:
        pytest.skip("GNU gettext is not installed")
    made = tmp_path / "made.mo"
    source = resource_path(f"translations/{code}.po")
    done = subprocess.run(
        [msgfmt, "--check-format", "--check-domain", "-o", str(made), str(source)],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    ours = PoCatalogue(_po(code))
    theirs = gettext.GNUTranslations(io.BytesIO(made.read_bytes()))
    for ids in messages():
        assert ours.gettext(ids[0]) == theirs.gettext(ids[0])
        for number in (0, 1, 2, 5) if len(ids) > 1 else ():
            assert ours.ngettext(ids[0], ids[-1], number) == theirs.ngettext(
                ids[0], ids[-1], number
            )


_TEXT = st.text(min_size=1).filter(lambda text: "\0" not in text)


@given(st.dictionaries(_TEXT, _TEXT))
def test_any_messages_are_read_as_they_were_written(found):
    source = 'msgid ""\nmsgstr "Content-Type: text/plain; charset=UTF-8\\n"\n' + "".join(
        f"msgid {_quoted(one)}\nmsgstr {_quoted(said)}\n" for one, said in found.items()
    )
    read = PoCatalogue(source)
    for one, said in found.items():
        assert read.gettext(one) == said


def _quoted(text):
    """As GNU gettext writes it: signs escaped, in several lines."""
    escaped = text.replace("\\", "\\\\").replace('"', '\\"')
    for sign, code in (("\n", "n"), ("\t", "t"), ("\r", "r")):
        escaped = escaped.replace(sign, f"\\{code}")
    half = len(escaped) // 2
    half -= (half - len(escaped[:half].rstrip("\\"))) % 2  # no escape is parted
    return f'""\n"{escaped[:half]}"\n"{escaped[half:]}"'


def test_a_line_that_belongs_in_no_such_file_is_told():
    with pytest.raises(ValueError, match="line 2"):
        messages_of('msgid "a"\nmsgwhat "b"\n')


@pytest.mark.parametrize("name", EXAMPLES)
def test_no_english_is_left_on_a_sheet_in_another_language(code, name, example, sheet_of):
    """Every sentence of three words and more of the English sheet is gone."""
    recipe = example(name)
    for variant in ("full", "bench"):
        said = sheet_text(sheet_of(recipe, ranges=False, variant=variant, language=code))
        for ids in messages():
            text = re.split(r"[{*]", ids[0])[0].strip()
            if len(text.split()) >= 3:
                assert text not in said
        assert re.search(r"\d\.\d", said.replace(recipe.notes, "")) is None


@settings(
    max_examples=30,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.function_scoped_fixture],
)
@given(data=st.data())
def test_all_to_watch_out_for_is_said_in_the_other_language(any_recipe, sheet_of, code, data):
    recipe = data.draw(any_recipe())
    english, other = (
        [
            plain_words(block.words)
            for section in sheet_of(recipe, ranges=False, language=spoken).sections
            if section.key == "watch"
            for block in section.blocks
        ]
        for spoken in ("en", code)
    )
    assert len(english) == len(other)
    for ours, theirs in zip(english, other, strict=True):
        assert ours != theirs


def test_a_name_with_braces_and_stars_stays_as_it_was_typed():
    for code in LANGUAGES:
        words = language(code).words("Drop in {what}.", what="{0} *bold* {what} %s")
        assert "{0} *bold* {what} %s" in plain_words(words)
        assert not any(isinstance(run, Strong) for run in words)


def test_strong_words_stay_strong_within_a_sentence():
    what = (Strong("20 g"), " Challenger")
    assert language("en").words("Drop in {what}.", what=what) == (
        "Drop in ", Strong("20 g"), " Challenger.",
    )  # fmt: skip
    assert language("en").words("Lift it for *{time}*.", time="5 min") == (
        "Lift it for ", Strong("5 min"), ".",
    )  # fmt: skip


def test_french_keeps_its_high_punctuation_with_the_word_before():
    said = language("fr").say("Late? Stir it in now; boil 5 min more.")
    assert "En retard\u202f?" in said
    assert " ?" not in said
    assert " ;" not in said


@pytest.mark.parametrize(
    ("locale", "spoken"),
    [
        ("de_AT.UTF-8", "de"), ("fr", "fr"), ("fr_CA@euro", "fr"), ("en_GB", "en"),
        ("C.UTF-8", "en"),
        ("POSIX", "en"), ("", "en"), ("German_Austria.1252", "de"), ("French_France", "fr"),
        ("ja_JP", "en"), ("der_XX", "en"),
    ],
)  # fmt: skip
def test_the_language_is_that_of_the_locale_if_we_have_it(locale, spoken, monkeypatch):
    for key in ("LC_ALL", "LC_MESSAGES", "LANG"):
        monkeypatch.delenv(key, raising=False)
    monkeypatch.setenv("LANGUAGE", locale)
    assert wanted_language() == spoken


def test_the_environment_names_the_language_in_the_order_of_gettext(monkeypatch):
    """Order: GNU gettext manual, "Locale Environment Variables"."""
    for key in ("LANGUAGE", "LC_ALL", "LC_MESSAGES", "LANG"):
        monkeypatch.delenv(key, raising=False)
    monkeypatch.setenv("LANG", "fr_FR.UTF-8")
    assert wanted_language() == "fr"
    monkeypatch.setenv("LC_ALL", "de_DE.UTF-8")
    assert wanted_language() == "de"
    monkeypatch.setenv("LANGUAGE", "ja:fr:de")
    assert wanted_language() == "fr"


def test_a_language_that_there_is_not_is_a_mistake():
    with pytest.raises(ValueError, match="xx"):
        language("xx")


def test_translations_are_found_with_the_other_resources():
    there = {path.stem for path in Path(resource_path("translations")).glob("*.po")}
    assert there >= {*OTHERS, *(f"names_{each}" for each in OTHERS)}
    assert all(isinstance(language(code), Language) for code in LANGUAGES)
