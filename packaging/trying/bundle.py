"""The bundle: unpacked on a machine that has what any desktop has, used, put into its menus."""

from __future__ import annotations

import subprocess
from pathlib import Path

from trying.checks import check
from trying.machines import Machine
from trying.work import try_program

A_DESKTOP_HAS = [
    "libgl1", "libegl1", "libfontconfig1", "libfreetype6", "libdbus-1-3", "libglib2.0-0",
    "libx11-xcb1", "libxcb-randr0", "libxcb-render0", "libxcb-shm0", "libxcb-sync1",
    "libxcb-xfixes0", "libwayland-cursor0", "libwayland-client0", "xkb-data",
]  # fmt: skip
"""What the bundle counts on."""


def try_bundle(machine: Machine, bundle: Path, picture: Path, version: str) -> None:
    """Unpack the bundle on a machine that has what any desktop has, and no more, and use it."""
    assert machine.root is not None
    # What only the package asked for goes.
    machine.run("apt-get", "-y", "purge", "hobwort", as_root=True)
    done = machine.install(*A_DESKTOP_HAS)
    check("the machine has what any desktop has", done.returncode == 0, done.stderr)
    machine.run("apt-get", "-y", "autoremove", "--purge", as_root=True)
    own = machine.root / "usr/lib/x86_64-linux-gnu/libxcb-cursor.so.0"
    check("and not what the bundle carries", not own.exists(), own)
    unpacked = machine.home / "a folder" / bundle.name
    unpacked.parent.mkdir(parents=True, exist_ok=True)
    subprocess.run(["cp", "-a", str(bundle), str(unpacked.parent)], check=True)
    try_program(machine, machine.inside(unpacked / "hobwort"), picture, version)
    _try_menus(machine, unpacked)


def _try_menus(machine: Machine, bundle: Path) -> None:
    """Put the bundle into the brewer's own menus, and take it out."""
    script = machine.inside(bundle / "install.sh")
    before = _named_so(machine)  # what a shell makes of the package's manual by itself
    done = machine.run("sh", script)
    entry = machine.home / ".local/share/applications/org.hobwort.hobwort.desktop"
    named = machine.inside(bundle / "hobwort")
    is_in = entry.is_file() and f'Exec="{named}" open' in entry.read_text("utf-8")
    check("install.sh puts it into the menus", done.returncode == 0 and is_in, done.stderr)
    done = machine.run(machine.inside(machine.home / ".local/bin/hobwort"), "--version")
    check("and gives it a name in the terminal", done.returncode == 0, done.stderr)
    machine.run("sh", script, "--remove")
    own = machine.home / ".local/share/hobwort"  # the brewer's recipes, and what was logged
    left = [path for path in sorted(_named_so(machine) - before) if own not in path.parents]
    left += [path for path in (machine.home / ".local/bin").glob("hobwort") if path.is_symlink()]
    check("install.sh --remove takes it out", not left, left)
    check("and leaves the brewer's recipes", own.is_dir() and any(own.iterdir()), own)


def _named_so(machine: Machine) -> set[Path]:
    """Return what bears the program's name among the brewer's own files."""
    found = (machine.home / ".local").rglob("*hobwort*")
    return {path for path in found if path.name != "hobwort"}
