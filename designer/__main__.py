"""The program: `hobwort`, or `python -m designer`."""

from __future__ import annotations

import sys


def main() -> int:
    """Run the command line; return its exit code."""
    from designer.command_line import run

    return run(sys.argv[1:])


if __name__ == "__main__":
    sys.exit(main())
