"""What the world does to a brewer's files: full disks, locks, lost rights, damage, other hands."""

from __future__ import annotations

import os
import random
import shutil
import sqlite3
import subprocess
from contextlib import suppress
from pathlib import Path

DISK_MB = 24


class World:
    """The folders of one sitting; on a small disk of its own where one can be mounted."""

    def __init__(self, folder: Path, *, small_disk: bool) -> None:
        self.folder = folder
        self.disk, self.box = folder / "disk", folder / "disk" / "box"
        self.files, self.elsewhere = folder / "disk" / "recipes", folder / "elsewhere"
        self._lock: sqlite3.Connection | None = None
        self._files_gone = self._full = self._read_only = False
        for each in (self.disk, self.elsewhere, folder / "settings", folder / "home"):
            each.mkdir(parents=True)
        (folder / "temporary").mkdir()
        (folder / "runtime").mkdir(mode=0o700)
        self.is_small = small_disk and _mounted(self.disk)
        self.box.mkdir()
        self.files.mkdir()

    @property
    def store(self) -> Path:
        """The store's file."""
        from designer.library.store.folder import store_path

        return store_path(self.box)

    # for a while

    def lock(self) -> bool:
        """Hold the store as another program would; nothing can be written until `unlock`."""
        if self._lock is not None or not self.store.exists():
            return False
        connection = sqlite3.connect(self.store, timeout=2.0, isolation_level=None)
        try:
            connection.execute("begin immediate")
        except sqlite3.Error:
            connection.close()
            return False
        self._lock = connection
        return True

    def unlock(self) -> None:
        """Let go of the store."""
        if self._lock is not None:
            self._lock.rollback()
            self._lock.close()
            self._lock = None

    def fill(self, draw: random.Random) -> bool:
        """Leave no room on the disk, or next to none."""
        if not self.is_small or self._full:
            return False
        self._full = True
        ballast = self.disk / "ballast"
        with suppress(OSError), ballast.open("wb", buffering=0) as file:
            while True:
                file.write(b"\0" * 65536)
        with suppress(OSError), ballast.open("ab", buffering=0) as file:
            while True:
                file.write(b"\0" * 4096)
        room = draw.choice((0, 0, 4096, 3 * 4096))
        os.truncate(ballast, max(ballast.stat().st_size - room, 0))
        return True

    def make_room(self) -> None:
        """Take what filled the disk away."""
        (self.disk / "ballast").unlink(missing_ok=True)
        self._full = False

    def forbid(self) -> bool:
        """Let the store's folder and file be read only, from now on."""
        if self._read_only or not self.store.exists():
            return False
        self._read_only = True
        for each in self.box.glob("recipe-box.db*"):
            each.chmod(0o444)
        self.box.chmod(0o555)
        return True

    def allow(self) -> None:
        """Let the store be written again."""
        self.box.chmod(0o755)
        for each in self.box.glob("recipe-box.db*"):
            each.chmod(0o644)
        self._read_only = False

    def take_files_away(self) -> None:
        """Let the folder of the recipe files be gone, as with a drive pulled out."""
        if not self._files_gone:
            self.files.rename(self.disk / "recipes of before")
            self._files_gone = True

    def bring_files_back(self) -> None:
        """Let the folder of the recipe files be there again, with whatever was made meanwhile."""
        if self._files_gone:
            away = self.disk / "recipes of before"
            if self.files.exists():
                for each in self.files.iterdir():
                    each.rename(away / f"meanwhile {each.name}")
                self.files.rmdir()
            away.rename(self.files)
            self._files_gone = False

    @property
    def trouble(self) -> str:
        """What is wrong with the world now, in a word or two; "" if nothing."""
        found = {
            "locked": self._lock is not None,
            "full": self._full,
            "read-only": self._read_only,
            "files gone": self._files_gone,
        }
        return ", ".join(name for name, is_so in found.items() if is_so)

    @property
    def store_trouble(self) -> bool:
        """Whether the store cannot be written now."""
        return self._lock is not None or self._full or self._read_only

    def heal(self) -> None:
        """Put everything right again."""
        self.unlock()
        self.make_room()
        if self._read_only:
            self.allow()
        self.bring_files_back()

    # for good

    def damage(self, draw: random.Random) -> str:
        """Damage the store's file while nobody has it open; return how."""
        path = self.store
        with suppress(sqlite3.Error):  # what is in the log goes into the file first
            connection = sqlite3.connect(path)
            connection.execute("pragma wal_checkpoint(truncate)")
            connection.close()
        size = path.stat().st_size
        how = draw.choice(("cut off", "noise", "noise", "head lost", "emptied"))
        if how == "cut off":
            os.truncate(path, int(size * draw.uniform(0.2, 0.9)))
        elif how == "emptied":
            os.truncate(path, 0)
        else:
            with path.open("r+b") as file:
                for _ in range(draw.randint(1, 12)):
                    page = 0 if how == "head lost" else draw.randint(1, max(size // 4096 - 1, 1))
                    file.seek(min(page * 4096, max(size - 4096, 0)))
                    file.write(draw.randbytes(4096))
        for ending in ("-wal", "-shm"):
            Path(f"{path}{ending}").unlink(missing_ok=True)
        return how

    def close(self) -> None:
        """Take the folders down."""
        self.heal()
        if self.is_small:
            subprocess.run(["umount", "-l", str(self.disk)], check=False)
        shutil.rmtree(self.folder, ignore_errors=True)


def _mounted(place: Path) -> bool:
    """Mount a small disk at a place; False where that is not allowed."""
    if os.geteuid() != 0:
        return False
    options = ["mount", "-t", "tmpfs", "-o", f"size={DISK_MB}m", "hobwort-robot", str(place)]
    try:
        return subprocess.run(options, check=False, capture_output=True).returncode == 0
    except OSError:
        return False
