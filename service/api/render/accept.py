"""Which of the formats at hand does the caller like best? The Accept header of RFC 9110, section 12.5.1."""

import re
from collections.abc import Sequence

JSON = "application/json"
PROBLEM = "application/problem+json"
TEXT = "text/plain"
HTML = "text/html"
SVG = "image/svg+xml"
CSV = "text/csv"

_LONGEST = 2000
_MOST_RANGES = 50
_QUALITY = re.compile(r"(0(\.[0-9]{0,3})?|1(\.0{0,3})?)")


def chosen(accept: str, available: Sequence[str]) -> str | None:
    """The best of ``available`` (first come, first served among equals); None where none is acceptable.

    >>> chosen("text/plain;q=0.5, application/*", ("application/json", "text/plain"))
    'application/json'
    """
    if not accept.strip():
        return available[0]
    ranges = _ranges(accept)
    rated = [(_quality(media, ranges), -at) for at, media in enumerate(available)]
    quality, at = max(rated)
    return available[-at] if quality > 0 else None


def _ranges(accept: str) -> list[tuple[str, float]]:
    found = []
    for part in accept[:_LONGEST].split(",")[:_MOST_RANGES]:
        media, _, parameters = part.partition(";")
        quality = 1.0
        for parameter in parameters.split(";"):
            name, _, value = parameter.partition("=")
            if name.strip().lower() == "q":
                quality = float(value.strip()) if _QUALITY.fullmatch(value.strip()) else 0.0
        found.append((media.strip().lower(), quality))
    return found


def _quality(media: str, ranges: Sequence[tuple[str, float]]) -> float:
    """Quality of the most specific range that covers ``media``."""
    kind = media.partition("/")[0]
    for wanted in (media, f"{kind}/*", "*/*"):
        found = [quality for name, quality in ranges if name == wanted]
        if found:
            return max(found)
    return 0.0
