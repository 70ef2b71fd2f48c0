"""Print which libraries of a bundle are packages of the system, and the text of their licence.

python packaging/deb/system_libraries.py libraries.csv
"""

from __future__ import annotations

import csv
import sys
from pathlib import Path

with Path(sys.argv[1]).open(encoding="utf-8", newline="") as file:
    for row in csv.DictReader(file):
        for name in row["files"].split():
            sys.stdout.write(f"{name} {row['text']}\n")
