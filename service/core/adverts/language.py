"""In which language is an advert written?"""

from collections.abc import Iterable

from service.core.adverts.lexicon import Vocabulary

UNKNOWN = "und"
_LEAST = 0.5
_MOST_WORDS = 400


def language_of(words: Iterable[str], vocabulary: Vocabulary) -> str:
    """The language whose words weigh most; ``und`` where hardly any word tells."""
    weights = [0.0] * len(vocabulary.languages)
    telling = vocabulary.telling
    for count, word in enumerate(words):
        for number, weight in telling.get(word, ()):
            weights[number] += weight
        if count > _MOST_WORDS:
            break
    best = max(range(len(weights)), key=weights.__getitem__, default=0)
    return vocabulary.languages[best] if weights and weights[best] >= _LEAST else UNKNOWN
