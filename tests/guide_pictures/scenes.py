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
from designer.translation import named, tr
from designer.window.brew.part_names import Part
from designer.workbench.examples import example, lay_in_examples
from tests.taught_kitchen import FIVE_BREWS, brewed, porter
from tests.window.brew.beer_driver import Beer

from .kitchen_desk import Waiting

PORTER = "harbour_lamp_porter"


def own_recipe(desk):
    """The first chapter: an own porter, from the doors to the sheet."""
    window = desk.open()
    doors, own = window.begin_page, window.begin_page.own
    desk.drafted(own)
    QTest.keyClicks(doors.welcome.fields["pot"], "9 L")
    QTest.keyClicks(doors.welcome.fields["fermenter"], "12 L")
    desk.press(doors.welcome.keep)
    desk.drafted(own)
    desk.type_over(own.form.words, "english porter")
    own.form.words.completer().popup().hide()
    desk.drafted(own)
    desk.type_over(own.form.strength.field, desk.written("4.8"))
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
    hops.setData(hops.index(0, 0), "18 g")
    desk.forecast()
    desk.shows(bitterness_ibu="35 22 51")
    desk.press(next(each for each in window.compose.forecast.rows if "bitter" in each.key))
    desk.take("own_forecast.png")
    hops.setData(hops.index(0, 4), desk.written("7.2 % ± 0.3 %"))
    desk.forecast()
    desk.shows(bitterness_ibu="34 22 43")
    window.files.save()
    desk.page("Sheet")
    desk.take("own_sheet.png")


def small_pot(desk):
    """The second chapter: a kit as its leaflet reads, and the ways to brew it."""
    window = desk.open()
    desk.press(window.begin_page.doors.button(1))
    kit = window.begin_page.kit
    desk.rest()

    def put(rows, **texts):
        for key, text in texts.items():
            rows.put(rows.rows[0], key, text)

    desk.type_over(kit.name, "Breakwater Red")
    desk.type_over(kit.fields["makes"], "20 L")
    put(kit.contents.tins, amount=desk.written("1.7 kg"))
    of_kind = kit.contents.of_kind
    put(of_kind["dry extract"], amount="1 kg", name=named("Amber dry malt extract"))
    put(of_kind["steeping grain"], amount="200 g", name=named("Crystal malt 120 °L"))
    put(kit.contents.hops, amount="20 g", name="Fuggle", when=tr("flame-out"))
    desk.type_over(kit.fields["original_gravity"], desk.written("1.038-1.042"))
    desk.type_over(kit.fields["bitterness"], "24 IBU")
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
    for sign in desk.written("6.5"):  # the first leads to the blank
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

    type_sample(desk.written("1.037"), "24")
    desk.press(part.form.drawn.chips[Drawn.TOP])
    desk.press(part.form.stirred.chips[Stirred.NO])
    told("not_mixed")
    desk.take("odd_low.png")
    desk.press(part.panel.test.buttons[0])
    type_sample(desk.written("1.046"), "20")
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
