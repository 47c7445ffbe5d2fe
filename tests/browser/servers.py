"""What stands around the browser: the notice board, a door to the service that can play tricks, and the way outside."""

import contextlib
import json
import threading
import urllib.error
import urllib.request
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from functools import partial
from http.server import BaseHTTPRequestHandler, SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any

# Status, headers, body.
Reply = tuple[int, dict[str, str], bytes]
JSON = {"Content-Type": "application/json"}


@contextmanager
def served(handler: Callable[..., BaseHTTPRequestHandler]) -> Iterator[str]:
    """The address of a server of this handler on a free loopback port."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), handler)
    thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.05}, daemon=True)
    thread.start()
    try:
        yield f"http://127.0.0.1:{server.server_address[1]}"
    finally:
        server.shutdown()
        server.server_close()
        thread.join(timeout=5)


class Board(SimpleHTTPRequestHandler):
    """The notice board's files, as ``python -m http.server`` serves them."""

    def log_message(self, format: str, *args: Any) -> None:  # noqa: A002 - the name of the library
        """Say nothing."""


def board(folder: Path) -> Callable[..., BaseHTTPRequestHandler]:
    """A handler for the files of a folder."""
    return partial(Board, directory=str(folder))


@dataclass
class Door:
    """Passes questions on to the service and notes them; ``instead`` may change its answers."""

    service: str
    address: str = ""
    asked: list[tuple[str, Any]] = field(default_factory=list)
    instead: Callable[[Reply], Reply] | None = None

    def answer(self, path: str, body: bytes | None) -> Reply:
        """What is answered to a question."""
        self.asked.append((path, json.loads(body) if body else None))
        reply = posted(self.service + path, body)
        return reply if self.instead is None else self.instead(reply)

    def straight(self) -> None:
        """No tricks, and nothing noted."""
        self.asked.clear()
        self.instead = None


def posted(address: str, body: bytes | None) -> Reply:
    """What an address answers."""
    request = urllib.request.Request(address, body, JSON if body else {})
    try:
        with urllib.request.urlopen(request, timeout=30) as answer:
            return answer.status, JSON, answer.read()
    except urllib.error.HTTPError as error:
        return error.code, {"Content-Type": "application/problem+json"}, error.read()


def door_handler(door: Door) -> type[BaseHTTPRequestHandler]:
    """A handler that answers by the door."""

    class Handler(BaseHTTPRequestHandler):
        def do_GET(self) -> None:
            self._reply(door.answer(self.path, None))

        def do_POST(self) -> None:
            self._reply(door.answer(self.path, self.rfile.read(int(self.headers["Content-Length"]))))

        def _reply(self, reply: Reply) -> None:
            status, headers, body = reply
            self.send_response(status)
            for name, value in {**headers, "Content-Length": str(len(body))}.items():
                self.send_header(name, value)
            with contextlib.suppress(ConnectionError):  # whoever asked has given up
                self.end_headers()
                self.wfile.write(body)

        def log_message(self, format: str, *args: Any) -> None:  # noqa: A002 - the name of the library
            """Say nothing."""

    return Handler


def outside_handler(seen: list[str]) -> type[BaseHTTPRequestHandler]:
    """A proxy that notes what it is asked for, and fetches nothing."""

    class Handler(BaseHTTPRequestHandler):
        def _note(self) -> None:
            seen.append(f"{self.command} {self.path}")
            self.send_error(403)

        def log_message(self, format: str, *args: Any) -> None:  # noqa: A002 - the name of the library
            """Say nothing."""

    for method in ("GET", "POST", "HEAD", "PUT", "OPTIONS", "CONNECT"):
        setattr(Handler, f"do_{method}", Handler._note)
    return Handler
