"""Which part of a complete request does a pointer mean, and what is the request with that part changed?"""

from dataclasses import fields, is_dataclass, replace
from functools import cache
from typing import Any, TypeVar

T = TypeVar("T")


def _parts(pointer: str) -> list[str]:
    """The reference tokens of an RFC 6901 pointer, unescaped."""
    return [part.replace("~1", "/").replace("~0", "~") for part in pointer.split("/")[1:]]


def value_at(node: Any, pointer: str) -> Any:
    """The value that ``pointer`` (RFC 6901) reaches in nested dataclasses and tuples.

    Raises:
        KeyError: the pointer reaches nothing.
    """
    for part in _parts(pointer):
        node = _step(node, part, pointer)
    return node


def replaced_at(node: T, pointer: str, value: Any) -> T:
    """A copy of ``node`` with the value at ``pointer`` (RFC 6901) replaced; the original is untouched.

    Raises:
        KeyError: the pointer reaches nothing.
    """
    return _replaced(node, _parts(pointer), value, pointer)  # type: ignore[no-any-return]


def _step(node: Any, part: str, pointer: str) -> Any:
    kind: type = type(node)
    if is_dataclass(kind) and part in _names(kind):
        return getattr(node, part)
    if isinstance(node, tuple) and part.isdigit() and int(part) < len(node):
        return node[int(part)]
    raise KeyError(pointer)


@cache
def _names(kind: type) -> frozenset[str]:
    """The fields of a dataclass."""
    return frozenset(field.name for field in fields(kind))


def _replaced(node: Any, parts: list[str], value: Any, pointer: str) -> Any:
    if not parts:
        return value
    inner = _replaced(_step(node, parts[0], pointer), parts[1:], value, pointer)
    if isinstance(node, tuple):
        at = int(parts[0])
        return (*node[:at], inner, *node[at + 1 :])
    return replace(node, **{parts[0]: inner})
