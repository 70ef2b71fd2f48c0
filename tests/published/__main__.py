"""Print every published figure beside ours: `python -m tests.published`."""

import sys
from collections.abc import Iterator

from tests.published import beer, days, hops_and_colour, water_and_wort
from tests.published.row import Row

SUBJECTS = (water_and_wort, hops_and_colour, beer, days)
HEADINGS = ("what", "published", "ours", "difference", "")


def all_rows() -> Iterator[Row]:
    """Every row of every subject."""
    for subject in SUBJECTS:
        yield from subject.rows()


def lines(rows: list[Row]) -> Iterator[str]:
    """The table as lines of text: a source, and below it what it says and what we say."""
    width = max(len(row.what) for row in rows)
    form = f"  {{:<{width}}} {{:>11}} {{:>11}} {{:>11}} {{}}"
    source = ""
    for row in rows:
        if row.source != source:
            source = row.source
            yield ""
            yield source
            yield form.format(*HEADINGS).rstrip()
        figures = (f"{value:.6g}" for value in (row.published, row.ours))
        mark = "" if row.holds else "NOT WITHIN " + f"{row.tolerance:g}"
        yield form.format(row.what, *figures, f"{row.difference:+.2g}", mark).rstrip()
        if row.why:
            yield f"      {'our day: ' if row.of_the_day else ''}{row.why}"


def main() -> int:
    """Print the table; 1 if a row does not hold."""
    rows = list(all_rows())
    print("\n".join(lines(rows)))  # noqa: T201 - the command's answer
    held = sum(row.holds for row in rows)
    print(f"\n{held} of {len(rows)} rows hold.")  # noqa: T201
    return 0 if held == len(rows) else 1


if __name__ == "__main__":
    sys.exit(main())
