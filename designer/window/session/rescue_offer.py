"""What can be done about a damaged Recipe box, in words and buttons: what each gives, counted."""

from __future__ import annotations

from typing import TYPE_CHECKING

from designer.library.store.contents import counted
from designer.library.store.rescue import lost_words
from designer.window.parts.dates import moment_text

if TYPE_CHECKING:
    from designer.library.store.rescue import Offer

KEPT_ASIDE = "Whatever you choose, the damaged file is kept as it is, set aside."


def words_and_ways(offer: Offer) -> tuple[str, list[tuple[str, str]]]:
    """Return what to say, and for each button its text and its way; the best way first.

    The ways are "salvage", "backup" and "empty", and where the place of the box is at fault "again"
    and "folder".
    """
    if offer.fault is not None:
        return _about_the_place(offer)
    words, ways = [f"The Recipe box {offer.health.words}"], []
    salvage = offer.salvaged
    if salvage.alone:
        words.append(_saved_words(offer))
        recipes = salvage.whole.recipes
        label = f"Save {counted(recipes, 'recipe')}" if recipes else "Save what can be read"
        ways.append((label, "salvage"))
    else:
        words.append("Nothing can be read from it.")
    if offer.backup is not None:
        made = moment_text(offer.backup.made)
        words.append(f"The newest sound backup, of {made}, holds {offer.backup_holds}.")
        ways.append(("Go on with the backup", "backup"))
    words.append(KEPT_ASIDE)
    return " ".join(words), [*ways, ("Begin an empty box", "empty")]


def _about_the_place(offer: Offer) -> tuple[str, list[tuple[str, str]]]:
    """Say why the box cannot be opened where it lies; it may be mended, or lie elsewhere."""
    words, ways = [str(offer.fault)], [("Try again", "again"), ("Choose another folder…", "folder")]
    if offer.backup is not None:
        made = moment_text(offer.backup.made)
        words.append(f"The newest sound backup, of {made}, holds {offer.backup_holds}.")
        ways.insert(0, ("Go on with the backup", "backup"))
    if offer.may_begin_empty:
        ways.append(("Begin an empty box", "empty"))
    return " ".join(words), ways


def _saved_words(offer: Offer) -> str:
    salvage = offer.salvaged
    lost = lost_words(salvage)
    if not lost and not salvage.from_backup:
        return f"All that it holds can be saved: {salvage.whole}."
    whence = ""
    if salvage.from_backup:
        whence = f", {salvage.from_backup} of the versions from the backup"
    return f"{salvage.whole} can be saved{whence}. {lost}".rstrip()
