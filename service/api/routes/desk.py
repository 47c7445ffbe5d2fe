"""How does a question become an answer over HTTP? Format, body, computation beside the loop, rendering."""

import hashlib
from collections.abc import Callable, Mapping
from datetime import date
from typing import TypeVar

from pydantic import BaseModel
from starlette.requests import Request
from starlette.responses import Response

from service.api.deps import Deps
from service.api.routes.asking import body_of, media_of
from service.api.routes.replies import computed, format_of
from service.api.routes.workshop import Workshop
from service.core.model.memo import Memo

A = TypeVar("A", bound=BaseModel)
# By path, format, digest of the body, and the day, which rules, prices and a question without a day go by.
Told = Memo[tuple[str, str, bytes, date], bytes]
# A question with weather of the caller's own is longer; it is not asked twice.
KEPT_UP_TO_BYTES = 16_384


class Desk:
    """Where questions with a body come in."""

    def __init__(
        self,
        deps: Deps,
        workshop: Workshop,
        body_limit_bytes: int,
        body_seconds: float,
        log_limit_bytes: int,
        told: Told | None = None,
    ) -> None:
        """Keep what every answer needs. ``told``: the answers of late, None where none are kept."""
        self.told = told
        self.log_limit_bytes = max(log_limit_bytes, body_limit_bytes)
        self.deps = deps
        self.workshop = workshop
        self.body_limit_bytes = body_limit_bytes
        self.body_seconds = body_seconds

    async def answer(
        self,
        request: Request,
        answer: Callable[[bytes, Deps], A],
        renders: Mapping[str, Callable[[A], bytes]],
        in_format: Mapping[str, Callable[[bytes, Deps], A]] | None = None,
        *,
        keep: bool = False,
    ) -> Response:
        """Ask ``answer`` for what the body holds; render it in the best format of ``renders``.

        ``in_format``: who is asked instead where that is the format. ``keep``: is the answer kept for who asks the same
        again? Then a digest of the question and the answer are, not the question.

        Raises:
            RefusedRequest, SunsillError: told to the caller as a problem.
        """
        media = format_of(request, tuple(renders))
        body = await body_of(request, self.body_limit_bytes, self.body_seconds)
        asked = answer if in_format is None else in_format.get(media, answer)

        def work() -> bytes:
            return renders[media](asked(body, self.deps))

        told = self.told
        if told is None or not keep or len(body) > KEPT_UP_TO_BYTES:
            return await self._computed(media, work)
        key = (request.url.path, media, hashlib.sha256(body).digest(), self.deps.today())
        found = told.kept(key)
        content = await self.workshop.run(work) if found is None else found
        return computed(media, told.get(key, lambda: content))

    async def answer_log(
        self,
        request: Request,
        answers: Mapping[str, Callable[[bytes, Deps], A]],
        renders: Mapping[str, Callable[[A], bytes]],
    ) -> Response:
        """The same of a log, which may be larger and of several types: ``answers`` by the type of the body."""
        media = format_of(request, tuple(renders))
        body = await body_of(request, self.log_limit_bytes, self.body_seconds, tuple(answers))
        asked = answers[media_of(request)]
        return await self._computed(media, lambda: renders[media](asked(body, self.deps)))

    async def _computed(self, media: str, work: Callable[[], bytes]) -> Response:
        return computed(media, await self.workshop.run(work))
