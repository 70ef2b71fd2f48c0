"""What is loaded at every start without what no brewer ever asks of it."""

from __future__ import annotations

from designer.once_asked import put_off
from designer.plain_numpy import expect_numpy

NOT_ASKED = ("bz2", "inspect", "ipaddress", "lzma", "shutil", "tempfile", "traceback")
"""Modules of Python that others have loaded, most of them Qt, without asking anything of them.

`inspect` is what Qt looks into sources with, and a dataclass without a docstring into itself.
"""


def load_plainly() -> None:
    """Have such modules wait until something of them is asked for; to be called first of all."""
    for each in NOT_ASKED:
        put_off(each)
    from designer.plain_records import make_records_plainly  # whose dataclasses import one of them

    make_records_plainly()
    expect_numpy()
