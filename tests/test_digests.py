"""Digests are those of the standards, and need no OpenSSL."""

from __future__ import annotations

import subprocess
import sys

from designer.digests import blake2b, sha256

OF_ABC = {
    # FIPS 180-4, "SHA-256 example (one-block message)" of NIST's example values
    sha256: "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad",
    # RFC 7693, appendix A, "Example of BLAKE2b computation"; both from memory
    blake2b: (
        "ba80a53f981c4d0d6a2797b69f12f6e94c212f14685ac4b74b12bb6fdbffa2d1"
        "7d87c5392aab792dc252d5de4533cc9518d38aa8dbf1925ab92386edd4009923"
    ),
}
WITHOUT = """
import sys
import designer.digests
import hashlib, secrets, ssl
print("_hashlib" in sys.modules)
import hmac
print(hashlib.new("sha256", b"abc").hexdigest() == hashlib.sha256(b"abc").hexdigest(),
      hmac.compare_digest(hmac.new(b"Jefe", b"what do ya want for nothing?", "sha256").hexdigest(),
      "5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843"),  # RFC 4231, case 2
      len(secrets.token_hex(16)))
import _hashlib
"""


def test_digests_are_those_of_the_standards():
    for made, told in OF_ABC.items():
        assert made(b"abc").hexdigest() == told


def test_openssl_is_not_loaded_for_them_and_there_for_whoever_wants_it():
    done = subprocess.run(
        [sys.executable, "-c", WITHOUT], capture_output=True, text=True, timeout=120
    )
    assert done.stdout.split() == ["False", "True", "True", "32"], done.stderr
    assert done.stderr == ""
