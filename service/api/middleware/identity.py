"""Which request was it, how long did it take, and what may be written about it?

Every answer carries a ``Request-Id`` (the caller's own where it is a plain one) and ``Server-Timing``. The log gets
one line a request: method, status, time, id and the route's pattern; never a body, a query, or a path that is not ours.
"""

import logging
import re
import secrets
from time import perf_counter

from starlette.datastructures import MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

_PLAIN_ID = re.compile(rb"[A-Za-z0-9._-]{8,64}")
_METHOD = re.compile(r"[A-Z]{1,16}")
log = logging.getLogger("sunsill.access")


class Identity:
    """Gives each request its id and measures it."""

    def __init__(self, app: ASGIApp) -> None:
        """Wrap ``app``."""
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer, with id and timing on it."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        began = perf_counter()
        request_id = _id_of(scope)
        scope["request_id"] = request_id
        status = 0

        async def sending(message: Message) -> None:
            nonlocal status
            if message["type"] == "http.response.start":
                status = message["status"]
                headers = MutableHeaders(scope=message)
                headers["Request-Id"] = request_id
                headers["Server-Timing"] = f"app;dur={(perf_counter() - began) * 1000:.1f}"
            await send(message)

        try:
            await self.app(scope, receive, sending)
        finally:
            route = getattr(scope.get("route"), "path", "-")
            method = scope["method"] if _METHOD.fullmatch(scope["method"]) else "-"
            taken_ms = (perf_counter() - began) * 1000
            log.info("%s %s %d %.1fms %s", method, route, status, taken_ms, request_id)


def _id_of(scope: Scope) -> str:
    for name, value in scope["headers"]:
        if name == b"request-id" and _PLAIN_ID.fullmatch(value):
            return str(value.decode("ascii"))
    return secrets.token_hex(8)
