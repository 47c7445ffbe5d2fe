"""Which error becomes which status? One table, and the one place where a problem becomes an answer.

Everything that goes wrong leaves as RFC 9457 problem details, as text or as a page where the caller prefers that; no
shape of the framework ever leaves.
"""

from collections.abc import Mapping
from difflib import get_close_matches
from typing import Any
from urllib.parse import quote

from fastapi import FastAPI
from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.types import Scope

from service.api.render.accept import HTML, PROBLEM, TEXT, chosen
from service.api.render.html import CONTENT_SECURITY_POLICY
from service.api.render.json import as_json
from service.api.render.problem import problem_page, problem_text
from service.api.says import SAYS
from service.api.schemas.mistakes import Mistake, RefusedRequest, as_example, mistake_of, shown
from service.api.schemas.problem import ProblemOut
from service.api.words import say
from service.core.errors import ContradictionError, NoClimateError, SunsillError, UnknownAreaError

STATUS: Mapping[str, int] = {
    "malformed_json": 400,
    "malformed_request": 400,
    "not_found": 404,
    "unknown_area": 404,
    "method_not_allowed": 405,
    "not_acceptable": 406,
    "body_timeout": 408,
    "body_too_large": 413,
    "unsupported_media_type": 415,
    "unknown_host": 421,
    "no_climate": 422,
    "invalid_request": 422,
    "contradiction": 422,
    "header_too_large": 431,
    "internal": 500,
    "overloaded": 503,
}
CODE_OF_STATUS: Mapping[int, str] = {400: "malformed_request", 404: "not_found", 405: "method_not_allowed"}
RETRY_AFTER_S = 2

_TYPES = {PROBLEM: PROBLEM, TEXT: f"{TEXT}; charset=utf-8", HTML: f"{HTML}; charset=utf-8"}


def install(app: FastAPI) -> None:
    """Turn every error that reaches the framework into a problem."""
    app.add_exception_handler(RefusedRequest, _refused)
    app.add_exception_handler(SunsillError, _meaningless)
    app.add_exception_handler(HTTPException, _routing)
    app.add_exception_handler(RequestValidationError, _unread)


def problem_response(
    scope: Scope,
    code: str,
    mistakes: tuple[Mistake, ...] = (),
    headers: Mapping[str, str] | None = None,
    **facts: Any,
) -> Response:
    """The problem of this code as an answer, in the format that the caller likes best; JSON where none fits."""
    instance = quote(scope.get("path", ""), safe="/")[:200] + "#" + scope.get("request_id", "")
    problem = ProblemOut.of(code, STATUS[code], instance, facts, mistakes)
    accept = ",".join(value.decode("latin-1") for name, value in scope.get("headers", ()) if name == b"accept")
    media = chosen(accept, (PROBLEM, "application/json", TEXT, HTML)) or PROBLEM
    rendered = {TEXT: problem_text, HTML: problem_page}.get(media, as_json)(problem)
    extra = dict(headers or {})
    if media == HTML:
        extra["Content-Security-Policy"] = CONTENT_SECURITY_POLICY
    if code == "overloaded":
        extra["Retry-After"] = str(RETRY_AFTER_S)
    if code in {"body_too_large", "body_timeout"}:
        extra["Connection"] = "close"  # what is left of the body is not read
    return Response(
        rendered,
        STATUS[code],
        {
            **extra,
            "Content-Type": _TYPES.get(media, PROBLEM),
            "Content-Language": "en",
            "Cache-Control": "no-store",
            "Vary": "Accept, Accept-Language, Accept-Encoding, Origin",
            "X-Content-Type-Options": "nosniff",
        },
    )


def allowed_methods(app: Any, path: str) -> list[str]:
    """The methods that some route takes under ``path``, with HEAD and OPTIONS; none where no route does."""
    found: set[str] = set()
    for route in app.routes:
        if getattr(route, "path_regex", None) is not None and route.path_regex.match(path):
            found |= set(getattr(route, "methods", None) or ())
    if "GET" in found:
        found.add("HEAD")
    return sorted(found | {"OPTIONS"}) if found else []


async def _refused(request: Request, error: Exception) -> Response:
    if not isinstance(error, RefusedRequest):
        raise error
    return problem_response(request.scope, error.code, error.mistakes, None, **error.facts)


async def _meaningless(request: Request, error: Exception) -> Response:
    if isinstance(error, NoClimateError):
        latitude = _compass(error.latitude_deg, "N", "S")
        longitude = _compass(error.longitude_deg, "E", "W")
        mistakes = _off_the_map(error, in_query=request.method == "GET")
        return problem_response(request.scope, error.code, mistakes, latitude=latitude, longitude=longitude)
    if isinstance(error, UnknownAreaError):
        area = shown(error.area)
        mistake = Mistake(
            code=error.code,
            where="path",
            pointer="area",
            given=area,
            problem=say("problems", "mistake.unknown_area"),
            accepted=say("problems", "accepted.area"),
            example="DE",
        )
        return problem_response(request.scope, error.code, (mistake,), area=area)
    if isinstance(error, ContradictionError):
        return problem_response(request.scope, error.code, (mistake_of(error),))
    raise error


def _off_the_map(error: NoClimateError, *, in_query: bool) -> tuple[Mistake, ...]:
    """Both coordinates: which of them is wrong, nobody can tell from here."""
    given = {"latitude": error.latitude_deg, "longitude": error.longitude_deg}
    return tuple(
        Mistake(
            code=error.code,
            where="query" if in_query else "body",
            pointer=f"{name}_deg" if in_query else f"/site/{name}_deg",
            given=shown(value),
            problem=say("problems", "mistake.no_climate"),
            accepted=say("problems", f"accepted.{name}"),
            example=as_example(SAYS[f"{name}_deg"].example),
        )
        for name, value in given.items()
    )


def _compass(degrees: float, positive: str, negative: str) -> str:
    return f"{abs(degrees):.6g} {negative if degrees < 0 else positive}"


async def _routing(request: Request, error: Exception) -> Response:
    """What the router itself refuses: an unknown path, or a method that the path does not take."""
    status = error.status_code if isinstance(error, HTTPException) else 500
    methods = allowed_methods(request.app, request.url.path)
    allow = {"Allow": ", ".join(methods)} if methods else None
    if status == 405 and request.method == "OPTIONS":
        return Response(status_code=204, headers=allow)
    code = CODE_OF_STATUS.get(status, "internal")
    mistakes: tuple[Mistake, ...] = ()
    if status == 404:
        mistakes = (_no_such_path(request),)
    elif status == 405:
        mistakes = (_no_such_method(request, methods),)
    headers = allow if status == 405 else None
    return problem_response(request.scope, code, mistakes, headers, allow=", ".join(methods))


def _no_such_path(request: Request) -> Mistake:
    """The path with the nearest one that is served."""
    served = sorted({route.path for route in request.app.routes if "{" not in getattr(route, "path", "{")})
    path = request.url.path
    near = get_close_matches(path[:200], served, n=1, cutoff=0.5)
    return Mistake(
        code="not_found", where="path", pointer="path", given=shown(path),
        problem=say("problems", "mistake.not_found"), accepted=say("problems", "accepted.path"),
        example=near[0] if near else "/openapi.json",
    )  # fmt: skip


def _no_such_method(request: Request, methods: list[str]) -> Mistake:
    """The method with those that the path takes; its name is that of RFC 9113, section 8.3.1."""
    plain = [one for one in methods if one not in {"HEAD", "OPTIONS"}]
    return Mistake(
        code="method_not_allowed", where="header", pointer=":method", given=shown(request.method),
        problem=say("problems", "mistake.method_not_allowed"), accepted=", ".join(methods),
        example="POST" if "POST" in plain else (plain or ["GET"])[0],
    )  # fmt: skip


async def _unread(request: Request, error: Exception) -> Response:  # noqa: ARG001 - its shape must not leave
    """No route lets the framework read a request; should one ever do, its complaint leaves as a problem too."""
    return problem_response(request.scope, "invalid_request", count=1)
