"""Messages stay until they could be read."""

from designer.window.message_bar import MessageBar


def test_a_message_stays_for_as_long_as_it_takes_to_read(qtbot, monkeypatch):
    monkeypatch.setattr("designer.window.message_bar.LEAST_MS", 50)
    monkeypatch.setattr("designer.window.message_bar.MS_A_SIGN", 1)
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
    bar.say("Damaged.", grave=True, actions=[("Bring back", lambda: done.append(1))])
    bar._buttons[0].click()
    assert done == [1]
    bar.say("Fine.")
    assert bar._buttons == []
