"""Try what is handed out as those would to whom it is handed: package, bundle and wheel.

    python packaging/try_packages.py --deb FILE --bundle FOLDER --wheel FILE [--pictures FOLDER]

The package is installed on a clean Debian 12 in a folder of its own (made by debootstrap once, kept
in /var/tmp/hobwort_try), opened by the MIME type of a recipe, and removed without a trace; the
bundle is unpacked there, the wheel goes into a fresh environment. Each forecasts, fits, finds,
writes a sheet and opens its window, which is looked at on a screen of Xvfb. It ends with sizes and
times. Where no clean Debian can be made that is said, and the package is tried unpacked.
"""

from __future__ import annotations

import argparse
import os
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
import venv
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

TOP = Path(__file__).parents[1]
KEPT = Path("/var/tmp/hobwort_try/debian12")
EXAMPLE = TOP / "resources" / "examples" / "slipway_bitter.hobwort"
MIME_TYPE = "application/x-hobwort-recipe"
DESKTOP_FILE = "org.hobwort.hobwort.desktop"
ZSH_FILE = "/usr/share/zsh/vendor-completions/_hobwort"
DISPLAY = ":87"
BREWER = 1000
RUNS = 5
A_DESKTOP_HAS = [
    "libgl1", "libegl1", "libfontconfig1", "libfreetype6", "libdbus-1-3", "libglib2.0-0",
    "libx11-xcb1", "libxcb-randr0", "libxcb-render0", "libxcb-shm0", "libxcb-sync1",
    "libxcb-xfixes0", "libwayland-cursor0", "libwayland-client0",
]  # fmt: skip
"""What the bundle counts on."""
DESKTOP_TOOLS = [
    "xdg-utils", "shared-mime-info", "desktop-file-utils", "libglib2.0-bin", "man-db",
    "zsh", "fish",
]  # fmt: skip

failed: list[str] = []


def check(what: str, is_so: object, why: object = "") -> None:
    """Say whether something is as it should be, and remember it where not."""
    sys.stdout.write(f"  {'ok    ' if is_so else 'FAILED'} {what}\n")
    if not is_so:
        failed.append(what)
        sys.stdout.write(f"         {str(why)[-600:]}\n")
    sys.stdout.flush()


@dataclass
class Machine:
    """Where a program is run: this machine, or a folder that is taken for a machine's root."""

    home: Path
    root: Path | None = None
    path: str = "/usr/local/bin:/usr/bin:/bin"
    times: dict[str, float] = field(default_factory=dict)

    def words(self, words: Sequence[str], *, as_root: bool = False, **more: str) -> list[str]:
        """Return the words that run others here, with an environment that holds nothing else."""
        home = "/root" if as_root else self.inside(self.home)
        told = {"HOME": home, "PATH": f"{self.path}:/usr/sbin:/sbin", "LC_ALL": "C.UTF-8", **more}
        clean = ["env", "-i", *(f"{name}={value}" for name, value in told.items()), *words]
        if self.root is None:
            return clean
        user = [] if as_root else [f"--userspec={BREWER}:{BREWER}"]
        return ["chroot", *user, str(self.root), *clean]

    def inside(self, path: Path) -> str:
        """Return how a path is called there."""
        return str(path) if self.root is None else f"/{path.relative_to(self.root)}"

    def run(
        self, *words: str, as_root: bool = False, **more: str
    ) -> subprocess.CompletedProcess[str]:
        """Run words there and return what came of it."""
        return subprocess.run(
            self.words(words, as_root=as_root, **more),
            capture_output=True, text=True, timeout=600, stdin=subprocess.DEVNULL,
            cwd=self.home if self.root is None else "/",
        )  # fmt: skip

    def install(self, *packages: str) -> subprocess.CompletedProcess[str]:
        """Install packages of Debian, and what they depend on."""
        more = {name: value for name, value in os.environ.items() if "proxy" in name.lower()}
        return self.run(
            "apt-get", "install", "-y", "-q", "--no-install-recommends", *packages,
            as_root=True, DEBIAN_FRONTEND="noninteractive", **more,
        )  # fmt: skip


# --- what every Hobwort has to do ----------------------------------------------------------


def try_program(machine: Machine, hobwort: str, picture: Path, version: str) -> None:
    """Let a Hobwort do its work on a machine."""
    recipe = machine.home / "Slipway Bitter.hobwort"
    shutil.copy(EXAMPLE, recipe)
    named = machine.inside(recipe)
    for words, told in (
        (["--version"], version),
        (["forecast", named], "gravity"),
        (["fit", named, "--pot", "7 L", "--fermenter", "12 L"], "ways"),
        (["convert", "1.5 stone", "kg"], "9.5"),
        (["unit-words"], "{"),  # made by pint, which the window asks for it in another process
        (["glossary", "krausen"], "ferment"),
    ):
        done = machine.run(hobwort, *words)
        check(" ".join(["hobwort", *words[:1]]), done.returncode == 0 and told in done.stdout
              and not done.stderr, done.stdout + done.stderr)  # fmt: skip
    sheet = machine.home / "sheet.pdf"
    done = machine.run(hobwort, "sheet", named, "-o", machine.inside(sheet))
    check("hobwort sheet writes a PDF", sheet.is_file() and sheet.read_bytes()[:5] == b"%PDF-",
          done.stdout + done.stderr)  # fmt: skip
    with display():
        try_window(machine, [hobwort, named], picture)
        # The window has made the Recipe box by now.
        done = machine.run(hobwort, "find", "slipway")
        check("hobwort find", "Slipway Bitter" in done.stdout, done.stdout + done.stderr)
        machine.times["to its window"] = median(lambda: _until_window(machine, [hobwort, named]))
    machine.times["hobwort --version"] = median(lambda: _timed(machine, [hobwort, "--version"]))
    machine.times["hobwort forecast"] = median(
        lambda: _timed(machine, [hobwort, "forecast", named])
    )


def try_window(machine: Machine, words: Sequence[str], picture: Path) -> None:
    """Open the window by some words, take a picture of it, and close it by its key."""
    started = subprocess.Popen(
        machine.words(words, DISPLAY=DISPLAY), stderr=subprocess.PIPE, text=True
    )
    seen = window_named("Slipway Bitter")
    time.sleep(3.0)  # the Recipe box is opened beside the window
    subprocess.run(
        ["import", "-display", DISPLAY, "-window", "root", "-crop", "1280x800+0+0", str(picture)],
        check=True,
    )
    check(f"{Path(words[0]).name} opens the window with the recipe", seen and is_painted(picture))
    close_window()
    try:
        _, told = started.communicate(timeout=30)
    except subprocess.TimeoutExpired:
        started.kill()
        _, told = started.communicate()
        told = f"it did not end. {told}"
    check("it closes, with nothing to complain of", started.returncode == 0 and not told, told)


def is_painted(picture: Path) -> bool:
    """Return whether a picture shows more than a blank."""
    done = subprocess.run(
        ["identify", "-format", "%k", str(picture)], capture_output=True, text=True
    )
    return int(done.stdout or 0) > 200


@contextmanager
def display() -> Iterator[None]:
    """A screen for as long as it is wanted."""
    screen = ["Xvfb", DISPLAY, "-screen", "0", "1280x800x24", "-ac", "-nolisten", "tcp"]
    server = subprocess.Popen(screen, stderr=subprocess.DEVNULL)
    try:
        until(lambda: _xdotool("getdisplaygeometry").returncode == 0, 20.0)
        yield
    finally:
        server.terminate()
        server.wait()


def until(holds: Callable[[], bool], longest_s: float) -> bool:
    """Wait until something holds; return whether it came to."""
    ends = time.monotonic() + longest_s
    while time.monotonic() < ends:
        if holds():
            return True
        time.sleep(0.005)
    return False


def window_named(name: str, longest_s: float = 60.0) -> bool:
    """Wait until a window of that name is seen; return whether it came."""
    return until(
        lambda: _xdotool("search", "--onlyvisible", "--name", name).stdout != "", longest_s
    )


def close_window() -> None:
    """Close the window as a brewer does at the keyboard, and wait until it is gone."""
    found = _xdotool("search", "--onlyvisible", "--name", "Hobwort").stdout.split()
    for window in found[:1]:
        _xdotool("windowfocus", "--sync", window)
        _xdotool("key", "--clearmodifiers", "ctrl+q")
    until(lambda: _xdotool("search", "--onlyvisible", "--name", "Hobwort").stdout == "", 20.0)


def _xdotool(*words: str) -> subprocess.CompletedProcess[str]:
    environment = {**os.environ, "DISPLAY": DISPLAY}
    return subprocess.run(["xdotool", *words], capture_output=True, text=True, env=environment)


def median(measured: Callable[[], float]) -> float:
    """Return the median of a few measurements, in seconds; the first, which reads the disk, not."""
    measured()
    return statistics.median(measured() for _ in range(RUNS))


def _timed(machine: Machine, words: Sequence[str]) -> float:
    begun = time.monotonic()
    machine.run(*words)
    return time.monotonic() - begun


def _until_window(machine: Machine, words: Sequence[str]) -> float:
    begun = time.monotonic()
    started = subprocess.Popen(machine.words(words, DISPLAY=DISPLAY), stderr=subprocess.DEVNULL)
    window_named("Slipway Bitter")
    took = time.monotonic() - begun
    close_window()
    started.wait(timeout=60)
    return took


# --- the package ---------------------------------------------------------------------------


@contextmanager
def clean_debian() -> Iterator[Machine | None]:
    """A clean Debian 12 with a brewer on it, None where none can be made; gone afterwards."""
    if not _kept_debian():
        yield None
        return
    with tempfile.TemporaryDirectory(prefix="hobwort_try.") as name:
        root = Path(name, "root")
        subprocess.run(["cp", "-a", "--reflink=auto", str(KEPT), str(root)], check=True)
        root.parent.chmod(0o755)
        home = root / "home" / "brewer"
        home.mkdir(parents=True)
        os.chown(home, BREWER, BREWER)
        machine = Machine(home, root)
        machine.run("useradd", "-u", str(BREWER), "-d", "/home/brewer", "brewer", as_root=True)
        mounted = [root / "proc", root / "dev"]
        subprocess.run(["mount", "-t", "proc", "proc", str(mounted[0])], check=True)
        subprocess.run(["mount", "--rbind", "/dev", str(mounted[1])], check=True)
        subprocess.run(["mount", "--make-rslave", str(mounted[1])], check=True)
        try:
            yield machine
        finally:
            for each in mounted:
                subprocess.run(["umount", "-R", "-l", str(each)], check=True)


def _kept_debian() -> bool:
    """Make the Debian that is kept, unless it is there; return whether it is."""
    if (KEPT / "made").is_file():
        return True
    if os.geteuid() != 0 or shutil.which("debootstrap") is None:
        return False
    shutil.rmtree(KEPT, ignore_errors=True)
    KEPT.mkdir(parents=True)
    sys.stdout.write("  making a clean Debian 12 (some minutes, once)\n")
    sys.stdout.flush()
    done = subprocess.run(
        ["debootstrap", "--variant=minbase", "bookworm", str(KEPT)], stdout=subprocess.DEVNULL
    )
    if done.returncode != 0:
        return False
    for name in ("etc/apt/sources.list", "etc/apt/sources.list.d", "etc/resolv.conf"):
        source, to = Path("/", name), KEPT / name
        if not to.is_dir():
            to.unlink(missing_ok=True)  # debootstrap's own list would name the same twice
        if source.is_dir():
            shutil.copytree(source, to, dirs_exist_ok=True)
        elif source.is_file():
            shutil.copy(source, to)
    (KEPT / "usr/sbin/policy-rc.d").write_text("#!/bin/sh\nexit 101\n", "utf-8")
    (KEPT / "usr/sbin/policy-rc.d").chmod(0o755)
    updated = Machine(KEPT / "root", KEPT).run("apt-get", "update", "-q", as_root=True)
    (KEPT / "made").touch()
    return updated.returncode == 0


def try_package(machine: Machine, deb: Path, pictures: Path, version: str) -> None:
    """Install the package on a clean machine, use it, open a recipe by its type, remove it."""
    assert machine.root is not None
    shutil.copy(deb, machine.root / "tmp" / "hobwort.deb")
    done = machine.install("/tmp/hobwort.deb")
    check("it installs, with what it depends on", done.returncode == 0, done.stdout + done.stderr)
    try_program(machine, "hobwort", pictures / "deb.png", version)

    done = machine.install(*DESKTOP_TOOLS)
    check("a desktop's tools are put beside it", done.returncode == 0, done.stdout + done.stderr)
    done = machine.run("dpkg", "-P", "hobwort", as_root=True)
    check("it is removed", done.returncode == 0, done.stdout + done.stderr)
    left = traces(machine.root)
    check("nothing of it is left", not left, left)
    done = machine.run("dpkg", "-i", "/tmp/hobwort.deb", as_root=True)
    check("it is installed once more", done.returncode == 0, done.stdout + done.stderr)
    try_desktop(machine, pictures)
    done = machine.run("apt-get", "-y", "purge", "hobwort", as_root=True)
    left = traces(machine.root)
    check("removed again, nothing of it is left", done.returncode == 0 and not left, left)


def try_desktop(machine: Machine, pictures: Path) -> None:
    """Open a recipe as a desktop does, read the manual, complete a command."""
    recipe = machine.inside(machine.home / "Slipway Bitter.hobwort")
    nameless = machine.home / "from a letter"
    shutil.copy(EXAMPLE, nameless)
    type_of = ["gio", "info", "-a", "standard::content-type"]
    in_bash = (
        "cd; source /usr/share/bash-completion/completions/hobwort; COMP_WORDS=({words});"
        "COMP_CWORD=$((${{#COMP_WORDS[@]}} - 1)); _shtab_hobwort; echo ${{COMPREPLY[@]}}"
    )
    for what, words, told in (
        ("the type of a recipe is known by its name", [*type_of, recipe], MIME_TYPE),
        ("and by what is in it", [*type_of, machine.inside(nameless)], MIME_TYPE),
        ("Hobwort opens that type", ["xdg-mime", "query", "default", MIME_TYPE], DESKTOP_FILE),
        ("the manual has its page", ["man", "hobwort"], "hobwort forecast"),
        ("in German too", ["man", "-L", "de", "hobwort"], "BEZEICHNUNG"),
        ("bash completes it", ["bash", "-c", in_bash.format(words="hobwort forec")], "forecast"),
        ("and recipes", ["bash", "-c", in_bash.format(words="hobwort fit Sl")], "Slipway"),
        ("fish completes it", ["fish", "-c", "complete -C 'hobwort forec'"], "forecast"),
        ("zsh can read its completions", ["zsh", "-n", ZSH_FILE], ""),
    ):
        done = machine.run(*words)
        check(what, done.returncode == 0 and told in done.stdout, done.stdout + done.stderr)
    with display():
        try_window(machine, ["gio", "open", recipe], pictures / "opened_by_type.png")


def traces(root: Path) -> list[str]:
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


# --- all three -----------------------------------------------------------------------------


def size_mb(path: Path) -> float:
    """Return how much a file or folder takes, in MB."""
    done = subprocess.run(["du", "-sk", str(path)], capture_output=True, text=True, check=True)
    return int(done.stdout.split()[0]) / 1024


def fresh_wheel(wheel: Path, folder: Path) -> Path:
    """Install the wheel into a fresh environment; return the program in it."""
    environment = folder / "environment"
    venv.create(environment, with_pip=True)
    subprocess.run(
        [str(environment / "bin" / "pip"), "install", "-q", "--disable-pip-version-check",
         str(wheel)], check=True,
    )  # fmt: skip
    return environment / "bin" / "hobwort"


def main() -> int:
    """Try what is named; return 1 where anything failed."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    for name in ("--deb", "--bundle", "--wheel"):
        parser.add_argument(name, type=Path)
    parser.add_argument("--pictures", type=Path, help="where pictures of the windows go")
    chosen = parser.parse_args()
    with tempfile.TemporaryDirectory(prefix="hobwort_tried.") as name:
        pictures = chosen.pictures or Path(name, "pictures")
        pictures.mkdir(parents=True, exist_ok=True)
        rows = _try_all(chosen, Path(name), pictures)
    _print_table(rows)
    for each in failed:
        sys.stdout.write(f"failed: {each}\n")
    return 1 if failed else 0


def _try_all(
    chosen: argparse.Namespace, folder: Path, pictures: Path
) -> list[tuple[str, float, Machine]]:
    version = f"hobwort {_version()}"
    rows: list[tuple[str, float, Machine]] = []
    if chosen.wheel is not None:
        sys.stdout.write("the wheel, in a fresh environment\n")
        machine = _here(folder / "wheel")
        program = fresh_wheel(chosen.wheel, folder)
        try_program(machine, str(program), pictures / "wheel.png", version)
        rows.append(("wheel", size_mb(program.parents[1]), machine))
    with clean_debian() as debian:
        if debian is None:
            sys.stdout.write("no clean Debian can be made here (root and debootstrap are needed)\n")
        if chosen.deb is not None:
            sys.stdout.write("the package\n")
            rows.append(_tried_package(debian, chosen.deb, folder, pictures, version))
        if chosen.bundle is not None:
            sys.stdout.write("the bundle\n")
            rows.append(_tried_bundle(debian, chosen.bundle, folder, pictures, version))
    return rows


def _version() -> str:
    text = (TOP / "designer" / "__init__.py").read_text("utf-8")
    return text.partition('__version__ = "')[2].partition('"')[0]


def _here(home: Path) -> Machine:
    home.mkdir()
    return Machine(home)


def _tried_package(
    debian: Machine | None, deb: Path, folder: Path, pictures: Path, version: str
) -> tuple[str, float, Machine]:
    if debian is not None:
        try_package(debian, deb, pictures, version)
        machine = Machine(debian.home, debian.root, times=dict(debian.times))
        return "Debian package", _installed_mb(deb), machine
    unpacked = folder / "package"
    subprocess.run(["dpkg-deb", "-x", str(deb), str(unpacked)], check=True)
    machine = _here(folder / "at home with the package")
    try_program(machine, str(unpacked / "usr/bin/hobwort"), pictures / "deb.png", version)
    return "Debian package, unpacked", _installed_mb(deb), machine


def _installed_mb(deb: Path) -> float:
    words = ["dpkg-deb", "-f", str(deb), "Installed-Size"]
    return int(subprocess.run(words, capture_output=True, text=True, check=True).stdout) / 1024


def _tried_bundle(
    debian: Machine | None, bundle: Path, folder: Path, pictures: Path, version: str
) -> tuple[str, float, Machine]:
    size = size_mb(bundle)
    if debian is None or debian.root is None:
        machine = _here(folder / "at home with the bundle")
        try_program(machine, str(bundle / "hobwort"), pictures / "bundle.png", version)
        return "bundle", size, machine
    # What only the package asked for goes; what any desktop has is there.
    debian.run("apt-get", "-y", "purge", "hobwort", as_root=True)
    done = debian.install(*A_DESKTOP_HAS)
    done = debian.run("apt-get", "-y", "autoremove", "--purge", as_root=True)
    check("the machine has what any desktop has", done.returncode == 0, done.stderr)
    own = debian.root / "usr/lib/x86_64-linux-gnu/libxcb-cursor.so.0"
    check("and not what the bundle carries", not own.exists(), own)
    unpacked = debian.home / "a folder" / bundle.name
    subprocess.run(["cp", "-a", str(bundle), str(_made(unpacked.parent))], check=True)
    program = debian.inside(unpacked / "hobwort")
    try_program(debian, program, pictures / "bundle.png", version)
    try_menus(debian, unpacked)
    return "bundle", size, debian


def _made(folder: Path) -> Path:
    folder.mkdir(parents=True, exist_ok=True)
    return folder


def try_menus(machine: Machine, bundle: Path) -> None:
    """Put the bundle into the brewer's own menus, and take it out."""
    script = machine.inside(bundle / "install.sh")
    done = machine.run("sh", script)
    entry = machine.home / ".local/share/applications/org.hobwort.hobwort.desktop"
    named = machine.inside(bundle / "hobwort")
    is_in = entry.is_file() and f'Exec="{named}" open' in entry.read_text("utf-8")
    check("install.sh puts it into the menus", done.returncode == 0 and is_in, done.stderr)
    done = machine.run(machine.inside(machine.home / ".local/bin/hobwort"), "--version")
    check("and gives it a name in the terminal", done.returncode == 0, done.stderr)
    machine.run("sh", script, "--remove")
    own = machine.home / ".local/share/hobwort"  # the brewer's recipes, and what was logged
    left = [
        path
        for path in (machine.home / ".local").rglob("*hobwort*")
        if path.name != "hobwort" and own not in path.parents
    ]
    check("install.sh --remove takes it out", not left, left)


def _print_table(rows: list[tuple[str, float, Machine]]) -> None:
    if not rows:
        return
    names = list(rows[0][2].times)
    sys.stdout.write(
        f"\n{'':26}{'installed':>12}" + "".join(f"{each:>20}" for each in names) + "\n"
    )
    for name, size, machine in rows:
        told = "".join(f"{machine.times.get(each, float('nan')):>18.2f} s" for each in names)
        sys.stdout.write(f"{name:26}{size:>9.0f} MB{told}\n")


if __name__ == "__main__":
    sys.exit(main())
