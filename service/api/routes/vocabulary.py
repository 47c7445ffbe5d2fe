"""Where is it told what may be written, and what is assumed?"""

from functools import cache

from starlette.requests import Request
from starlette.responses import Response

from service.api.answers.vocabulary import vocabulary
from service.api.render.accept import JSON
from service.api.render.json import as_json
from service.api.routes.described import Served, described
from service.api.routes.desk import Desk
from service.api.routes.replies import fetched, format_of
from service.api.schemas.vocabulary import VocabularyOut


def served(desk: Desk) -> list[Served]:
    """The path of the vocabulary; it is made when first asked for."""
    words = cache(lambda: as_json(vocabulary(desk.deps)))

    async def get_vocabulary(request: Request) -> Response:
        return fetched(request, format_of(request, (JSON,)), words())

    return [Served("/v1/vocabulary", get_vocabulary, described(
        "vocabulary", "What may I write, what is assumed if I don't?",
        "Every field, every number with its bounds, every word, every code, every default with its reason and source.",
        tag="tables", answer=VocabularyOut))]  # fmt: skip
