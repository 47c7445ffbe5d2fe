"""How does a body come in? Its type first, then its bytes, bounded in size and time whatever was announced."""

import asyncio

from starlette.requests import ClientDisconnect, Request

from service.api.render.accept import JSON
from service.api.schemas.mistakes import Mistake, RefusedRequest, shown
from service.api.words import say

_FORM = {"application/x-www-form-urlencoded", "multipart/form-data"}
# Many clients read the answer only when they have sent all. A body that is not far too large is let in and thrown
# away, or its sender would see a broken connection (RFC 9112, 9.6) instead of the problem.
_POLITE_TIMES = 8


async def body_of(request: Request, limit_bytes: int, seconds: float, takes: tuple[str, ...] = (JSON,)) -> bytes:
    """The bytes of a body of one of the types that the path ``takes``.

    Raises:
        RefusedRequest: unsupported_media_type, body_too_large, body_timeout, malformed_request.
    """
    _check_type(request, takes)
    announced = request.headers.get("content-length", "0")
    if not announced.isdigit():
        raise RefusedRequest("malformed_request", why=say("problems", "why.header", {"header": "Content-Length"}))
    too_large = int(announced[:16]) > limit_bytes
    if too_large and int(announced[:16]) > limit_bytes * _POLITE_TIMES:
        raise _too_large(announced, limit_bytes)
    pieces, came = bytearray(), 0
    try:
        async with asyncio.timeout(seconds):
            async for piece in request.stream():
                came += len(piece)
                too_large = too_large or came > limit_bytes
                if came > limit_bytes * _POLITE_TIMES:
                    break
                if too_large:
                    pieces.clear()
                else:
                    pieces += piece
    except TimeoutError as error:
        raise RefusedRequest("body_timeout", seconds=seconds) from error
    except ClientDisconnect as error:
        raise RefusedRequest("malformed_request", why=say("problems", "why.body_cut")) from error
    if too_large:
        raise _too_large(announced, limit_bytes)
    return bytes(pieces)


def _too_large(announced: str, limit_bytes: int) -> RefusedRequest:
    mistake = Mistake(
        code="body_too_large",
        where="header",
        pointer="Content-Length",
        given=shown(announced) if announced != "0" else None,
        problem=say("problems", "mistake.body_too_large"),
        accepted=say("problems", "accepted.bytes", {"limit": limit_bytes}),
        example=str(limit_bytes),
    )
    return RefusedRequest("body_too_large", (mistake,), limit=f"{limit_bytes // 1024} KiB")


def media_of(request: Request) -> str:
    """The type that the body is said to be of, without its parameters."""
    return request.headers.get("content-type", "").partition(";")[0].strip().lower()


def _check_type(request: Request, takes: tuple[str, ...]) -> None:
    coding = request.headers.get("content-encoding", "identity").strip().lower()
    if coding not in {"", "identity"}:
        raise _unsupported("coding", "Content-Encoding", coding, takes)
    media, parameters = media_of(request), request.headers.get("content-type", "").partition(";")[2]
    if not media:
        raise _unsupported("no_type", "Content-Type", None, takes)
    if media in _FORM:
        raise _unsupported("form_type", "Content-Type", media, takes)
    if media not in takes:
        raise _unsupported("type", "Content-Type", media, takes)
    for parameter in parameters.split(";"):
        name, _, value = parameter.partition("=")
        if name.strip().lower() == "charset" and value.strip().strip('"').lower() not in {"utf-8", "utf8"}:
            raise _unsupported("charset", "Content-Type", f"{media};{parameters}", takes)


def _unsupported(why: str, header: str, given: str | None, takes: tuple[str, ...]) -> RefusedRequest:
    coding = header == "Content-Encoding"
    mistake = Mistake(
        code="unsupported_media_type",
        where="header",
        pointer=header,
        given=None if given is None else shown(given),
        problem=say("problems", "mistake.unsupported_media_type"),
        accepted=say("problems", "accepted.coding") if coding else " or ".join(takes),
        example="identity" if coding else JSON,
    )
    said = say("problems", f"why.{why}", {"given": "" if given is None else shown(given)})
    return RefusedRequest("unsupported_media_type", (mistake,), why=said)
