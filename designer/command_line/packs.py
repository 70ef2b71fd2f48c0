"""The pack sizes that a command counts with."""

from __future__ import annotations

from designer.command_line.output import notice
from designer.errors import DesignerError
from designer.library.packs import PackSize, pack_set_for, packs
from designer.library.store.shop import shop_packs_on_disk
from designer.translation import tr
from designer.units import ShownUnits


def packs_of_shop(shown: ShownUnits) -> tuple[PackSize, ...]:
    """Return the pack sizes kept in the Recipe box; the usual ones where it cannot be read."""
    pack_set = pack_set_for(shown)
    try:
        return shop_packs_on_disk(pack_set)
    except DesignerError as fault:
        notice([tr("the usual pack sizes are taken: {fault}", fault=fault)])
        return packs(pack_set)
