"""What can be done about a damaged Recipe box, in words and buttons: what each gives, counted."""

from __future__ import annotations

from typing import TYPE_CHECKING

from designer.translation import message, tr, trn
from designer.window.parts.dates import moment_text

if TYPE_CHECKING:
    from designer.library.store.backup_files import Backup
    from designer.library.store.rescue import Offer

KEPT_ASIDE = message("Whatever you choose, the damaged file is kept as it is, set aside.")


def words_and_ways(offer: Offer) -> tuple[str, list[tuple[str, str]]]:
    """Return what to say, and for each button its text and its way; the best way first.

    The ways are "salvage", "backup" and "empty", and where the place of the box is at fault "again"
    and "folder".
    """
    if offer.fault is not None:
        return _about_the_place(offer)
    words, ways = [tr("The Recipe box {health}", health=offer.health.words)], []
    salvage = offer.salvaged
    if salvage.alone:
        words.append(_saved_words(offer))
        recipes = salvage.whole.recipes
        label = trn("Save {number:,} recipe", "Save {number:,} recipes", recipes)
        ways.append((label if recipes else tr("Save what can be read"), "salvage"))
    else:
        words.append(tr("Nothing can be read from it."))
    if offer.backup is not None:
        words.append(_backup_holds(offer.backup, offer))
        ways.append((tr("Go on with the backup"), "backup"))
    words.append(tr(KEPT_ASIDE))
    return " ".join(words), [*ways, (tr("Begin an empty box"), "empty")]


def _about_the_place(offer: Offer) -> tuple[str, list[tuple[str, str]]]:
    """Say why the box cannot be opened where it lies; it may be mended, or lie elsewhere."""
    words = [str(offer.fault)]
    ways = [(tr("Try again"), "again"), (tr("Choose another folder…"), "folder")]
    if offer.backup is not None:
        words.append(_backup_holds(offer.backup, offer))
        ways.insert(0, (tr("Go on with the backup"), "backup"))
    if offer.may_begin_empty:
        ways.append((tr("Begin an empty box"), "empty"))
    return " ".join(words), ways


def _backup_holds(backup: Backup, offer: Offer) -> str:
    return tr(
        "The newest sound backup, of {day}, holds {holds}.",
        day=moment_text(backup.made),
        holds=offer.backup_holds,
    )


def _saved_words(offer: Offer) -> str:
    salvage = offer.salvaged
    lost = salvage.lost_words()
    if not lost and not salvage.from_backup:
        return tr("All that it holds can be saved: {holds}.", holds=salvage.whole)
    if salvage.from_backup:
        saved = trn(
            "{holds} can be saved, {number:,} of the versions from the backup.",
            "{holds} can be saved, {number:,} of the versions from the backup.",
            salvage.from_backup,
            holds=salvage.whole,
        )
    else:
        saved = tr("{holds} can be saved.", holds=salvage.whole)
    return " ".join(filter(None, (saved, lost)))
