"""In which language is an advert written?"""

from collections.abc import Iterable

from service.core.adverts.lexicon import WEIGHT_BITS, WEIGHT_UNIT, Vocabulary

UNKNOWN = "und"
_LEAST = round(0.3 * WEIGHT_UNIT)
_LANE = (1 << WEIGHT_BITS) - 1


def language_of(words: Iterable[str], vocabulary: Vocabulary) -> str:
    """The language whose different words weigh most; ``und`` where hardly any word tells."""
    telling = vocabulary.telling
    total = sum(map(telling.__getitem__, telling.keys() & words))
    best, most = UNKNOWN, _LEAST - 1
    for language in vocabulary.languages:
        weight = total & _LANE
        if weight > most:
            best, most = language, weight
        total >>= WEIGHT_BITS
    return best
