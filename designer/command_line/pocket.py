"""The page for a phone's browser: written to a file, or offered in the brewer's own network."""

from __future__ import annotations

import sys
from datetime import datetime, timedelta
from pathlib import Path

from designer.command_line.output import FINE, print_lines, remark
from designer.command_line.words.sheets import OWN_ADDRESS
from designer.library.recipe_file import write_whole
from designer.translation import tr
from designer.units.quoting import one_line
from designer.workbench.pocket_server import LASTS_S, own_address, server_for


def write_pocket(page: bytes, place: Path) -> None:
    """Write the page and say where and how large it is. Raises DesignerError."""
    write_whole(place, page)
    told = tr(
        "{place}: a page for a phone’s browser, {size} kB.",
        place=one_line(str(place)),
        size=f"{len(page) / 1000:.0f}",
    )
    remark(told)


def serve_pocket(page: bytes, address: str, seconds: float = LASTS_S) -> int:
    """Offer the page at an address of this machine; say so plainly.

    It ends with Ctrl+C, or by itself. Raises RefusedInputError for an address that cannot be.
    """
    with server_for(
        page, own_address() if address == OWN_ADDRESS else address, _say_fetched
    ) as server:
        ends = datetime.now() + timedelta(seconds=seconds)
        print_lines(
            tr("The brew day can be opened in a phone’s browser now: {url}", url=server.url),
            tr(
                "Whoever is in the same network and has this address can read it, and it is sent "
                "unenciphered: offer it in a network of your own, never in a public one."
            ),
            tr(
                "Open it on the phone and leave it open: afterwards it cannot be loaded from here "
                "again. Over such an address browsers let no page keep the screen on."
            ),
            tr("It ends with Ctrl+C, or by itself at {time}.", time=f"{ends:%H:%M}"),
        )
        sys.stdout.flush()
        try:
            server.serve_for(seconds)
        except KeyboardInterrupt:
            print_lines("")
        print_lines(tr("The page is not offered any more."))
    return FINE


def _say_fetched(address: str) -> None:
    print_lines(tr("It was opened from {address}.", address=address))
    sys.stdout.flush()
