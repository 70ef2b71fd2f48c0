"""Print every figure from elsewhere beside ours: `python -m tests.proof`."""

import sys
from collections.abc import Iterator

from tests.proof import table
from tests.proof.measurement import Measurement
from tests.proof.row import Row


def printed(rows: list[Row | Measurement]) -> Iterator[str]:
    """The whole proof: table, what is left out, counts."""
    yield from table.lines(rows)
    yield from table.left_out()
    yield ""
    yield from table.counts(rows)


def main() -> int:
    """Print the proof; 1 if a row does not hold or a measured brew lies outside unexplained."""
    rows = [*table.all_rows(), *table.measurements()]
    print("\n".join(printed(rows)))  # noqa: T201 - the answer
    return 0 if all(row.holds for row in rows) else 1


if __name__ == "__main__":
    sys.exit(main())
