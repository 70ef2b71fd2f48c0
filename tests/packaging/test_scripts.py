"""The set-up scripts: what the README promises of them, and how they refuse.

The system here is a small one made for the test: a PATH of links, a dpkg that knows no package, an
apt-get that writes down what it was asked, a Python that is one only by name. Nothing is installed.
"""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

from designer.command_line import usage

TOP = Path(__file__).parents[2]
SCRIPTS = sorted((TOP / "packaging").glob("*.sh"))
NOBODY = 65534
NEEDED = (
    "sh",
    "dirname",
    "basename",
    "cat",
    "cksum",
    "id",
    "mktemp",
    "rm",
    "tail",
    "env",
    "flock",
    "grep",
    "mv",
)
# Asked for its version it is a 3.11; asked to do anything, it does not; it has no venv module.
PYTHON = """#!/bin/sh
case "$*" in
    *'(3, 11) <='*) exit 0 ;;
    *'%d.%d.%d'*) echo 3.11.2 ;;
    *) exit 1 ;;
esac
"""
APT = '#!/bin/sh\necho "$*" >>"$ASKED"\nexit 100\n'


@dataclass
class Machine:
    """A made-up machine with a checkout on it."""

    checkout: Path
    programs: Path
    asked: Path
    as_root: bool

    def runs(
        self, script: str, *words: str, **environment: str
    ) -> subprocess.CompletedProcess[str]:
        """Run one of the scripts there, from the root folder."""
        settings = {"PATH": str(self.programs), "ASKED": str(self.asked), **environment}
        user = {} if self.as_root or os.getuid() != 0 else {"user": NOBODY, "extra_groups": []}
        return subprocess.run(
            [shutil.which("sh") or "sh", str(self.checkout / "packaging" / script), *words],
            capture_output=True,
            text=True,
            timeout=60,
            cwd="/",
            env=settings,
            **user,
        )

    def has(self, name: str, text: str) -> None:
        """Put a program on the PATH."""
        path = self.programs / name
        path.unlink(missing_ok=True)  # a link leads to the program of the real system
        path.write_text(text, "utf-8")
        path.chmod(0o755)


@pytest.fixture
def bare_machine() -> Iterator[Machine]:
    """A machine with a Python 3.11 without venv and none of Qt's libraries, and no sudo."""
    # Not under pytest's own folder: that is closed to the other user, who runs the scripts.
    home = Path(tempfile.mkdtemp(prefix="hobwort kitchen "))
    home.chmod(0o755)
    machine = Machine(home / "a checkout", home / "bin", home / "asked", as_root=False)
    machine.programs.mkdir()
    machine.asked.touch()
    machine.asked.chmod(0o666)
    for name in NEEDED:
        (machine.programs / name).symlink_to(shutil.which(name) or name)
    machine.has("dpkg-query", "#!/bin/sh\nexit 1\n")
    machine.has("apt-get", APT)
    machine.has("python3", PYTHON)
    (machine.checkout / "packaging").mkdir(parents=True)
    for script in SCRIPTS:
        shutil.copy(script, machine.checkout / "packaging")
    shutil.copy(TOP / "pyproject.toml", machine.checkout)
    machine.checkout.chmod(0o777)
    yield machine
    shutil.rmtree(home)


def code_blocks(name: str) -> list[list[str]]:
    """Return the shell blocks of a page, comments taken off."""
    text = (TOP / name).read_text("utf-8")
    blocks = re.findall(r"```sh\n(.*?)```", text, flags=re.DOTALL)
    return [[line.split("#")[0].strip() for line in block.splitlines()] for block in blocks]


def test_the_readme_begins_with_two_commands_that_exist():
    first = code_blocks("README.md")[0]
    assert first == ["sh packaging/run.sh", "sh packaging/test.sh"]
    for command in first:
        assert (TOP / command.split()[1]).is_file()


def test_the_readme_tells_the_job_before_anything_else():
    title, _, job, *_ = (TOP / "README.md").read_text("utf-8").splitlines()
    assert title == "# Hobwort"
    assert "brew day" in job
    assert len(job) > 200


def test_the_readme_tells_every_command_of_the_program():
    [lines] = [block for block in code_blocks("README.md") if block[0].startswith("hobwort")]
    told = {line.split()[1] for line in lines} - {"[FILE]"}
    assert told == set(usage.COMMANDS) - {"open"}


def test_the_continuous_check_runs_the_command_of_the_readme():
    check = (TOP / ".ci" / "run").read_text("utf-8")
    assert re.search(r"^check sh packaging/test\.sh\b", check, flags=re.MULTILINE)


@pytest.mark.parametrize("shell", ["sh", "dash", "bash"])
@pytest.mark.parametrize("script", SCRIPTS, ids=lambda path: path.name)
def test_scripts_can_be_read_by_every_shell(shell, script):
    if shutil.which(shell) is None:
        pytest.skip(f"no {shell} here")
    done = subprocess.run([shell, "-n", str(script)], capture_output=True, text=True)
    assert done.returncode == 0, done.stderr


def test_without_rights_the_missing_packages_are_named_with_the_way_to_get_them(bare_machine):
    done = bare_machine.runs("test.sh")
    assert done.returncode == 1
    assert "neither are you root nor is there sudo" in done.stdout
    assert re.search(r"as root: apt-get install .*libegl1.*fonts-dejavu-core", done.stdout)
    assert "as root: apt-get install python3.11-venv" in done.stdout
    assert bare_machine.asked.read_text("utf-8") == ""
    assert done.stderr == ""


def test_windows_need_more_libraries_than_paper(bare_machine):
    without = bare_machine.runs("run.sh")
    with_display = bare_machine.runs("run.sh", DISPLAY=":7")
    assert "libxcb-cursor0" not in without.stdout
    assert "libxcb-cursor0" in with_display.stdout


def test_sudo_is_asked_where_there_is_one(bare_machine):
    bare_machine.has("sudo", '#!/bin/sh\necho "sudo $*" >>"$ASKED"\n')
    bare_machine.runs("test.sh")
    asked = bare_machine.asked.read_text("utf-8").splitlines()
    assert "sudo apt-get update -q" in asked
    assert any("install -q -y --no-install-recommends libgl1" in line for line in asked)


def test_for_all_tests_a_browser_is_installed_and_where_there_is_none_that_is_said(bare_machine):
    bare_machine.has("sudo", '#!/bin/sh\necho "sudo $*" >>"$ASKED"\n')
    bare_machine.runs("test.sh")
    assert "chromium" not in bare_machine.asked.read_text("utf-8")
    done = bare_machine.runs("test.sh", "--browser")
    asked = bare_machine.asked.read_text("utf-8")
    assert re.search(r"install -q -y --no-install-recommends chromium-headless-shell$", asked, re.M)
    assert re.search(r"install -q -y --no-install-recommends chromium$", asked, re.M)
    assert "the tests of the page for a phone are skipped" in done.stdout
    bare_machine.has("chromium", "#!/bin/sh\n")
    bare_machine.asked.write_text("", "utf-8")
    done = bare_machine.runs("test.sh", "--browser")
    assert "chromium" not in bare_machine.asked.read_text("utf-8") + done.stdout


def test_the_system_is_left_alone_when_told_so(bare_machine):
    bare_machine.has("sudo", '#!/bin/sh\necho "sudo $*" >>"$ASKED"\n')
    done = bare_machine.runs("test.sh", HOBWORT_SYSTEM_PACKAGES="no")
    assert bare_machine.asked.read_text("utf-8") == ""
    assert "libgl1" not in done.stdout
    assert "venv module is missing" in done.stdout


def with_environments(machine, pip_says, pip_answers):
    """Let the Python make environments, whose pip writes down its words and ends so."""
    pip = f'#!/bin/sh\necho "$*" >>"$ASKED"\necho "{pip_says}" >&2\nexit {pip_answers}\n'
    makes = (
        "*'ensurepip'*) exit 0 ;;\n    *'-m venv --clear'*) /bin/mkdir -p \"$4/bin\" &&"
        f" printf '%s' '{pip}' >\"$4/bin/python\" && /bin/chmod 755 \"$4/bin/python\" ;;\n    *)"
    )
    machine.has("python3", PYTHON.replace("*)", makes))


NO_SERVER = "Failed to establish a new connection: Temporary failure in name resolution"


def test_without_a_connection_that_is_said_and_what_was_there_is_kept(bare_machine):
    with_environments(bare_machine, NO_SERVER, 1)
    before = bare_machine.checkout / ".venv-hobwort"
    (before / "bin").mkdir(parents=True)
    (before / "stamp").write_text("of an older Hobwort", "utf-8")
    (before / "bin" / "hobwort").write_text("", "utf-8")
    before.chmod(0o777)
    done = bare_machine.runs("test.sh", HOBWORT_SYSTEM_PACKAGES="no")
    assert done.returncode == 1
    assert "there is no connection to the servers of the Python packages." in done.stdout
    assert "HOBWORT_WHEELS=FOLDER" in done.stdout
    assert "resolution" not in done.stdout + done.stderr
    assert (before / "stamp").read_text("utf-8") == "of an older Hobwort"
    assert (before / "bin" / "hobwort").exists()
    bare_machine.has("sudo", f'#!/bin/sh\necho "{NO_SERVER}" >&2\nexit 100\n')
    told = bare_machine.runs("run.sh").stdout
    assert "no connection to the servers of the system's packages" in told
    assert "resolution" not in told
    with_environments(bare_machine, "No matching distribution found for pint", 1)
    told = bare_machine.runs("run.sh", HOBWORT_SYSTEM_PACKAGES="no").stdout
    assert "No matching distribution found for pint" in told
    assert "no connection" not in told


def test_packages_come_from_a_folder_of_wheels_where_one_is_given(bare_machine):
    with_environments(bare_machine, "", 0)
    wheels = bare_machine.checkout / "my wheels"
    words = {"HOBWORT_SYSTEM_PACKAGES": "no", "HOBWORT_WHEELS": str(wheels)}
    done = bare_machine.runs("test.sh", **words)
    assert done.returncode == 1
    assert f"HOBWORT_WHEELS is {wheels}, which is no folder." in done.stdout
    assert bare_machine.asked.read_text("utf-8") == ""
    wheels.mkdir()
    bare_machine.runs("test.sh", **words)
    asked = bare_machine.asked.read_text("utf-8").splitlines()[0]
    assert f"--no-index --find-links {wheels} -e {bare_machine.checkout}[dev]" in asked
    assert (bare_machine.checkout / ".venv-hobwort" / "stamp").read_text("utf-8").strip()


def test_a_checkout_that_cannot_be_written_is_refused_with_a_way_out(bare_machine):
    bare_machine.has("python3", PYTHON.replace("*)", "*'ensurepip'*) exit 0 ;;\n    *)"))
    bare_machine.checkout.chmod(0o555)
    done = bare_machine.runs("test.sh")
    assert done.returncode == 1
    assert f"cannot write in {bare_machine.checkout}" in done.stdout
    assert "Copy the folder" in done.stdout
    assert done.stderr == ""


def test_a_python_too_old_or_too_new_is_refused_by_its_name(bare_machine):
    bare_machine.has("python3", '#!/bin/sh\n[ "$1" = --version ] && echo Python 3.10.2\n')
    done = bare_machine.runs("run.sh")
    assert done.returncode == 1
    assert "Python 3.11, 3.12 or 3.13 is needed; python3 here is: Python 3.10.2" in done.stdout


def test_where_there_is_no_python_that_is_said_in_words(bare_machine):
    (bare_machine.programs / "python3").unlink()
    done = bare_machine.runs("run.sh")
    assert done.returncode == 1
    assert "as root: apt-get install python3" in done.stdout
    assert "python3 here is: none" in done.stdout
    assert done.stderr == ""


def test_a_python_named_in_vain_is_refused_and_not_replaced(bare_machine):
    done = bare_machine.runs("run.sh", HOBWORT_PYTHON="/nowhere/my python3.12")
    assert done.returncode == 1
    assert "HOBWORT_PYTHON is /nowhere/my python3.12" in done.stdout


def test_scripts_have_the_line_ends_of_a_shell():
    for script in SCRIPTS:
        assert b"\r" not in script.read_bytes()
