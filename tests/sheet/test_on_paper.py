"""Any recipe on paper: no row is cut at the foot, none is left out."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from designer.paper.pages import TOP, lay_out
from designer.sheet.blocks import Form, Strong
from designer.spoken_language import LANGUAGES


@settings(
    max_examples=40,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.function_scoped_fixture],
)
@given(data=st.data())
def test_no_row_of_any_recipe_is_cut_at_the_foot_of_its_page(qapp, any_recipe, sheet_of, data):
    recipe = data.draw(any_recipe())
    variant = data.draw(st.sampled_from(["full", "bench"]))
    form = Form(large=data.draw(st.booleans()), pages=data.draw(st.sampled_from([1, 2])))
    spoken = data.draw(st.sampled_from(list(LANGUAGES)))
    sheet = sheet_of(recipe, "both", ranges=False, variant=variant, form=form, language=spoken)
    pages = lay_out(sheet, "letter")
    room = (pages.height - 2.0 * TOP - pages.foot) / pages.zoom
    for page in pages.rows:
        assert page
        assert all(placed.top + placed.height <= room + 1.0 for placed in page)


def test_what_is_strong_stays_apart_from_what_is_not(example, sheet_of):
    step = sheet_of(example("harbour_lamp_porter")).steps[0]
    assert [run.text for run in step.do if isinstance(run, Strong)] == ["6 L", "69 °C"]


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_an_empty_recipe_fits_on_paper_too(qapp, empty_recipe, sheet_of, paper):
    assert len(lay_out(sheet_of(empty_recipe), paper)) == 2
