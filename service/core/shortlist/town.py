"""Which place is meant: by the caller's name of it, and by the town that an advert names where it tells of fetching?

Adverts of the same goods from two towns are two adverts. A town is found by its capital letter or its digits, after a
small word of place and close behind the words of fetching; what is no town there only makes two adverts of one.
"""

import re
import unicodedata
from collections.abc import Iterable, Mapping, Set
from itertools import pairwise

from service.core.adverts import Advert, Reading, SmallWords, plain_of

_HANDED_OVER = frozenset(("pickup", "either"))
_CLAUSE = re.compile(r"[^.,;:!?()\r\n]{0,60}")
_NEAR = 90  # letters behind the words of fetching that are looked at
_SPELLED_OUT = str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue", "æ": "ae", "ø": "oe", "å": "aa"})
# A word with what parts it from the name behind it: "St.Anna", "Sankt Anna", "Saint-Anna", "Sant'Anna".
_BEFORE_A_NAME = re.compile(r"\b([^\W\d_]{2,9})(?:\. ?|[ '’-])(?=[^\W\d_])")
_HYPHEN = re.compile(r"(?<=[^\W\d_])-(?=[^\W\d_])")
# Postcodes as they stand before a town, with the sign of the country or without. The code is what is compared: of a
# Dutch one the digits, of a British one what is before the blank, for the rest tells streets.
_SIGN = r"(?:[A-Za-z]{1,3}[- ]{1,2})?"
_DUTCH = r"(?P<code>\d{4})(?: (?P<letters>[A-Z]{2})|[A-Za-z]{2})"
_BRITISH = r"(?P<code>[A-Za-z]{1,2}\d[A-Za-z\d]?) ?\d[A-Za-z]{2}"
_OTHERS = r"(?P<code>\d{2}-\d{3}|\d{3} \d{2}|\d{4}-\d{3}|\d{4,5})"
_BEFORE = tuple(map(re.compile, (rf"{_SIGN}{_DUTCH},? ", rf"{_BRITISH},? ", rf"{_SIGN}{_OTHERS} ")))
_BEHIND = tuple(map(re.compile, (rf"(?:,? \(?|,){_DUTCH}\)?\Z", rf"(?:,? \(?|,){_BRITISH}\)?\Z")))
_TWO_LETTERS, _DIGIT = re.compile(r"[^\W\d_]{2}"), re.compile(r"\d")
_MOST_WORDS = 3  # of a town; its first are enough


def place_of(name: str | None, saints: Set[str]) -> str | None:
    """A place's name as it is compared: without case, with single blanks; None where nothing is left of it.

    Umlauts count as they are spelled out, a hyphen as a blank, and the words for a saint (``saints``, plain) all alike.

    >>> saints = {"st", "sankt", "saint"}
    >>> place_of(" Bad  Söden ", saints), place_of("BAD-SOEDEN", saints), place_of("Sankt Soden", saints)
    ('bad soeden', 'bad soeden', 'st soden')
    >>> place_of("Saint-Soden", saints), place_of("  ", saints)
    ('st soden', None)
    """
    if name is None:
        return None
    alike = _with_saints(" ".join(_seen(name).split()), saints, "st ")
    return _spelled(_HYPHEN.sub(" ", alike)) or None


def places_of(names: Iterable[str | None], saints: Set[str]) -> Mapping[str, str]:
    """The place of each name, as of ``place_of``, without its postcode where all codes of the name agree.

    Towns of one name and two codes are two, and nobody can say which of them is meant without a code.

    >>> dict(places_of(["18055 Nordmole", "Nordmole", "47110 Kai", "47120 Kai"], {"st"})).values()
    dict_values(['nordmole', 'nordmole', '47110 kai', '47120 kai'])
    >>> dict(places_of(["1234 AB Nordmole", "Nordmole, 1234CD", "Südkai NM1 2AB"], {"st"})).values()
    dict_values(['nordmole', 'nordmole', 'suedkai'])
    """
    places = {
        name: place
        for name in dict.fromkeys(names)
        if name is not None and (place := place_of(name, saints)) is not None
    }
    coded = {name: _code_and_town(name, saints) for name in places}
    codes: dict[str, set[str]] = {}
    for code, town in filter(None, coded.values()):
        codes.setdefault(town, set()).add(code)

    def bare(name: str) -> str:
        code_and_town = coded[name]
        if code_and_town is None:
            return places[name]
        code, town = code_and_town
        return town if len(codes[town]) == 1 else f"{code} {town}"

    return {name: bare(name) for name in places}


def towns_of(advert: Advert, reading: Reading, small: SmallWords) -> frozenset[str]:
    """The words of towns that an advert names behind its words of fetching; empty where it names none."""
    found: set[str] = set()
    for claim in reading.claims:
        if claim.what == "delivery" and claim.value in _HANDED_OVER:
            text = advert.title if claim.field == "title" else advert.body
            clause = _CLAUSE.match(_with_saints(text[claim.end : claim.end + _NEAR], small.saint, ""))
            behind = clause.group().split() if clause else []
            found.update(_towns([*claim.words.split()[-1:], *behind], small.before_a_town))
    return frozenset(found)


def far_apart(one: frozenset[str], other: frozenset[str]) -> bool:
    """Do both name towns, and none in common?"""
    return bool(one) and bool(other) and one.isdisjoint(other)


def _code_and_town(name: str, saints: Set[str]) -> tuple[str, str] | None:
    """The postcode of a name and its town, as they are compared; None where it has none.

    Letters of a Dutch code stand in capitals; where all does, they may be the town's ("1234 LA TOUR").
    """
    seen = " ".join(_seen(name).split())
    before = ((met, seen[met.end() :]) for pattern in _BEFORE if (met := pattern.match(seen)))
    behind = ((met, seen[: met.start()]) for pattern in _BEHIND if (met := pattern.search(seen)))
    for met, rest in (*before, *behind):
        ambiguous = met.groupdict().get("letters") is not None and rest.isupper()
        if not ambiguous and _TWO_LETTERS.search(rest) and not _DIGIT.search(rest):
            return met["code"].casefold(), place_of(rest, saints) or rest
    return None


def _towns(words: list[str], at: Set[str]) -> list[str]:
    """The words after a small word of place (``at``, plain), as long as they are written as names are.

    The letters of a Dutch postcode are none.

    >>> _towns("Abholung nach Absprache in 40210 Nordmole möglich".split(), {"in"})
    ['40210', 'nordmole']
    >>> _towns("ophalen in 1234 AB Nordmole graag".split(), {"in"})
    ['1234', 'nordmole']
    """
    found: list[str] = []
    left = 0
    for before, word in pairwise(words):
        if plain_of(before).text in at:
            left = _MOST_WORDS
        if left and re.fullmatch(r"\d{4} [A-Z]{2}", f"{before} {word}"):
            continue
        if left and (word[0].isupper() or word[0].isdigit()):
            found.append(_spelled(word))
            left -= 1
        else:
            left = 0
    return found


def _with_saints(text: str, saints: Set[str], put: str) -> str:
    """A text with ``put`` in place of every word for a saint that stands before a name."""
    return _BEFORE_A_NAME.sub(lambda met: put if plain_of(met[1]).text in saints else met[0], text)


def _seen(name: str) -> str:
    """Without signs that nobody sees, wide ones as usual ones."""
    if name.isascii():
        return name
    return "".join(sign for sign in unicodedata.normalize("NFKC", name) if unicodedata.category(sign) != "Cf")


def _spelled(name: str) -> str:
    """Without case and signs that nobody sees, umlauts and their like spelled out."""
    return unicodedata.normalize("NFKC", _seen(name)).casefold().translate(_SPELLED_OUT)
