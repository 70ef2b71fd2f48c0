"""Write what Debian wants to read of a package: whose work it is, and what changed.

python packaging/deb/documents.py FOLDER VERSION
"""

from __future__ import annotations

import gzip
import os
import sys
from datetime import UTC, datetime
from email.utils import format_datetime
from pathlib import Path

from designer.workbench.licences import parts

TOP = Path(__file__).parents[2]
LICENCES = "/usr/share/doc/hobwort/licences"
COPYRIGHT = """Hobwort plans a brew day on a kitchen stove.

The program is under the Apache License, Version 2.0, whose text is in
/usr/share/common-licenses/Apache-2.0 and {licences}/hobwort.txt.
Copyright 2026 The authors of Hobwort.

The package carries the work of others, as they published it. Each part, its
licence and the file with the text of that, in {licences}:

{rows}

How to put another Qt in the place of the one that is carried is told in
{licences}/qt.txt.
"""


def main() -> None:
    """Write both into the folder of the package's documents."""
    folder, version = Path(sys.argv[1]), sys.argv[2]
    rows = "\n".join(
        f"{part.name} {part.version}".strip() + f"\n    {part.licence}\n    {part.text_path.name}"
        for part in parts()
    )
    (folder / "copyright").write_text(COPYRIGHT.format(licences=LICENCES, rows=rows), "utf-8")
    day = datetime.fromtimestamp(int(os.environ["SOURCE_DATE_EPOCH"]), UTC)
    debian = (
        f"hobwort ({version}) stable; urgency=medium\n\n"
        "  * What changed for a brewer is in changelog.gz.\n\n"
        f" -- The authors of Hobwort <hobwort@localhost>  {format_datetime(day)}\n"
    )
    _packed(folder / "changelog.Debian.gz", debian.encode("utf-8"))
    _packed(folder / "changelog.gz", (TOP / "resources" / "CHANGES.md").read_bytes())


def _packed(path: Path, content: bytes) -> None:
    path.write_bytes(gzip.compress(content, 9, mtime=0))


if __name__ == "__main__":
    main()
