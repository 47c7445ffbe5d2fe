"""In which language is an advert written?"""

from collections.abc import Iterable, Mapping
from struct import unpack

from service.core.adverts.lexicon import WEIGHT_BITS, WEIGHT_UNIT, Vocabulary

UNKNOWN = "und"
_LEAST = round(0.3 * WEIGHT_UNIT)
_LEAST_LEFT = round(0.1 * WEIGHT_UNIT)
_MOST_TIED = 3


def language_left(body: Iterable[str], title: Mapping[str, int], whole: str, vocabulary: Vocabulary) -> str:
    """The language of what is left of a text; that of the whole one where hardly any of these words tells."""
    telling = vocabulary.telling
    own = language_of({word: telling[word] for word in body if word in telling}, title, vocabulary, _LEAST_LEFT)
    return whole if own == UNKNOWN else own


def language_of(body: Mapping[str, int], title: Mapping[str, int], vocabulary: Vocabulary, least: int = _LEAST) -> str:
    """The language whose different words weigh most; ``und`` where hardly any word tells.

    ``body``, ``title``: the weights of the words that tell, as the vocabulary has them.
    """
    weights = _weights(body, title, vocabulary)
    most = max(weights)
    return vocabulary.languages[weights.index(most)] if most >= least else UNKNOWN


def tied_languages(body: Mapping[str, int], title: Mapping[str, int], vocabulary: Vocabulary) -> tuple[str, ...]:
    """The languages that may be meant where words do not decide: those that weigh most, alike or next to nothing."""
    weights = _weights(body, title, vocabulary)
    most = max(weights)
    tied = tuple(name for name, weight in zip(vocabulary.languages, weights, strict=True) if weight == most)
    undecided = 0 < most < _LEAST or len(tied) > 1
    return tied if undecided and most and len(tied) <= _MOST_TIED else ()


def _weights(body: Mapping[str, int], title: Mapping[str, int], vocabulary: Vocabulary) -> tuple[int, ...]:
    total = sum({**body, **title}.values() if title else body.values())
    count = len(vocabulary.languages)
    return unpack(f"<{count}I", total.to_bytes(count * WEIGHT_BITS // 8, "little"))
