"""Does a line end within a sentence, as a text that was broken at a width, or does what follows begin anew?

A line end is a separator. It is none where the next line goes on in small letters, where the line cannot have ended
(behind a comma, a word that waits for another one, the sign of a currency or a bare figure with its unit on the next
line), or where most lines are so full that the next word did not go onto them. What could be either stays a separator:
so a value may be lost, but no two lines are read as one.
"""

from collections.abc import Iterable, Sequence, Set
from itertools import accumulate, pairwise

from service.core.adverts.plain import Plain

_WHITE = " \n"
_JOINS = frozenset(",(/&+=×")
_ENDS = frozenset(".!?:;)")
_SIGNED = frozenset("+-")
_BULLETS = frozenset("-*•|+#>–—·")
_MONEY = frozenset("€£$")
_SET_OFF = frozenset((" :", " : ", " =", " = "))  # behind the word that heads a line
_TWO_IN_BARS = 4  # bars about a name, a value and its unit
_UNITS = frozenset(("v", "a", "w", "wp", "mm", "cm", "m", "kg", "%/k", "%/°c", "%"))
_OF_VALUES = frozenset("0123456789+-~<")
_DOTS = "..."  # between a name and its value
_VOLTS = frozenset(("v", "a"))
_LONGEST_COEFFICIENT = 14
_FEWEST_ROWS = 2
_LONGEST_NAME, _LONGEST_VALUE = 40, 24
_LEAST_SIGNS = 18  # of a line that was broken at a width
_LEAST_SHARE = 0.5  # of the longest line
_LEAST_WIDTH = 30  # at which a text is broken
_AT_WIDTH_SHARE = 0.6  # of the line ends of such a text: the next word would not have gone onto the line


def joined(plain: Plain, waiting: Set[str], cut_short: Set[str] = frozenset()) -> Plain:
    """The text with blanks for the line ends within sentences; signs keep their places. Time is linear.

    ``waiting``: words behind which a sentence goes on; ``cut_short``: those that do so with a point ("max.").
    """
    if "\n" not in plain.text:
        return plain
    lines, barred = _one_sign_ends(plain).split("\n"), "|" in plain.text
    if barred or ";" in plain.text:
        lines = _named(lines)
    bare = [line.strip() for line in lines]
    inner = [at for at in range(1, len(bare)) if bare[at - 1] and bare[at]]  # no empty line stands beside the end
    unsure = [at for at in inner if bare[at - 1][-1] not in _ENDS and bare[at][0] not in _BULLETS]
    if barred or _DOTS in plain.text:
        unsure = [at for at in unsure if not _are_columns(bare[at - 1], bare[at])]
    gone_on = _gone_on(plain.shown, lines, bare, unsure, waiting) if unsure else set()
    gone_on.update([at for at in inner if (bare[at - 1][-1] == "." or bare[at][0] in _SIGNED)
                    and _has_to(bare[at - 1], bare[at], cut_short)])  # fmt: skip
    parts = [lines[0]]
    for at in range(1, len(lines)):
        parts += (" " if at in gone_on else "\n", lines[at])
    text = "".join(parts)
    return plain if text == plain.text else plain.saying(text)


def edged(plain: Plain) -> Plain:
    """The text with blanks for the line ends before its first word and behind its last one; signs keep their places."""
    text = plain.text
    if "\n" not in text or (text[0] not in _WHITE and text[-1] not in _WHITE):
        return plain
    low, high = len(text) - len(text.lstrip(_WHITE)), len(text.rstrip(_WHITE))
    if low >= high:
        return plain.saying(" " * len(text))
    return plain.saying(" " * low + text[low:high] + " " * (len(text) - high))


def _named(lines: Sequence[str]) -> list[str]:
    """The lines with a colon behind a name: "| Voc | 40.2 V |", and "Voc ; 40.2 V" where another such is beside it."""
    rows = [_row_of_bars(line) if "|" in line else line for line in lines]
    if sum("|" in row or ";" in row for row in rows) < _FEWEST_ROWS:
        return rows
    parted = [_parted(row) if "|" in row or ";" in row else 0 for row in rows]
    return [
        f"{row[:at]}:{row[at + 1 :]}" if at and (before or behind) else row
        for row, at, before, behind in zip(rows, parted, [0, *parted], [*parted[1:], 0], strict=False)
    ]


def _row_of_bars(line: str) -> str:
    """A row between outer bars that holds a name and a value, and maybe its unit, with a colon behind the name."""
    if line.count("|") not in {_TWO_IN_BARS - 1, _TWO_IN_BARS}:
        return line
    outer, name, value, *unit, end = line.split("|")
    if outer.strip() or end.strip() or (unit and unit[0].strip() not in _UNITS):
        return line
    return "|".join((outer, f"{name}:{' '.join((value, *unit))}", end))


def _parted(line: str) -> int:
    """The place of the one sign between a name and a figure behind it; nought where a line is none of a table."""
    at = line.find("|") if "|" in line else line.find(";")
    if at <= 0 or at > _LONGEST_NAME or line.count("|") + line.count(";") != 1:
        return 0
    name, value = line[:at].strip(), line[at + 1 :].strip()
    return at if name[:1].isalpha() and value[:1] in _OF_VALUES and 0 < len(value) <= _LONGEST_VALUE else 0


def _has_to(line: str, following: str, cut_short: Set[str]) -> bool:
    """Must it go on, though the line ends with a point or a colon, or the next one begins as a list does?

    As in "Voc" and "-0.27 %/K", "Voc ...." and "37.2 V", "max." and "60 V".
    """
    first = following[0]
    if first in _SIGNED:
        near = following[1:_LONGEST_COEFFICIENT]
        return near[:1].isdigit() and ("%" in near or "mv" in near) and (line[-1].isalpha() or line[-1] == ":")
    if line[-1] != ".":
        return False
    if line.endswith(_DOTS):
        return first.isdigit()
    before, _, last = line[:-1].rpartition(" ")
    return last in cut_short and not before[-1:].isdigit() and first.isalnum() and len(line) >= _LEAST_SIGNS


def _gone_on(
    sent: str, lines: Sequence[str], bare: Sequence[str], unsure: Iterable[int], waiting: Set[str]
) -> set[int]:
    """Which of the lines ``unsure`` go on with the sentence before them; ``sent``: the text with its capitals."""
    firsts = [line.partition(" ")[0] for line in bare]
    longest = max(map(len, bare))
    full = [len(line) + 1 + len(first) > longest and bool(line) and bool(first)
            for line, first in zip(bare, firsts[1:], strict=False)]  # fmt: skip
    at_width = longest >= _LEAST_WIDTH and len(full) > 1 and sum(full) >= _AT_WIDTH_SHARE * len(full)
    starts = accumulate([len(line) + 1 for line in lines], initial=0)
    shown = [sent[start : start + len(line)].lstrip()[:1] for start, line in zip(starts, lines, strict=False)]
    # A seller without capitals begins lines small.
    written = any(map(str.isupper, shown)) or any(part[:1].isupper() for part in sent.split(". ")[1:])
    return {
        at for at in unsure
        if (not _is_heading(bare[at], firsts[at]) or _waits_for_figure(bare[at - 1], firsts[at], waiting)) and (
            (at_width and full[at - 1])
            or _goes_on(lines[at - 1].rstrip(), lines[at].lstrip(), shown[at], longest, waiting, small_tells=written)
        )
    }  # fmt: skip


def _one_sign_ends(plain: Plain) -> str:
    """The text with one sign for each line end that was sent as two."""
    if "\r" not in plain.shown or "\r\n" not in plain.shown:
        return plain.text
    ends = accumulate(len(part) + 2 for part in plain.shown.split("\r\n"))
    cuts = [0, *ends]
    return " \n".join(plain.text[low : high - 2] for low, high in pairwise(cuts))


def _goes_on(line: str, following: str, shown: str, longest: int, waiting: Set[str], *, small_tells: bool) -> bool:
    """Does a sentence go on over the end of ``line``, as ``following`` begins? ``shown``: its first sign as sent.

    ``line`` does not end with a sign that ends sentences.
    """
    last = line.rsplit(" ", 1)[-1]
    if last[-1] in _JOINS or (last in _MONEY and not line[:-1].rstrip()[-1:].isdigit()):
        return True
    broken = len(line) >= _LEAST_SIGNS and len(line) >= _LEAST_SHARE * longest
    if last in waiting:
        return broken or following[0].isdigit()
    if shown.islower():
        return small_tells and (broken or last[-1].isdigit())
    if not broken or not last[-1].isdigit():
        return broken and last.isalpha() and "|" not in line and _is_value(following)
    if following[0] == "%":
        return True
    return following[0] in _MONEY or following[0].isalpha() or _is_hundreds(following)


def _are_columns(line: str, following: str) -> bool:
    """Are two lines rows of one table?"""
    if _DOTS in line:
        return _DOTS in following
    return "|" in line and line.count("|") == following.count("|")


def _is_heading(line: str, first: str) -> bool:
    """Does a line begin with a word and a colon, or with a number and a point, as those of a list?"""
    end = first[-1]
    if end == ":" or (end in ".)" and first[:-1].isdigit()):
        return True
    return line[len(first) : len(first) + 3] in _SET_OFF


def _waits_for_figure(line: str, first: str, waiting: Set[str]) -> bool:
    """Does a line end with a word that waits, and a figure stand behind it that ends its sentence: "1580 by" "808."?"""
    return first[:-1].isdigit() and line.rpartition(" ")[2] in waiting


def _is_hundreds(following: str) -> bool:
    """Three digits that go on with an amount: "1" and "300 Kč"."""
    return following[:3].isdigit() and not following[3:4].isdigit()


def _is_value(following: str) -> bool:
    """Does a line begin with a figure in volts or amperes: "60 V"?"""
    figure, _, rest = following.partition(" ")
    if figure[-1] in "va" and figure[:-1].replace(",", "").replace(".", "").isdigit():
        return True
    return figure.replace(",", "").replace(".", "").isdigit() and rest[:1] in _VOLTS and not rest[1:2].isalpha()
