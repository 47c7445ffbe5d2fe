"""How does a page look in a browser? One self-contained page: no script, nothing fetched, everything escaped."""

from collections.abc import Iterable
from html import escape

STYLE = (
    "body{font:16px/1.5 system-ui,sans-serif;max-width:62rem;margin:2rem auto;padding:0 1rem;color:#1b1b1b;"
    "background:#fff}code,pre{font-family:ui-monospace,monospace;font-size:.9em}pre{background:#f4f4f1;padding:1rem;"
    "white-space:pre-wrap}pre,p,li,h1,h2{overflow-wrap:anywhere}ul,ol{padding-left:1.3rem}"
    "table{border-collapse:collapse;width:100%;margin:.5rem 0 1.5rem}"
    "th,td{text-align:left;vertical-align:top;padding:.25rem .6rem .25rem 0;border-bottom:1px solid #ddd}"
    "a{color:#0b57a4}@media(prefers-color-scheme:dark){body{background:#161616;color:#e8e8e8}pre{background:#242424}"
    "a{color:#8ec5ff}th,td{border-color:#444}}"
)
# The style is the page's own; nothing else may load or run.
CONTENT_SECURITY_POLICY = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'"


def page(title: str, body: Iterable[str]) -> bytes:
    """A whole page; ``title`` is escaped here, ``body`` is made of escaped pieces."""
    return (
        '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{escape(title)}</title>\n<style>{STYLE}</style>\n</head>\n<body>\n<main>\n"
        f"<h1>{escape(title)}</h1>\n" + "\n".join(body) + "\n</main>\n</body>\n</html>\n"
    ).encode()


def paragraph(text: str) -> str:
    """A paragraph of plain text."""
    return f"<p>{escape(text)}</p>"


def link(target: str, text: str) -> str:
    """A link; both parts are escaped."""
    return f'<a href="{escape(target)}">{escape(text)}</a>'


def table(head: Iterable[str], rows: Iterable[Iterable[str]]) -> str:
    """A table; ``head`` is plain text, the cells are escaped pieces."""
    top = "".join(f'<th scope="col">{escape(cell)}</th>' for cell in head)
    body = "\n".join("<tr>" + "".join(f"<td>{cell}</td>" for cell in row) + "</tr>" for row in rows)
    return f"<table>\n<thead><tr>{top}</tr></thead>\n<tbody>\n{body}\n</tbody>\n</table>"
