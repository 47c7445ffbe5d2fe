"""Is this body one well-formed JSON document, of a size and depth that we are willing to read?

Checked before anything is built from it: bytes are UTF-8, nesting and the number of values are bounded. While reading:
no key twice, no NaN or Infinity, no half of a surrogate pair, no endless digits.
"""

import json
import re
from collections.abc import Iterator, Sequence
from contextlib import nullcontext
from itertools import islice
from math import inf
from typing import Any, NamedTuple

from pydantic_core import from_json

from service.api.schemas.base import MOST_VALUES
from service.api.schemas.mistakes import MOST_MISTAKES, RefusedRequest, pointer_of, shown
from service.api.schemas.pause import no_garbage_looked_for
from service.api.words import say

DEEPEST = 32
LONGEST_INTEGER = 18  # digits; a longer one is read as a float, out of every bound we have

# A text to its end, or to the body's where it has none. Linear: no repetition gives back what it took, and it never
# fails once begun, so that no byte is read twice.
_TEXT = re.compile(rb'"[^"\\]*+(?:\\.[^"\\]*+)*+\\?(?:"|\Z)', re.DOTALL)
_BRACKETS = re.compile(rb"[\[\]{}]")
_NO_MARKS = bytes(set(range(256)) - set(b'"[]{}'))
_MANY_BYTES = 1 << 16
_SPACE = b" \t\r\n"


class Cut(NamedTuple):
    """A text that was cut within a character, and its place."""

    text: str
    place: tuple[str | int, ...]


def parsed(body: bytes, most_values: int = MOST_VALUES) -> Any:
    """The value that ``body`` holds.

    Raises:
        RefusedRequest: malformed_json, or body_too_large where it holds too many values.
    """
    if not body.strip():
        raise _malformed("empty")
    if body.count(b",") > most_values:
        raise RefusedRequest("body_too_large", limit=f"{most_values} values")
    if body.count(b"[") + body.count(b"{") > DEEPEST:
        _check_depth(body)
    try:
        text = body.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise _malformed("not_utf8", at=error.start) from error
    value = _loaded(text)
    if r"\u" in text:
        cut = list(islice(_halves(value), MOST_MISTAKES))
        if cut:
            raise _cut_within(cut)
    return value


def parsed_if_plain(body: bytes, most_values: int = MOST_VALUES) -> Any:
    """The value of a body that is beyond doubt, in half the time; None: ask ``parsed``, for that or for what is wrong.

    Integers may be longer than there: they lie out of every bound we have.
    """
    if len(body) > _MANY_BYTES or body.count(b",") > most_values:
        return None
    try:
        value = from_json(body, allow_inf_nan=False, cache_strings="keys")
    except ValueError:
        return None
    # What stands between a key and its colon may be space. A text may hold a quote and a colon too: ``parsed`` tells.
    keys = body.translate(None, _SPACE).count(b'":')
    return value if _key_count(value, DEEPEST) == keys else None


def _key_count(value: Any, deepest: int) -> float:
    """How many keys there are, each counted once in its object: fewer than were written where one stands twice.

    Without end where objects and lists are nested deeper than ``deepest``.
    """
    kind = value.__class__
    if kind not in _NESTED:
        return 0
    if not deepest:
        return inf
    count: float = 0
    if kind is dict:
        count, value = len(value), value.values()
    for inner in value:
        if inner.__class__ in _NESTED:
            count += _key_count(inner, deepest - 1)
    return count


_NESTED = (dict, list)


def _loaded(text: str) -> Any:
    with no_garbage_looked_for() if len(text) > _MANY_BYTES else nullcontext():
        try:
            return _DECODER.decode(text)
        except json.JSONDecodeError as error:
            raise _malformed("syntax", line=error.lineno, column=error.colno) from error


def _malformed(why: str, **facts: Any) -> RefusedRequest:
    return RefusedRequest("malformed_json", why=say("problems", f"why.{why}", facts))


def _cut_within(cut: Sequence[Cut]) -> RefusedRequest:
    """Texts of half characters; what reads the body tells each (``cut``)."""
    why = say("problems", "why.surrogate", {"at": pointer_of(cut[0].place) or "/"})
    return RefusedRequest("malformed_json", why=why, cut=cut)


def _check_depth(body: bytes) -> None:
    """Brackets within texts don't count. What stands behind a stray backslash is refused as no JSON, deep or not."""
    if b"\\" not in body and _is_shallow(body):
        return
    depth = 0
    for sign in _BRACKETS.findall(_TEXT.sub(b"", body)):
        if sign in b"[{":
            depth += 1
            if depth > DEEPEST:
                raise _malformed("too_deep", depth=DEEPEST)
        else:
            depth -= 1


def _is_shallow(body: bytes) -> bool:
    """Is a body surely not too deep? Tells it at once of a log of a hundred thousand rows; False: look closer."""
    marks = body.translate(None, _NO_MARKS).replace(b'""', b"")
    for _ in range(DEEPEST):
        inner, marks = marks, marks.replace(b"[]", b"").replace(b"{}", b"")
        if len(marks) == len(inner):
            break
    return not marks


def _without_duplicates(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) != len(pairs):
        seen: set[str] = set()
        for key, _ in pairs:
            if key in seen:
                raise _malformed("duplicate", key=shown(key))
            seen.add(key)
    return found


def _no_constant(name: str) -> Any:
    raise _malformed("constant", name=name)


def _bounded_integer(digits: str) -> int | float:
    return int(digits) if len(digits) <= LONGEST_INTEGER else float(digits)


_DECODER = json.JSONDecoder(
    object_pairs_hook=_without_duplicates, parse_constant=_no_constant, parse_int=_bounded_integer
)


def _halves(value: Any, place: tuple[str | int, ...] = ()) -> Iterator[Cut]:
    """Texts and keys that hold half of a surrogate pair, each with the place where it stands."""
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from _halves(key, (*place, key))
            yield from _halves(inner, (*place, key))
    elif isinstance(value, list):
        for at, inner in enumerate(value):
            yield from _halves(inner, (*place, at))
    elif isinstance(value, str):
        try:
            value.encode()
        except UnicodeEncodeError:
            yield Cut(value, place)
