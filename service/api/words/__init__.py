"""The message catalogue: code + facts + language -> sentence.

``say("findings", "cold_voltage.does_not_fit", facts)`` reads the English sentence of that key, or of the part before
its last dot, and fills in the facts. A sentence is never the reason that an answer fails: where none is written, or a
fact is lacking, the key itself is said in plain words.
"""

from collections.abc import Mapping
from functools import cache
from importlib import import_module
from importlib.util import find_spec
from string import Formatter
from typing import Any

LANGUAGES = ("en",)


def say(noun: str, key: str, facts: Mapping[str, Any] | None = None) -> str:
    """The English sentence for ``key`` of ``noun`` (findings, remedies, problems ...), filled with ``facts``."""
    template = template_of(noun, key)
    if template is None:
        return _plainly(key)
    try:
        return _FILLING.vformat(template, (), dict(facts or {}))
    except (KeyError, ValueError, TypeError, IndexError, AttributeError):
        return _plainly(key)


def template_of(noun: str, key: str) -> str | None:
    """The template for ``key``, or for the longest part of it before a dot; None where nothing is written."""
    texts = _texts(noun)
    while key not in texts:
        if "." not in key:
            return None
        key = key.rpartition(".")[0]
    return texts[key]


def _plainly(key: str) -> str:
    return key.replace("_", " ").replace(".", ": ")


@cache
def _texts(noun: str) -> Mapping[str, str]:
    """The sentences of one noun; none where its file is not there."""
    module = f"{__name__}.english.{noun}"
    return import_module(module).TEXTS if find_spec(module) else {}


class _Filling(Formatter):
    """Numbers without a wanted form are written short: 60 and not 60.0; lists are joined."""

    def format_field(self, value: Any, format_spec: str) -> str:
        if not format_spec and isinstance(value, float):
            return f"{value:.4g}" if abs(value) < 10_000 else f"{value:.0f}"
        if not format_spec and isinstance(value, (list, tuple)):
            return ", ".join(str(item) for item in value)
        return str(format(value, format_spec))


_FILLING = _Filling()
