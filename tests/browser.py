"""A browser without a window, driven over a pipe by the DevTools protocol, with the standard library alone.

It shows one file at a time and tells what that file did: what it asked for, what it complained of, and what the browser
makes of it.
"""

from __future__ import annotations

import base64
import json
import os
import select
import shutil
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

NAMES = ("chromium-headless-shell", "chromium", "chromium-browser", "google-chrome")
PATIENCE = 60.0  # seconds for an answer: a busy machine is slow, a browser that hangs is an error

PHONE = (390, 844)
DESK = (1280, 800)

KEYS = {"Tab": 9, "Enter": 13, "Escape": 27, "Space": 32, "ArrowRight": 39, "ArrowDown": 40}


def found() -> str | None:
    """The browser of this machine, if there is one."""
    return next((path for name in NAMES if (path := shutil.which(name))), None)


# Puts the ends of two pipes where the browser looks for them, then becomes it.
_PLACED = """
import fcntl, os, sys
read, write = (fcntl.fcntl(int(end), fcntl.F_DUPFD, 10) for end in sys.argv[1:3])
os.dup2(read, 3)
os.dup2(write, 4)
os.execv(sys.argv[3], sys.argv[3:])
"""


class Wrong(RuntimeError):
    """The browser refused a command, or an expression threw."""


class Browser:
    """The process, and the pipe to it."""

    def __init__(self, program: str, profile: Path) -> None:
        read, write = os.pipe(), os.pipe()  # the browser reads on 3 and writes on 4
        flags = ["--headless", "--no-sandbox", "--disable-gpu", "--hide-scrollbars", "--remote-debugging-pipe"]
        quiet = ["--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"]
        command = [program, *flags, *quiet, f"--user-data-dir={profile}", "about:blank"]
        ends = (read[0], write[1])
        start = [sys.executable, "-c", _PLACED, *map(str, ends), *command]
        self.process = subprocess.Popen(start, pass_fds=ends, stderr=subprocess.DEVNULL)
        os.close(read[0])
        os.close(write[1])
        self._go, self._come = read[1], write[0]
        self._left = b""
        self._number = 0
        self.events: list[dict[str, Any]] = []

    def call(self, method: str, session: str = "", **parameters: Any) -> dict[str, Any]:
        """The answer to a command; whatever happens meanwhile goes to ``events``."""
        self._number += 1
        message = {"id": self._number, "method": method, "params": parameters}
        os.write(self._go, json.dumps(message | ({"sessionId": session} if session else {})).encode() + b"\0")
        while True:
            told = self.next()
            if told.get("id") == self._number:
                if "error" in told:
                    raise Wrong(f"{method}: {told['error']}")
                result: dict[str, Any] = told["result"]
                return result

    def next(self) -> dict[str, Any]:
        """The next message; one that is no answer is kept."""
        until = time.monotonic() + PATIENCE
        while b"\0" not in self._left:
            if not select.select([self._come], [], [], max(0.0, until - time.monotonic()))[0]:
                raise Wrong("no answer")
            more = os.read(self._come, 1 << 20)
            if not more:
                raise Wrong("the browser has ended")
            self._left += more
        first, _, self._left = self._left.partition(b"\0")
        told: dict[str, Any] = json.loads(first)
        if "method" in told:
            self.events.append(told)
        return told

    def end(self) -> None:
        """End the process that this has started."""
        self.process.kill()
        self.process.wait()
        os.close(self._go)
        os.close(self._come)


class Tab:
    """A file as it is shown in a window of *size*; a phone's has fingers and small pixels."""

    def __init__(self, browser: Browser, size: tuple[int, int]) -> None:
        self.browser = browser
        self.target = browser.call("Target.createTarget", url="about:blank")["targetId"]
        self.session = browser.call("Target.attachToTarget", targetId=self.target, flatten=True)["sessionId"]
        for domain in ("Page", "Runtime", "Network", "Log", "Accessibility", "DOM"):
            self.call(f"{domain}.enable")
        wide, high = size
        phone = wide < 600
        self.call(
            "Emulation.setDeviceMetricsOverride",
            width=wide,
            height=high,
            deviceScaleFactor=2 if phone else 1,
            mobile=phone,
        )
        if phone:
            self.call("Emulation.setTouchEmulationEnabled", enabled=True)

    def call(self, method: str, **parameters: Any) -> dict[str, Any]:
        """A command to this tab."""
        return self.browser.call(method, self.session, **parameters)

    def show(self, path: Path, fragment: str = "") -> None:
        """Load the file and wait until it stands."""
        self.browser.events.clear()
        self.call("Page.navigate", url=path.resolve().as_uri() + fragment)
        while not self.told("Page.loadEventFired"):
            self.browser.next()
        self.js("new Promise(done => document.fonts.ready.then(() => requestAnimationFrame(() => done(1))))")

    def told(self, *methods: str) -> list[dict[str, Any]]:
        """The events of these kinds since the file was loaded."""
        return [
            e["params"] for e in self.browser.events if e["method"] in methods and e.get("sessionId") == self.session
        ]

    def requests(self) -> list[str]:
        """What was asked for; what stands in the file itself (``data:``) is no request."""
        asked = (e["request"]["url"] for e in self.told("Network.requestWillBeSent"))
        return [url for url in asked if not url.startswith("data:")]

    def complaints(self) -> list[dict[str, Any]]:
        """What went to the console, by whom ever, and dialogs."""
        return self.told(
            "Runtime.consoleAPICalled", "Runtime.exceptionThrown", "Log.entryAdded", "Page.javascriptDialogOpening"
        )

    def js(self, expression: str) -> Any:
        """The value of an expression, awaited; the file's own policy does not bind who asks."""
        told = self.call("Runtime.evaluate", expression=expression, awaitPromise=True, returnByValue=True)
        if "exceptionDetails" in told:
            raise Wrong(str(told["exceptionDetails"]))
        return told["result"].get("value")

    def touch(self, words: str) -> None:
        """Touch the first link, summary or label in sight that reads *words*, in its middle."""
        place = self.js(
            """(words => {
              for (const e of document.querySelectorAll('a, summary, label')) {
                const b = e.getBoundingClientRect();
                const x = b.x + b.width / 2, y = b.y + b.height / 2;
                const hit = document.elementFromPoint(x, y);
                if (e.innerText.trim().startsWith(words) && hit && (hit === e || e.contains(hit))) return [x, y];
              }
            })"""
            + f"({json.dumps(words)})"
        )
        if place is None:
            raise Wrong(f"nothing in sight reads {words!r}")
        x, y = place
        for kind in ("mousePressed", "mouseReleased"):
            self.call("Input.dispatchMouseEvent", type=kind, x=x, y=y, button="left", clickCount=1)
        self.js("new Promise(done => setTimeout(() => requestAnimationFrame(() => done(1)), 50))")

    def swipe(self, y: int, start: int, end: int) -> None:
        """One finger along the window at *y*, from *start* to *end*."""
        way = range(start, end, 20 if end > start else -20)
        for kind, x in [("touchStart", start), *(("touchMove", x) for x in way[1:]), ("touchEnd", None)]:
            points = [] if x is None else [{"x": x, "y": y}]
            self.call("Input.dispatchTouchEvent", type=kind, touchPoints=points)

    def key(self, name: str) -> None:
        """Press and let go of a key."""
        text = {"Enter": "\r", "Space": " "}.get(name, "")
        key = " " if name == "Space" else name
        for kind in ("keyDown", "keyUp"):
            self.call(
                "Input.dispatchKeyEvent",
                type=kind,
                key=key,
                code=name,
                text=text if kind == "keyDown" else "",
                windowsVirtualKeyCode=KEYS[name],
            )

    def picture(self, path: Path) -> None:
        """What is in sight, as PNG."""
        path.write_bytes(base64.b64decode(self.call("Page.captureScreenshot", format="png")["data"]))

    def close(self) -> None:
        self.browser.call("Target.closeTarget", targetId=self.target)


@contextmanager
def tab(browser: Browser, size: tuple[int, int], path: Path, fragment: str = "") -> Iterator[Tab]:
    """The file in a tab of its own."""
    shown = Tab(browser, size)
    try:
        shown.show(path, fragment)
        yield shown
    finally:
        shown.close()
