"""When a beer went into the fermenter, into bottles, and when it is ready, stands in the lists."""

from datetime import UTC, date, datetime, timedelta

import pytest
from PySide6.QtCore import Qt

from designer.brewday.explaining.asked import GravitySample, Taken
from designer.brewday.packaging.packaged import Packing
from designer.command_line import run
from designer.library.recipe_file import document_text, load
from designer.library.store import Store
from designer.library.store.brews import new_brew
from designer.recipe.choices import Package
from designer.resource_files import resource_path
from designer.window.box.recipes_model import day_text
from designer.window.session.open_recipe import OpenRecipe
from designer.workbench.brew.packing_values import packaged_values
from designer.workbench.brew.sample_values import values_of_sample
from designer.workbench.recipe_summary import summary_of

DAY = timedelta(days=1)
TODAY = datetime.now().replace(hour=12, minute=0, second=0, microsecond=0)
BOTTLES, KEG = Packing(10.0, 2.2, 20.0, 0.0), Packing(10.0, 2.4, 20.0, 0.0, Package.KEG)


def line(number, what, at, **values):
    return {
        "id": f"{number:06d}-ab", "at": {"wall": at.timestamp()}, "what": what, "values": values
    }  # fmt: skip


def log(days_ago, packing=None, packed_days_ago=0):
    """The log of a brew: the yeast in so many days ago, and the beer packaged."""
    began, packed = TODAY - days_ago * DAY, TODAY - packed_days_ago * DAY
    lines = [line(1, "began", began), line(2, "finished", began)]
    og = {"what": "original gravity", "value": 1.046, "by": "hydrometer"}
    lines.append(line(4, "reading", began, reading=og, typed="1.046"))
    sample = GravitySample(1.012, sample_c=20.0, taken=Taken.FERMENTING)
    lines.append(line(5, "sample", TODAY, sample=values_of_sample(sample), typed="1.012"))
    if packing is not None:
        values = packaged_values(packing, "done", packed.date())
        lines.append(line(3, "packaged", packed, **values))
    return began, lines


BREWED = {
    "harbour_lamp_porter": log(40, BOTTLES, 20),
    "slipway_bitter": log(9),
    "foghorn_wheat": log(30, KEG, 2),
    "breakwater_red": log(400),
}


@pytest.fixture
def kept(folder):
    with Store.open(folder) as store:
        uids = {}
        for name, (began, lines) in BREWED.items():
            recipe = load(resource_path(f"examples/{name}.hobwort"))
            version = store.recipes.add(document_text(recipe), summary_of(recipe))
            brew = new_brew(
                version.document, recipe=version.recipe, version=version.id,
                started=began.astimezone(UTC).isoformat(timespec="seconds"),
            )  # fmt: skip
            store.brews.put(brew, lines)
            uids[name] = brew.uid
    return uids


@pytest.fixture
def box(qtbot, on_a_box, kept, porter):
    window = on_a_box(OpenRecipe(porter))
    window.show_page(window.page_names.index("Recipe box"))
    qtbot.waitUntil(lambda: len(window.box.model.rows_read) == 4, timeout=10_000)
    return window.box


def shown(box, heading):
    """What a column says of each recipe, by its name; nothing where the column is hidden."""
    columns = [each.key for each in box.model.columns]
    at = columns.index(heading)
    assert not box.table.isColumnHidden(at)
    return {
        box.model.index(row, 0).data(): box.model.index(row, at).data()
        for row in range(box.model.rowCount())
    }


def days(heading_shown):
    return {name.split()[0]: text for name, text in heading_shown.items() if text}


def told(days_ago):
    return day_text((TODAY - days_ago * DAY).date().isoformat())


def test_the_list_has_the_days_of_beers_and_is_sorted_by_them(qtbot, box):
    assert days(shown(box, "fermenting")) == {"Slipway": told(9)}, "one of long ago is forgotten"
    assert days(shown(box, "packaged")) == {"Harbour": told(20), "Foghorn": told(2)}
    # Two weeks in bottles at 20 °C; the keg's longest wait: common practice, no source.
    assert days(shown(box, "ready")) == {"Harbour": told(6), "Foghorn": told(2 - 10)}
    at = [each.key for each in box.model.columns].index("packaged")
    header = box.table.horizontalHeader()
    header.setSortIndicatorShown(False)
    place = header.sectionViewportPosition(at)
    box.table.horizontalScrollBar().setValue(at)
    header.sectionClicked.emit(at)
    qtbot.waitUntil(lambda: box.model.index(0, 0).data().startswith("Foghorn"), timeout=10_000)
    assert box.model.index(1, 0).data().startswith("Harbour")
    assert place >= 0


def test_the_columns_are_there_only_if_a_beer_has_such_days(qtbot, on_a_box, porter, folder):
    with Store.open(folder) as store:
        store.recipes.add(document_text(porter), summary_of(porter))
    window = on_a_box(OpenRecipe(porter))
    window.show_page(window.page_names.index("Recipe box"))
    box = window.box
    qtbot.waitUntil(lambda: bool(box.model.rows_read), timeout=10_000)
    keys = [each.key for each in box.model.columns]
    assert all(
        box.table.isColumnHidden(keys.index(each))
        for each in ("brewed", "fermenting", "packaged", "ready")
    )


def test_taking_packaging_back_puts_the_beer_into_the_fermenter_again(kept, folder):
    with Store.open(folder) as store:
        brew = store.brews.by_uid(kept["harbour_lamp_porter"])
        assert (brew.packaged[:10], brew.ready) == (
            (TODAY - 20 * DAY).astimezone(UTC).date().isoformat(),
            (TODAY - 6 * DAY).date().isoformat(),
        )
        store.brews.append(brew.id, line(6, "takes back", TODAY, entry="000003-ab"))
        row = store.recipes.row(brew.recipe)
        assert (row.packaged, row.ready) == ("", "")
        assert row.fermenting == (TODAY - 40 * DAY).astimezone(UTC).date().isoformat()


def test_a_brew_in_the_details_says_what_became_of_its_beer(qtbot, box):
    for name, says in (
        ("Slipway Bitter", f"4.5 % alcohol as read  ·  in the fermenter since {told(9)}"),
        ("Harbour Lamp Porter", f"packaged {told(20)}, ready {told(6)}"),
    ):
        # A list that is read again meanwhile may be in another order.
        names = [box.model.index(row, 0).data() for row in range(box.model.rowCount())]
        box.table.selectRow(names.index(name))
        model = box.details.versions_model
        qtbot.waitUntil(
            lambda says=says, model=model: any(
                says in str(model.index(row, 0).data(Qt.ItemDataRole.DisplayRole))
                for row in range(model.rowCount())
            ),
            timeout=10_000,
        )


def test_the_command_tells_the_same_days(kept, folder, monkeypatch, capsys):
    monkeypatch.setenv("HOBWORT_STORE", str(folder))
    assert run(["brews"]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert f"in the fermenter since {(date.today() - 9 * DAY).isoformat()}" in lines[0]
    assert f"packaged {(date.today() - 2 * DAY).isoformat()} · ready" in lines[1]
