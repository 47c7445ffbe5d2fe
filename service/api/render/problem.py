"""How does an error look as text and as a page?"""

from html import escape

from service.api.render.html import link, page, paragraph, table
from service.api.render.lines import as_text, headed, wrapped
from service.api.schemas.problem import MistakeOut, ProblemOut


def problem_text(problem: ProblemOut) -> bytes:
    """A problem in 72 columns: what happened, then one paragraph a mistake."""
    lines = [*wrapped(f"{problem.title} ({problem.status})"), "", *wrapped(problem.detail)]
    mistakes: list[str] = []
    for one in problem.errors:
        mistakes += wrapped(_sentence(one), "- ")
    return as_text([*lines, *headed("To mend", mistakes), "", f"More: {problem.type}"])


def problem_page(problem: ProblemOut) -> bytes:
    """A problem as a page for a browser."""
    body = [paragraph(problem.detail)]
    if problem.errors:
        rows = (
            (
                f"<code>{escape(one.pointer or '(whole body)')}</code>",
                escape(_about(one)),
                escape(one.accepted),
                f"<code>{escape(one.example or '')}</code>",
            )
            for one in problem.errors
        )
        body.append(table(("Where", "What is wrong", "Accepted", "Example"), rows))
    return page(problem.title, [*body, f"<p>{link(problem.type, 'More about this')}</p>"])


def _about(one: MistakeOut) -> str:
    return one.problem if one.given is None else f"{one.problem} (given: {one.given})"


def _sentence(one: MistakeOut) -> str:
    accepted = f" Accepted: {one.accepted}." if one.accepted else ""
    example = f" Example: {one.example}" if one.example is not None else ""
    return f"{one.pointer or 'the whole body'} {_about(one)}.{accepted}{example}"
