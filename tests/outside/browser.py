"""Drives a headless Chromium over its DevTools protocol, through a pair of pipes: no port, no further package."""

import base64
import json
import os
import shutil
import subprocess
from pathlib import Path
from select import select
from types import TracebackType
from typing import Any, Self

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser")
HOW_TO_INSTALL = "needs Chromium: apt-get install chromium"
PATIENCE = 60  # seconds
# No window, no sound card, and none of the errands that a browser runs by itself.
FLAGS = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-extensions",
    "--mute-audio",
    "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1",
    "--window-size=800,900",
    "--remote-debugging-pipe",
)


class Browser:
    """One browser with one page; `requests` are the addresses it asked for, `errors` what it complained of."""

    def __init__(self, profile: Path) -> None:
        assert CHROMIUM
        to_browser, self._write = os.pipe()
        self._read, from_browser = os.pipe()
        # Chromium reads its commands from file 3 and answers on file 4.
        command = f'exec "$0" "$@" 3<&{to_browser} 4>&{from_browser}'
        self._process = subprocess.Popen(
            ["/bin/bash", "-c", command, CHROMIUM, *FLAGS, f"--user-data-dir={profile}", "about:blank"],
            pass_fds=(to_browser, from_browser),
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        os.close(to_browser)
        os.close(from_browser)
        self._buffer = b""
        self._number = 0
        self._session = ""
        self.requests: list[str] = []
        self.errors: list[str] = []
        target = next(t for t in self._call("Target.getTargets")["targetInfos"] if t["type"] == "page")
        attached = self._call("Target.attachToTarget", targetId=target["targetId"], flatten=True)
        self._session = attached["sessionId"]
        for domain in ("Page", "Network", "Runtime", "Log"):
            self._call(f"{domain}.enable")

    def __enter__(self) -> Self:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        self._process.terminate()
        self._process.wait()
        os.close(self._write)
        os.close(self._read)

    def _call(self, method: str, **parameters: Any) -> dict[str, Any]:
        """Send a command and return its result; what happens meanwhile is noted."""
        self._number += 1
        message = {"id": self._number, "method": method, "params": parameters}
        if self._session:
            message["sessionId"] = self._session
        os.write(self._write, json.dumps(message).encode() + b"\0")
        while True:
            answer = self._next()
            if answer.get("id") == self._number:
                assert "error" not in answer, answer
                found: dict[str, Any] = answer["result"]
                return found

    def _next(self) -> dict[str, Any]:
        while b"\0" not in self._buffer:
            ready, _, _ = select([self._read], [], [], PATIENCE)
            more = os.read(self._read, 1 << 16) if ready else b""
            assert more, "the browser has gone, or does not answer"
            self._buffer += more
        text, _, self._buffer = self._buffer.partition(b"\0")
        message: dict[str, Any] = json.loads(text)
        told = message.get("params", {})
        match message.get("method"):
            case "Network.requestWillBeSent":
                self.requests.append(told["request"]["url"])
            case "Log.entryAdded":
                self.errors.append(told["entry"]["text"])
            case "Runtime.exceptionThrown":
                self.errors.append(told["exceptionDetails"]["text"])
        return message

    def open(self, address: str) -> None:
        """Show a page, loaded to its end."""
        self._call("Page.navigate", url=address)
        while self.run("document.readyState") != "complete" or self.run("location.href") == "about:blank":
            pass

    def run(self, script: str) -> Any:
        """Return what a script comes to, when it has come to its end."""
        result = self._call("Runtime.evaluate", expression=script, awaitPromise=True, returnByValue=True)
        assert "exceptionDetails" not in result, result
        return result["result"].get("value")

    def press(self, key: str) -> None:
        """Press a key, as a hand does: "Tab", "Enter" or " "."""
        codes = {"Tab": 9, "Enter": 13, " ": 32}
        text = {"Enter": "\r", " ": " "}.get(key, "")
        both = {"key": key, "code": {" ": "Space"}.get(key, key), "windowsVirtualKeyCode": codes[key]}
        self._call("Input.dispatchKeyEvent", type="keyDown", text=text, **both)
        self._call("Input.dispatchKeyEvent", type="keyUp", **both)

    def click(self, x: float, y: float) -> None:
        """Click at a place of the window, in CSS pixels."""
        for kind in ("mousePressed", "mouseReleased"):
            self._call("Input.dispatchMouseEvent", type=kind, x=x, y=y, button="left", clickCount=1)

    def resize(self, width: int, height: int) -> None:
        """Make the window that wide and high, in CSS pixels."""
        self._call("Emulation.setDeviceMetricsOverride", width=width, height=height, deviceScaleFactor=1, mobile=False)

    def without_script(self) -> None:
        """Let no page run a script from now on."""
        self._call("Emulation.setScriptExecutionDisabled", value=True)

    def names(self) -> list[tuple[str, str]]:
        """Return role and name of everything a screen reader meets on the page."""
        nodes = self._call("Accessibility.getFullAXTree")["nodes"]
        seen = (node for node in nodes if not node["ignored"])
        return [(node["role"]["value"], node.get("name", {}).get("value", "")) for node in seen]

    def picture(self) -> bytes:
        """Return a PNG of the window."""
        return base64.b64decode(self._call("Page.captureScreenshot")["data"])
