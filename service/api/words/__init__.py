"""The message catalogue: code + facts + language -> sentence.

``say("findings", "cold_voltage.does_not_fit", facts)`` reads the English sentence of that key, or of the part before
its last dot, and fills in the facts. A sentence is never the reason that an answer fails: where none is written, or a
fact is lacking, the key itself is said in plain words.
"""

from collections.abc import Iterator, Mapping
from functools import cache, lru_cache
from importlib import import_module
from importlib.util import find_spec
from math import floor, log10
from string import Formatter
from typing import Any

from service.core.model.amount import at_most, decimals_of

LANGUAGES = ("en",)
# Facts that hold names of fields or kinds, one or several.
_NAMING_FACTS = frozenset({"missing", "rating", "device", "doubts"})


def say(noun: str, key: str, facts: Mapping[str, Any] | None = None) -> str:
    """The English sentence for ``key`` of ``noun`` (findings, remedies, problems ...), filled with ``facts``."""
    return _said(noun, key, _in_plain_words(facts)) if facts else _said_alone(noun, key)


@lru_cache(maxsize=1024)  # the catalogue's own
def _said_alone(noun: str, key: str) -> str:
    """A sentence without facts."""
    return _said(noun, key, {})


def _said(noun: str, key: str, given: Mapping[str, Any]) -> str:
    texts = _texts(noun)
    for known in _shorter(key):
        if known in texts:
            try:
                return _filled(texts[known], given)
            except (KeyError, ValueError, TypeError, IndexError, AttributeError):
                continue
    return _plainly(key)


def _in_plain_words(facts: Mapping[str, Any]) -> Mapping[str, Any]:
    """The facts with the names of fields and kinds turned into words, where a sentence would show them to a person."""
    if _NAMING_FACTS.isdisjoint(facts):
        return facts
    names = _texts("names")

    def plain(value: object) -> object:
        if not isinstance(value, str):
            return value
        return ", ".join(names.get(part, part) for part in value.split(", "))

    return {key: plain(value) if key in _NAMING_FACTS else value for key, value in facts.items()}


def template_of(noun: str, key: str) -> str | None:
    """The template for ``key``, or for the longest part of it before a dot; None where nothing is written."""
    texts = _texts(noun)
    return next((texts[known] for known in _shorter(key) if known in texts), None)


def _shorter(key: str) -> Iterator[str]:
    """The key itself, then without its last part, and so on."""
    while key:
        yield key
        key = key.rpartition(".")[0]


def codes_of(noun: str, prefix: str = "") -> list[str]:
    """The keys that are written for a noun, those that begin with ``prefix``, without it."""
    return [key.removeprefix(prefix) for key in _texts(noun) if key.startswith(prefix)]


def _plainly(key: str) -> str:
    return key.replace("_", " ").replace(".", ": ")


@cache
def _texts(noun: str) -> Mapping[str, str]:
    """The sentences of one noun; none where its file is not there."""
    module = f"{__name__}.english.{noun}"
    return import_module(module).TEXTS if find_spec(module) else {}


def _filled(template: str, facts: Mapping[str, Any]) -> str:
    """A template with its facts, as ``Formatter.vformat`` fills it, but for forms within forms."""
    said = []
    for literal, name, form, plain in _parts(template):
        said.append(literal)
        if name is not None:
            value = facts[name] if plain else _FILLING.get_field(name, (), facts)[0]
            said.append(_FILLING.format_field(value, form))
    return "".join(said)


@cache
def _parts(template: str) -> tuple[tuple[str, str | None, str, bool], ...]:
    """A template taken apart once: what stands before each fact, its name, the form it is written in, is it a word?"""
    return tuple(
        (literal, name, form or "", name is not None and name.isidentifier())
        for literal, name, form, _ in _FILLING.parse(template)
    )


class _Filling(Formatter):
    """Numbers without a wanted form are written short: 60 and not 60.0; lists are joined.

    The form ``at_most`` is for amounts that should not be exceeded: two digits, cut and not rounded up. ``newtons`` is
    for orders of magnitude: two digits, rounded.
    """

    def format_field(self, value: Any, format_spec: str) -> str:
        if format_spec == "at_most":
            return f"{at_most(value):.{decimals_of(value)}f}"
        if format_spec == "newtons":
            step = 10 ** max(floor(log10(value)) - 1, 0) if value > 0 else 1
            return str(round(value / step) * step)
        if not format_spec and isinstance(value, float):
            return f"{value:.4g}" if abs(value) < 10_000 else f"{value:.0f}"
        if not format_spec and isinstance(value, (list, tuple)):
            return ", ".join(str(item) for item in value)
        return str(format(value, format_spec))


_FILLING = _Filling()
