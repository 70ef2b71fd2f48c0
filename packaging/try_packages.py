"""Try what is handed out as those would to whom it is handed: package, bundle, wheel and checkout.

    python packaging/try_packages.py [--deb FILE] [--bundle FOLDER] [--wheel FILE] [--checkout]
        [--releases] [--pictures FOLDER]

The package is installed on a clean Debian 12, opened by the MIME type of a recipe, read by lintian
and its like, completed in three shells, and removed without a trace; the bundle is unpacked there,
the wheel goes into a fresh environment. Each forecasts, fits, finds, writes sheet, pocket page and
guide, and opens its window, which is looked at on X11 and on Wayland. With --releases the package
goes onto Debian 13 and Ubuntu 24.04 too; with --checkout README's two commands are given on all
three. It ends with sizes and times. Where no clean machine can be made that is said, and package
and bundle are tried unpacked.
"""

from __future__ import annotations

import argparse
import subprocess
import sys
import tempfile
import venv
from pathlib import Path

from trying.bundle import try_bundle
from trying.checkout import try_checkout
from trying.checks import failed, say
from trying.machines import (
    DEBIAN_12,
    DEBIAN_13,
    UBUNTU_24_04,
    Machine,
    Release,
    clean_machine,
)
from trying.package import installed_mb, try_installed, try_package, try_removed
from trying.work import try_program

TOP = Path(__file__).parents[1]

Row = tuple[str, float, Machine]
"""What was tried, how much it takes in MB, and where: that has the times."""


def main() -> int:
    """Try what is named; return 1 where anything failed."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    for name in ("--deb", "--bundle", "--wheel"):
        parser.add_argument(name, type=Path)
    parser.add_argument("--checkout", action="store_true", help="README's two commands too")
    parser.add_argument("--releases", action="store_true", help="Debian 13 and Ubuntu 24.04 too")
    parser.add_argument("--pictures", type=Path, help="where pictures of the windows go")
    chosen = parser.parse_args()
    with tempfile.TemporaryDirectory(prefix="hobwort_tried.") as name:
        folder = Path(name)
        folder.chmod(0o755)
        chosen.pictures = chosen.pictures or folder / "pictures"
        chosen.pictures.mkdir(parents=True, exist_ok=True)
        rows = [*_tried_wheel(chosen, folder), *_tried_on_debian(chosen, folder)]
        if chosen.releases and chosen.deb is not None:
            for release in (DEBIAN_13, UBUNTU_24_04):
                rows += _tried_on_release(chosen, release)
        if chosen.checkout:
            for release in (DEBIAN_12, DEBIAN_13, UBUNTU_24_04):
                _try_checkout_on(release)
    _print_table(rows)
    for each in failed:
        say(f"failed: {each}")
    return 1 if failed else 0


def _version() -> str:
    text = (TOP / "designer" / "__init__.py").read_text("utf-8")
    number = text.partition('__version__ = "')[2].partition('"')[0]
    return f"hobwort {number}"


def _here(home: Path) -> Machine:
    home.mkdir()
    return Machine(home)


def _tried_wheel(chosen: argparse.Namespace, folder: Path) -> list[Row]:
    """Install the wheel into a fresh environment of this machine, and use it."""
    if chosen.wheel is None:
        return []
    say("the wheel, in a fresh environment")
    environment = folder / "environment"
    venv.create(environment, with_pip=True)
    pip = [str(environment / "bin" / "pip"), "install", "-q", "--disable-pip-version-check"]
    subprocess.run([*pip, str(chosen.wheel)], check=True)
    program = environment / "bin" / "hobwort"
    machine = _here(folder / "at home with the wheel")
    try_program(machine, str(program), chosen.pictures / "wheel.png", _version())
    return [("wheel", _size_mb(environment), machine)]


def _tried_on_debian(chosen: argparse.Namespace, folder: Path) -> list[Row]:
    """Try package and bundle on a clean Debian 12, else unpacked."""
    if chosen.deb is None and chosen.bundle is None:
        return []
    rows: list[Row] = []
    with clean_machine(DEBIAN_12) as debian:
        if debian is None:
            say("no clean Debian can be made here (root and debootstrap are needed)")
            return _tried_unpacked(chosen, folder)
        if chosen.deb is not None:
            say(f"the package, on {DEBIAN_12.name}")
            try_package(debian, chosen.deb, chosen.pictures, _version())
            machine = Machine(debian.home, debian.root, times=dict(debian.times))
            rows.append(("Debian package", installed_mb(chosen.deb), machine))
        if chosen.bundle is not None:
            say(f"the bundle, on {DEBIAN_12.name}")
            try_bundle(debian, chosen.bundle, chosen.pictures / "bundle.png", _version())
            rows.append(("bundle", _size_mb(chosen.bundle), debian))
    return rows


def _tried_unpacked(chosen: argparse.Namespace, folder: Path) -> list[Row]:
    rows: list[Row] = []
    programs = {}
    if chosen.deb is not None:
        unpacked = folder / "package"
        subprocess.run(["dpkg-deb", "-x", str(chosen.deb), str(unpacked)], check=True)
        programs["package"] = (unpacked / "usr/bin/hobwort", installed_mb(chosen.deb))
    if chosen.bundle is not None:
        programs["bundle"] = (chosen.bundle / "hobwort", _size_mb(chosen.bundle))
    for name, (program, size) in programs.items():
        say(f"the {name}, unpacked")
        machine = _here(folder / f"at home with the {name}")
        try_program(machine, str(program), chosen.pictures / f"{name}.png", _version())
        rows.append((f"{name}, unpacked", size, machine))
    return rows


def _tried_on_release(chosen: argparse.Namespace, release: Release) -> list[Row]:
    """Install the package on a later release, use it, and remove it."""
    say(f"the package, on {release.name}")
    with clean_machine(release) as machine:
        if machine is None:
            say(f"  no clean {release.name} can be made here")
            return []
        picture = chosen.pictures / f"deb_on_{release.folder}.png"
        try_installed(machine, chosen.deb, picture, _version())
        try_removed(machine, "apt-get", "-y", "purge")
        return [(f"package, {release.name}", installed_mb(chosen.deb), machine)]


def _try_checkout_on(release: Release) -> None:
    say(f"README's two commands, on {release.name}")
    with clean_machine(release) as machine:
        if machine is None:
            say(f"  no clean {release.name} can be made here")
        else:
            try_checkout(machine)


def _size_mb(path: Path) -> float:
    """Return how much a folder takes, in MB."""
    done = subprocess.run(["du", "-sk", str(path)], capture_output=True, text=True, check=True)
    return int(done.stdout.split()[0]) / 1024


def _print_table(rows: list[Row]) -> None:
    if not rows:
        return
    names = list(rows[0][2].times)
    say(f"\n{'':26}{'installed':>12}" + "".join(f"{each:>20}" for each in names))
    for name, size, machine in rows:
        told = "".join(f"{machine.times.get(each, float('nan')):>18.2f} s" for each in names)
        say(f"{name:26}{size:>9.0f} MB{told}")


if __name__ == "__main__":
    sys.exit(main())
