"""The pocket page in a real browser: what a brewer touches beside the stove, and what is kept."""

from __future__ import annotations

import io
import json
import threading
import unicodedata

import pytest
from pypdf import PdfReader

from designer.workbench.pocket_server import PocketServer
from tests.sheet.plans import two_boils

from .browser import Browser, browser_path
from .phone import READY, Phone, requests, written_page


def test_a_step_is_ticked_by_its_box_or_its_button_and_the_next_is_the_step_now(phone):
    keys = [each.key for each in phone.steps]
    assert phone.states()[keys[0]] == "now"
    phone.tick("fill")
    assert phone.done == keys[:1]
    assert phone.states()[keys[1]] == "now"
    phone.go_on()
    assert phone.done == keys[:2]
    assert phone.page.text("#progress") == "Step 3 of 19"


def test_taking_a_tick_off_makes_it_the_step_now_again(phone):
    phone.go_on()
    phone.tick("fill")
    assert phone.done == []
    assert phone.states()["boil 1/fill"] == "now"


def test_a_step_is_left_out_with_its_reason(phone):
    phone.page.tap(".step.now .act button:last-child")
    phone.page.type("no thermometer")
    phone.page.key("Enter")
    assert phone.states()["boil 1/fill"] == "out"
    assert "no thermometer" in phone.page.text("#step-1 .came")
    assert phone.states()[phone.steps[1].key] == "now"


def test_ticks_readings_and_timers_outlive_reloading_and_closing(phone):
    phone.go_on()
    phone.go_on()
    phone.page.tap("#step-1 .what")
    phone.measure("Water in", "6,1")
    phone.reload()
    assert len(phone.done) == 2
    phone.close()
    phone.open()
    assert len(phone.done) == 2
    phone.page.tap("#step-1 .what")
    assert phone.page.value("document.getElementById('step-1-1').value") == "6,1"
    assert phone.timers == ["Steep"]
    assert 1490 <= phone.left_s() <= 1500


def test_a_page_that_is_opened_again_shows_the_step_now(phone):
    def top_of_step_now():
        return phone.page.value("document.querySelector('.now').getBoundingClientRect().top")

    assert phone.page.value("window.scrollY") == 0, "before the day it begins at its head"
    phone.until("boils")
    phone.close()
    phone.open()
    phone.page.wait("window.scrollY > 0")
    assert 0 <= top_of_step_now() < 370, "in the upper half of a screen of 740"


def test_the_steep_runs_by_the_clock_and_ends_with_a_call(phone):
    phone.until("lift")
    phone.pass_time(20)
    assert 295 <= phone.left_s() <= 300
    phone.pass_time(6)
    phone.wait_for("Time is up: Steep")
    assert -65 <= phone.left_s() <= -60
    phone.go_on()  # the grain is lifted: the steep is over
    assert phone.timers == []
    assert phone.call == ""


def test_each_addition_is_called_for_before_at_its_minute_and_until_it_is_in(phone):
    phone.until("hops 5")
    phone.wait_for("Now: 18 g Challenger")
    phone.go_on()
    assert phone.call == ""
    phone.go_on()  # sanitised early
    phone.pass_time(42.9)
    assert phone.call == ""
    phone.pass_time(0.2)  # 16:54 before the extract's minute
    phone.wait_for("In 2 min: 400 g Light dry malt extract")
    phone.page.tap("#call-buttons button")
    assert phone.page.value("document.querySelectorAll('#call-buttons button').length") == 0
    phone.pass_time(2)
    phone.wait_for("Now: 400 g Light dry malt extract")
    phone.page.tap("#call-buttons button:nth-child(2)")  # heard, and not in yet
    assert phone.call == "Now: 400 g Light dry malt extract"
    phone.pass_time(1)
    phone.page.wait("document.getElementById('call-late').textContent.startsWith('1:0')")
    phone.page.tap("#call-buttons button")
    assert phone.done[-1] == "boil 1/fermentables 2"
    assert phone.call == ""


def test_a_paused_boil_stands_still_and_goes_on_from_there(phone):
    phone.until("hops 5")
    phone.go_on()
    phone.pass_time(10)
    phone.page.tap(".timer button")
    assert "burner off" in phone.page.text(".timer .next")
    before = phone.left_s()
    phone.pass_time(8)
    assert phone.left_s() == before
    phone.page.tap(".timer button")
    phone.pass_time(5)
    assert before - 302 <= phone.left_s() <= before - 299


def test_a_timer_is_right_after_sleep_a_frozen_page_and_a_new_start(phone):
    phone.until("hops 5")
    phone.go_on()
    phone.page.ask("Page.setWebLifecycleState", state="frozen")
    phone.page.ask("Page.setWebLifecycleState", state="active")
    phone.sleep(30)
    assert 1790 <= phone.left_s() <= 1800
    assert "slept for 30:0" in phone.page.text("#notices")
    phone.wall += 60 * 5  # with the page shut
    phone.close()
    phone.open()
    assert 1485 <= phone.left_s() <= 1500


def test_a_clock_that_is_put_back_or_forward_turns_no_timer(phone):
    phone.until("hops 5")
    phone.go_on()
    before = phone.left_s()
    phone.set_clock(-60)
    assert before - 5 <= phone.left_s() <= before
    assert "put back by 1:00:0" in phone.page.text("#notices")
    phone.page.tap("#notices button")
    phone.set_clock(120)
    assert phone.left_s() < 0
    phone.page.tap("#notices button:last-child")  # it did not sleep: its clock was set
    assert before - 8 <= phone.left_s() <= before
    phone.reload()
    assert before - 10 <= phone.left_s() <= before


def test_a_timer_of_ones_own_takes_its_minutes_with_a_comma(phone):
    phone.page.tap("#minutes")
    phone.page.type("soon")
    phone.page.key("Enter")
    assert phone.page.text("#free-timer-fault") == "Type minutes, such as 10."
    phone.page.value("document.getElementById('minutes').select(), true")
    phone.page.type("2,5")
    phone.page.tap("#what-for")
    phone.page.type("Sanitiser")
    phone.page.key("Enter")
    assert phone.timers == ["Sanitiser"]
    assert 148 <= phone.left_s() <= 150
    phone.pass_time(3)
    phone.wait_for("Time is up: Sanitiser")
    phone.page.tap("#call-buttons button")
    assert phone.timers == []


def test_a_reading_is_set_beside_its_forecast_and_corrected_in_place(phone):
    phone.measure("Water in", "6,2")
    assert phone.page.text("#step-1-1-diff") == "+0.2 L"
    phone.measure("Water in", "5")
    assert phone.page.text("#step-1-1-diff") == "−1 L"
    phone.measure("Water in", "six")
    assert "no number" in phone.page.text("#step-1-1-diff")
    assert phone.page.value("document.getElementById('step-1-1').value") == "six"
    phone.measure("Before the grain", "69")
    assert phone.page.text("#step-1-2-diff") == "as forecast"
    phone.until("hops 5")
    phone.page.tap("#step-7 .what")
    for typed in ("1,055", "1055", "55", "1.055"):
        phone.measure("its gravity", typed)
        assert phone.page.text("#step-7-2-diff") == "as forecast", typed
    phone.measure("its gravity", "1,053", "30")
    assert phone.page.text("#step-7-2-diff") == "1.056 at 20 °C: +0.001"
    assert "To the reading add" in phone.page.value("document.querySelector('table').textContent")


def test_a_new_brew_asks_and_the_earlier_one_stays(phone):
    phone.go_on()
    phone.page.value("setTimeout(() => document.getElementById('new-brew').click())")
    phone.page.wait_for_dialog()
    phone.page.answer_dialogs(accept=False)
    assert len(phone.done) == 1
    phone.page.value("setTimeout(() => document.getElementById('new-brew').click())")
    phone.page.wait_for_dialog()
    phone.page.answer_dialogs(accept=True)
    phone.page.wait("document.querySelectorAll('.step.done').length === 0")
    phone.go_on()
    phone.go_on()
    phone.reload()
    assert len(phone.done) == 2
    phone.page.wait("document.querySelectorAll('#brewings option').length === 2")
    phone.page.value(
        "(() => { const s = document.getElementById('brewings'); s.selectedIndex = 1;"
        "s.dispatchEvent(new Event('change')); })()"
    )
    phone.page.wait("document.querySelectorAll('.step.done').length === 1")


def test_two_tabs_of_one_page_keep_one_log(phone):
    other = Phone(phone.browser, phone.place, phone.steps, kept=True)
    other._context = phone._context
    other.close()
    other.open()
    phone.go_on()
    other.page.wait("document.querySelectorAll('.step.done').length === 1")
    other.go_on()
    phone.page.wait("document.querySelectorAll('.step.done').length === 2")
    other.close()


def test_where_the_browser_keeps_nothing_that_is_said_and_the_text_is_there(phone_of, porter):
    phone = phone_of(porter, refuses=True)
    phone.go_on()
    assert "keeps nothing" in phone.page.text("#not-kept")
    assert phone.text_to_paste().startswith("HOBWORT BREW 1")
    assert phone.done == ["boil 1/fill"]


@pytest.mark.skipif(browser_path() is None, reason="no Chromium here; see packaging/test.sh --all")
def test_a_killed_browser_has_all_that_the_page_said_was_kept(porter, tmp_path):
    place, steps = written_page(porter, tmp_path)
    profile = tmp_path / "profile"
    for count in (3, 6):
        browser = Browser(profile)
        phone = Phone(browser, place, steps, kept=True)
        assert len(phone.done) == count - 3
        for _ in range(3):
            phone.go_on()
            phone.wait_until_kept()
        browser.kill()
    browser = Browser(profile)
    assert len(Phone(browser, place, steps, kept=True).done) == 6
    browser.close()


@pytest.mark.parametrize("dark", [False, True])
@pytest.mark.parametrize("language", ["en", "de", "fr"])
def test_nothing_runs_over_the_edge_of_a_narrow_phone(phone_of, language, dark):
    phone = phone_of(two_boils(), language, dark=dark)
    phone.until("boil 1/flame-out")
    for _ in range(3):
        width, edge = phone.page.value("[document.documentElement.scrollWidth, innerWidth]")
        assert (width, edge) == (360, 360)
        wide = phone.page.value(
            "[...document.querySelectorAll('body *')].filter(e => e.offsetParent && "
            "e.getBoundingClientRect().right > 361).map(e => e.className || e.tagName)"
        )
        assert wide == []
        small = phone.page.value(
            "[...document.querySelectorAll('button, .tick, input[type=text]')].filter(e => "
            "e.offsetParent && Math.min(e.offsetHeight, e.offsetWidth) < 44).map(e => e.outerHTML)"
        )
        assert small == []
        phone.pass_time(8)
    ground = phone.page.value("getComputedStyle(document.body).backgroundColor")
    assert ground == ("rgb(28, 31, 29)" if dark else "rgb(247, 244, 238)")


@pytest.mark.parametrize("dark", [False, True])
def test_all_text_can_be_read_on_its_ground(phone_of, porter, dark):
    """WCAG 2.2, 1.4.3: 4.5 to 1."""
    phone = phone_of(porter, dark=dark)
    phone.until("hops 5")
    phone.wait_for("Now:")
    weak = phone.page.value(CONTRAST)
    assert weak == []


CONTRAST = """
(() => {
  const numbers = (text) => text.match(/[\\d.]+/g).map(Number);
  const light = (text) => numbers(text).slice(0, 3).map((c) => c / 255).map(
    (c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4))
    .reduce((sum, c, i) => sum + c * [0.2126, 0.7152, 0.0722][i], 0);
  const ground = (e) => { for (; e; e = e.parentElement) {
    const c = getComputedStyle(e).backgroundColor;
    if ((numbers(c)[3] ?? 1) > 0) return c; } return "rgb(255, 255, 255)"; };
  const found = [];
  for (const e of document.querySelectorAll("body *")) {
    const own = [...e.childNodes].some((n) => n.nodeType === 3 && n.textContent.trim());
    if (!own || !e.offsetParent) continue;
    const [a, b] = [light(getComputedStyle(e).color), light(ground(e))];
    const ratio = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
    if (ratio < 4.5) found.push([e.className || e.tagName, ratio, e.textContent.slice(0, 40)]);
  }
  return found;
})()
"""


def test_the_day_can_be_gone_through_by_keyboard_alone(phone):
    page = phone.page
    for _ in range(4):  # the way over the head, the box of the step, the step, its first blank
        page.key("Tab")
    assert page.value("document.activeElement.id") == "step-1-1"
    page.type("6")
    page.key("Enter")
    assert page.value("document.activeElement.id") != "step-1-1"
    page.value("document.querySelector('.step.now .act .main').focus(), true")
    outline = page.value("getComputedStyle(document.activeElement).outlineStyle")
    assert outline == "solid"
    page.key("Enter")
    page.key("Space")
    assert len(phone.done) == 2
    assert page.value("document.activeElement.closest('.step').classList.contains('now')")
    page.key("Tab", shift=True)
    page.key("Tab")
    page.key("Enter")
    assert len(phone.done) == 3


def test_a_screen_reader_is_told_names_and_states(phone):
    phone.until("lift")
    phone.pass_time(30)
    phone.wait_for("Time is up")
    phone.page.tap("#step-2 .what")
    nodes = [
        each
        for each in phone.page.ask("Accessibility.getFullAXTree")["nodes"]
        if not each.get("ignored")
    ]
    told = [(each["role"]["value"], each.get("name", {}).get("value", "")) for each in nodes]
    for role, name in told:
        if role in ("button", "checkbox", "textbox", "combobox"):
            assert name, (role, name)
    assert ("checkbox", "done: Fill 6 L of water") in told
    assert ("textbox", "Minutes") in told
    assert ("textbox", "Steep") in told
    assert "alert" in [role for role, _ in told]
    ticked = [
        each["name"]["value"]
        for each in nodes
        if each["role"]["value"] == "checkbox"
        and any(
            p["name"] == "checked" and p["value"]["value"] == "true" for p in each["properties"]
        )
    ]
    assert "done: Fill 6 L of water" in ticked
    assert phone.page.value("document.querySelectorAll('[aria-current=step]').length") == 1


def said_in(pages):
    """The text of pages; ligatures as letters."""
    text = " ".join(each.extract_text() for each in pages)
    return " ".join(unicodedata.normalize("NFKC", text).split())


def test_it_prints_all_steps_with_their_boxes_and_blanks(phone):
    phone.go_on()
    pages = PdfReader(io.BytesIO(phone.page.pdf())).pages
    text = said_in(pages)
    assert len(pages) <= 4
    for step in phone.steps:
        assert " ".join(unicodedata.normalize("NFKC", step.title).split()) in text
    assert "Water in" in text
    assert "Done, go on" not in text
    assert "Sound" not in text


def test_the_page_is_told_apart_where_no_script_runs(browser, porter, tmp_path):
    place, steps = written_page(porter, tmp_path)
    page = browser.page("", context=browser.ask("Target.createBrowserContext")["browserContextId"])
    page.ask("Emulation.setScriptExecutionDisabled", value=True)
    page.go(place.as_uri())
    pages = PdfReader(io.BytesIO(page.pdf())).pages
    text = said_in(pages)
    assert "No script runs here" in text
    assert steps[-1].title in text
    page.close()


def test_a_name_that_is_typed_is_never_taken_for_markup(phone):
    wild = "<img src=x onerror=document.title='no'>"
    phone.page.tap("#note")
    phone.page.type(wild)
    phone.page.tap("#note-form button")
    assert wild in phone.page.text("#notes")
    phone.page.tap("#what-for")
    phone.page.type(wild)
    phone.page.tap("#minutes")
    phone.page.type("5")
    phone.page.key("Enter")
    assert wild in phone.page.text(".timer")
    assert phone.page.value("document.images.length") == 0


def test_sound_is_woken_by_the_first_touch_and_plays_until_it_was_heard(phone):
    phone.page.value(
        "window.tones = 0; const start = OscillatorNode.prototype.start;"
        "OscillatorNode.prototype.start = function (...a) { window.tones += 1;"
        "return start.apply(this, a); }; true"
    )
    phone.until("hops 5")
    phone.page.wait("window.tones >= 3")
    before = phone.page.value("window.tones")
    phone.pass_time(0.1)  # called again after some seconds
    phone.page.wait(f"window.tones === {before} + 3")
    phone.page.tap("#call-buttons button:nth-child(2)")
    heard = phone.page.value("window.tones")
    phone.pass_time(0.1)
    assert phone.page.value("window.tones") == heard


@pytest.mark.parametrize("allowed", [True, False])
def test_the_screen_is_kept_on_where_the_browser_lets_it_and_said_where_not(
    phone_of, porter, allowed
):
    phone = phone_of(porter)
    phone.page.value(WAKE_LOCK.replace("ALLOWED", "true" if allowed else "false"))
    phone.go_on()
    said = (
        "The screen stays on while this page is in front." if allowed else
        "This browser does not let the page keep the screen on here. Set the phone’s screen to go "
        "off late."
    )  # fmt: skip
    phone.page.wait(f"document.getElementById('awake-says').textContent === {json.dumps(said)}")
    if not allowed:
        return
    phone.page.tap("#awake-on")
    phone.page.wait("window.locks === 0")
    assert phone.page.text("#awake-says") == "The screen goes off as the phone is set."


WAKE_LOCK = """
  window.locks = 0;
  navigator.wakeLock.request = async () => {
    if (!ALLOWED) throw new DOMException("no", "NotAllowedError");
    window.locks += 1;
    const lock = new EventTarget();
    lock.release = async () => { window.locks -= 1; lock.dispatchEvent(new Event("release")); };
    return lock;
  };
  true
"""
"""Stands in for the phone's own: a browser without a window has no screen to keep on."""


def test_entries_that_were_damaged_in_the_browser_harm_nothing(phone):
    phone.go_on()
    phone.page.value(
        "(() => { for (const key of Object.keys(localStorage)) { const all = JSON.parse("
        "localStorage[key]); if (Array.isArray(all)) localStorage[key] = JSON.stringify([null, 7,"
        "{id: 'x'}, {id: '000001-zz', what: 'done'}, ...all]); } })()"
    )
    phone.reload()
    assert phone.done == ["boil 1/fill"]
    phone.page.value("for (const key of Object.keys(localStorage)) localStorage[key] = '{';")
    phone.reload()
    assert phone.done == ["boil 1/fill"]  # it was kept a second time
    phone.go_on()
    assert len(phone.done) == 2


def test_the_page_offered_in_the_network_is_the_same_page(phone_of, porter):
    phone = phone_of(porter)
    with PocketServer(phone.place.read_bytes(), "127.0.0.1", 0) as server:
        thread = threading.Thread(target=server.serve_forever, args=(0.01,))
        thread.start()
        phone.page.go(server.url)
        phone.page.wait(READY)
        phone.go_on()
        phone.wait_until_kept()
        asked = {each for each in requests(phone.browser) if not each.startswith("file:")}
        assert asked == {server.url}
        phone.browser.events.clear()
        server.shutdown()
        thread.join()
