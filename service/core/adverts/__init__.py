"""What does an advert claim?

``vocabulary_of`` makes the tables' words ready, once; ``read_advert`` reads one advert: normalise (``plain``), tokenise
(``tokens``), give meanings (``lexicon``, ``lexemes``, ``measures``), interpret (``goods``, ``pieces``, ``figures``,
``limits``, ``amounts``, ``price``, ``state``), doubt (``doubts``); ``read_board`` reads several and compares them.
Every claim points at the code points of the field as it was sent.
"""

from service.core.adverts.board import LEAST_WORDS_ALIKE, beside_others, read_board
from service.core.adverts.lexicon import Vocabulary, vocabulary_of
from service.core.adverts.plain import plain_of
from service.core.adverts.read import LONGEST_TEXT, MOST_CLAIMS, read_advert, read_with_text
from service.core.adverts.reading import CLAIMS, DEFECTS, Advert, Claim, Price, Reading
from service.core.adverts.small_words import SmallWords

__all__ = [
    "CLAIMS",
    "DEFECTS",
    "LEAST_WORDS_ALIKE",
    "LONGEST_TEXT",
    "MOST_CLAIMS",
    "Advert",
    "Claim",
    "Price",
    "Reading",
    "SmallWords",
    "Vocabulary",
    "beside_others",
    "plain_of",
    "read_advert",
    "read_board",
    "read_with_text",
    "vocabulary_of",
]
