"""What shows only beside the other adverts of a request: a price far under theirs, the same advert again?"""

from collections.abc import Sequence
from statistics import median

from service.core.adverts.lexicon import Vocabulary
from service.core.adverts.read import read_with_text
from service.core.adverts.reading import Advert, Reading
from service.core.adverts.tokens import words_of

LEAST_COMPARED = 5
FAR_UNDER_SHARE = 0.4  # of the median price a watt
LEAST_WORDS_ALIKE = 8  # shorter texts are alike by chance
_COUNTED = "eantr105"  # letters and digits that most texts have many of


def read_board(adverts: Sequence[Advert], vocabulary: Vocabulary) -> list[Reading]:
    """What each advert claims, with the doubts that the others raise.

    Args:
        adverts: at most as many as a request may hold; time grows with their length, and once with their number.
        vocabulary: made ready by ``vocabulary_of``.
    """
    return beside_others([read_with_text(advert, vocabulary) for advert in adverts])


def beside_others(read: Sequence[tuple[Reading, str]]) -> list[Reading]:
    """What adverts claim that were each read by itself, with the doubts that they raise about one another.

    Args:
        read: of each its reading and its body, as ``read_with_text`` tells them.
    """
    readings = [reading for reading, _ in read]
    again = [at for at in _again([body for _, body in read]) if readings[at].is_offer]
    doubted = _far_under(readings) | {(at, "same_advert_again") for at in again}
    for at, code in sorted(doubted):
        readings[at] = readings[at]._replace(doubts=tuple(sorted({*readings[at].doubts, code})))
    return readings


def _far_under(readings: Sequence[Reading]) -> set[tuple[int, str]]:
    """Sound panels that cost a watt far less than the median of the other panels in that currency."""
    prices: dict[str, list[tuple[int, float]]] = {}
    for at, reading in enumerate(readings):
        if reading.kind == "panel" and reading.condition != "damaged" and reading.price.per_watt:
            prices.setdefault(reading.price.currency or "", []).append((at, reading.price.per_watt))
    found: set[tuple[int, str]] = set()
    for row in prices.values():
        if len(row) > LEAST_COMPARED:
            usual = median(price for _, price in row)
            found |= {(at, "far_under_others") for at, price in row if price < FAR_UNDER_SHARE * usual}
    return found


def _again(bodies: Sequence[str]) -> list[int]:
    """Places of adverts whose words stood in an earlier one."""
    alike: dict[tuple[int, ...], list[int]] = {}
    for at, body in enumerate(bodies):
        letters = tuple(map(body.count, _COUNTED))  # texts with other words differ here already, but for a few
        alike.setdefault(letters, []).append(at)
    again = []
    for places in alike.values():
        seen: set[tuple[str, ...]] = set()
        for at in places if len(places) > 1 else ():
            words = tuple(words_of(bodies[at]))
            if len(words) >= LEAST_WORDS_ALIKE and words in seen:
                again.append(at)
            seen.add(words)
    return again
