"""Writes the sample store of the present release: `python tests/old_stores/make_sample.py 1`.

Run it once for each release that changes the tables, with the release's number, and keep the file:
a test opens every one of them. The samples of older releases are never written again.
"""

from __future__ import annotations

import sys
import tempfile
from dataclasses import replace
from datetime import date
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from designer.library.recipe_file import document_text, load
from designer.library.store import Conflict, Draft, Store, Summary
from designer.library.store.brews import new_brew
from designer.library.store.documents import renamed
from designer.library.store.kitchen import CupboardRecord, FermenterRecord, PotRecord
from designer.resource_files import resource_path

LOG = (
    {"id": "a", "at": {"wall": 1769936400.0, "boot": "b", "up": 9.0}, "what": "began",
     "values": {}},
    {"id": "b", "at": {"wall": 1769954400.0, "boot": "b", "up": 18009.0}, "what": "finished",
     "values": {}},
    {"id": "bb", "at": {"wall": 1771164000.0}, "what": "packaged",
     "values": {"said": "bottled", "ready": "2026-03-01"}},
    {"id": "c", "at": {"wall": 1772373600.0}, "what": "tasted",
     "values": {"mark": 4, "text": "Dry, toast and a little smoke"}},
)  # fmt: skip


def fill(store: Store) -> None:
    """Put one of everything into a store."""
    text = document_text(load(resource_path("examples/harbour_lamp_porter.hobwort")))
    porter = Summary(
        style="English Porter", fermenter="Small bucket", pot="Kitchen pot", og=1.052, fg=1.013,
        abv=5.1, ibu=34.4, srm=24.0, batch_l=10.0, pot_fullest_l=7.1,
    )  # fmt: skip
    first = store.recipes.add(text, porter, name="first try", tags=["winter", "boat race"])
    store.recipes.save(first.recipe, renamed(text, "Harbour Lamp Porter, browner"), porter,
                       base=first.id)  # fmt: skip
    both = store.recipes.save(first.recipe, renamed(text, "Harbour Lamp Porter, blacker"), porter,
                              base=first.id)  # fmt: skip
    assert isinstance(both, Conflict)
    branch = store.recipes.branch(first.id, "黒ビール Kölsch-glass Porter")
    store.trash.put([store.recipes.duplicate(branch.recipe).recipe])
    store.drafts.put(Draft("window", renamed(text, "Half typed"), first.recipe, first.id,
                           (text, renamed(text, "Half typed")), 1,
                           phrases=("", "rename the recipe")))  # fmt: skip
    store.pots.insert(PotRecord("Kitchen pot", "9 L", "24 cm", "electric", "2000 W", "0.9 L/h",
                                left_in_pot="0.3 L"))  # fmt: skip
    store.fermenters.insert(FermenterRecord("Small bucket", "12 L", "1 L", "plastic bucket"))
    store.cupboard.insert(
        CupboardRecord("Challenger", "hop", "85 g", "4,20 €", "7.2 %", "B-17", date(2026, 1, 31),
                       date(2028, 6, 1), True)
    )  # fmt: skip
    store.preferences.put("shown units", "both")
    brew = store.brews.start(first, started="2026-03-01T09:00:00+00:00")
    store.brews.append(brew.id, {"what": "reading", "gravity": "1.048", "temperature": "24 °C"})
    stove = new_brew(text, recipe=first.recipe, version=first.id,
                     started="2026-02-01T09:00:00+00:00",
                     file="/home/brewer/porter.hobwort")  # fmt: skip
    store.brews.put(replace(stove, uid="5704e"), LOG)


def main(release: str) -> None:
    target = Path(__file__).parent / f"release_{release}.db"
    with tempfile.TemporaryDirectory() as name, Store.open(Path(name) / "store") as store:
        fill(store)
        store.connection.db.vacuum()
        store.copy_everything(target)


if __name__ == "__main__":
    main(sys.argv[1])
