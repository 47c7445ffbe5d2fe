"""How does a question become an answer over HTTP? Format, body, computation beside the loop, rendering."""

from collections.abc import Awaitable, Callable, Mapping
from typing import Any, TypeVar

from pydantic import BaseModel
from starlette.requests import Request
from starlette.responses import Response

from service.api.deps import Deps
from service.api.render.accept import HTML, JSON, TEXT
from service.api.render.json import as_json
from service.api.render.sheet import Pages, Sheet, text_of
from service.api.routes.asking import body_of, media_of
from service.api.routes.described import parameter
from service.api.routes.replies import computed, digest_of, format_of
from service.api.routes.told_again import ToldAgain, Written
from service.api.routes.workshop import Workshop
from service.api.schemas.reading import choice_in_query

A = TypeVar("A", bound=BaseModel)
Answer = Callable[[bytes, Deps], BaseModel]
Renders = Mapping[str, Callable[[Any], bytes]]
Handler = Callable[[Request], Awaitable[Response]]

ONLY_JSON: Renders = {JSON: as_json}
ON_PAPER = (JSON, TEXT, HTML)
PART = parameter(
    "part",
    "query",
    "`fragment`: of a page only a piece to be embedded in another, without head and style.",
    {"type": "string", "enum": ["fragment"]},
    required=False,
)


def on_paper(sheet: Callable[[Any], Sheet]) -> Renders:
    """An answer in all three formats of ``ON_PAPER``."""
    return {JSON: as_json, TEXT: text_of(sheet), HTML: Pages(sheet)}


class Desk:
    """Where questions with a body come in."""

    def __init__(
        self,
        deps: Deps,
        workshop: Workshop,
        body_limit_bytes: int,
        body_seconds: float,
        log_limit_bytes: int,
        answer_cache_bytes: int = 0,
    ) -> None:
        """Keep what every answer needs."""
        self.told = ToldAgain(answer_cache_bytes)
        self.log_limit_bytes = max(log_limit_bytes, body_limit_bytes)
        self.deps = deps
        self.kept = deps.only_kept()
        self.workshop = workshop
        self.body_limit_bytes = body_limit_bytes
        self.body_seconds = body_seconds

    def asks(
        self,
        answer: Answer,
        renders: Renders = ONLY_JSON,
        in_format: Mapping[str, Answer] | None = None,
        at_hand: Answer | None = None,
    ) -> Handler:
        """What asks ``answer`` for each request, as below."""

        async def handle(request: Request) -> Response:
            return await self.answer(request, answer, renders, in_format, at_hand)

        return handle

    def asks_large(self, answers: Mapping[str, Answer], renders: Renders) -> Handler:
        """The same of a log or of many texts."""

        async def handle(request: Request) -> Response:
            return await self.answer_large(request, answers, renders)

        return handle

    async def answer(
        self,
        request: Request,
        answer: Callable[[bytes, Deps], A],
        renders: Mapping[str, Callable[[A], bytes]],
        in_format: Mapping[str, Callable[[bytes, Deps], A]] | None = None,
        at_hand: Callable[[bytes, Deps], A] | None = None,
    ) -> Response:
        """Ask ``answer`` for what the body holds; render it in the best format of ``renders``.

        ``in_format``: who is asked instead where that is the format. ``at_hand``: who is asked first, with nothing but
        what is kept.

        Raises:
            RefusedRequest, SunsillError: told to the caller as a problem.
        """
        media = format_of(request, tuple(renders))
        part, render = part_of(request, renders[media])
        body = await body_of(request, self.body_limit_bytes, self.body_seconds)
        asked = answer if in_format is None else in_format.get(media, answer)
        quick = None if at_hand is None else lambda: render(at_hand(body, self.kept))
        return await self._told(request, media, part, body, lambda: render(asked(body, self.deps)), quick)

    async def answer_large(
        self,
        request: Request,
        answers: Mapping[str, Callable[[bytes, Deps], A]],
        renders: Mapping[str, Callable[[A], bytes]],
    ) -> Response:
        """The same of a log or of many texts, which may be larger: ``answers`` by the type of the body."""
        media = format_of(request, tuple(renders))
        part, render = part_of(request, renders[media])
        body = await body_of(request, self.log_limit_bytes, self.body_seconds, tuple(answers))
        asked = answers[media_of(request)]
        return await self._told(request, media, part, body, lambda: render(asked(body, self.deps)))

    async def _told(
        self,
        request: Request,
        media: str,
        part: str,
        body: bytes,
        work: Callable[[], bytes],
        at_hand: Callable[[], bytes] | None = None,
    ) -> Response:
        """What was answered to the same question today, else what ``work`` makes."""
        day = self.deps.today()
        key = self.told.key(request.scope["path"], (media, part), media_of(request), day, body)
        answer = None if key is None else self.told.found(key)
        if answer is None:
            content = await self.workshop.run(work, at_hand)
            answer = Written(content, digest_of(content))
            if key is not None and self.deps.today() == day:
                self.told.keep(key, answer)
        return computed(media, *answer)


def part_of(request: Request, render: Callable[[A], bytes]) -> tuple[str, Callable[[A], bytes]]:
    """Which part of a page is asked for, "" for the whole, and what renders it; other formats have no parts.

    Raises:
        RefusedRequest: there is no such part.
    """
    asked = [("part", word) for word in request.query_params.getlist("part")]
    if not isinstance(render, Pages) or not asked:
        return "", render
    wanted = choice_in_query("part", ("fragment",), asked)
    return ("", render) if wanted is None else (wanted, render.fragment)
