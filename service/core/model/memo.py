"""What was computed lately? A bounded cache, made in ``app`` and passed as an argument; the least lately used goes."""

from collections import OrderedDict
from collections.abc import Callable, Hashable
from threading import Lock
from typing import Any, Generic, TypeVar

K = TypeVar("K", bound=Hashable)
V = TypeVar("V")
_NOTHING: Any = object()


class NotKeptError(Exception):
    """Nothing may be made here, and what was asked for is not kept."""


class Memo(Generic[K, V]):
    """At most ``size`` values by key. Safe between threads; two that ask for a new key at once may both compute it."""

    __slots__ = ("_kept", "_lock", "_makes", "size")

    def __init__(self, size: int, shared: "tuple[OrderedDict[K, V], Lock] | None" = None) -> None:
        """Start empty; ``size`` is at least 1. ``shared``: what another one keeps, to be looked into alone."""
        self.size = max(size, 1)
        self._makes = shared is None
        self._kept, self._lock = shared or (OrderedDict(), Lock())

    def get(self, key: K, make: Callable[[], V]) -> V:
        """The value of ``key``: kept, or made now and kept.

        Raises:
            NotKeptError: it is not kept, and nothing may be made.
        """
        with self._lock:
            # Taken out and put back as the newest: keys are long, so that each look costs.
            found = self._kept.pop(key, _NOTHING)
            if found is not _NOTHING:
                kept: V = found
                self._kept[key] = kept
                return kept
        if not self._makes:
            raise NotKeptError
        value = make()
        with self._lock:
            self._kept[key] = value
            self._kept.move_to_end(key)
            while len(self._kept) > self.size:
                self._kept.popitem(last=False)
        return value

    def kept(self, key: K) -> V | None:
        """The value of ``key`` where it is kept; nothing is made."""
        with self._lock:
            return self._kept.get(key)

    def only_kept(self) -> "Memo[K, V]":
        """The same values to whoever has no time to make one."""
        return Memo(self.size, (self._kept, self._lock))

    def __len__(self) -> int:
        return len(self._kept)


class QuickMemo(Memo[K, V]):
    """Of values that are made in some hundredths of a millisecond: also who has no time may make one."""

    __slots__ = ()

    def only_kept(self) -> "Memo[K, V]":
        """The same memo."""
        return self
