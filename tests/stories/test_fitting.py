"""A brewer with a 20 L kit, a 9 L pot and a 12 L bucket."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QPushButton

from designer.library.recipe_file import document_text, load
from designer.library.store.kitchen import FermenterRecord, PotRecord
from designer.recipe.document import PlannedBoil
from designer.recipe.edits import ChangePart
from designer.recipe.kinds import typed
from designer.recipe.message import say, word
from designer.recipe.plan import as_written, is_planned, planning
from designer.recipe.quantity import Kind
from designer.resource_files import resource_path
from designer.units import read
from designer.window.parts.figures import figure
from designer.window.parts.vessels_drawing import VesselsDrawing
from designer.window.session.open_recipe import OpenRecipe


@pytest.fixture
def fit(qtbot, window):
    window.opened.replace_by(load(resource_path("examples/breakwater_red.hobwort")), None)
    window.show_page(1)
    found(qtbot, window.fit)
    return window.fit


def found(qtbot, fit):
    """Wait until all ways for what is typed are shown."""
    qtbot.waitUntil(lambda: fit.answer is not None, timeout=20_000)


def put(qtbot, field, text):
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, text)


def column(fit, number):
    """The texts of a column of the table, by what heads their rows."""
    model = fit.table.model()
    return {
        model.index(row, 0).data(): model.index(row, number).data()
        for row in range(2, model.rowCount())
    }


def names(fit):
    model = fit.table.model()
    shown = (model.index(1, column).data() for column in range(2, model.columnCount()))
    return [name for name in shown if name]


def drawn(fit):
    """The drawing of the chosen way's vessels."""
    [found] = [each for each in fit.chosen.findChildren(VesselsDrawing) if each.isVisible()]
    return found


def spoken(fit, row, number):
    """What is read aloud of a cell, by what heads its row."""
    model = fit.table.model()
    rows = {model.index(each, 0).data(): each for each in range(2, model.rowCount())}
    return model.index(rows[row], number).data(Qt.ItemDataRole.AccessibleTextRole)


def test_ways_stand_side_by_side_behind_the_recipe_as_it_is_written(fit):
    assert len(fit.ways) >= 3
    assert [way.rank for way in fit.ways] == list(range(1, len(fit.ways) + 1))
    assert "ways work" in fit.sentence.text()
    assert names(fit) == [way.name for way in fit.ways][: len(names(fit))]
    written = column(fit, 1)
    assert written["Beer"] == "20 L"
    assert written["In the fermenter"] == "✕ 20 of 12 L"
    assert spoken(fit, "In the fermenter", 1).endswith("20 of 12 L (does not fit)")


def test_what_is_in_hand_stands_under_its_words_before_what_has_to_be_bought(fit):
    model = fit.table.model()
    heads = [model.index(0, number).data() for number in range(model.columnCount())]
    own, bought = heads.index("With what you have"), heads.index("If you buy or borrow")
    assert own == 2
    assert bought - own == len([way for way in fit.ways if way.in_hand])
    assert column(fit, own)["Buy or borrow"] == "nothing"
    assert "bucket" in column(fit, bought)["Buy or borrow"]


def test_same_stands_only_where_the_figures_shown_are_equal(fit, display):
    for number, way in enumerate(fit.ways[: len(names(fit))], 2):
        for row, keys in {
            "OG, alcohol": ("original_gravity", "abv_percent"),
            "Bitterness": ("bitterness_ibu",),
            "Colour": ("colour_srm",),
        }.items():
            found = [way.forecasts[key] for key in keys]
            pairs = list(zip(keys, found, strict=True))
            now = [figure(key, each.value, display) for key, each in pairs]
            before = [figure(key, each.original, display) for key, each in pairs]
            shown = column(fit, number)[row]
            assert (shown == "same") is (now == before)
            if now != before:
                assert shown.removeprefix("△ ") == " · ".join(now)


def test_a_difference_has_its_sign_and_word_just_where_it_leaves_the_recipe_s_own_range(qtbot, fit):
    own = fit.answer.forecasts["bitterness_ibu"]
    put(qtbot, fit.fields["pot"], "5 L")
    found(qtbot, fit)
    marked = []
    for number, way in enumerate(fit.ways[: len(names(fit))], 2):
        ibu = way.forecasts["bitterness_ibu"].value
        outside = not own.low <= ibu <= own.high and abs(ibu - own.value) > 1.0
        assert column(fit, number)["Bitterness"].startswith("△ ") is outside
        assert spoken(fit, "Bitterness", number).endswith("(differs, or asks for care)") is outside
        marked.append(column(fit, number)["Beer"].startswith("△ "))
    assert True in marked


def test_the_keyboard_chooses_a_way_and_return_uses_it(qtbot, window, fit):
    fit.table.setFocus()
    first = fit.chosen.way
    assert first is fit.ways[0]
    qtbot.keyClick(fit.table, Qt.Key.Key_Right)
    assert fit.chosen.way is fit.ways[1]
    assert fit.chosen.title.text() == fit.ways[1].name
    assert fit.chosen.accessibleName() == f"Way 2: {fit.ways[1].name}"
    qtbot.keyClick(fit.table, Qt.Key.Key_Left)
    assert fit.chosen.way is first
    before = window.opened.recipe
    qtbot.keyClick(fit.table, Qt.Key.Key_Return)
    assert window.pages.currentWidget() is window.compose
    assert document_text(window.opened.recipe) == document_text(first.planned)
    assert as_written(window.opened.recipe) == before
    assert window.compose.plan.isVisible()
    assert window.opened.undo_stack.count() == 1
    codes = {each.code for each in window.opened.newest_outlook().findings}
    assert not codes & {"pot-overflows", "fermenter-overflows"}
    window.opened.undo_stack.undo()
    assert window.opened.recipe == before


def test_a_press_on_a_column_chooses_it_and_the_button_uses_it(qtbot, window, fit):
    index = fit.table.model().index(5, 3)
    place = fit.table.visualRect(index).center()
    qtbot.mouseClick(fit.table.viewport(), Qt.MouseButton.LeftButton, pos=place)
    way = fit.ways[1]
    assert fit.chosen.way is way
    qtbot.mouseClick(fit.chosen.use_button, Qt.MouseButton.LeftButton)
    assert document_text(window.opened.recipe) == document_text(way.planned)


def test_the_chosen_way_is_shown_whole_its_weights_add_up_to_its_boil(fit):
    labels = [each for each in fit.chosen.findChildren(QLabel) if each.isVisible()]
    texts = [each.text().replace("\u00a0", " ") for each in labels]
    way = fit.chosen.way
    for line in way.boils[0].recipe.fermentables:
        assert any(text.startswith(line.name) for text in texts)
    assert "Hopped kit extract, amber or bitter, 5 min left, of 1.7 kg" in texts
    assert "water to start, was 6 L" in texts
    assert [text for text in texts if text in ("1", "2", "3")] == ["1", "2", "3"]
    for said in way.steps:
        assert said.text in texts
    for left in way.left_over:
        assert any(text.endswith(f" of {left.name}") for text in texts)
    drawing = drawn(fit)
    told = drawing.accessibleDescription()
    assert "Kitchen pot, 9 L: fullest 7.2 L; foam line 7.2 L" in told
    assert "krausen line 10.2 L" in told


def test_the_steps_are_those_of_the_way_in_its_order_and_cooling_is_told_once_more_below(fit):
    way = next(each for each in fit.ways if each.rank == 1)
    labels = [each for each in fit.chosen.findChildren(QLabel) if each.isVisible()]
    said = [each.text().replace("\u00a0", " ") for each in labels]
    steps = [said.index(each.text) for each in way.steps]
    assert steps == sorted(steps)
    assert said.count(way.cooling.sentence.text) == 1
    assert said.index(way.cooling.sentence.text) > steps[-1]
    numbers = [text for text in said if text.isdigit()]
    assert numbers == [str(n) for n in range(1, len(way.steps) + 1)]


def test_a_way_of_two_buckets_shows_both_and_what_they_cost_is_not_made_up(fit):
    way = next(way for way in fit.ways if way.key == "one boil")
    fit.choose(way)
    drawing = drawn(fit)
    assert "2 × Small bucket, 12 L: 10 L" in drawing.accessibleDescription()
    at = 2 + fit.ways.index(way)
    assert column(fit, at)["In the fermenter"] == "2 × 10 of 12 L"
    assert column(fit, at)["Buy or borrow"].endswith(": no price")


def test_a_half_brewed_twice_is_two_lots_in_the_one_bucket_and_its_yeast_is_bought_later(fit):
    way = next(way for way in fit.ways if way.key == "two brews")
    assert way.in_hand
    fit.choose(way)
    shown = column(fit, 2 + fit.ways.index(way))
    assert shown["Beer"] == "20 L, in 2 lots"
    assert shown["In the fermenter"] == "10 of 12 L, each time"
    assert shown["At stove and sink"].startswith("△ 2 × ")
    assert shown["Buy or borrow"] == "yeast: no price (later)"
    assert "2 × Small bucket" not in drawn(fit).accessibleDescription()


def test_a_larger_pot_and_fermenter_are_typed_and_counted_at_once(qtbot, fit):
    put(qtbot, fit.fields["pot"], "30 L")
    put(qtbot, fit.fields["fermenter"], "7 gal")
    found(qtbot, fit)
    best = fit.ways[0]
    assert best.must_buy == ()
    assert best.batch_l == pytest.approx(20.0, abs=0.2)


def test_nonsense_sizes_are_refused_in_words_and_the_table_is_no_answer_to_them(qtbot, window, fit):
    before = window.opened.recipe
    put(qtbot, fit.fields["pot"], "large")
    assert fit.refusal.isVisible()
    assert fit.refusal.text().startswith("Pot:")
    assert fit.table.dimmed
    assert not fit.chosen.use_button.isEnabled()
    fit.table.setFocus()
    qtbot.keyClick(fit.table, Qt.Key.Key_Return)
    assert window.opened.recipe is before
    put(qtbot, fit.fields["pot"], "9 L")
    found(qtbot, fit)
    assert not fit.table.dimmed
    assert fit.chosen.use_button.isEnabled()


def test_the_sheet_of_a_way_is_one_press_away(qtbot, window, fit):
    way = fit.ways[1]
    fit.choose(way)
    qtbot.mouseClick(fit.chosen.sheet_button, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: window.pages.currentWidget() is window.sheet)
    assert document_text(window.opened.recipe) == document_text(way.planned)


def test_leaving_the_page_drops_the_answer_that_is_under_way(qtbot, window, fit):
    fit.reckon()
    assert fit.answer is None
    window.show_page(0)
    qtbot.waitUntil(lambda: not fit.latest.busy, timeout=20_000)
    assert fit.answer is None


def test_the_recipe_as_written_is_there_at_once_and_no_column_moves_when_the_ways_come(
    qtbot, window
):
    window.opened.replace_by(load(resource_path("examples/breakwater_red.hobwort")), None)
    window.opened.newest_outlook()
    window.show_page(1)
    fit = window.fit
    assert fit.answer is None
    assert column(fit, 1)["In the fermenter"] == "✕ 20 of 12 L"
    assert fit.working.isVisible()
    places = [fit.table.columnViewportPosition(at) for at in range(fit.table.model().columnCount())]
    found(qtbot, fit)
    assert not fit.working.isVisible()
    assert places == [
        fit.table.columnViewportPosition(at) for at in range(fit.table.model().columnCount())
    ]


def test_five_ways_stand_beside_each_other_and_more_are_one_press_away(qtbot, window, fit):
    window.opened.replace_by(load(resource_path("examples/slipway_bitter.hobwort")), None)
    put(qtbot, fit.fields["pot"], "5 L")
    found(qtbot, fit)
    assert len(fit.ways) > 3
    assert fit.table.horizontalScrollBar().maximum() == 0
    assert fit.table.model().columnCount() == 7
    window.resize(800, 700)
    qtbot.waitUntil(lambda: fit.table.model().columnCount() < 7)
    assert len(names(fit)) < len(fit.ways)
    shown = names(fit)
    assert fit.more_button.text().startswith(f"{len(fit.ways) - len(shown)} more way")
    qtbot.mouseClick(fit.more_button, Qt.MouseButton.LeftButton)
    assert names(fit)[0] == fit.ways[len(shown)].name
    assert fit.chosen.way is fit.ways[len(shown)]
    assert fit.fewer_button.text() == f"{len(shown)} ways before"
    fit.table.setFocus()
    qtbot.keyClick(fit.table, Qt.Key.Key_Left)
    assert names(fit) == shown
    assert fit.chosen.way is fit.ways[len(shown) - 1]


def test_a_near_copy_is_one_press_away_and_takes_the_column_of_its_like(qtbot, fit):
    way = next(way for way in fit.ways if way.much_the_same)
    at, other = fit.ways.index(way), way.much_the_same[0]
    links = {each.text(): each for each in fit.alike.findChildren(QPushButton)}
    assert other.name in links
    assert way.name not in links
    qtbot.mouseClick(links[other.name], Qt.MouseButton.LeftButton)
    assert fit.ways[at] is other
    assert fit.chosen.way is other
    assert names(fit)[at] == other.name

    def offered():
        return [each.text() for each in fit.alike.findChildren(QPushButton) if each.isVisible()]

    qtbot.waitUntil(lambda: way.name in offered() and other.name not in offered())


def test_what_needs_buying_can_be_hidden(qtbot, fit):
    fit.kitchen.buying.setChecked(False)
    found(qtbot, fit)
    assert fit.ways
    assert all(way.in_hand for way in fit.ways)
    assert names(fit) == [way.name for way in fit.ways]


def test_a_second_pot_a_stove_and_a_freezer_have_their_fields(qtbot, fit):
    put(qtbot, fit.fields["second_pot"], "6 L")
    put(qtbot, fit.fields["power"], "3 kW")
    put(qtbot, fit.fields["frozen"], "2 kg")
    found(qtbot, fit)
    wish = fit.wish(fit.window().opened.recipe)
    assert wish.second_pot.volume.value == 6.0
    assert (wish.pot.power.value, wish.second_pot.power.value) == (3000.0, 3000.0)
    assert wish.most_frozen_kg == 2.0
    assert "second pot" in {way.key for way in fit.ways}


def test_a_pot_that_is_kept_brings_what_was_measured_with_it(qtbot, on_a_box, opened):
    """Picked by name in either field: evaporation, diameter, power, and what stays in it."""
    window = on_a_box(opened)
    store, kept = window.autosave.store, []
    pots = (
        PotRecord("Jam kettle", "8 L", "24 cm", "gas", "2500 W", "0.7 L/h", left_in_pot="0.5 L"),
        PotRecord("Old pot", "6 L", evaporation="0.4 L/h"),
    )
    for pot in pots:
        store.ask(lambda opened, pot=pot: opened.pots.insert(pot), kept.append)
    qtbot.waitUntil(lambda: len(kept) == 2, timeout=20_000)
    window.opened.replace_by(load(resource_path("examples/breakwater_red.hobwort")), None)
    window.show_page(1)
    fit = window.fit
    qtbot.waitUntil(lambda: fit.fields["pot"].completer() is not None, timeout=20_000)
    kettle, old = fit.fields["pot"].completer().model().stringList()
    put(qtbot, fit.fields["pot"], kettle)
    put(qtbot, fit.fields["second_pot"], old)
    found(qtbot, fit)
    wish = fit.wish(window.opened.recipe)
    assert (wish.pot.diameter.text, wish.pot.power.text, wish.pot.stove) == (
        "24 cm", "2500 W", "gas",
    )  # fmt: skip
    both = next(way for way in fit.answer.every_way if way.key == "second pot")
    assert [made.pot.name for made in both.recipes] == ["Jam kettle", "Old pot"]
    one, two = (made.process for made in both.recipes)
    assert (one.evaporation.text, one.left_in_pot.text) == ("0.7 L/h", "0.5 L")
    assert two.evaporation.text == "0.4 L/h"


@pytest.fixture
def in_a_kitchen(qtbot, on_a_box):
    """Fit, for a brewer whose kitchen has two pots and a bucket, measured."""
    window = on_a_box(OpenRecipe(load(resource_path("examples/breakwater_red.hobwort"))))
    store = window.autosave.store
    jam = PotRecord("Jam pot", volume="15 L", power="3000 W", evaporation="1.3 L/h")
    for record in (jam, PotRecord("Soup pot", volume="6 L")):
        store.ask(lambda box, record=record: box.pots.insert(record))
    store.ask(lambda box: box.fermenters.insert(FermenterRecord("Blue bucket", volume="25 L")))
    qtbot.waitUntil(lambda: not store.busy, timeout=10_000)
    window.show_page(1)
    qtbot.waitUntil(lambda: not store.busy, timeout=10_000)
    found(qtbot, window.fit)
    return window.fit


def test_vessels_of_the_kitchen_are_offered_by_name_and_bring_what_was_measured(
    qtbot, in_a_kitchen
):
    fit = in_a_kitchen
    field = fit.fields["pot"]
    field.setFocus()
    qtbot.keyClick(field, Qt.Key.Key_Down)
    offered = field.completer().popup()
    assert offered.isVisible()
    names_offered = [offered.model().index(row, 0).data() for row in range(2)]
    assert names_offered == ["Jam pot, 15 L", "Soup pot, 6 L"]
    qtbot.keyClick(offered, Qt.Key.Key_Down)
    qtbot.keyClick(offered, Qt.Key.Key_Return)
    assert field.text() == "Jam pot, 15 L"
    put(qtbot, fit.fields["fermenter"], "blue")
    found(qtbot, fit)
    wish = fit.wish(fit.window().opened.recipe)
    assert (wish.pot.name, wish.pot.volume.value, wish.pot.power.value) == ("Jam pot", 15.0, 3000.0)
    assert wish.fermenters[0].name == "Blue bucket"
    best = fit.ways[0]
    assert best.in_hand
    assert best.batch_l == pytest.approx(20.0, abs=0.2)
    assert best.boils[0].recipe.process.evaporation.value == 1.3
    assert not any("measure yours" in said.text for said in best.steps)


def test_what_is_typed_stays_when_one_comes_back_to_the_page(qtbot, window, fit):
    put(qtbot, fit.fields["pot"], "6 L")
    put(qtbot, fit.fields["second"], "8 L")
    found(qtbot, fit)
    window.show_page(0)
    window.show_page(1)
    assert (fit.fields["pot"].text(), fit.fields["second"].text()) == ("6 L", "8 L")


def test_a_recipe_with_nothing_in_it_is_told(qtbot, window, fit):
    from designer.recipe.document import Recipe

    window.opened.replace_by(Recipe(), None)
    found(qtbot, fit)
    assert fit.ways == ()
    assert fit.sentence.text()
    assert not fit.chosen.isVisible()


def test_the_table_can_be_read_aloud_and_reached(fit):
    assert fit.table.accessibleName() == "Ways to brew it here"
    assert fit.chosen.use_button.accessibleName() == f"Use this way: {fit.ways[0].name}"
    assert Qt.FocusPolicy.NoFocus not in (
        fit.fields["pot"].focusPolicy(),
        fit.table.focusPolicy(),
    )


def test_a_planned_recipe_is_scaled_as_it_is_written_and_that_is_said(qtbot, window):
    window.show_page(1)
    fit, opened = window.fit, window.opened
    half = PlannedBoil(opened.recipe.pot, typed(Kind.FRACTION, 0.5))
    opened.make(planning((half, half), (), say("use", "use a way")))
    planned = opened.recipe
    fit.scale_field.setText("8 L")
    with qtbot.waitSignal(fit.said) as said:
        fit.scale()
    assert said.args[0].endswith("Undo takes it back. It is brewed as written again.")
    assert not is_planned(opened.recipe)
    opened.undo_stack.undo()
    assert opened.recipe == planned


def test_a_recipe_of_one_s_own_is_scaled_and_keeps_its_beer(qtbot, window, porter):
    from designer.brewday.day import brew

    window.show_page(1)
    fit = window.fit
    qtbot.keyClicks(fit.scale_field, "5 L")
    qtbot.mouseClick(fit.scale_button, Qt.MouseButton.LeftButton)
    after, before = brew(window.opened.recipe), brew(porter)
    assert after.fermenter.batch_l == pytest.approx(5.0, abs=0.05)
    assert after.beer.original_gravity == pytest.approx(before.beer.original_gravity, abs=0.001)
    assert after.beer.bitterness_ibu == pytest.approx(before.beer.bitterness_ibu, abs=1.0)
    assert window.opened.undo_stack.count() == 1
    fit.scale_field.setText("a lot")
    fit.scale()
    assert fit.refusal.isVisible()


def test_another_hop_takes_a_line_s_place(qtbot, window, porter):
    from designer.brewday.day import brew

    panel = window.compose.hops
    panel.view.setCurrentIndex(panel.view.model().index(0, 0))
    panel.more_button.setChecked(True)
    panel.details._instead.setText("Fuggle")
    panel.details.put_instead()
    recipe = window.opened.recipe
    assert recipe.hops[0].name == "Fuggle"
    assert recipe.hops[0].amount.value > porter.hops[0].amount.value
    assert brew(recipe).beer.bitterness_ibu == pytest.approx(
        brew(porter).beer.bitterness_ibu, abs=1.0
    )
    assert window.opened.undo_stack.count() == 1


def test_a_bucket_too_small_leads_to_the_ways_and_its_cure_says_what_it_makes(qtbot, window):
    window.opened.replace_by(load(resource_path("examples/breakwater_red.hobwort")), None)
    cards = window.compose.watch_out.cards
    qtbot.waitUntil(lambda: bool(cards) and cards[0].ways is not None, timeout=10_000)
    card = cards[0]
    assert "will not fit the 12 L fermenter" in card.accessibleName()
    assert card.cure.text().startswith("Top up to 10.2 L: that makes OG 1.08")
    assert " IBU" in card.cure.text()
    assert card.ways.isVisible()
    assert card.ways.accessibleName().startswith("Ways to brew it here. Cures: Stop: 20 L")
    qtbot.mouseClick(card.ways, Qt.MouseButton.LeftButton)
    assert window.pages.currentWidget() is window.fit
    assert window.header.page_buttons.checkedId() == window.page_names.index("Fit")


def test_where_the_vessels_are_large_enough_nothing_leads_to_the_ways(qtbot, window):
    window.opened.replace_by(load(resource_path("examples/breakwater_red.hobwort")), None)
    cards = window.compose.watch_out.cards
    qtbot.waitUntil(lambda: bool(cards) and cards[0].ways is not None, timeout=10_000)
    large = read(Kind.VOLUME, "30 L")
    window.opened.make(ChangePart("fermenter", "volume", large, word("change the bucket")))
    qtbot.waitUntil(lambda: cards[0].ways.isHidden(), timeout=10_000)
    assert "will not fit" not in cards[0].accessibleName()
