"""How is a headless Chromium told what to do? By its own devtools protocol, over a pipe that no other process can open.

Nothing has to be installed for it: messages are JSON, each ended by a NUL, on the browser's descriptors 3 and 4. Only
methods that have stood in the protocol for years are called.
"""

import base64
import contextlib
import json
import os
import select
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any, Self

# Refusing extensions of the command line is one of them.
UNWANTED = (
    "DisableLoadExtensionCommandLineSwitch", "OptimizationHints", "MediaRouter", "Translate",
    "NetworkTimeServiceQuerying",
)  # fmt: skip
# No window, no sandbox (the tests may run as root in a container), and nothing that Chromium asks for on its own: what
# has no switch is pointed at a port where nobody listens.
FLAGS = (
    "--headless=new", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-sync",
    "--disable-background-networking", "--disable-component-update", "--disable-default-apps", "--disable-breakpad",
    "--disable-domain-reliability", "--disable-client-side-phishing-detection", "--metrics-recording-only",
    "--disable-search-engine-choice-screen", "--password-store=basic", "--lang=en-GB", "--window-size=1000,900",
    f"--disable-features={','.join(UNWANTED)}",
    "--gaia-url=http://127.0.0.1:9/", "--component-updater=url-source=http://127.0.0.1:9/",
    "--apps-gallery-update-url=http://127.0.0.1:9/",
)  # fmt: skip
# Pages and workers, but not the browser's own menus.
WATCHED = [{"type": "browser_ui", "exclude": True}, {"type": "tab", "exclude": True}, {}]
# A browser reads its messages on descriptor 3 and writes on 4: they are put there before it takes the process over.
ON_3_AND_4 = """
import fcntl, os, sys
given = [int(end) for end in sys.argv[1:3]]
apart = [fcntl.fcntl(end, fcntl.F_DUPFD, 10) for end in given]
for end, place in zip(apart, (3, 4)):
    os.dup2(end, place)
for end in {*given, *apart} - {3, 4}:
    os.close(end)
os.execv(sys.argv[3], sys.argv[3:])
"""
KEYS = {"Tab": 9, "Enter": 13, "Space": 32}
PATIENCE_S = 30.0


class BrowserError(Exception):
    """What the browser, or a page's script, says went wrong."""


class Chromium:
    """A running browser with an extension in it; ``asked`` is every URL that a page or a worker asked for."""

    def __init__(self, program: str, folder: Path, extension: Path, proxy: str) -> None:
        """Start it with a profile in ``folder``; all that goes to other hosts than loopback goes to ``proxy``."""
        self.asked: list[str] = []
        self.faults: list[str] = []
        self._number = 0
        self._kept = b""
        self._sessions: dict[str, dict[str, str]] = {}
        flags = [*FLAGS, f"--user-data-dir={folder / 'profile'}", f"--load-extension={extension}",
                 f"--proxy-server={proxy}", "--remote-debugging-pipe", "about:blank"]  # fmt: skip
        self._start([program, *flags], folder)
        attach = {"autoAttach": True, "waitForDebuggerOnStart": True, "flatten": True, "filter": WATCHED}
        try:
            self.call("Target.setAutoAttach", **attach)
        except (BrowserError, OSError):
            self.close()
            raise

    def _start(self, command: list[str], home: Path) -> None:
        to_browser, self._to = os.pipe()
        self._from, from_browser = os.pipe()
        ends = (to_browser, from_browser)
        self._process = subprocess.Popen(
            [sys.executable, "-c", ON_3_AND_4, *map(str, ends), *command],
            pass_fds=ends, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, env={**os.environ, "HOME": str(home)},
        )  # fmt: skip
        for end in ends:
            os.close(end)

    def call(self, method: str, session: str | None = None, **params: Any) -> Any:
        """What a method of the protocol answers."""
        number = self._send(method, session, params)
        limit = time.monotonic() + PATIENCE_S
        while True:
            message = self._next(limit)
            if message.get("id") != number:
                self._heard(message)
            elif "error" in message:
                raise BrowserError(f"{method}: {message['error']['message']}")
            else:
                return message["result"]

    def extension(self) -> str:
        """The address of the extension that was loaded, once its worker runs."""
        session = self._attached(lambda about: about["url"].endswith("/worker.js"))
        return self._sessions[session]["url"].removesuffix("worker.js")

    def opened(self, address: str) -> "Tab":
        """A new tab with this address, loaded."""
        made = self.call("Target.createTarget", url="about:blank")["targetId"]
        session = self._attached(lambda about: about["targetId"] == made)
        for domain in ("Page", "Log"):
            self.call(f"{domain}.enable", session)
        tab = Tab(self, made, session)
        self.call("Page.bringToFront", session)
        tab.go(address)
        return tab

    def script(self, session: str, expression: str) -> Any:
        """The value of an expression in a page or worker; of a promise what it comes to."""
        answer = self.call(
            "Runtime.evaluate", session, expression=expression, awaitPromise=True, returnByValue=True, userGesture=True
        )
        if "exceptionDetails" in answer:
            raise BrowserError(json.dumps(answer["exceptionDetails"]))
        return answer["result"].get("value")

    def close(self) -> None:
        """End it."""
        with contextlib.suppress(BrowserError, OSError):
            self.call("Browser.close")
        try:
            self._process.wait(timeout=10)
        except subprocess.TimeoutExpired:
            self._process.kill()
            self._process.wait()
        os.close(self._to)
        os.close(self._from)

    def _attached(self, wanted: Callable[[dict[str, str]], bool]) -> str:
        def found() -> str | None:
            self.call("Target.getTargets")  # so that what was attached meanwhile is heard of
            return next((session for session, about in self._sessions.items() if wanted(about)), None)

        session: str | None = waited(found)
        assert session is not None, self._sessions
        return session

    def _send(self, method: str, session: str | None, params: dict[str, Any]) -> int:
        self._number += 1
        message = {"id": self._number, "method": method, "params": params}
        if session is not None:
            message["sessionId"] = session
        os.write(self._to, json.dumps(message).encode() + b"\0")
        return self._number

    def _next(self, limit: float) -> dict[str, Any]:
        while b"\0" not in self._kept:
            ready, _, _ = select.select([self._from], [], [], max(limit - time.monotonic(), 0))
            piece = os.read(self._from, 1 << 20) if ready else b""
            if not piece:
                raise BrowserError("the browser did not answer" if not ready else "the browser has ended")
            self._kept += piece
        message, _, self._kept = self._kept.partition(b"\0")
        heard: dict[str, Any] = json.loads(message)
        return heard

    def _heard(self, message: dict[str, Any]) -> None:
        """An event: what was attached starts once its requests are watched."""
        params = message.get("params", {})
        match message.get("method"):
            case "Target.attachedToTarget":
                session = params["sessionId"]
                self._sessions[session] = params["targetInfo"]
                for method in ("Network.enable", "Runtime.enable", "Runtime.runIfWaitingForDebugger"):
                    self._send(method, session, {})
            case "Target.detachedFromTarget":
                self._sessions.pop(params["sessionId"], None)
            case "Network.requestWillBeSent":
                self.asked.append(params["request"]["url"])
            case "Runtime.exceptionThrown":
                self.faults.append(json.dumps(params["exceptionDetails"]))
            case "Log.entryAdded" if params["entry"]["level"] == "error":
                self.faults.append(params["entry"]["text"])


class Tab:
    """One page of the browser."""

    def __init__(self, browser: Chromium, target: str, session: str) -> None:
        """A page that is attached."""
        self._browser, self._target, self._session = browser, target, session

    def go(self, address: str) -> None:
        """Load an address, to its end."""
        self._browser.call("Page.navigate", self._session, url=address)
        wanted = json.dumps(address)
        self.until(f"location.href === {wanted} && document.readyState === 'complete'")

    def script(self, expression: str) -> Any:
        """The value of an expression in the page."""
        return self._browser.script(self._session, expression)

    def until(self, expression: str, within_s: float = PATIENCE_S) -> None:
        """Wait until the expression holds."""
        holds = waited(lambda: self.script(f"Boolean({expression})"), within_s)
        assert holds, f"never came: {expression}\n{self.script('document.body.innerText')}"

    def press(self, key: str, times: int = 1) -> None:
        """Press a key as the keyboard does."""
        about = {"key": " " if key == "Space" else key, "code": key, "windowsVirtualKeyCode": KEYS[key]}
        text = {"Enter": "\r", "Space": " "}.get(key)
        for _ in range(times):
            down = {"type": "keyDown" if text else "rawKeyDown", **about, **({"text": text} if text else {})}
            self._browser.call("Input.dispatchKeyEvent", self._session, **down)
            self._browser.call("Input.dispatchKeyEvent", self._session, type="keyUp", **about)

    def write(self, text: str) -> None:
        """Put text where the focus is, as if it were typed."""
        self._browser.call("Input.insertText", self._session, text=text)

    def scheme(self, name: str) -> None:
        """Prefer the ``light`` or the ``dark`` scheme."""
        features = [{"name": "prefers-color-scheme", "value": name}]
        self._browser.call("Emulation.setEmulatedMedia", self._session, features=features)

    def narrow(self, width: int) -> None:
        """Show the page so wide, in CSS pixels."""
        size = {"width": width, "height": 900, "deviceScaleFactor": 1, "mobile": False}
        self._browser.call("Emulation.setDeviceMetricsOverride", self._session, **size)

    def picture(self, file: Path) -> None:
        """A picture of the whole page."""
        made = self._browser.call("Page.captureScreenshot", self._session, captureBeyondViewport=True)
        file.write_bytes(base64.b64decode(made["data"]))

    def __enter__(self) -> Self:
        """The tab itself."""
        return self

    def __exit__(self, *_: object) -> None:
        """Close it."""
        self._browser.call("Target.closeTarget", targetId=self._target)


def waited(found: Callable[[], Any], within_s: float = PATIENCE_S) -> Any:
    """What ``found`` answers once that is something, asked twenty times a second; its last answer where it never is."""
    limit = time.monotonic() + within_s
    while not (answer := found()) and time.monotonic() < limit:
        time.sleep(0.05)
    return answer
