"""In which language is an advert written?"""

from collections.abc import Iterable

from service.core.adverts.lexicon import Vocabulary

UNKNOWN = "und"
_LEAST = 0.3


def language_of(words: Iterable[str], vocabulary: Vocabulary) -> str:
    """The language whose different words weigh most; ``und`` where hardly any word tells."""
    weights = [0.0] * len(vocabulary.languages)
    telling = vocabulary.telling
    for word in vocabulary.telling_words.intersection(words):
        for number, weight in telling[word]:
            weights[number] += weight
    best = max(range(len(weights)), key=weights.__getitem__, default=0)
    return vocabulary.languages[best] if weights and weights[best] >= _LEAST else UNKNOWN
