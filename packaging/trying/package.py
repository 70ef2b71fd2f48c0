"""The package of Debian: installed, used, opened by the type of a recipe, read, and removed."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

from trying.checks import check
from trying.machines import Machine
from trying.screens import display
from trying.shells import try_shells
from trying.work import EXAMPLE, RECIPE, try_program, try_window

MIME_TYPE = "application/x-hobwort-recipe"
DESKTOP_FILE = "org.hobwort.hobwort.desktop"
DESKTOP_TOOLS = [
    "xdg-utils", "shared-mime-info", "desktop-file-utils", "libglib2.0-bin", "man-db",
    "bash-completion", "zsh", "fish",
]  # fmt: skip
READERS = ["lintian", "appstream", "groff"]
"""What reads the package with care; lintian is that of Debian 12, for which it is made."""


def try_package(machine: Machine, deb: Path, pictures: Path, version: str) -> None:
    """Install the package on a clean machine, use it, open a recipe by its type, remove it."""
    assert machine.root is not None
    try_installed(machine, deb, pictures / "deb.png", version)
    done = machine.install(*DESKTOP_TOOLS, *READERS)
    check("a desktop's tools are put beside it", done.returncode == 0, done.stdout + done.stderr)
    try_removed(machine, "dpkg", "-P")
    done = machine.run("dpkg", "-i", "/tmp/hobwort.deb", as_root=True)
    check("it is installed once more", done.returncode == 0, done.stdout + done.stderr)
    _try_desktop(machine, pictures)
    _read_with_care(machine)
    try_shells(machine)
    try_removed(machine, "apt-get", "-y", "purge")


def try_installed(machine: Machine, deb: Path, picture: Path, version: str) -> None:
    """Install the package, with what it depends on, and let it do its work."""
    assert machine.root is not None
    shutil.copy(deb, machine.root / "tmp" / "hobwort.deb")
    done = machine.install("/tmp/hobwort.deb")
    check("it installs, with what it depends on", done.returncode == 0, done.stdout + done.stderr)
    try_program(machine, "hobwort", picture, version)


def try_removed(machine: Machine, *words: str) -> None:
    """Remove the package by some words, without a trace."""
    assert machine.root is not None
    done = machine.run(*words, "hobwort", as_root=True)
    check("it is removed", done.returncode == 0, done.stdout + done.stderr)
    left = _traces(machine.root)
    check("nothing of it is left", not left, left)
    recipe = machine.home / f"{RECIPE}.hobwort"
    kept = machine.home / ".local" / "share" / "hobwort"
    check("but the brewer's recipes", recipe.is_file() and any(kept.iterdir()), kept)


def _try_desktop(machine: Machine, pictures: Path) -> None:
    """Open a recipe as a desktop does, and read the manual."""
    recipe = machine.inside(machine.home / f"{RECIPE}.hobwort")
    nameless = machine.home / "from a letter"
    shutil.copy(EXAMPLE, nameless)
    type_of = ["gio", "info", "-a", "standard::content-type"]
    for what, words, told in (
        ("the type of a recipe is known by its name", [*type_of, recipe], MIME_TYPE),
        ("and by what is in it", [*type_of, machine.inside(nameless)], MIME_TYPE),
        ("Hobwort opens that type", ["xdg-mime", "query", "default", MIME_TYPE], DESKTOP_FILE),
        ("the manual has its page", ["man", "hobwort"], "hobwort forecast"),
        ("in German too", ["man", "-L", "de", "hobwort"], "BEZEICHNUNG"),
    ):
        done = machine.run(*words)
        check(what, done.returncode == 0 and told in done.stdout, done.stdout + done.stderr)
    with display():
        try_window(machine, ["gio", "open", recipe], pictures / "opened_by_type.png")


def _read_with_care(machine: Machine) -> None:
    """Let those read the package who know what Debian and desktops want of one."""
    share = "/usr/share"
    pages = [f"{share}/man/{folder}man1/hobwort.1.gz" for folder in ("", "de/", "fr/")]
    for what, words in (
        ("desktop-file-validate",
         ["desktop-file-validate", f"{share}/applications/{DESKTOP_FILE}"]),
        ("appstreamcli", ["appstreamcli", "validate", "--no-net", "--no-color",
                          f"{share}/metainfo/org.hobwort.hobwort.metainfo.xml"]),
        *((f"man, of {page}", ["man", "--warnings", "-E", "UTF-8", "-l", "-Tutf8", "-Z", page])
          for page in pages),
    ):  # fmt: skip
        done = machine.run(*words)
        check(f"nothing to complain of: {what}", done.returncode == 0 and not done.stderr,
              done.stdout[-600:] + done.stderr)  # fmt: skip
    done = machine.run("lintian", "--display-info", "/tmp/hobwort.deb")
    told = [
        line
        for line in done.stdout.splitlines()
        if line.startswith(("E:", "W:")) or "unused-override" in line or "mismatched" in line
    ]
    check("nothing to complain of: lintian, of the package and of what is let pass",
          not told and "hobwort:" in done.stdout, told or done.stderr)  # fmt: skip


def installed_mb(deb: Path) -> float:
    """Return how much a package takes once it is installed, in MB, as it says itself."""
    words = ["dpkg-deb", "-f", str(deb), "Installed-Size"]
    return int(subprocess.run(words, capture_output=True, text=True, check=True).stdout) / 1024


def _traces(root: Path) -> list[str]:
    """Return what is left of the package, by name or in what the desktop knows."""
    named = [
        str(path.relative_to(root))
        for folder in ("usr", "etc", "var/lib", "var/cache", "opt")
        for path in (root / folder).rglob("*hobwort*")
    ]
    told = [
        str(path.relative_to(root))
        for path in (
            root / "usr/share/applications/mimeinfo.cache",
            root / "usr/share/mime/globs2",
            root / "usr/share/mime/magic",
        )
        if path.is_file() and b"hobwort" in path.read_bytes()
    ]
    return named + told
