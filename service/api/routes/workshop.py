"""Who computes? A few threads beside the event loop, so that health and small answers never wait behind a long one.

To hand work to a thread and its result back costs some half a millisecond of CPU, as much as an answer of which all is
kept. Such an answer is put together in the loop itself, one a turn, so that whatever else is there comes between.
"""

import asyncio
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from typing import TypeVar

from service.api.problems import RETRY_AFTER_S
from service.api.schemas.mistakes import RefusedRequest
from service.core.model.memo import NotKeptError

T = TypeVar("T")


class Workshop:
    """A bounded pool: so many computations at once, so many waiting, and 503 above that."""

    def __init__(self, threads: int, waiting: int) -> None:
        """Threads are started when first needed."""
        self.pool = ThreadPoolExecutor(threads, thread_name_prefix="compute")
        self.most = threads + waiting
        self.in_hand = 0
        self._turn = asyncio.Lock()

    async def run(self, work: Callable[[], T], at_hand: Callable[[], T] | None = None) -> T:
        """The result of ``work``, computed in the pool.

        ``at_hand`` tells the same at once, in the loop, or raises ``NotKeptError`` and is not asked again.

        Raises:
            RefusedRequest: overloaded.
        """
        if self.in_hand >= self.most:
            raise RefusedRequest("overloaded", seconds=RETRY_AFTER_S)
        self.in_hand += 1
        try:
            if at_hand is not None:
                await self._turn.acquire()
                asyncio.get_running_loop().call_soon(self._turn.release)  # in the next turn of the loop
                try:
                    return at_hand()
                except NotKeptError:
                    pass
            return await asyncio.get_running_loop().run_in_executor(self.pool, work)
        finally:
            self.in_hand -= 1

    def close(self) -> None:
        """Let go of the threads; what waits is dropped."""
        self.pool.shutdown(wait=False, cancel_futures=True)
