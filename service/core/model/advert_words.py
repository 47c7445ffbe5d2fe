"""What does a vocabulary of adverts look like, as the tables hand it over?"""

from collections.abc import Mapping
from dataclasses import dataclass

COMMON = "common"
# By language (ISO 639-1), ``COMMON`` for what is written alike everywhere: a name -> what stands under it.
ByLanguage = Mapping[str, Mapping[str, tuple[str, ...]]]


@dataclass(frozen=True, slots=True, kw_only=True)
class AdvertWords:
    """The words of adverts by language.

    ``meanings``: what a phrase means -> phrases. A phrase is a row of words; a word that ends in "*" stands for all
    words that begin so. ``small_words``: what a word does beside others (role) -> words, each by itself.
    """

    meanings: ByLanguage
    small_words: ByLanguage
