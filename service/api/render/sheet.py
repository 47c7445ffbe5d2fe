"""How does one answer read as text and as a page? Both are made of the same sections, so that they cannot disagree.

Texts of strangers are among them: whatever no printer would print is left out, and a page escapes all.
"""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from html import escape
from typing import Any

from service.api.render.html import page
from service.api.render.lines import as_text, headed, wrapped


@dataclass(frozen=True, slots=True)
class Item:
    """A line of a list: ``lead`` names what it is about, ``under`` stands below it.

    ``language``: of the text, where it is not English.
    """

    text: str
    lead: str = ""
    under: "tuple[Item, ...]" = ()
    language: str | None = None


@dataclass(frozen=True, slots=True)
class Section:
    """A heading with paragraphs, or with a list, numbered where its order counts; left out where nothing is in it."""

    title: str
    items: tuple[Item, ...] = ()
    numbered: bool = False
    paragraphs: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Sheet:
    """An answer on paper; ``foot`` tells what it rests on."""

    title: str
    sections: tuple[Section, ...]
    foot: str

    def told(self) -> Iterator[Section]:
        """The sections that hold anything."""
        return (one for one in self.sections if one.items or one.paragraphs)


@dataclass(frozen=True, slots=True)
class Pages:
    """What makes pages of an answer: called, a whole one; ``fragment`` is a piece to be embedded, without any style."""

    sheet: Callable[[Any], Sheet]

    def __call__(self, answer: Any) -> bytes:
        """A self-contained page."""
        sheet = self.sheet(answer)
        return page(plain(sheet.title), _body(sheet, 2))

    def fragment(self, answer: Any) -> bytes:
        """The same between the tags of a section."""
        sheet = self.sheet(answer)
        inner = "\n".join((f"<h2>{escape(plain(sheet.title))}</h2>", *_body(sheet, 3)))
        return f'<section lang="en">\n{inner}\n</section>\n'.encode()


def text_of(sheet: Callable[[Any], Sheet]) -> Callable[[Any], bytes]:
    """What makes text of 72 columns of an answer."""

    def text(answer: Any) -> bytes:
        made = sheet(answer)
        lines = [line for one in made.told() for line in headed(plain(one.title), _lines(one))]
        return as_text([*lines[1:], "", *wrapped(plain(made.foot))])

    return text


def plain(text: str) -> str:
    """Text on one line, without what steers a terminal, turns the direction of writing or cannot be seen.

    >>> plain("4" + chr(0x202E) + "00 W" + chr(27) + "[2J" + chr(10) + " left")
    '4 00 W [2J left'
    """
    return text if text.isprintable() else " ".join("".join(c if c.isprintable() else " " for c in text).split())


def listed(texts: Iterable[str], lead: str = "") -> tuple[Item, ...]:
    """One line of a list for each text."""
    return tuple(Item(text, lead) for text in texts)


def _lines(section: Section) -> Iterator[str]:
    for text in section.paragraphs:
        yield from wrapped(plain(text))
    for number, item in enumerate(section.items, 1):
        yield from _item_lines(item, f"{number}. " if section.numbered else "- ", 0)


def _item_lines(item: Item, mark: str, indent: int) -> Iterator[str]:
    text = plain(f"{item.lead}: {item.text}" if item.lead and item.text else item.lead or item.text)
    yield from wrapped(text, " " * indent + mark)
    for one in item.under:
        yield from _item_lines(one, "- ", indent + len(mark))


def _body(sheet: Sheet, level: int) -> Iterator[str]:
    for section in sheet.told():
        yield f"<h{level}>{escape(plain(section.title))}</h{level}>"
        yield from (f"<p>{escape(plain(text))}</p>" for text in section.paragraphs)
        if section.items:
            yield _list(section.items, "ol" if section.numbered else "ul")
    yield f"<p><small>{escape(plain(sheet.foot))}</small></p>"


def _list(items: Iterable[Item], tag: str) -> str:
    return f"<{tag}>\n" + "\n".join(map(_li, items)) + f"\n</{tag}>"


def _li(item: Item) -> str:
    lead = f"<strong><bdi>{escape(plain(item.lead))}</bdi></strong>" if item.lead else ""
    between = ": " if item.lead and item.text else ""
    text = escape(plain(item.text))
    if item.language is not None:
        text = f'<span lang="{escape(plain(item.language))}">{text}</span>'
    under = f"\n{_list(item.under, 'ul')}" if item.under else ""
    return f"<li>{lead}{between}{text}{under}</li>"
