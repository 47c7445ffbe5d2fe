"""How is text set in 72 columns?"""

import textwrap
from collections.abc import Iterable

WIDTH = 72


def wrapped(text: str, first: str = "", rest: str | None = None) -> list[str]:
    """``text`` in lines of 72 columns at most; ``first`` before the first one, ``rest`` before the others."""
    after = " " * len(first) if rest is None else rest
    return textwrap.wrap(
        text, WIDTH, initial_indent=first, subsequent_indent=after, break_long_words=True, break_on_hyphens=False
    ) or [first.rstrip()]


def headed(title: str, lines: Iterable[str]) -> list[str]:
    """A section: an empty line, its title underlined, its lines; nothing at all where there are no lines."""
    body = list(lines)
    return ["", title, "-" * len(title), *body] if body else []


def as_text(lines: Iterable[str]) -> bytes:
    """UTF-8 text, one newline after each line, no spaces at a line's end."""
    return "".join(line.rstrip() + "\n" for line in lines).encode()
