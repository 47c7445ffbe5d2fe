"""Where does one read about the interface? The document, its page, and a page for every problem."""

from collections.abc import Callable
from functools import cache
from html import escape
from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from service.api.problems import STATUS
from service.api.render.accept import HTML, JSON, TEXT
from service.api.render.docs import docs_page
from service.api.render.html import link, page, paragraph, table
from service.api.render.lines import as_text, wrapped
from service.api.routes.described import Served, described, parameter
from service.api.routes.replies import fetched, format_of
from service.api.schemas.mistakes import RefusedRequest
from service.api.words import say


def page_routes(document: Callable[[], dict[str, Any]], document_bytes: Callable[[], bytes]) -> list[Served]:
    """The document and the pages; both are made when first asked for."""

    @cache
    def docs() -> bytes:
        return docs_page(document())

    async def openapi(request: Request) -> Response:
        return fetched(request, format_of(request, (JSON,)), document_bytes())

    async def read_docs(request: Request) -> Response:
        return fetched(request, format_of(request, (HTML,)), docs())

    async def all_problems(request: Request) -> Response:
        media = format_of(request, (HTML, TEXT))
        return fetched(request, media, _index_page() if media == HTML else _index_text())

    async def one_problem(request: Request) -> Response:
        code = request.path_params["code"]
        if code not in STATUS:
            raise RefusedRequest("not_found")
        media = format_of(request, (HTML, TEXT))
        return fetched(request, media, _problem_page(code) if media == HTML else _problem_text(code))

    code = parameter(
        "code",
        "path",
        "The problem's code.",
        {"type": "string", "enum": list(STATUS)},
        required=True,
    )
    return [
        Served("/openapi.json", openapi, described(
            "openapi", "How is the interface described for machines?", "OpenAPI 3.1.", tag="operation", answer=None)),
        Served("/docs", read_docs, described(
            "docs", "How is the interface described for people?", "One page, without anything from elsewhere.",
            tag="operation", answer=None, formats=(HTML,))),
        Served("/problems", all_problems, described(
            "problems", "What can go wrong?", "Every problem with its status.", tag="operation", answer=None,
            formats=(HTML, TEXT))),
        Served("/problems/{code}", one_problem, described(
            "problem", "What does this problem mean?", "The page that the `type` of a problem leads to.",
            tag="operation", answer=None, formats=(HTML, TEXT), parameters=(code,), problems=("not_found",))),
    ]  # fmt: skip


def _index_page() -> bytes:
    rows = (
        (str(status), link(f"/problems/{code}", code), escape(say("problems", f"title.{code}")))
        for code, status in STATUS.items()
    )
    return page("What can go wrong", [table(("Status", "Code", "Title"), rows)])


def _index_text() -> bytes:
    rows = (f"{status} {code}: {say('problems', f'title.{code}')}" for code, status in STATUS.items())
    return as_text(line for row in rows for line in wrapped(row, rest="    "))


def _problem_page(code: str) -> bytes:
    body = [
        paragraph(say("problems", f"about.{code}")),
        f"<p>Status {STATUS[code]}, code <code>{escape(code)}</code>. {link('/problems', 'All problems')}</p>",
    ]
    return page(say("problems", f"title.{code}"), body)


def _problem_text(code: str) -> bytes:
    title = say("problems", f"title.{code}")
    return as_text([*wrapped(f"{title} ({STATUS[code]}, {code})"), "", *wrapped(say("problems", f"about.{code}"))])
