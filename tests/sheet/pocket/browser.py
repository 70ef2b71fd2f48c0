"""A real browser without a window, driven over its debugging pipe: Chromium as Debian packs it.

Protocol: the DevTools protocol that the browser itself describes; over `--remote-debugging-pipe`
each message is JSON with a zero byte at its end, read from descriptor 3 and written to 4.
"""

from __future__ import annotations

import base64
import fcntl
import json
import os
import select
import shutil
import signal
import time
from pathlib import Path
from typing import Any

NAMES = ("chromium-headless-shell", "chromium", "chromium-browser")
ANSWER_S = 60.0


def browser_path() -> str | None:
    """Return where a Chromium is that can be driven; None where there is none."""
    return next((found for name in NAMES if (found := shutil.which(name))), None)


class Browser:
    """A browser with a profile folder of its own."""

    def __init__(self, profile: Path, *words: str) -> None:
        path = browser_path()
        assert path is not None
        self._number = 0
        self._rest = b""
        self.events: list[dict[str, Any]] = []
        to_read, self._to = os.pipe()
        self._from, to_write = os.pipe()
        # 3 and 4 may be among those just made: they are copied out of the way first.
        low, high = (fcntl.fcntl(each, fcntl.F_DUPFD, 50) for each in (to_read, to_write))
        quiet = os.open(os.devnull, os.O_RDWR)
        command = [
            path, "--headless", "--no-sandbox", "--remote-debugging-pipe", "--disable-gpu",
            "--no-first-run", "--disable-background-networking", "--autoplay-policy="
            "document-user-activation-required", f"--user-data-dir={profile}", *words,
            "about:blank",
        ]  # fmt: skip
        self.pid = os.posix_spawn(
            path,
            command,
            {**os.environ, "HOME": str(profile), "TZ": "UTC"},
            file_actions=[
                (os.POSIX_SPAWN_DUP2, quiet, 0),
                (os.POSIX_SPAWN_DUP2, quiet, 1),
                (os.POSIX_SPAWN_DUP2, quiet, 2),
                (os.POSIX_SPAWN_DUP2, low, 3),
                (os.POSIX_SPAWN_DUP2, high, 4),
            ],
            setpgroup=0,
        )
        for each in (to_read, to_write, low, high, quiet):
            os.close(each)
        self._ended = False

    def ask(self, method: str, session: str = "", **params: Any) -> dict[str, Any]:
        """Send a command and return its result."""
        self._number += 1
        said = {"id": self._number, "method": method, "params": params}
        if session:
            said["sessionId"] = session
        os.write(self._to, json.dumps(said).encode() + b"\0")
        ends = time.monotonic() + ANSWER_S
        while True:
            answer = self._next(ends)
            if answer.get("id") == self._number:
                assert "error" not in answer, (method, answer)
                result: dict[str, Any] = answer["result"]
                return result
            self._heed(answer)

    def listen(self, until: float) -> None:
        """Take in what the browser tells until an instant of the monotonic clock."""
        while self._has_told(until):
            self._heed(self._next(time.monotonic() + ANSWER_S))

    def _has_told(self, until: float) -> bool:
        """Tell whether there is more, of what came along with an answer first of all."""
        if b"\0" in self._rest:
            return True
        return bool(select.select([self._from], [], [], max(until - time.monotonic(), 0.0))[0])

    def _heed(self, told: dict[str, Any]) -> None:
        self.events.append(told)

    def _next(self, ends: float) -> dict[str, Any]:
        while b"\0" not in self._rest:
            left = ends - time.monotonic()
            assert left > 0, "the browser did not answer"
            if select.select([self._from], [], [], left)[0]:
                more = os.read(self._from, 1 << 20)
                assert more, "the browser is gone"
                self._rest += more
        one, self._rest = self._rest.split(b"\0", 1)
        found: dict[str, Any] = json.loads(one)
        return found

    def page(self, address: str, *, context: str = "", **shown: Any) -> Page:
        """Open a page in a tab of its own; in a `context` nothing is shared with other pages."""
        within = {"browserContextId": context} if context else {}
        target = self.ask("Target.createTarget", url="about:blank", **within)["targetId"]
        session = self.ask("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
        made = Page(self, target, session)
        made.set_up(**shown)
        if address:
            made.go(address)
        return made

    def kill(self) -> None:
        """End all its processes at once, as a phone does that is out of memory."""
        if not self._ended:
            os.killpg(self.pid, signal.SIGKILL)
            os.waitpid(self.pid, 0)
            os.close(self._to)
            os.close(self._from)
            self._ended = True

    def close(self) -> None:
        """Let it end by itself."""
        if not self._ended:
            self._number += 1
            os.write(self._to, json.dumps({"id": 0, "method": "Browser.close"}).encode() + b"\0")
            ends = time.monotonic() + ANSWER_S
            while time.monotonic() < ends:
                if os.waitpid(self.pid, os.WNOHANG) != (0, 0):
                    os.close(self._to)
                    os.close(self._from)
                    self._ended = True
                    return
                time.sleep(0.02)
            self.kill()


class Page:
    """A tab: what a finger and a keyboard do in it, and what it then shows."""

    def __init__(self, browser: Browser, target: str, session: str) -> None:
        self.browser, self._target, self._session = browser, target, session

    def ask(self, method: str, **params: Any) -> dict[str, Any]:
        """Send a command of the protocol to this tab."""
        return self.browser.ask(method, self._session, **params)

    def set_up(self, width: int = 360, height: int = 740, dark: bool = False) -> None:
        """Make it a phone: narrow, touched, light or dark."""
        self.shown = (width, height)
        for domain in ("Page", "Runtime", "Network", "Log", "Accessibility"):
            self.ask(f"{domain}.enable")
        self.ask(
            "Emulation.setDeviceMetricsOverride",
            width=width, height=height, deviceScaleFactor=2, mobile=True,
        )  # fmt: skip
        self.ask("Emulation.setTouchEmulationEnabled", enabled=True)
        scheme = {"name": "prefers-color-scheme", "value": "dark" if dark else "light"}
        calm = {"name": "prefers-reduced-motion", "value": "reduce"}
        self.ask("Emulation.setEmulatedMedia", features=[scheme, calm])

    def go(self, address: str) -> None:
        """Open an address and wait until it is there."""
        before = len(self.browser.events)
        self.ask("Page.navigate", url=address)
        self._wait_for_load(before)

    def reload(self) -> None:
        """Load the page anew."""
        before = len(self.browser.events)
        self.ask("Page.reload")
        self._wait_for_load(before)

    def _wait_for_load(self, before: int) -> None:
        ends = time.monotonic() + ANSWER_S
        while not any(
            each.get("method") == "Page.loadEventFired" and each.get("sessionId") == self._session
            for each in self.browser.events[before:]
        ):
            assert time.monotonic() < ends, "the page did not load"
            self.browser.listen(time.monotonic() + 0.02)

    def value(self, expression: str) -> Any:
        """Return what an expression gives in the page."""
        found = self.ask(
            "Runtime.evaluate", expression=expression, returnByValue=True, awaitPromise=True,
            userGesture=False,
        )  # fmt: skip
        assert "exceptionDetails" not in found, found["exceptionDetails"]
        return found["result"].get("value")

    def text(self, selector: str) -> str:
        """Return the text that is shown of an element."""
        return str(self.value(f"document.querySelector({json.dumps(selector)}).innerText"))

    def wait(self, expression: str) -> None:
        """Wait until an expression is true in the page."""
        ends = time.monotonic() + ANSWER_S
        while not self.value(f"Boolean({expression})"):
            assert time.monotonic() < ends, expression
            self.browser.listen(time.monotonic() + 0.02)

    def tap(self, selector: str) -> None:
        """Touch the middle of an element with a finger."""
        place = self.value(
            f"(() => {{ const e = document.querySelector({json.dumps(selector)});"
            "e.scrollIntoView({block: 'center'}); const r = e.getBoundingClientRect();"
            "return [r.x + r.width / 2, r.y + r.height / 2, r.width, r.height]; })()"
        )
        assert place[2] > 0, f"{selector} is not shown"
        x, y, *_ = place
        self.value(
            "window.clicked = false, addEventListener('click', () => { window.clicked = true; }, "
            "{capture: true, once: true}), true"
        )
        self._touch(x, y)
        if not self.value("window.clicked"):  # on a busy machine it may become a long press
            self._touch(x, y)

    def _touch(self, x: float, y: float) -> None:
        self.ask("Input.dispatchTouchEvent", type="touchStart", touchPoints=[{"x": x, "y": y}])
        self.ask("Input.dispatchTouchEvent", type="touchEnd", touchPoints=[])

    def key(self, name: str, *, shift: bool = False) -> None:
        """Press a key."""
        text = {"Enter": "\r", " ": " ", "Space": " "}.get(name, "")
        key = " " if name == "Space" else name
        codes = {"Enter": 13, "Space": 32, "Tab": 9, "Backspace": 8, "ArrowDown": 40, "End": 35}
        told: dict[str, Any] = {
            "key": key, "code": name, "windowsVirtualKeyCode": codes.get(name, 0),
            "modifiers": 8 if shift else 0,
        }  # fmt: skip
        if text:
            told["text"] = text
        self.ask("Input.dispatchKeyEvent", type="keyDown" if text else "rawKeyDown", **told)
        told.pop("text", None)
        self.ask("Input.dispatchKeyEvent", type="keyUp", **told)

    def type(self, text: str) -> None:
        """Type text into what has the focus."""
        self.ask("Input.insertText", text=text)

    def wait_for_dialog(self) -> None:
        """Wait until the page asks a question."""
        ends = time.monotonic() + ANSWER_S
        asks = "Page.javascriptDialogOpening"
        while not any(each.get("method") == asks for each in self.browser.events):
            assert time.monotonic() < ends, "nothing was asked"
            self.browser.listen(time.monotonic() + 0.02)
        self.browser.events = [each for each in self.browser.events if each["method"] != asks]

    def answer_dialogs(self, *, accept: bool, text: str = "") -> None:
        """Answer the question that is asked now."""
        self.ask("Page.handleJavaScriptDialog", accept=accept, promptText=text)

    def picture(self, path: Path, *, whole: bool = False) -> None:
        """Write what is shown as a PNG."""
        found = self.ask("Page.captureScreenshot", format="png", captureBeyondViewport=whole)
        path.write_bytes(base64.b64decode(found["data"]))

    def pdf(self) -> bytes:
        """Return the page as it prints."""
        return base64.b64decode(
            self.ask("Page.printToPDF", paperWidth=8.27, paperHeight=11.69)["data"]
        )

    def faults(self) -> list[Any]:
        """Return what the page threw, complained of or was refused."""
        told = ("Runtime.exceptionThrown", "Log.entryAdded", "Runtime.consoleAPICalled")
        return [each for each in self.browser.events if each.get("method") in told]

    def close(self) -> None:
        """Shut the tab."""
        self.browser.ask("Target.closeTarget", targetId=self._target)
