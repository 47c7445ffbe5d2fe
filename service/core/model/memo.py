"""What was computed lately? A bounded cache, made in ``app`` and passed as an argument; the least lately used goes."""

from collections import OrderedDict
from collections.abc import Callable, Hashable
from threading import Lock
from typing import Generic, TypeVar

K = TypeVar("K", bound=Hashable)
V = TypeVar("V")


class Memo(Generic[K, V]):
    """At most ``size`` values by key. Safe between threads; two that ask for a new key at once may both compute it."""

    __slots__ = ("_kept", "_lock", "size")

    def __init__(self, size: int) -> None:
        """Start empty; ``size`` is at least 1."""
        self.size = max(size, 1)
        self._kept: OrderedDict[K, V] = OrderedDict()
        self._lock = Lock()

    def get(self, key: K, make: Callable[[], V]) -> V:
        """The value of ``key``: kept, or made now and kept."""
        with self._lock:
            if key in self._kept:
                self._kept.move_to_end(key)
                return self._kept[key]
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

    def __len__(self) -> int:
        return len(self._kept)
