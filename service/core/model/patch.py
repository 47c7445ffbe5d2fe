"""Which changes of a request make up one step that no single field can hold? Operations of RFC 6902 (JSON Patch)."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TypeVar

from service.core.model.pointer import replaced_at, value_at

T = TypeVar("T")

_AT_END = "/-"


@dataclass(frozen=True, slots=True, kw_only=True)
class Operation:
    """``add`` puts ``value`` at ``path``, ``copy`` what lies at ``source``; ``remove`` takes out what is there."""

    op: str
    path: str
    value: str | float | int | bool | None = None
    source: str | None = None


def patched(node: T, operations: Iterable[Operation]) -> T:
    """A complete request with the operations made, one after the other.

    An ``add`` replaces what stands there, as RFC 6902 has it for members of an object.

    Raises:
        KeyError: a path reaches nothing.
        ValueError: an operation that a complete request has no use for.
    """
    for one in operations:
        node = _made(node, one)
    return node


def _made(node: T, one: Operation) -> T:
    if one.op == "add":
        return replaced_at(node, one.path, one.value)
    if one.op == "copy" and one.source is not None and one.path.endswith(_AT_END):
        rows = one.path.removesuffix(_AT_END)
        return replaced_at(node, rows, (*value_at(node, rows), value_at(node, one.source)))
    if one.op == "copy" and one.source is not None and not one.path.rpartition("/")[2].isdigit():
        return replaced_at(node, one.path, value_at(node, one.source))
    if one.op == "remove":
        rows, _, at = one.path.rpartition("/")
        kept = value_at(node, rows)
        return replaced_at(node, rows, (*kept[: int(at)], *kept[int(at) + 1 :]))
    raise ValueError(one)
