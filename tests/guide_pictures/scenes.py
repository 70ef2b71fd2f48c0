"""What the pictures of the guide show: the tutorial, step by step, and each page of the program.

A scene brings the window to where the guide tells of it, by what a brewer types and presses, and
fails where the program does not say what the guide says there.
"""

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from designer.brewday.explaining.asked import Drawn, Stirred
from designer.library.store import Store
from designer.library.store.kitchen import CupboardRecord, FermenterRecord, PotRecord
from designer.window.brew.part_names import Part
from designer.workbench.examples import example, lay_in_examples
from designer.workbench.style_watch import MISSED
from tests.taught_kitchen import FIVE_BREWS, brewed, porter
from tests.window.brew.beer_driver import Beer

from .kitchen_desk import Waiting

PORTER = "harbour_lamp_porter"


def own_recipe(desk):
    """The first chapter: an own porter, from the doors to the sheet."""
    pot, fermenter, *_, style, _, strength, hop, alpha, more_hop, name, _ = desk.typed_in(
        "10_own_recipe"
    )
    window = desk.open()
    doors, own = window.begin_page, window.begin_page.own
    desk.drafted(own)
    QTest.keyClicks(doors.welcome.fields["pot"], pot)
    QTest.keyClicks(doors.welcome.fields["fermenter"], fermenter)
    desk.press(doors.welcome.keep)
    desk.drafted(own)
    desk.type_over(own.form.words, style)
    own.form.words.completer().popup().hide()
    desk.drafted(own)
    desk.type_over(own.form.strength.field, strength)
    QTest.keyClick(own.form.strength.field, Qt.Key.Key_Return)
    desk.drafted(own)
    desk.press(next(chip for chip in own.form.flavours.chips if chip.key == "dried-fruit"))
    desk.drafted(own)
    desk.take("own_recipe.png")
    desk.press(own.three.cards[1].button)
    desk.until(lambda: window.opened.is_open)
    desk.forecast()
    window.messages.put_away()
    hops = window.compose.hops.model
    hops.setData(hops.index(0, 0), hop)
    desk.forecast()
    desk.shows(bitterness_ibu="35 22 51")
    desk.press(next(each for each in window.compose.forecast.rows if "bitter" in each.key))
    desk.take("own_forecast.png")
    hops.setData(hops.index(0, 4), alpha)
    desk.forecast()
    desk.shows(bitterness_ibu="34 22 43")
    hops.setData(hops.index(0, 0), more_hop)
    desk.forecast()
    assert MISSED in [each.message.id for each in window.opened.newest_outlook().findings]
    window.opened.undo_stack.undo()
    desk.forecast()
    desk.shows(bitterness_ibu="34 22 43")
    desk.type_over(window.header.name, name)
    window.files.save()
    desk.page("Sheet")
    desk.take("own_sheet.png")


def small_pot(desk):
    """The second chapter: a kit as its leaflet reads, and the ways to brew it."""
    (
        name, makes, tins, dry, extract, steeped, grain, hop, variety, when, gravity, bitterness, _
    ) = desk.typed_in("11_small_pot")  # fmt: skip
    window = desk.open()
    desk.press(window.begin_page.doors.button(1))
    kit = window.begin_page.kit
    desk.rest()

    def put(rows, **texts):
        for key, text in texts.items():
            rows.put(rows.rows[0], key, text)

    desk.type_over(kit.name, name)
    desk.type_over(kit.fields["makes"], makes)
    put(kit.contents.tins, amount=tins)
    of_kind = kit.contents.of_kind
    put(of_kind["dry extract"], amount=dry, name=extract)
    put(of_kind["steeping grain"], amount=steeped, name=grain)
    put(kit.contents.hops, amount=hop, name=variety, when=when)
    desk.type_over(kit.fields["original_gravity"], gravity)
    desk.type_over(kit.fields["bitterness"], bitterness)
    desk.until(lambda: not kit._pause.isActive() and kit.looked is not None)
    desk.rest()
    desk.take("kit_typed.png")
    kit.look()
    desk.press(kit.to_fit)
    desk.until(lambda: window.fit is not None and window.fit.answer is not None)
    desk.rest()
    desk.take("kit_ways.png")


def odd_reading(desk):
    """The third chapter: the porter's day, a reading that is too low, and the beer until done."""
    boil_starts, low, warmth, stirred, cooled = desk.typed_in("12_odd_reading")
    with Store.open(desk.store) as store:
        lay_in_examples(store)
    window = desk.open(example(PORTER))
    desk.page("Brew day")
    page = window.brew_page
    page.do()

    def go_on(to=""):
        while (step := page.brew.brewing.now) is not None and step.key != to:
            desk.clock.go_on(max(60.0 * step.minutes - desk.clock.true_s, 0.0))
            page.brew.done(step.key)
        desk.until(lambda: not page.brew.reckoning)

    go_on("boil 1/boils")
    page.take_focus()
    for sign in boil_starts:  # the first leads to the blank
        QTest.keyClick(QApplication.focusWidget(), sign)
    QTest.keyClick(QApplication.focusWidget(), Qt.Key.Key_Return)
    go_on("boil 1/sanitise")
    desk.clock.go_on(300.0)
    page.take_focus()
    desk.take("brew_boil.png")
    go_on("fermenter 1/close")
    page.show_part(Part.READING)
    part = page.parts.current

    def type_sample(reading, at):
        QTest.keyClicks(part.form.reading, reading)
        QTest.keyClick(part.form.reading, Qt.Key.Key_Tab)
        QTest.keyClicks(QApplication.focusWidget(), at)
        QTest.keyClick(QApplication.focusWidget(), Qt.Key.Key_Return)

    def told(verdict):
        def is_told():
            found = part.panel.explained
            is_whole = found is not None and found.whole and not part.ahead.busy
            return is_whole and not page.brew.reckoning and found.verdict == verdict

        desk.until(is_told)

    type_sample(low, warmth)
    desk.press(part.form.drawn.chips[Drawn.TOP])
    desk.press(part.form.stirred.chips[Stirred.NO])
    told("not_mixed")
    desk.take("odd_low.png")
    desk.press(part.panel.test.buttons[0])
    type_sample(stirred, cooled)
    told("fine")
    go_on()
    page.brew.finish()
    desk.until(lambda: not page.brew.reckoning_beer)
    page.show_part(Part.FERMENTING)
    beer = Beer(Waiting(desk), page, desk.clock)
    for day, gravity in ((4, "1.020"), (9, "1.014"), (12, "1.013"), (15, "1.013")):
        beer.on_day(day)
        beer.type_reading(desk.written(gravity), sample="19")
    desk.rest()
    desk.take("beer_done.png")
    desk.page("Recipe box")
    desk.take("recipe_box.png")


def pages(desk):
    """The pages of the program, over a box in which there is something."""
    with Store.open(desk.store) as store:
        lay_in_examples(store)
        store.pots.insert(PotRecord("Kitchen pot", "9 L"))
        store.pots.insert(PotRecord("Stock pot", "15 L"))
        store.fermenters.insert(FermenterRecord("Small bucket", "12 L"))
        for name, amount in (("Light dry malt extract", "500 g"), ("Challenger", "60 g")):
            store.cupboard.insert(CupboardRecord(name, amount))
    window = desk.open(example(PORTER))
    desk.take("compose.png")
    desk.page("Kitchen")
    desk.take("kitchen.png")
    window.begin()
    desk.rest()
    desk.drafted(window.begin_page.own)
    desk.take("begin.png")


def taught(desk):
    """What five brews in one pot taught."""
    with Store.open(desk.store) as store:
        store.pots.insert(PotRecord("Kitchen pot", "9 L"))
        brewed(store, FIVE_BREWS)
    window = desk.open(porter())
    desk.page("Kitchen")
    desk.press(window.kitchen.part_buttons[2])
    panel = window.kitchen.learned
    desk.until(lambda: panel.taught is not None)
    desk.until(lambda: not (panel._jobs.busy or panel._forecasts.busy))
    window.messages.put_away()
    desk.take("taught.png")


SCENES = (own_recipe, small_pot, odd_reading, pages, taught)
