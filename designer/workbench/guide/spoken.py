"""Another language spoken for a while: the guide is made in any, whatever the program speaks."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from designer import translation
from designer.spoken_language import catalogue_if_any


@contextmanager
def speaking(language: str) -> Iterator[None]:
    """Let `tr` speak a language within; afterwards the one before."""
    before = translation.spoken_with()
    try:
        translation.use(catalogue_if_any(f"program_{language}"), language)
        yield
    finally:
        translation.use(*before)
