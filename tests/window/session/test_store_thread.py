"""A fault of the program in work for the store is told on the window's thread; work goes on."""

import threading

import pytest

from designer.window.faults import FaultCatcher
from designer.window.session.store_thread import StoreThread


@pytest.fixture
def thread(qapp, tmp_path):
    made = StoreThread(tmp_path / "box")
    yield made
    made.stop()


def fail(_store):
    raise ZeroDivisionError("a bug in the work")


def test_a_fault_in_store_work_is_handled_on_the_window_s_thread_and_work_goes_on(
    qtbot, window, thread, tmp_path, monkeypatch, capfd
):
    catch, handled, told, done = FaultCatcher(window, lambda: tmp_path), [], [], []

    def handle(kind, fault, trace):
        handled.append(threading.current_thread())
        catch(kind, fault, trace)

    monkeypatch.setattr("sys.excepthook", handle)
    thread.ask(fail, done.append, told.append)
    thread.ask(lambda store: store.path.name, done.append, told.append)
    qtbot.waitUntil(lambda: not thread.busy, timeout=10_000)
    assert handled == [threading.main_thread()]
    assert told == ["The Recipe box failed (ZeroDivisionError: a bug in the work)."]
    assert done == ["recipe-box.db"]
    assert "Something in the program went wrong" in window.messages.text.text()
    said = capfd.readouterr().err
    assert said.startswith("Traceback (most recent call last):\n")
    assert said.endswith("\nZeroDivisionError: a bug in the work\n")
    assert said.count("Traceback") == 1
    assert "in fail\n" in said
