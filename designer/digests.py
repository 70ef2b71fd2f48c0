"""Digests by what Python itself brings, without OpenSSL.

Python's `hashlib` takes OpenSSL's where it can, whose library holds 3 MB of a window's memory. Its
own modules, on which it falls back, give the same digests, at some 300 MB a second still.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from importlib.util import find_spec

OPENSSL = "_hashlib"
OWN = ("_md5", "_sha1", "_sha2" if sys.version_info >= (3, 12) else "_sha256", "_sha3", "_blake2")
"""What `hashlib` falls back on; some systems build Python without one or the other."""


@contextmanager
def _without_openssl() -> Iterator[None]:
    """Have the modules that are imported meanwhile take it that OpenSSL is not there."""
    if OPENSSL in sys.modules or not all(map(find_spec, OWN)):
        yield
        return
    sys.modules[OPENSSL] = None  # type: ignore[assignment]
    try:
        yield
    finally:
        del sys.modules[OPENSSL]


with _without_openssl():
    import hmac  # noqa: F401  # it asks for OpenSSL too, and `secrets` for it
    from hashlib import blake2b, sha256

__all__ = ["blake2b", "sha256"]
