"""What does a vocabulary of adverts look like, as the tables hand it over?"""

from collections.abc import Mapping

# What a phrase means -> phrases; by language (ISO 639-1), "common" for what is written alike everywhere. A phrase is a
# row of words; a word that ends in "*" stands for all words that begin so.
AdvertWords = Mapping[str, Mapping[str, tuple[str, ...]]]
COMMON = "common"
