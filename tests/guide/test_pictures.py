"""The pictures of the guide: all there, none left over, none of a program that is no more.

A picture tells which sentences of the program are seen on it (`tests/guide_pictures`). One that the
program has not any more, or says otherwise in that language, is seen here within the second.
"""

import pytest
from PySide6.QtGui import QImage

from designer.guide.blocks import pictures_of
from designer.po_file import IN_CONTEXT
from designer.resource_files import resource_path
from designer.spoken_language import LANGUAGES, catalogue_if_any
from designer.workbench.guide import guide
from tests.guide_pictures.seen_words import KEY, read
from tests.sentences import sentences

FOLDERS = [code for code in LANGUAGES if resource_path(f"guide/pictures/{code}").is_dir()]
MAKE_THEM = "make them anew: python -m tests.guide_pictures"


def plain(text):
    """Text as a picture keeps it: any space is a plain one."""
    return " ".join(text.split())


def seen(text):
    """Text as it is seen: the mark of a key's letter is none."""
    return plain(text).replace("&", "")


def pictures(code):
    return sorted(resource_path(f"guide/pictures/{code}").iterdir())


@pytest.mark.parametrize("code", FOLDERS)
def test_every_picture_that_a_page_names_is_there_and_no_other(code):
    named = {name for page in guide("en").pages() for name in pictures_of(page.blocks)}
    assert {path.name for path in pictures(code)} == named


@pytest.mark.parametrize("code", FOLDERS)
def test_what_is_read_on_a_picture_the_program_still_says(code):
    known = {plain(text): text for ids in sentences() for text in ids}
    catalogue = catalogue_if_any(f"program_{code}")
    for path in pictures(code):
        words = read(QImage(str(path)).text(KEY))
        assert len(words) >= 15, path
        gone = [sentence for sentence, _ in words if sentence not in known]
        assert gone == [], f"{path.name}: {MAKE_THEM}"
        for sentence, said in words:
            plainly = sentence.rpartition(IN_CONTEXT)[2]
            now = catalogue.gettext(known[sentence]) if catalogue else plainly
            assert seen(said) == seen(now), f"{path.name}: {MAKE_THEM}"


@pytest.mark.parametrize("code", FOLDERS)
def test_the_pictures_of_a_language_are_small(code):
    assert sum(path.stat().st_size for path in pictures(code)) < 1_500_000
