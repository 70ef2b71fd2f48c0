from datetime import date

import pytest

from designer import translation
from designer.errors import RefusedInputError
from designer.units.days import day_in_figures, read_day

DAY = date(2026, 3, 28)


@pytest.fixture(params=["en", "de", "fr"])
def code(request):
    translation.use(None, request.param)
    yield request.param
    translation.use(None)


def test_a_day_that_is_shown_reads_back(code):
    assert read_day(day_in_figures(DAY)) == DAY
    assert read_day("2026-03-28") == DAY
    if code != "en":
        assert read_day("28.3.2026") == read_day("28. 3. 26") == read_day("28/3/2026") == DAY


def test_the_day_is_first_only_where_that_is_usual():
    with pytest.raises(RefusedInputError, match="such as 2026-03-28"):
        read_day("3/4/2026")
    translation.use(None, "fr")
    try:
        assert read_day("3/4/2026") == date(2026, 4, 3)
        with pytest.raises(RefusedInputError, match="write 28/03/2026"):
            read_day("31/2/2026")
    finally:
        translation.use(None)


@pytest.mark.parametrize("typed", ["", "28.3", "2026-3-28", "31.2.2026", "28.3/2026", "1.1.0"])
def test_what_is_no_day_is_refused(code, typed):
    with pytest.raises(RefusedInputError):
        read_day(typed)
