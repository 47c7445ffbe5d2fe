"""In which language is an advert written?"""

from collections.abc import Collection
from struct import unpack

from service.core.adverts.lexicon import WEIGHT_BITS, WEIGHT_UNIT, Vocabulary

UNKNOWN = "und"
_LEAST = round(0.3 * WEIGHT_UNIT)
_LEAST_LEFT = round(0.1 * WEIGHT_UNIT)


def language_left(body: Collection[str], title: Collection[str], whole: str, vocabulary: Vocabulary) -> str:
    """The language of what is left of a text; that of the whole one where hardly any of these words tells."""
    own = language_of(body, title, vocabulary, _LEAST_LEFT)
    return whole if own == UNKNOWN else own


def language_of(body: Collection[str], title: Collection[str], vocabulary: Vocabulary, least: int = _LEAST) -> str:
    """The language whose different words weigh most; ``und`` where hardly any word tells.

    Words that tell none, and weigh nothing, may be left out.
    """
    telling = vocabulary.telling
    different = frozenset(body).union(title) if title else frozenset(body)
    total = sum([telling[word] for word in different if word in telling])
    count = len(vocabulary.languages)
    weights = unpack(f"<{count}I", total.to_bytes(count * WEIGHT_BITS // 8, "little"))
    most = max(weights)
    return vocabulary.languages[weights.index(most)] if most >= least else UNKNOWN
