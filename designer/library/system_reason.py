"""What the system says is wrong, in the language of the program: it tells it in English alone."""

from __future__ import annotations

import errno
import os

from designer.translation import message, tr

_REASONS = {
    errno.EPERM: message("operation not permitted"),
    errno.ENOENT: message("no such file or directory"),
    errno.EIO: message("input/output error"),
    errno.EACCES: message("permission denied"),
    errno.EBUSY: message("device or resource busy"),
    errno.EEXIST: message("file exists"),
    errno.ENODEV: message("no such device"),
    errno.ENOTDIR: message("not a directory"),
    errno.EISDIR: message("is a directory"),
    errno.EMFILE: message("too many open files"),
    errno.EFBIG: message("file too large"),
    errno.ENOSPC: message("no space left on device"),
    errno.EROFS: message("read-only file system"),
    errno.ENAMETOOLONG: message("file name too long"),
    errno.EDQUOT: message("disk quota exceeded"),
    errno.EADDRINUSE: message("address already in use"),
    errno.EADDRNOTAVAIL: message("cannot assign requested address"),
}
"""The usual ones, in the words of POSIX as Linux has them. Another says it as the system does."""


def reason_of(fault: OSError) -> str:
    """Return what the system says is wrong, as a part of a sentence."""
    known = _REASONS.get(fault.errno or 0)
    told = fault.strerror or str(fault)
    # Windows has its own words, in the language of the system, and a fault of ours may too.
    is_the_systems = known is not None and told == os.strerror(fault.errno or 0)
    return tr(known) if known and is_the_systems else told.lower()
