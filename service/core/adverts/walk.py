"""Where does a walk over the words of a field stand, what has it found, and which unit stands at a word?"""

from service.core.adverts.lexicon import Lexicon
from service.core.adverts.tokens import Pieces

NUMBER = "#"
CURRENCIES = frozenset(("EUR", "GBP", "USD", "PLN", "CZK", "DKK", "CHF"))
MONEY_UNITS = CURRENCIES | {"money"}  # "money": the word does not say of which country
_PEAK = frozenset(("wp", "kwp", "wc", "kwc", "wattpiek", "kwcrete"))
_PEAK_BEHIND = frozenset(("p", "piek", "peak", "crete", "pico", "spitze", "picco", "szczytowej"))
_BEHIND_UNIT = _PEAK_BEHIND | {"dc", "ac"}
_PER = frozenset(("/", "per", "pro", "par", "por", "na", "al", "a", "je", "pr", "for", "op"))
_DEGREE = frozenset((
    "°", "k", "c", "o", "grad", "degree", "deg", "kelvin", "stupen", "grado", "grau", "degre", "degres", "gradi",
    "grados", "graus", "graad", "graden", "celsius", "stupne", "stopien", "oc",
))  # fmt: skip
_A_DEGREE = {"%": "%/K", "V": "V/K", "mV": "V/K", "A": "A/K"}
_NO_UNIT = ("", 1.0)


class Item:
    """A meaning, or a figure (``what`` is ``#``), in pieces ``at`` up to ``to`` of a field.

    ``unit`` is W, V, A, mm, kg, a currency, ``%/K`` or empty; ``factor`` what it multiplied the figure by; ``glued``
    the piece directly before a figure; ``peak``: watts of a panel by their unit; ``spelled``: a number word.
    """

    value = 0.0
    unit = ""
    glued = ""
    factor = 1.0
    peak = False
    spelled = False

    def __init__(self, what: str, at: int, to: int, sentence: int, clause: int, field: int) -> None:
        self.what = what
        self.at = at
        self.to = to
        self.sentence = sentence
        self.clause = clause
        self.field = field


class Walk:
    """A walk over the pieces of field ``number``: its sentence and clause, and the items found so far."""

    def __init__(self, pieces: Pieces, shown: str, lexicon: Lexicon, number: int, base: int) -> None:
        self.pieces = pieces
        self.words = pieces.words
        self.apart = pieces.apart
        self.shown = shown
        self.lexicon = lexicon
        self.number = number
        self.sentence = self.clause = self.clauses = base
        self.items: list[Item] = []
        self.outer: list[int] = []
        self.currency = ""
        self.currency_to = -9

    def glued(self, at: int) -> bool:
        """Does piece ``at`` stand directly behind another one?"""
        return 0 < at < len(self.words) and not self.apart[at]

    def new_clause(self) -> None:
        """A new clause begins."""
        self.clauses += 1
        self.clause = self.clauses

    def unit(self, at: int) -> tuple[str, float, int, bool]:  # noqa: PLR0911 - a row of questions
        """Unit, factor, behind it, and whether it is one of peak power; "" where none stands at ``at``."""
        words, count = self.words, len(self.words)
        word = words[at] if at < count else ""
        unit, factor = self.lexicon.units.get(word, _NO_UNIT)
        if not unit:
            return "", 1.0, at, False
        to = at + 1
        if to == count:
            return unit, factor, to, word in _PEAK
        behind = words[to]
        if unit in _A_DEGREE and behind in _PER:
            end = to + 1
            while end < count and words[end] in _DEGREE and end - at < 5:
                end += 1
            if end > to + 1:
                return _A_DEGREE[unit], 0.001 if unit == "mV" else 1.0, end, False
        if word in self.lexicon.no_unit and self.apart[at] and not self._a_unit(at, word, behind):
            return "", 1.0, at, False
        if word == '"' and self.apart[at]:  # an opening quotation mark
            return "", 1.0, at, False
        if unit == "mm" and behind in {"2", "3"} and not self.apart[to]:
            return "m2", 1.0, to + 1, False  # an area, a room
        if unit != "W":
            return unit, factor, to + (behind in {"dc", "ac"}), word in _PEAK
        peak = word in _PEAK
        if behind in _BEHIND_UNIT:
            return unit, factor, to + 1, peak or behind in _PEAK_BEHIND
        if behind == "-" and words[to + 1 : to + 2] == ["peak"]:
            return unit, factor, to + 2, True
        return unit, factor, to, peak

    def _a_unit(self, at: int, word: str, behind: str) -> bool:
        """May a letter that stands apart be a unit, as in "9,3 A"?"""
        if word == "a" and behind[0].isdigit():
            return False
        start = self.pieces.start(at)
        return not behind[0].isalnum() or self.shown[start : start + 1].isupper()
