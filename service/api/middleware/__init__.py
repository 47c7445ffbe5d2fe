"""What happens around every request? Plain ASGI layers, from the outside inwards in the order of ``layers``."""

from collections.abc import Sequence

from starlette.middleware import Middleware

from service.api.middleware.crowd import Crowd
from service.api.middleware.faults import Faults
from service.api.middleware.head import HeadAsGet
from service.api.middleware.host import KnownHost
from service.api.middleware.identity import Identity
from service.api.middleware.origins import Origins

__all__ = ["layers"]


def layers(*, allowed_hosts: Sequence[str], cors_origins: Sequence[str], open_requests: int) -> list[Middleware]:
    """The layers, outermost first: a refusal of an inner one leaves with the headers of all the outer ones."""
    return [
        Middleware(Identity),
        Middleware(Origins, origins=tuple(cors_origins)),
        Middleware(Faults),
        Middleware(KnownHost, allowed=tuple(allowed_hosts)),
        Middleware(Crowd, most=open_requests),
        Middleware(HeadAsGet),
    ]
