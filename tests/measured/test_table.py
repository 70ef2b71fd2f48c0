"""The table of what is measured: a figure over its bound, and one that failed, are told."""

import json
from pathlib import Path

import pytest

from tests.measured import __main__ as table

NOTES = """
import sys
from pathlib import Path
sys.path.insert(0, {benchmarks!r})
from figures import note
for value in (3.0, 9.0, 4.0):
    note("a key", value, "ms", bound=5.0)
note("memory", {memory}, "x", bound=1.8)
raise SystemExit({code})
"""


@pytest.mark.parametrize(
    ("memory", "code", "told"), [(1.7, 0, (0, 0)), (1.9, 1, (1, 0)), (1.7, 1, (0, 1))]
)
def test_a_figure_over_its_bound_and_a_script_that_failed_are_told(
    tmp_path, monkeypatch, capsys, memory, code, told
):
    script = tmp_path / "made_up.py"
    script.write_text(NOTES.format(benchmarks=str(table.BENCHMARKS), memory=memory, code=code))
    monkeypatch.setattr(table, "BENCHMARKS", tmp_path)
    monkeypatch.setattr(table, "SPEED", (table.Script("made_up.py"),))
    out = tmp_path / "figures.json"
    monkeypatch.setattr("sys.argv", ["measured", "--json", str(out)])
    assert table.main() == (1 if any(told) else 0)
    found = json.loads(out.read_text())
    assert [each["value"] for each in found["figures"]] == [4.0, memory]  # the median of three
    over, failed = told
    assert [each["is_over"] for each in found["figures"]] == [False, bool(over)]
    assert len(found["failed"]) == failed
    assert f"2 figures, {over} over their bound, {failed} scripts failed" in capsys.readouterr().out


def test_every_script_of_the_table_is_there():
    assert all((table.BENCHMARKS / each.file).is_file() for each in (*table.SPEED, *table.SOAKS))
    assert Path(table.BENCHMARKS / "figures.py").is_file()
