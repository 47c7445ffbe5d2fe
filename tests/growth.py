"""Does work grow with its size, or faster? Told by CPU time, which a busy machine only ever adds to."""

import time
from collections.abc import Callable

_ROUNDS = 8


def cpu_s(work: Callable[[], object]) -> float:
    """CPU seconds of this process for it."""
    begun = time.process_time()
    work()
    return time.process_time() - begun


def grows_within(short: Callable[[], object], long: Callable[[], object], times: float, floor_s: float = 0.002) -> bool:
    """Does the longer work cost at most so many times the shorter one, in any of some rounds?

    Noise may spoil a round, and every round of what really grows faster is spoiled. Below ``floor_s`` nothing is told.
    """
    return any(
        min(cpu_s(long) for _ in range(2)) < times * max(min(cpu_s(short) for _ in range(2)), floor_s)
        for _ in range(_ROUNDS)
    )
