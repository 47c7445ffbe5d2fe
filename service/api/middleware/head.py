"""What would GET answer? HEAD is the same without the body (RFC 9110, section 9.3.2)."""

from starlette.types import ASGIApp, Message, Receive, Scope, Send


class HeadAsGet:
    """Asks as GET and leaves the body out."""

    def __init__(self, app: ASGIApp) -> None:
        """Wrap ``app``."""
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass on; for HEAD without the body."""
        if scope["type"] != "http" or scope["method"] != "HEAD":
            await self.app(scope, receive, send)
            return
        inner = {**scope, "method": "GET"}

        async def sending(message: Message) -> None:
            if message["type"] == "http.response.body":
                message = {**message, "body": b""}
            await send(message)

        await self.app(inner, receive, sending)
        scope["route"] = inner.get("route")
