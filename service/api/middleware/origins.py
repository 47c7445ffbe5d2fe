"""May a page of another origin read the answer? The CORS protocol (Fetch standard), on errors too."""

from starlette.datastructures import Headers, MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

EXPOSED = (
    "ETag, Retry-After, RateLimit, RateLimit-Policy, Request-Id, Content-Language, Deprecation, Sunset, "
    "Server-Timing, Repr-Digest"
)
METHODS = "GET, HEAD, POST, OPTIONS"
HEADERS = "Accept, Accept-Language, Content-Type, If-None-Match, Request-Id"
MAX_AGE_S = "600"


class Origins:
    """Adds the CORS headers for the origins that the operator named; ``*`` stands for any."""

    def __init__(self, app: ASGIApp, origins: tuple[str, ...]) -> None:
        """Wrap ``app``."""
        self.app = app
        self.origins = frozenset(origins)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer a preflight, or add the headers to the answer."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        headers = Headers(scope=scope)
        origin = headers.get("origin")
        if origin is None:
            await self.app(scope, receive, send)
            return
        allowed = "*" in self.origins or origin in self.origins
        if scope["method"] == "OPTIONS" and "access-control-request-method" in headers:
            await self._preflight(headers, origin if allowed else None, send)
            return

        async def sending(message: Message) -> None:
            if message["type"] == "http.response.start" and allowed:
                answer = MutableHeaders(scope=message)
                answer["Access-Control-Allow-Origin"] = "*" if "*" in self.origins else origin
                answer["Access-Control-Expose-Headers"] = EXPOSED
                if "origin" not in answer.get("vary", "").lower():
                    answer.add_vary_header("Origin")
            await send(message)

        await self.app(scope, receive, sending)

    async def _preflight(self, headers: Headers, origin: str | None, send: Send) -> None:
        answer = MutableHeaders(raw=[])
        answer["Vary"] = "Origin, Access-Control-Request-Method, Access-Control-Request-Headers"
        if origin is not None:
            answer["Access-Control-Allow-Origin"] = "*" if "*" in self.origins else origin
            answer["Access-Control-Allow-Methods"] = METHODS
            answer["Access-Control-Allow-Headers"] = HEADERS
            answer["Access-Control-Max-Age"] = MAX_AGE_S
            if headers.get("access-control-request-private-network") == "true":
                answer["Access-Control-Allow-Private-Network"] = "true"
        await send({"type": "http.response.start", "status": 204, "headers": answer.raw})
        await send({"type": "http.response.body", "body": b""})
