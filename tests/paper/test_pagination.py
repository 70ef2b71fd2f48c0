"""Rows put on pages: heads stay with what follows, type shrinks before a page is begun."""

import pytest

from designer.paper.pagination import Row, paginated


def _row(height, keep=False, stretches=False, again=None):
    def paint(painter, x, y, given):
        raise AssertionError("nothing is painted here")

    return Row(height, paint, keep=keep, stretches=stretches, again=again)


def test_a_head_is_never_left_alone_at_the_foot():
    head = _row(10.0, keep=True)
    body = _row(50.0)
    pages = paginated([lambda: [_row(95.0), head, body]], 110.0)
    assert [placed.row for placed in pages[1]] == [head, body]


def test_a_broken_part_repeats_its_head_on_the_next_page():
    again = _row(10.0)
    rows = [_row(60.0, again=again) for _ in range(3)]
    pages = paginated([lambda: rows], 100.0)
    assert [page[0].row for page in pages] == [again] * 3


def test_what_stretches_takes_what_is_left_of_its_page():
    pages = paginated([lambda: [_row(30.0), _row(10.0, stretches=True)]], 100.0)
    assert pages[0][1].height == pytest.approx(70.0)


def test_type_shrinks_before_a_last_page_is_begun_for_a_few_lines():
    roomy = lambda: [_row(60.0), _row(60.0)]  # noqa: E731
    dense = lambda: [_row(45.0), _row(45.0)]  # noqa: E731
    assert len(paginated([roomy, dense], 100.0)) == 1
    assert paginated([roomy, dense], 130.0)[0][0].height == 60.0


def test_a_row_that_stretches_starts_no_page_of_its_own_when_it_fits():
    pages = paginated([lambda: [_row(90.0), _row(10.0, stretches=True)]], 100.0)
    assert len(pages) == 1


def test_type_shrinks_rather_than_begin_a_page_for_the_lines_to_write_on():
    roomy = lambda: [_row(95.0), _row(20.0, stretches=True)]  # noqa: E731
    dense = lambda: [_row(70.0), _row(20.0, stretches=True)]  # noqa: E731
    (page,) = paginated([roomy, dense], 100.0)
    assert [each.height for each in page] == [70.0, 30.0]


def test_two_pages_may_be_asked_for_where_one_would_do():
    roomy = lambda: [_row(60.0), _row(60.0)]  # noqa: E731
    dense = lambda: [_row(45.0), _row(45.0)]  # noqa: E731
    assert len(paginated([roomy, dense], 100.0, wanted=2)) == 2
    assert len(paginated([roomy, dense], 100.0, wanted=1)) == 1
