"""Messages stay until they could be read."""

from designer.window.parts.message_bar import MessageBar


def test_a_message_stays_for_as_long_as_it_takes_to_read(qtbot, monkeypatch):
    monkeypatch.setattr("designer.window.parts.message_bar.LEAST_MS", 50)
    monkeypatch.setattr("designer.window.parts.message_bar.MS_A_SIGN", 1)
    bar = MessageBar()
    qtbot.addWidget(bar)
    bar.say("Saved.")
    bar.settle()
    assert bar.isVisible()
    qtbot.waitUntil(lambda: not bar.isVisible(), timeout=3000)


def test_a_grave_message_stays_until_it_is_put_away(qtbot):
    bar = MessageBar()
    qtbot.addWidget(bar)
    bar.say("The disk is full.", grave=True)
    bar.settle()
    bar._put_away()
    assert bar.isVisible()
    bar.close_button.click()
    assert not bar.isVisible()


def test_buttons_carry_out_and_go_with_their_message(qtbot):
    done = []
    bar = MessageBar()
    qtbot.addWidget(bar)
    bar.say("Damaged.", grave=True, actions=[("Restore version", lambda: done.append(1))])
    bar._buttons[0].click()
    assert done == [1]
    bar.say("Fine.")
    assert bar._buttons == []


def test_a_message_moves_nothing_on_the_page(qtbot, window):
    view = window.compose.hops.view
    before = view.mapTo(window, view.rect().topLeft())
    window.messages.say("Saved.")
    qtbot.waitUntil(window.messages.isVisible)
    assert view.mapTo(window, view.rect().topLeft()) == before
    assert window.pages.geometry().contains(window.messages.geometry())


def test_a_message_keeps_off_the_field_that_is_typed_in(qtbot, window):
    field = window.compose.process.by_place["process.package"]
    window.resize(1280, 560)
    field.setFocus()
    window.messages.say("Saved.")
    foot = window.messages.geometry()
    focus = window.compose.day_line
    focus.setFocus()
    window.messages.say("Saved.")
    head = window.messages.geometry()
    assert head.bottom() < foot.top() or not head.intersects(
        focus.rect().translated(focus.mapTo(window.centralWidget(), focus.rect().topLeft()))
    )


def test_what_lasts_is_said_below_what_else_is_said(qtbot):
    bar = MessageBar()
    qtbot.addWidget(bar)
    ways = [("Begin an empty box", lambda: None)]
    bar.say("The box is damaged.", grave=True, actions=ways, topic="keeping", lasts=True)
    bar.say("Saved to a file.")
    assert bar.text.text() == "Saved to a file.\nThe box is damaged."
    assert [button.text() for button in bar._buttons] == ["Begin an empty box"]
    bar.withdraw("keeping")
    assert bar.text.text() == "Saved to a file."
    assert bar._buttons == []


def test_a_grave_message_comes_back_after_another(qtbot):
    bar = MessageBar()
    qtbot.addWidget(bar)
    bar.say("The disk is full.", grave=True, topic="keeping")
    bar.say("3 hops removed.", topic="removed")
    assert bar.text.text() == "3 hops removed."
    bar.close_button.click()
    assert bar.isVisible()
    assert bar.text.text() == "The disk is full."


def test_what_is_no_longer_true_is_withdrawn(qtbot):
    bar = MessageBar()
    qtbot.addWidget(bar)
    bar.say("The draft could not be kept.", grave=True, topic="keeping")
    bar.say("Saved.", topic="saved")
    bar.withdraw("keeping")
    bar.withdraw("saved")
    assert not bar.isVisible()


def test_a_refusal_does_not_look_like_a_success(qtbot):
    bar = MessageBar()
    qtbot.addWidget(bar)
    bar.say("Saved.")
    assert not bar.sign.isVisible()
    bar.say("There is nothing on the clipboard.", refused=True)
    assert bar.sign.isVisible()
    assert bar.accessibleName().startswith("Not done: ")


def test_what_lasts_and_is_no_trouble_comes_after_what_is_shown_with_buttons(qtbot):
    bar = MessageBar()
    qtbot.addWidget(bar)
    ways = [("Seen to", lambda: None)]
    bar.say("A brew is under way.", actions=[("Go on with it", lambda: None)])
    bar.say("Read the gravity.", actions=ways, topic="reminder", lasts=True)
    assert bar.text.text() == "A brew is under way."
    bar.close_button.click()
    assert bar.text.text() == "Read the gravity."
    assert bar.property("look") == "done"
    bar.say("The disk is full.", grave=True)
    assert bar.text.text() == "The disk is full.\nRead the gravity."
    bar.close_button.click()
    bar.settle()
    bar._put_away()
    assert bar.text.text() == "Read the gravity."
    bar.withdraw("reminder")
    assert not bar.isVisible()
