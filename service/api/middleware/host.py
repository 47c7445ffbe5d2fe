"""Was the service called under a name of its own? Otherwise a page elsewhere could reach it through DNS rebinding."""

from starlette.types import ASGIApp, Receive, Scope, Send

from service.api.problems import problem_response
from service.api.schemas.mistakes import Mistake, shown
from service.api.words import say


class KnownHost:
    """Refuses a Host header that is not on the list. Health paths are asked by address, so they are exempt."""

    def __init__(self, app: ASGIApp, allowed: tuple[str, ...]) -> None:
        """Wrap ``app``."""
        self.app = app
        self.allowed = frozenset(host.lower() for host in allowed)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass on, or refuse with 421."""
        if scope["type"] == "http" and "*" not in self.allowed and not scope["path"].startswith("/health/"):
            hosts = [value for name, value in scope["headers"] if name == b"host"]
            if len(hosts) != 1 or _without_port(hosts[0].decode("latin-1")) not in self.allowed:
                await problem_response(scope, "unknown_host", (_strange(hosts),))(scope, receive, send)
                return
        await self.app(scope, receive, send)


def _strange(hosts: list[bytes]) -> Mistake:
    """The host name as it came. Which ones are on the list is not told to whoever asks under another name."""
    return Mistake(
        code="unknown_host", where="header", pointer="host",
        given=shown(", ".join(host.decode("latin-1") for host in hosts)) if hosts else None,
        problem=say("problems", "mistake.unknown_host"), accepted=say("problems", "accepted.host"), example="localhost",
    )  # fmt: skip


def _without_port(host: str) -> str:
    name, colon, port = host.strip().lower().rpartition(":")
    return name if colon and port.isdigit() and (not name.count(":") or name.endswith("]")) else host.strip().lower()
