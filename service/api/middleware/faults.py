"""What if something of ours breaks? A problem without internals goes out; type and place of the fault go to the log."""

import logging
import traceback

from starlette.requests import ClientDisconnect
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from service.api.problems import problem_response

log = logging.getLogger("sunsill.faults")


class Faults:
    """Catches whatever was not expected."""

    def __init__(self, app: ASGIApp) -> None:
        """Wrap ``app``."""
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer, or answer with a problem."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        started = False

        async def sending(message: Message) -> None:
            nonlocal started
            started = started or message["type"] == "http.response.start"
            await send(message)

        try:
            await self.app(scope, receive, sending)
        except ClientDisconnect:
            return  # nobody is left to answer
        except Exception as error:
            # The message and the values stay out of the log: they may hold parts of a request.
            frames = "; ".join(
                f"{frame.filename}:{frame.lineno} {frame.name}" for frame in traceback.extract_tb(error.__traceback__)
            )
            log.error("%s %s at %s", scope.get("request_id", ""), type(error).__name__, frames)  # noqa: TRY400
            if not started:
                await problem_response(scope, "internal")(scope, receive, send)
