"""What do adverts claim, of which some were read a moment ago?

A page that annotates adverts asks what they claim and which to ring up, at once and again at each visit; of what it
sends then most is known. A reading hangs on the advert and the words alone, so it is told again from memory.
"""

from collections.abc import Sequence

from service.api.deps import Deps
from service.core.adverts import Advert, Reading, beside_others, read_with_text

# In signs: twenty times this may be sent, and what is kept of 512 adverts is to stay within some megabytes.
_LONGEST_KEPT = 4000


def readings_of(adverts: Sequence[Advert], deps: Deps) -> list[Reading]:
    """The readings of adverts that stand beside one another, with the doubts that they raise about one another."""
    return beside_others([_read(advert, deps) for advert in adverts])


def reading_alone(advert: Advert, deps: Deps) -> Reading:
    """The reading of an advert on which no other hangs."""
    return _read(advert, deps)[0]


def _read(advert: Advert, deps: Deps) -> tuple[Reading, str]:
    if len(advert.title) + len(advert.body) + len(advert.price_text or "") > _LONGEST_KEPT:
        return read_with_text(advert, deps.advert_words)
    return deps.readings.get(advert, lambda: read_with_text(advert, deps.advert_words))
