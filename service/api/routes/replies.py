"""How does an answer leave: format, digest, freshness?"""

import hashlib
from base64 import b64encode
from collections.abc import Callable, Mapping

from starlette.requests import Request
from starlette.responses import Response

from service.api.render.accept import HTML, JSON, SVG, TEXT, chosen
from service.api.render.html import CONTENT_SECURITY_POLICY
from service.api.schemas.mistakes import Mistake, RefusedRequest, shown
from service.api.words import say

VARY = "Accept, Accept-Language, Accept-Encoding, Origin"
_TYPES = {JSON: JSON, TEXT: f"{TEXT}; charset=utf-8", HTML: f"{HTML}; charset=utf-8", SVG: f"{SVG}; charset=utf-8"}

Renders = Mapping[str, Callable[[], bytes]]


def format_of(request: Request, available: tuple[str, ...]) -> str:
    """The format that the caller likes best, told before anything is computed.

    Raises:
        RefusedRequest: not_acceptable, with what there is.
    """
    media = chosen(",".join(request.headers.getlist("accept")), available)
    if media is None:
        mistake = Mistake(
            code="not_acceptable",
            where="header",
            pointer="Accept",
            given=shown(",".join(request.headers.getlist("accept"))),
            problem=say("problems", "mistake.not_acceptable"),
            accepted=say("problems", "accepted.media", {"available": available}),
            example=available[0],
        )
        raise RefusedRequest("not_acceptable", (mistake,), available=available)
    return media


def digest_of(content: bytes) -> str:
    """The digest of an answer's bytes, as RFC 9530 writes it."""
    return f"sha-256=:{b64encode(hashlib.sha256(content).digest()).decode('ascii')}:"


def computed(media: str, content: bytes, digest: str) -> Response:
    """The answer to a POST: not to be stored, with its digest."""
    return Response(content, 200, {**_common(media), "Cache-Control": "no-store", "Repr-Digest": digest})


def fetched(request: Request, media: str, content: bytes) -> Response:
    """The answer to a GET: with a strong ETag, and 304 where the caller has it already (RFC 9110, section 13)."""
    tag = f'"{hashlib.sha256(media.encode() + content).hexdigest()[:32]}"'
    headers = {**_common(media), "Cache-Control": "no-cache", "ETag": tag}
    if _has_it(",".join(request.headers.getlist("if-none-match")), tag):
        kept = {name: headers[name] for name in ("Cache-Control", "ETag", "Vary", "Content-Language")}
        return Response(status_code=304, headers=kept)
    return Response(content, 200, headers)


def momentary(media: str, content: bytes, status: int = 200) -> Response:
    """An answer that is true only now, such as health."""
    return Response(content, status, {**_common(media), "Cache-Control": "no-store"})


def _common(media: str) -> dict[str, str]:
    headers = {
        "Content-Type": _TYPES[media],
        "Content-Language": "en",
        "Vary": VARY,
        "X-Content-Type-Options": "nosniff",
    }
    if media == HTML:
        headers["Content-Security-Policy"] = CONTENT_SECURITY_POLICY
    return headers


def _has_it(if_none_match: str, tag: str) -> bool:
    """Weak comparison, as If-None-Match wants it."""
    tags = {part.strip().removeprefix("W/") for part in if_none_match.split(",")}
    return "*" in tags or tag in tags
