"""Whatever is read, a beer stands somewhere, and it is called done on good grounds alone."""

from hypothesis import given, settings
from hypothesis import strategies as st

from designer.brewday.fermenting.course import BeerReading, Standing, Warmth
from designer.brewday.fermenting.fermenting import fermenting
from designer.brewday.fermenting.standing import MOST_LEFT_SG
from designer.brewday.outlook import look_ahead
from designer.library.recipe_file import load
from designer.resource_files import resource_path

PORTER = load(resource_path("examples/harbour_lamp_porter.hobwort"))
OUTLOOK = look_ahead(PORTER)

readings = st.lists(
    st.builds(
        BeerReading,
        st.floats(0.0, 400.0),
        st.one_of(st.floats(0.98, 1.2), st.sampled_from([1.010, 1.011, 1.012, 1.013])),
        st.sampled_from([0.0005, 0.001, 0.002, 0.004]),
        st.booleans(),
    ),
    max_size=6,
)
warmths = st.lists(st.builds(Warmth, st.floats(-2.0, 400.0), st.floats(-10.0, 60.0)), max_size=4)


@settings(max_examples=25, deadline=None, database=None)
@given(readings, warmths, st.floats(0.0, 500.0), st.floats(1.0, 1.12))
def test_any_readings_make_a_beer_that_is_done_only_by_two_that_agree(
    read, noted, now_day, original
):
    found = fermenting(PORTER, OUTLOOK, read, noted, now_day, original)
    least, most = found.may_fall
    assert 0.0 <= least <= most < 0.2
    assert str(found.title)
    assert str(found.words)
    assert all(day >= 0.0 and str(what) for day, what in found.steps)
    for each in found.course:
        assert 0.9 < each.gravity.low <= each.gravity.value <= each.gravity.high < 1.3
    if found.standing is Standing.DONE:
        sure = [each for each in read if not each.by_refractometer]
        assert any(
            abs(one.gravity - other.gravity) <= 0.0011 and one.day - other.day >= 1.9
            for one in sure
            for other in sure
        )
        assert most <= MOST_LEFT_SG
    elif read:
        assert most >= 0.002
