"""How are the words of adverts read? One file a language: what a phrase means -> the phrases, split at semicolons."""

import json
from importlib.resources import files

from service.core.model.advert_words import COMMON, AdvertWords

LANGUAGES = ("en", "de", "nl", "fr", "es", "it", "pl", "pt", "cs", "da")


def load_advert_words() -> AdvertWords:
    """The packaged vocabulary: meaning -> phrases, by language and for what is written alike everywhere."""
    return {language: _phrases(language) for language in (COMMON, *LANGUAGES)}


def _phrases(language: str) -> dict[str, tuple[str, ...]]:
    raw = json.loads(files(__package__).joinpath(f"{language}.json").read_text(encoding="utf-8"))
    return {meaning: tuple(part.strip() for part in phrases.split(";")) for meaning, phrases in raw.items()}
