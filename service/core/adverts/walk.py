"""Where does a walk over the words of a field stand, what has it found, and which unit stands at a word?"""

from service.core.adverts.lexicon import Lexicon, Phrases, UnitWord
from service.core.adverts.tokens import Pieces

NUMBER = "#"
CURRENCIES = frozenset(("EUR", "GBP", "USD", "PLN", "CZK", "DKK", "CHF"))
MONEY_UNITS = CURRENCIES | {"money"}  # "money": the word does not say of which country
OF_CURRENT = frozenset(("dc", "ac"))
PANELS, INVERTERS = frozenset(("panel_one", "panel_many")), frozenset(("inverter_one", "inverter_many"))
DECIDING = frozenset(",.;:!?()\n")  # before them a word that can be a unit is one
_NAMES = 4
_NAMES_OF = {
    "v": frozenset(("voc", "vmp", "max_in", "start", "tracking", "input_range", "mpp_point")),
    "a": frozenset(("isc", "imp", "input_current", "max_sc", "max_in", "mpp_point", "inputs")),
    "w": PANELS | INVERTERS | {"power", "limited"},
}
_A_DEGREE = {"%": "%/K", "V": "V/K", "mV": "V/K", "A": "A/K"}
PADDING = [""] * 4  # behind the last piece, so that nobody looks beyond it


class Item:
    """A meaning, or a figure (``what`` is ``#``), in pieces ``at`` up to ``to`` of a field.

    ``unit`` is W, V, A, mm, kg, a currency, ``%/K`` or empty; ``factor`` what it multiplied the figure by; ``glued``
    the piece directly before a figure; ``peak``: watts of a panel by their unit; ``spelled``: a number word.
    """

    __slots__ = (
        "at",
        "clause",
        "factor",
        "field",
        "glued",
        "peak",
        "sentence",
        "spelled",
        "to",
        "unit",
        "value",
        "what",
    )

    def __init__(self, what: str, at: int, to: int, sentence: int, clause: int, field: int) -> None:
        self.what = what
        self.at, self.to = at, to
        self.sentence, self.clause, self.field = sentence, clause, field
        self.value, self.factor = 0.0, 1.0
        self.unit = self.glued = ""
        self.peak = self.spelled = False


class Walk:
    """A walk over the pieces of field ``number``: its sentence and clause, and the items found so far."""

    def __init__(self, pieces: Pieces, shown: str, lexicon: Lexicon, number: int, base: int) -> None:
        self.pieces = pieces
        self.words = pieces.words
        self.padded = [*pieces.words, *PADDING]
        self.gaps = pieces.gaps
        self.shown = pieces.shown = shown
        self.lexicon = lexicon
        self.small = lexicon.small
        self.units = lexicon.units
        self.loose = lexicon.loose
        self.number = number
        self.sentence = self.clause = self.clauses = base
        self.items: list[Item] = []
        self.outer: list[int] = []
        self.currency = ""
        self.currency_to = -9

    def glued(self, at: int) -> bool:
        """Does piece ``at`` stand directly behind another one?"""
        return not self.gaps[at]

    def new_clause(self) -> None:
        """A new clause begins."""
        self.clauses += 1
        self.clause = self.clauses

    def new_sentence(self) -> None:
        """A new sentence begins, and what brackets are open ends."""
        self.sentence += 1
        self.clause = self.clauses = self.clauses + 1
        if self.outer:
            self.outer.clear()

    def unit(self, at: int) -> tuple[str, float, int, bool]:
        """Unit, factor, behind it, and whether it is one of peak power; "" where none stands at ``at``."""
        words = self.padded
        known = self.units.get(words[at])
        if known is None:
            return "", 1.0, at, False
        unit, factor, peak, decided = known
        behind = words[at + 1]
        if decided or not behind or (behind in DECIDING and words[at] != '"'):
            return unit, factor, at + 1 + (behind in OF_CURRENT), peak
        return self.unit_by_words_behind(at, known, behind)

    def unit_by_words_behind(self, at: int, known: UnitWord, behind: str) -> tuple[str, float, int, bool]:
        """The same for a word that may be another unit or none, by what stands behind it."""
        words, to = self.padded, at + 1
        unit, factor, peak, _ = known
        if unit in _A_DEGREE and behind in self.small.per_degree:
            end = to + 1
            while words[end] in self.small.degree_of_coefficient and end - at < 5:
                end += 1
            if end > to + 1:
                return _A_DEGREE[unit], 0.001 if unit == "mV" else 1.0, end, False
        if not self.glued(at) and self._no_unit(at, behind):
            return "", 1.0, at, False
        if unit == "W":
            if behind in self.small.behind_watts:
                return unit, factor, to + 1, peak or behind in self.small.peak_behind
            dashed = behind == "-" and words[to + 1] in self.small.peak_dashed
            return unit, factor, to + 2 * dashed, peak or dashed
        if unit == "mm" and behind in {"2", "3"} and self.glued(to):
            return "m2", 1.0, to + 1, False  # an area, a room
        return unit, factor, to + (behind in OF_CURRENT), peak

    def _no_unit(self, at: int, behind: str) -> bool:
        """Is a word or sign behind a blank, which can be a unit, none here?"""
        word = self.padded[at]
        opening = word == '"'  # a quotation mark
        return opening or (word in self.lexicon.no_unit and not self._a_unit(at, word, behind))

    def _a_unit(self, at: int, word: str, behind: str) -> bool:
        """May a letter that stands apart be a unit, as in "9,3 A"?"""
        if word == "a" and behind[0].isdigit():
            return False
        if self.units[word][0] == "mm" and self.padded[at + 2][:1].isdigit() and self._times(behind):
            return True  # "65 in x 39 in"
        start = self.pieces.start(at)
        return not behind[0].isalnum() or self.shown[start : start + 1].isupper() or self._small_unit(at, word, behind)

    def _times(self, word: str) -> bool:
        known = self.lexicon.known[word]
        return word == "x" or (isinstance(known, tuple) and "times" in known)

    def _small_unit(self, at: int, word: str, behind: str) -> bool:
        """Is a small letter a unit by the names beside it ("isc 13,9 a max"), not a word ("12,50 a piece")?"""
        known = self.lexicon.known[word]
        if isinstance(known, Phrases) and behind in known.by_second:
            return False
        names = _NAMES_OF.get(word, frozenset())
        follows = self.lexicon.known[behind]
        near = [item for item in self.items[-_NAMES:] if item.sentence == self.sentence]
        if any(item.what in names for item in near) or not names.isdisjoint(
            follows.alone if isinstance(follows, Phrases) else follows if isinstance(follows, tuple) else ()
        ):
            return True
        raw = self.padded[at - 1]
        if word == "a":
            return any(sign in raw for sign in ".,") and any(item.unit == "V" for item in near)
        return word == "v" and behind in self.small.volts_up_to and self.padded[at + 2][0:1].isdigit()
