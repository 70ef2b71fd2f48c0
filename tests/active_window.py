"""Waiting for a window without keeping Python to oneself.

Qt's own waits for a window hold Python's lock while they turn its loop, and a thread of the program
that wants it then waits for ever, and the window for the thread.
"""


def made_active(qtbot, window):
    """Show a window and make it the active one; return when it is."""

    def is_active():
        window.activateWindow()
        return window.isVisible() and window.isActiveWindow()

    window.show()
    qtbot.waitUntil(is_active)
    return window
