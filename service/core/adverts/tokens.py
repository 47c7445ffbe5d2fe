"""Where in a plain text do words, numbers and signs stand?

One expression of single classes of signs: no repetition stands inside another one that could share signs with it, and
none gives back what it took, so time grows with the text and with nothing else.
"""

import re
from bisect import bisect_right
from collections.abc import Set
from sys import intern

# The blanks before it, then a word, a number with its separators (each followed by a digit), or any one other sign.
_PIECE = re.compile(r" *+(?:[a-z]++|[0-9]{1,15}+(?:[.,'][0-9]{1,9}+){0,4}+|[^ ])")
_LONGEST_MET = 24
MOST_MET, MOST_PIECES_MET = 10_000, 20_000
_FEW, _TWO = 6, 2  # pieces
_STRETCH = 8  # runs
_LINE_END = "\n"

_Starts = tuple[object, ...] | None  # what each word of a run can be in a lexicon


class Run:
    """The words that stand between two blanks.

    ``told``: the first of them that tells a language, and its ``weight``; ``more``: the weights of further ones.
    ``roles``: those of all its words, as bits; ``plain``: is it one word, without any of these, and no line end?
    ``bare``: in which lexicons, as bits by their number, none of its words means anything; ``starts``: for each of the
    lexicons what each word can be there, None until that was looked up; where it is in none the row of all, ``unread``.
    ``wide``: how many signs it takes with one blank; a line end stands between two that are not there.
    Kept in as few rows as can be: most of the time of a look is waiting for memory, and garbage is looked for in each.
    """

    __slots__ = ("bare", "count", "first", "more", "plain", "roles", "starts", "told", "unread", "weight",
                 "wide", "words")  # fmt: skip

    def __init__(
        self, words: tuple[str, ...], telling: dict[str, int], roles: dict[str, int], unread: list[_Starts]
    ) -> None:
        self.words = words
        self.first = words[0] if words else ""
        self.count = len(words)
        self.told, self.weight, self.roles = "", 0, 0
        self.more: dict[str, int] | None = None
        for word in words if self.count <= _FEW else dict.fromkeys(words):
            self.roles |= roles.get(word, 0)
            weight = telling.get(word, 0)
            if not weight or word == self.told:
                continue
            if not self.weight:
                self.told, self.weight = word, weight
            elif self.more is None:
                self.more = {word: weight}
            else:
                self.more[word] = weight
        self.wide = 0 if self.first == _LINE_END else len("".join(words)) + 1
        self.plain = self.count == 1 and not self.weight and not self.roles and self.first != _LINE_END
        self.bare, self.starts, self.unread = 0, unread, unread


class Met(dict[str, Run]):
    """Runs of signs between blanks that were met before, cut into pieces once; each word is one and the same.

    ``telling``: words that tell a language, with their weights; ``roles``: those with roles, as bits.

    Full of runs, or of the pieces in them, it begins anew.
    """

    def __init__(self, telling: dict[str, int], roles: dict[str, int], lexicons: int) -> None:
        super().__init__()
        self._telling = telling
        self._roles = roles
        self._unread: list[_Starts] = [None] * lexicons
        self._pieces = 0

    def __missing__(self, signs: str) -> Run:
        # as the words of the vocabulary are: found without comparing letters
        one = signs.isascii() and signs.isalpha() and signs.islower()
        words = (intern(signs),) if one else tuple(map(intern, _PIECE.findall(signs)))
        run = Run(words, self._telling, self._roles, self._unread)
        if len(signs) <= _LONGEST_MET:
            if len(self) >= MOST_MET or self._pieces >= MOST_PIECES_MET:
                self.clear()
                self._pieces = 0
            self[signs] = run
            self._pieces += run.count
        return run


class Pieces:
    """The words, numbers and signs of a plain text, and where each begins.

    ``gaps``: how many blanks stand before each; before the first one and the end one more than there do.
    ``lined``: are there line ends? ``roles``: those of all words; ``telling``: the weights of those that
    tell a language; ``runs``: what stands between blanks and line ends, and these; ``told``: those of them with roles,
    each behind the place of its first word. ``shown``: the text with capitals, where it was told. Of each stretch of
    eight runs the first word, ``_firsts``, and how many ``_signs`` stand before it.

    >>> pieces = Pieces("2 x,", Met({}, {}, 0))
    >>> pieces.words, pieces.gaps, pieces.start(2)
    (['2', 'x', ','], [1, 1, 0, 1], 3)
    """

    __slots__ = ("_different", "_firsts", "_signs", "gaps", "lined", "roles", "runs", "shown", "telling",
                 "told", "words")  # fmt: skip

    def __init__(self, text: str, met: Met) -> None:
        self.words: list[str] = []
        self.telling: dict[str, int] = {}
        self.told: list[tuple[int, Run]] = []
        self.roles = 0
        self.shown = ""
        self._different: frozenset[str] | None = None
        self._firsts: list[int] = []
        self._signs: list[int] = []
        self.lined = _LINE_END in text
        if self.lined:
            text = text.replace(_LINE_END, " \n ")  # a run of its own
        self.runs = [met[signs] for signs in text.rstrip(" ").split(" ")]
        self.gaps = self._cut()

    def _cut(self) -> list[int]:
        """Fills in all words and what they tell; the gaps before them."""
        words, telling, told, runs, signs = self.words, self.telling, self.told, self.runs, 0
        glued: list[int] = []
        wider: list[int] = []  # what has one blank more before it
        begin: list[int] = []
        for low in range(0, len(runs), _STRETCH):
            self._firsts.append(len(words))
            self._signs.append(signs)
            for run in runs[low : low + _STRETCH]:
                signs += run.wide
                if run.plain:
                    words.append(run.first)
                elif run.count:
                    if run.weight:
                        telling[run.told] = run.weight
                        if run.more is not None:
                            telling.update(run.more)
                    if run.roles:
                        self.roles |= run.roles
                        told.append((len(words), run))
                    if run.count == 1:
                        words.append(run.first)
                        if not run.wide:
                            begin.append(len(words))
                    else:
                        glued.append(len(words) + 1)
                        words += run.words
                        if run.count > _TWO:
                            _glue(glued, run.count - _TWO)
                else:
                    wider.append(len(words))
        return _gaps(len(words), glued, wider, begin)

    @property
    def different(self) -> frozenset[str]:
        """Each word once."""
        if self._different is None:  # few ask for them
            self._different = frozenset(self.words)
        return self._different

    def places(self, role: int, words: Set[str]) -> list[int]:
        """Where words with a role stand, which are ``words``: few runs have any, and no other is looked into."""
        found: list[int] = []
        for at, run in self.told:
            if not run.roles & role:
                continue
            if run.count > 1:
                found += [place for place, word in enumerate(run.words, at) if word in words]
            elif run.first in words:
                found.append(at)
        return found

    def span(self, at: int, to: int) -> tuple[int, int]:
        """The first sign of piece ``at``, and behind the last one of the piece before ``to``."""
        words, gaps, start = self.words, self.gaps, self.start(at)
        end = start + len(words[at])
        for place in range(at + 1, to):
            end += gaps[place] + len(words[place])
        return start, end

    def start(self, at: int) -> int:
        """The first sign of a piece, reckoned from where its stretch of runs begins."""
        stretch = bisect_right(self._firsts, at) - 1
        runs, number, first, signs = self.runs, stretch * _STRETCH, self._firsts[stretch], self._signs[stretch]
        run = runs[number]
        while first + run.count <= at:
            first += run.count
            signs += run.wide
            number += 1
            run = runs[number]
        if at > first:
            return signs + len("".join(run.words[: at - first]))
        return signs if run.wide else signs - 1  # no blank stands before a line end

    def titled(self, at: int) -> bool:
        """Does a piece begin with one capital?"""
        if at >= len(self.words):
            return False
        start = self.start(at)
        return self.shown[start : start + 2].istitle()


def _glue(glued: list[int], more: int) -> None:
    """So many pieces more are glued, behind the last one that is."""
    last = glued[-1]
    if more > _FEW:
        glued += range(last + 1, last + 1 + more)
    else:  # as machine code cheaper for few
        for further in range(1, more + 1):
            glued.append(last + further)


def _gaps(count: int, glued: list[int], wider: list[int], begin: list[int]) -> list[int]:
    """The gaps before so many pieces and the end; a line end has none of its own, nor has what begins a line."""
    gaps = [1] * (count + 1)
    for at in glued:
        gaps[at] = 0
    for at in wider:
        gaps[at] += 1
    for at in begin:
        gaps[at - 1] -= 1
        gaps[at] -= 1
    gaps[-1] = 1
    return gaps


NO_PIECES = Pieces("", Met({}, {}, 0))  # of a field that was left empty


def words_of(text: str) -> list[str]:
    """The pieces that are words or numbers.

    >>> words_of("p.st. 2x")
    ['p', 'st', '2', 'x']
    """
    return [word for word in map(_bare, _PIECE.findall(text)) if word[0].isalnum()]


def _bare(piece: str) -> str:
    return piece.lstrip(" ")
