"""What begins in a copy of a loaded process is what a new Python would be."""

import os
import subprocess

import pytest

from .real_program import TOP
from .warm_start import Copy, begin, begin_anew

TELLS = """
import atexit, os, sys, threading
given = sys.stdin.readline()
told = {k: v for k, v in sorted(os.environ.items()) if k != "OPENBLAS_NUM_THREADS"}
print(__name__, sys.argv, os.getcwd(), told, given, sys.stdout.encoding, sys.stdout.line_buffering)
print(threading.active_count(), sys.path, sorted(map(int, os.listdir("/proc/self/fd")))[:3])
atexit.register(print, "at the end", file=sys.stderr)
"""
COPYS_OWN = b'  File "<string>", line 1, in <module>\n'
"""A copy runs its code from a first line of its own, which a traceback tells."""
ENVIRONMENT = {**os.environ, "PYTHONPATH": str(TOP), "HOBWORT_STORE": "another", "TEST_GATE": "é"}

pytestmark = pytest.mark.skipif(not hasattr(os, "pidfd_open"), reason="copies are made on Linux")


@pytest.mark.parametrize("last", ["", "sys.exit(3)", "raise ValueError('é')", "os._exit(4)"])
def test_it_is_told_the_same_and_ends_the_same(tmp_path, last):
    ends = []
    for how in (begin, begin_anew):
        with (tmp_path / how.__name__).open("w+b") as errors:
            one = how(TELLS + last, ["-x", "a b"], ENVIRONMENT, tmp_path, errors)
            assert isinstance(one, Copy) is (how is begin)
            one.stdin.write(b"said\n")
            one.stdin.close()
            said = one.stdout.read()
            one.stdout.close()
            code = one.wait(timeout=60)
            errors.seek(0)
            told = errors.read().replace(COPYS_OWN, b"")
            ends.append((code, said, told))
            assert one.poll() == code
    assert ends[0] == ends[1]
    assert b"a b" in ends[0][1] or last == "os._exit(4)"  # Nothing is flushed by that one.


def test_it_is_waited_for_and_killed(tmp_path):
    with (tmp_path / "errors").open("wb") as errors:
        one = begin("import time; time.sleep(60)", [], ENVIRONMENT, tmp_path, errors)
    assert one.poll() is None
    with pytest.raises(subprocess.TimeoutExpired):
        one.wait(timeout=0.01)
    one.kill()
    assert one.wait(timeout=60) == one.returncode == -9
    one.kill()
    one.stdin.close()
    one.stdout.close()


@pytest.mark.parametrize("name", ["LANG", "LC_ALL", "TZ", "TMPDIR", "PYTHONUTF8"])
def test_what_python_reads_at_its_start_is_read_by_a_new_one(tmp_path, name):
    with (tmp_path / "errors").open("wb") as errors:
        one = begin("", [], {**ENVIRONMENT, name: "1"}, tmp_path, errors)
        assert isinstance(one, subprocess.Popen)
        one.communicate(timeout=60)
