import pytest

from designer import translation
from designer.translation import tr, trn


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
