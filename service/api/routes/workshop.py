"""Who computes? A few threads beside the event loop, so that health and small answers never wait behind a long one."""

import asyncio
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from typing import TypeVar

from service.api.problems import RETRY_AFTER_S
from service.api.schemas.mistakes import RefusedRequest

T = TypeVar("T")


class Workshop:
    """A bounded pool: so many computations at once, so many waiting, and 503 above that."""

    def __init__(self, threads: int, waiting: int) -> None:
        """Threads are started when first needed."""
        self.pool = ThreadPoolExecutor(threads, thread_name_prefix="compute")
        self.most = threads + waiting
        self.in_hand = 0

    async def run(self, work: Callable[[], T]) -> T:
        """The result of ``work``, computed in the pool.

        Raises:
            RefusedRequest: overloaded.
        """
        if self.in_hand >= self.most:
            raise RefusedRequest("overloaded", seconds=RETRY_AFTER_S)
        self.in_hand += 1
        try:
            return await asyncio.get_running_loop().run_in_executor(self.pool, work)
        finally:
            self.in_hand -= 1

    def close(self) -> None:
        """Let go of the threads; what waits is dropped."""
        self.pool.shutdown(wait=False, cancel_futures=True)
