"""Machines to try things on: this one, and clean ones in folders of their own.

A clean machine is what debootstrap makes of a release. It is kept in /var/tmp/hobwort_try, and what
is tried is tried on a copy, which is gone afterwards. The key of Ubuntu's archive comes from Debian
13, which has it in a package.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import tempfile
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

from trying.checks import say

KEPT = Path("/var/tmp/hobwort_try")
BREWER = 1000
CERTIFICATES = "/etc/trusted_here.pem"


@dataclass(frozen=True)
class Release:
    """A release of a system: how it is called, and where debootstrap finds it."""

    name: str
    folder: str
    suite: str
    words: tuple[str, ...] = ()
    archive: tuple[str, ...] = ()
    """Server, and the script of debootstrap where it has none by the name of the release."""


DEBIAN_12 = Release("Debian 12", "debian12", "bookworm")
DEBIAN_13 = Release("Debian 13", "debian13", "trixie")
UBUNTU_24_04 = Release(
    "Ubuntu 24.04", "ubuntu2404", "noble",
    ("--components=main,universe",), ("http://archive.ubuntu.com/ubuntu", "gutsy"),
)  # fmt: skip


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
            capture_output=True, text=True, timeout=3000, stdin=subprocess.DEVNULL,
            cwd=self.home if self.root is None else "/",
        )  # fmt: skip

    def install(self, *packages: str) -> subprocess.CompletedProcess[str]:
        """Install packages of the system, and what they depend on."""
        return self.run(
            "apt-get", "install", "-y", "-q", "--no-install-recommends", *packages,
            as_root=True, DEBIAN_FRONTEND="noninteractive", **proxies(),
        )  # fmt: skip


def proxies() -> dict[str, str]:
    """Return how this machine's environment leads to the network, for another that is to go there.

    The certificates that are trusted here come with it: a network may have one of its own.
    """
    named = {name: value for name, value in os.environ.items() if "proxy" in name.lower()}
    return named | {"PIP_CERT": CERTIFICATES}


@contextmanager
def clean_machine(release: Release) -> Iterator[Machine | None]:
    """A clean machine with a brewer on it, None where none can be made; gone afterwards."""
    kept = _kept(release)
    if kept is None:
        yield None
        return
    with tempfile.TemporaryDirectory(prefix="hobwort_try.") as name:
        root = Path(name, "root")
        subprocess.run(["cp", "-a", "--reflink=auto", str(kept), str(root)], check=True)
        root.parent.chmod(0o755)
        machine = Machine(root / "home" / "brewer", root)
        # Ubuntu's own first user would have the number that the brewer is to have.
        machine.run("userdel", "ubuntu", as_root=True)
        machine.run("useradd", "-u", str(BREWER), "-d", "/home/brewer", "brewer", as_root=True)
        machine.home.mkdir(parents=True)
        os.chown(machine.home, BREWER, BREWER)
        with _mounted(root):
            yield machine


@contextmanager
def _mounted(root: Path) -> Iterator[None]:
    """What a system has of its kernel, for as long as it is wanted."""
    folders = [root / "proc", root / "dev"]
    subprocess.run(["mount", "-t", "proc", "proc", str(folders[0])], check=True)
    subprocess.run(["mount", "--rbind", "/dev", str(folders[1])], check=True)
    subprocess.run(["mount", "--make-rslave", str(folders[1])], check=True)
    try:
        yield
    finally:
        for each in folders:
            subprocess.run(["umount", "-R", "-l", str(each)], check=True)


def _kept(release: Release) -> Path | None:
    """Make the machine that is kept, unless it is there; return where it is, None without one."""
    kept = KEPT / release.folder
    if (kept / "made").is_file():
        return kept
    if os.geteuid() != 0 or shutil.which("debootstrap") is None:
        return None
    key = _key_of(release)
    if key is None:
        return None
    shutil.rmtree(kept, ignore_errors=True)
    kept.mkdir(parents=True)
    say(f"  making a clean {release.name} (some minutes, once)")
    words = ["debootstrap", "--variant=minbase", *key, *release.words, release.suite, str(kept)]
    done = subprocess.run([*words, *release.archive], stdout=subprocess.DEVNULL)
    if done.returncode != 0:
        return None
    _settle(release, kept)
    updated = Machine(kept / "root", kept).run("apt-get", "update", "-q", as_root=True, **proxies())
    if updated.returncode != 0:
        return None
    (kept / "made").touch()
    return kept


def _settle(release: Release, kept: Path) -> None:
    """Lead a new machine to the network as this one is, and let nothing be started on it."""
    shutil.copy("/etc/resolv.conf", kept / "etc/resolv.conf")
    certificates = Path("/etc/ssl/certs/ca-certificates.crt")
    if certificates.is_file():
        shutil.copy(certificates, f"{kept}{CERTIFICATES}")
    lists = kept / "etc/apt/sources.list"
    first = lists.read_text("utf-8").splitlines()[0]
    others = (f"{release.suite}-updates",)
    lists.write_text(
        "".join(first.replace(f" {release.suite} ", f" {suite} ") + "\n"
                for suite in (release.suite, *others)), "utf-8",
    )  # fmt: skip
    policy = kept / "usr/sbin/policy-rc.d"
    policy.write_text("#!/bin/sh\nexit 101\n", "utf-8")
    policy.chmod(0o755)


def _key_of(release: Release) -> list[str] | None:
    """Return the words that name the key of a release's archive, None where it is not to be had."""
    if not release.archive:
        return []
    debian = _kept(DEBIAN_13)
    if debian is None:
        return None
    keys = KEPT / "ubuntu_key"
    if not keys.is_dir():
        fetched = Machine(debian / "root", debian).run(
            "sh", "-c", "cd /tmp && apt-get download -q ubuntu-keyring", as_root=True, **proxies()
        )
        if fetched.returncode != 0:
            return None
        package = next((debian / "tmp").glob("ubuntu-keyring_*.deb"))
        subprocess.run(["dpkg-deb", "-x", str(package), str(keys)], check=True)
        package.unlink()
    return [f"--keyring={keys}/usr/share/keyrings/ubuntu-archive-keyring.gpg"]
