"""Which figures stand in a row, or in rows below a line of names, and whose are they?

Names and figures are matched only where their numbers agree. One name with several figures has columns: of conditions,
where a line above names them, else of models.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from service.core.identity.label_claim import ELECTRIC, NOT_AT_STC, QUANTITIES, UNCLEAR, Name
from service.core.identity.label_figures import RANGES, SEPARATORS, Figure, chunk_end, figure_at, own_condition
from service.core.identity.label_sizes import cells_at, size_at
from service.core.identity.label_tokens import Token
from service.core.identity.label_words import ELSEWHERE, STANDARD

_MOST = 40
_TAKEN = frozenset({"", "W", "V", "A", "kg"})


@dataclass(frozen=True, slots=True)
class Row:
    """Figures side by side, what a word before them says of their condition, and where the row ends."""

    figures: tuple[Figure, ...]
    condition: str
    behind: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Given:
    """A figure given to a name; of several columns the one from 1."""

    name: Name
    figure: Figure
    doubt: str = ""
    column: int = 1
    columns: int = 1


def rows_at(tokens: Sequence[Token], at: int, *, below: bool) -> list[Row]:
    """The row that begins at a figure and, ``below`` the line of its names, further lines of nothing but figures."""
    rows = [_row(tokens, at)]
    while below and rows[-1].figures and len(rows) < _MOST:
        place, lines = rows[-1].behind, 0
        while place < len(tokens) and tokens[place].text in {"\n", "|"} and lines < 4:
            lines += tokens[place].text == "\n"
            place += 1
        place, condition = _lead(tokens, place)
        if not lines or place >= len(tokens) or not tokens[place].is_number or figure_at(tokens, place) is None:
            break
        further = _row(tokens, place)
        if not further.figures or not _ends(tokens, further.behind):
            break
        rows.append(replace(further, condition=condition))
    return [row for row in rows if row.figures]


def _lead(tokens: Sequence[Token], at: int) -> tuple[int, str]:
    """Past one code or condition at the head of a row."""
    condition = ""
    if at < len(tokens) and not (tokens[at].is_number and figure_at(tokens, at) is not None):
        if tokens[at].text in STANDARD:
            condition = "stc"
        elif tokens[at].text in ELSEWHERE:
            condition = "elsewhere"
        if tokens[at].text != "\n":
            at = max(chunk_end(tokens, at), at + 1)
    while at < len(tokens) and tokens[at].text in {"|", ":"}:
        at += 1
    return at, condition


def _ends(tokens: Sequence[Token], at: int) -> bool:
    return at >= len(tokens) or tokens[at].text in {"\n", "|"}


def _row(tokens: Sequence[Token], at: int) -> Row:
    found: list[Figure] = []
    place = at
    while len(found) < _MOST and place < len(tokens) and tokens[place].is_number:
        figure = figure_at(tokens, place)
        if figure is None or (found and _no_more(tokens, place, found[-1], figure)):
            break
        if _two_conditions(tokens, figure.behind):  # (NOCT/STC) behind two figures: which is whose is not told
            found = [replace(one, doubt=one.doubt or UNCLEAR) for one in (*found, figure)]
            break
        own, behind = own_condition(tokens, figure.behind)
        found.append(replace(figure, own=own, behind=behind))
        place = behind
        if place < len(tokens) and tokens[place].text in RANGES and place + 1 < len(tokens):
            if tokens[place + 1].is_number and tokens[place + 1].text not in {"0", "0.0"}:
                found[-1] = replace(found[-1], doubt=found[-1].doubt or "not_a_rating", behind=place + 2)
                place += 2
            break
        while place < len(tokens) and tokens[place].text in SEPARATORS:
            place += 1
    behind = found[-1].behind if found else at
    if found and found[-1].unit.quantity and not any(one.unit.quantity for one in found[:-1]):
        unit = found[-1].unit
        found = [replace(one, value=one.value * unit.factor, unit=unit) for one in found[:-1]] + found[-1:]
    return Row(tuple(found), "", behind)


def _two_conditions(tokens: Sequence[Token], at: int) -> bool:
    """Does a bracket with both kinds of condition stand behind a figure?"""
    if at >= len(tokens) or tokens[at].text not in {"(", "["}:
        return False
    words = {token.text for token in tokens[at + 1 : at + 5]}
    return bool(words & STANDARD) and bool(words & ELSEWHERE)


def _no_more(tokens: Sequence[Token], at: int, last: Figure, figure: Figure) -> bool:
    """Does the next number belong to something else: a tolerance, a size, cells, a coefficient, another thing?"""
    if figure.unit.quantity not in _TAKEN or figure.value == 0 or tokens[at - 1].text in {"+", "±"}:
        return True
    if size_at(tokens, at, named=False) or cells_at(tokens, at, named=False):
        return True
    return bool(last.unit.quantity) and not figure.unit.quantity


def matched(names: Sequence[Name], rows: Sequence[Row], columns: Sequence[bool], *, elsewhere: bool) -> Iterator[Given]:
    """Each figure with its name; with the doubt ``unclear_which`` where their numbers do not agree."""
    one_line = len({name.line for name in names}) == 1
    if len(names) == 1:
        yield from _columns(names[0], [figure for row in rows for figure in _said(row)], columns, elsewhere=elsewhere)
    elif len(rows) > 1 and one_line and all(_agree(names, row.figures) for row in rows):
        yield from _models(names, rows, elsewhere=elsewhere)
    elif len(rows) > 1 and len(rows) == len(names) and not one_line:
        for name, row in zip(names, rows, strict=True):
            if all(name.takes(figure.unit) for figure in row.figures):
                yield from _columns(name, list(_said(row)), columns, elsewhere=elsewhere)
            else:
                yield from _unclear([name], row.figures)
    else:
        yield from _in_order(names, [f for row in rows for f in _said(row)], columns, elsewhere=elsewhere)


def _said(row: Row) -> Iterator[Figure]:
    for figure in row.figures:
        yield replace(figure, own=figure.own or row.condition)


def _agree(names: Sequence[Name], figures: Sequence[Figure]) -> bool:
    return len(names) == len(figures) and all(n.takes(f.unit) for n, f in zip(names, figures, strict=True))


def _models(names: Sequence[Name], rows: Sequence[Row], *, elsewhere: bool) -> Iterator[Given]:
    away = [row.condition == "elsewhere" or (elsewhere and not row.condition) for row in rows]
    models = [row for row, off in zip(rows, away, strict=True) if not off]
    for row, off in zip(rows, away, strict=True):
        for name, figure in zip(names, row.figures, strict=True):
            if off and name.what in ELECTRIC:
                yield Given(name=name, figure=figure, doubt=NOT_AT_STC)
            elif not off:
                at = 1 + models.index(row)
                yield Given(name=name, figure=replace(figure, own="stc"), column=at, columns=len(models))


def _in_order(
    names: Sequence[Name], figures: Sequence[Figure], columns: Sequence[bool], *, elsewhere: bool
) -> Iterator[Given]:
    """As many figures as names: one each; else by their units, where these tell."""
    if _agree(names, figures):
        for name, figure in zip(names, figures, strict=True):
            yield from _columns(name, [figure], (), elsewhere=elsewhere)
        return
    if not all(figure.unit.quantity for figure in figures):
        yield from _unclear(names, figures)
        return
    for quantity in dict.fromkeys(figure.unit.quantity for figure in figures):
        these = [figure for figure in figures if figure.unit.quantity == quantity]
        wanting = [name for name in names if QUANTITIES.get(name.what) == quantity]
        if len(wanting) == 1:
            yield from _columns(wanting[0], these, columns, elsewhere=elsewhere)
        elif len(wanting) == len(these):
            for name, figure in zip(wanting, these, strict=True):
                yield from _columns(name, [figure], (), elsewhere=elsewhere)
        else:
            yield from _unclear(wanting, these)


def _unclear(names: Sequence[Name], figures: Sequence[Figure]) -> Iterator[Given]:
    for name, figure in zip(names, figures, strict=False):
        yield Given(name=name, figure=figure, doubt=UNCLEAR)


def _columns(name: Name, figures: Sequence[Figure], columns: Sequence[bool], *, elsewhere: bool) -> Iterator[Given]:
    """One name's figures: those at other conditions are told, the others are of so many models."""
    figures = [figure for figure in figures if name.takes(figure.unit)]
    ruled = name.what in ELECTRIC and columns and not any(figure.own for figure in figures)
    if ruled and len(figures) != len(columns):
        yield from _unclear([name] * len(figures), figures)
        return
    off = []
    for place, figure in enumerate(figures):
        away = not columns[place] if ruled else figure.own == "elsewhere" or (elsewhere and figure.own != "stc")
        off.append(bool(away) and name.what in ELECTRIC)
    models = [figure for figure, away in zip(figures, off, strict=True) if not away]
    for figure, away in zip(figures, off, strict=True):
        if away:
            yield Given(name=name, figure=figure, doubt=NOT_AT_STC)
        else:
            yield Given(name=name, figure=figure, column=1 + models.index(figure), columns=len(models))
