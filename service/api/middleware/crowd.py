"""How many requests are in hand at once? Above the limit the answer is 503 at once, and not a growing queue."""

from starlette.types import ASGIApp, Receive, Scope, Send

from service.api.problems import RETRY_AFTER_S, problem_response


class Crowd:
    """Counts the requests in hand. Health is always answered."""

    def __init__(self, app: ASGIApp, most: int) -> None:
        """Wrap ``app``."""
        self.app = app
        self.most = most
        self.in_hand = 0

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass on, or refuse with 503."""
        if scope["type"] != "http" or scope["path"].startswith("/health/"):
            await self.app(scope, receive, send)
            return
        if self.in_hand >= self.most:
            await problem_response(scope, "overloaded", seconds=RETRY_AFTER_S)(scope, receive, send)
            return
        self.in_hand += 1
        try:
            await self.app(scope, receive, send)
        finally:
            self.in_hand -= 1
