"""How are the words of adverts read? One file a language: what a phrase means -> the phrases, split at semicolons.

Under "small words" stand words that mean nothing of their own: what such a word does -> the words.
"""

import json
from collections.abc import Mapping
from importlib.resources import files
from typing import Any

from service.core.model.advert_words import COMMON, AdvertWords

LANGUAGES = ("en", "de", "nl", "fr", "es", "it", "pl", "pt", "cs", "da")
_SMALL_WORDS = "small words"


def load_advert_words() -> AdvertWords:
    """The packaged vocabulary, by language and for what is written alike everywhere."""
    tables = {language: _table(language) for language in (COMMON, *LANGUAGES)}
    small_words = {language: _phrases(table.pop(_SMALL_WORDS)) for language, table in tables.items()}
    return AdvertWords(
        meanings={language: _phrases(table) for language, table in tables.items()}, small_words=small_words
    )


def _table(language: str) -> dict[str, Any]:
    raw = files(__package__).joinpath(f"{language}.json").read_text(encoding="utf-8")
    table: dict[str, Any] = json.loads(raw, object_pairs_hook=named_once)
    return table


def _phrases(table: Mapping[str, str]) -> dict[str, tuple[str, ...]]:
    return {name: tuple(part.strip() for part in phrases.split(";")) for name, phrases in table.items()}


def named_once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    """A part of a table; one name must not stand in it twice, or only what stands last would be read.

    Raises:
        ValueError: it does.
    """
    table = dict(pairs)
    if len(table) < len(pairs):
        names = [name for name, _ in pairs]
        twice = sorted({name for name in names if names.count(name) > 1})
        message = f"words of adverts: named twice: {', '.join(twice)}"
        raise ValueError(message)
    return table
