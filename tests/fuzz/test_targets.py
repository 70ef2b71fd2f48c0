"""A sample of what `python -m tests.fuzz` tries by the hour."""

import random
import subprocess
import sys
from contextlib import suppress

import pytest

from designer.errors import DesignerError

from .targets import TARGETS

NAMES = [each.name for each in TARGETS]


@pytest.mark.parametrize("target", TARGETS, ids=NAMES)
def test_what_is_begun_with_is_taken_and_what_is_made_of_it_by_chance_never_fails(target, tmp_path):
    chance = random.Random(target.name)
    taken = 0
    for seed in target.seeds():
        target.attempt(seed, tmp_path)
        taken += 1
        for _ in range(6):
            made = bytearray(seed[: target.longest])
            for _ in range(chance.choice((1, 3, 30))):
                made[chance.randrange(len(made))] = chance.randrange(256)
            with suppress(DesignerError):
                target.attempt(bytes(made[: chance.choice((len(made), len(made) // 2))]), tmp_path)
    assert taken


def test_the_guard_hears_what_must_not_happen(tmp_path):
    code = """
import socket, sys
from pathlib import Path
from tests.fuzz.guard import ForbiddenError, Guard
folder = Path(sys.argv[1])
guard = Guard(folder, (Path(sys.prefix),))
(folder / "outside.txt").write_text("x")
heard = 0
for forbidden in (
    lambda: eval("1 + 1"),
    lambda: socket.socket().connect_ex(("127.0.0.1", 1)),
    lambda: Path("/etc/hostname").read_bytes(),
    lambda: (folder.parent / "elsewhere").write_text("x"),
):
    try:
        with guard:
            forbidden()
    except ForbiddenError:
        heard += 1
with guard:
    (folder / "inside").write_text("x")
print(heard)
"""
    done = subprocess.run(
        [sys.executable, "-c", code, str(tmp_path)], capture_output=True, text=True, check=True
    )
    assert done.stdout.split() == ["4"], done.stderr
