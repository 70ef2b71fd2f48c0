"""How much room backups may take, and where a copy of each goes besides.

What was chosen lies beside the backups themselves, so that every window and command heeds it, and
a damaged store too. Copies go to another disk, say: they are named as the backups are, and those no
longer worth their place go from there as well.
"""

from __future__ import annotations

import json
import os
import shutil
from collections.abc import Iterable
from contextlib import suppress
from dataclasses import asdict, dataclass
from pathlib import Path

from designer.digests import sha256
from designer.library.file_bytes import write_whole
from designer.library.store.backup_files import Backup, backups, backups_in
from designer.library.store.folder import BACKUP_FOLDER
from designer.library.system_reason import reason_of
from designer.translation import tr

FILE = "keeping.json"
ROOMS_MB = (0, 200, 500, 1000, 2000, 5000, 20_000)
"""What can be chosen; 0 is what is usual, 1 GB or twice the size of the box."""


@dataclass(frozen=True, slots=True)
class BackupKeeping:
    """What was chosen: megabytes for all backups, 0 for as usual; the folder of copies, or ""."""

    room_mb: int = 0
    elsewhere: str = ""

    @property
    def room_bytes(self) -> int:
        """The room in bytes; 0 for as usual."""
        return 1_000_000 * self.room_mb


def keeping_of(folder: Path) -> BackupKeeping:
    """Return what was chosen for the box in a folder; as usual where nothing can be read."""
    try:
        found = json.loads((folder / BACKUP_FOLDER / FILE).read_text(encoding="utf-8"))
        room, elsewhere = found["room_mb"], found["elsewhere"]
    except (OSError, ValueError, TypeError, KeyError, RecursionError):
        return BackupKeeping()
    is_sound = isinstance(room, int) and room in ROOMS_MB and isinstance(elsewhere, str)
    return BackupKeeping(room, elsewhere) if is_sound and "\0" not in elsewhere else BackupKeeping()


def keep_so(folder: Path, keeping: BackupKeeping) -> None:
    """Keep what was chosen. Raises DesignerError where it cannot be written."""
    within = folder / BACKUP_FOLDER
    with suppress(OSError):
        within.mkdir(exist_ok=True)  # the writing tells why not
    text = json.dumps(asdict(keeping), ensure_ascii=False)
    write_whole(within / FILE, text.encode("utf-8", "surrogateescape"))


def copied_elsewhere(folder: Path, made: Backup) -> str:
    """Put a copy of a backup where copies are wanted; return why it could not be, in words.

    A copy takes its name only when it is whole. Copies of backups that are no longer kept go.
    """
    keeping = keeping_of(folder)
    if not keeping.elsewhere:
        return ""
    place = place_of_copies(folder, Path(keeping.elsewhere))
    unfinished = place / f".{made.path.name}.part"
    try:
        if not place.parent.is_dir():
            return tr(
                "No copy of the backup in {folder}: the folder is not there. Connect its disk, or "
                "choose another under Backups.",
                folder=keeping.elsewhere,
            )
        place.mkdir(exist_ok=True)
        shutil.copyfile(made.path, unfinished)
        with unfinished.open("rb") as written:
            os.fsync(written.fileno())
        unfinished.replace(place / made.path.name)
        _clear(backups_in(place), {each.path.name for each in (made, *backups(folder))})
    except OSError as fault:
        with suppress(OSError):
            unfinished.unlink()
        return tr(
            "No copy of the backup in {folder}: {reason}. Make room there, or choose another "
            "folder under Backups.",
            folder=keeping.elsewhere,
            reason=reason_of(fault),
        )
    return ""


def place_of_copies(folder: Path, elsewhere: Path) -> Path:
    """Return where the copies of a box lie: boxes that share a disk do not share a folder."""
    import platform  # large, and few have copies elsewhere

    told = f"{platform.node()} {folder.absolute()}".encode("utf-8", "surrogateescape")
    return elsewhere / f"hobwort-backups-{sha256(told).hexdigest()[:8]}"


def _clear(copies: Iterable[Backup], kept: set[str]) -> None:
    for each in copies:
        if each.path.name not in kept:
            with suppress(OSError):
                each.path.unlink()
