"""The guide as one web page: well formed, whole by itself, each link with its end."""

import xml.etree.ElementTree as ElementTree

import pytest

from designer.guide.html import guide_html
from designer.spoken_language import LANGUAGES, catalogue_if_any
from designer.translation import speaking
from designer.workbench.guide import guide


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_web_page_is_well_formed_and_needs_nothing_else(language):
    with speaking(catalogue_if_any(f"program_{language}"), language):
        text = guide_html(guide(language))
    whole = ElementTree.fromstring(text.partition("\n")[2])
    assert whole.get("lang") == language
    ids = {each.get("id") for each in whole.iter("section")}
    assert ids == {page.name for page in guide(language).pages()}
    assert {each.get("href") for each in whole.iter("a")} <= {f"#{each}" for each in ids}
    assert all(each.get("src").startswith("data:image/png") for each in whole.iter("img"))
    assert not {"script", "link", "iframe"} & {each.tag for each in whole.iter()}
    assert "url(" not in text
    assert all(each.get("alt") for each in whole.iter("img"))
