"""What if a request never becomes one? Heads that are broken, endless or too slow end here, before any layer."""

import asyncio

from uvicorn.protocols.http.httptools_impl import HttpToolsProtocol

from service.api.problems import problem_response
from service.api.words import say

MOST_HEAD_BYTES = 64 * 1024
HEAD_SECONDS = 10.0


class Wire(HttpToolsProtocol):
    """One connection: uvicorn's own protocol with bounds on the head, and errors in our shape."""

    head_bytes = 0
    head_end = b""
    head_done = False
    clock: asyncio.TimerHandle | None = None

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        """Begin to wait for a head."""
        super().connection_made(transport)
        self._await_head()

    def connection_lost(self, exc: Exception | None) -> None:
        """Nothing more comes."""
        self._stop_clock()
        super().connection_lost(exc)

    def on_message_begin(self) -> None:
        """The next request begins."""
        self._await_head()
        super().on_message_begin()

    def on_headers_complete(self) -> None:
        """The head is there; the body has its own time."""
        self.head_done = True
        self._stop_clock()
        super().on_headers_complete()

    def data_received(self, data: bytes) -> None:
        """Pass on, unless the head grows too large."""
        if not self.head_done:
            self.head_bytes += self._head_part(data)
            if self.head_bytes > MOST_HEAD_BYTES:
                self._refuse("header_too_large", limit=f"{MOST_HEAD_BYTES // 1024} KiB")
                return
        super().data_received(data)
        if not self.head_done:
            self.head_end = (self.head_end + data)[-3:]

    def _head_part(self, data: bytes) -> int:
        """How many bytes of ``data`` belong to the head; many clients send head and body in one piece."""
        end = (self.head_end + data[: MOST_HEAD_BYTES + 1]).find(b"\r\n\r\n")
        return len(data) if end < 0 else end + 4 - len(self.head_end)

    def send_400_response(self, msg: str) -> None:  # noqa: ARG002 - the parser's words are not for callers
        """A problem instead of a bare text."""
        self._refuse("malformed_request", why=say("problems", "why.wire"))

    def _refuse(self, code: str, **facts: str) -> None:
        answer = problem_response({"type": "http", "path": "", "headers": []}, code, **facts)  # type: ignore[arg-type]
        head = [f"HTTP/1.1 {answer.status_code} Refused\r\n".encode()]
        head += [name + b": " + value + b"\r\n" for name, value in answer.raw_headers]
        self.transport.write(b"".join([*head, b"connection: close\r\n\r\n", bytes(answer.body)]))
        self.transport.close()

    def _await_head(self) -> None:
        self._stop_clock()
        self.head_bytes, self.head_end, self.head_done = 0, b"", False
        self.clock = self.loop.call_later(HEAD_SECONDS, self.transport.close)

    def _stop_clock(self) -> None:
        if self.clock is not None:
            self.clock.cancel()
            self.clock = None
