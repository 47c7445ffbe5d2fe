"""How does the map of planes look as a picture? Bands of the share of the best, axes in the words of a railing."""

from collections.abc import Iterator
from itertools import groupby

import numpy as np

from service.api.schemas.energy import PlaneOut
from service.api.schemas.tilt import MapOut, PlanesOut, TiltAnswerOut, TiltOut, direction_said
from service.api.words import say
from service.core.model.hours import Floats

# Shares of the best at which a band begins, palest last; one hue, so that it reads in grey and for any eye.
_BANDS = (0.99, 0.98, 0.95, 0.9, 0.8, 0.65, 0.5)
_SHADES = ("#0b3c5d", "#1c5d85", "#3a7fa8", "#63a0c2", "#90bfd8", "#bbd9e8", "#dcebf2", "#f4f8fa")
_LEFT, _TOP, _WIDE, _HIGH, _ROOM, _RIGHT = 64, 66, 720, 360, 120, 28
_TILT_TICK_DEG, _TURN_TICK_DEG = 15, 45
_SOUTH_DEG = 180.0
_RED = "#d1495b"


def tilt_map_svg(answer: TiltAnswerOut) -> bytes:
    """The picture, made of nothing but the answer: of what is wanted, energy, use at home or money.

    A set on a railing or wall has its axes from there: degrees out from upright, turned left or right of the way that
    it faces. Any other has tilt and direction.
    """
    tilt = answer.tilt
    if tilt.map is None:
        message = "a picture of a map that was not made"
        raise ValueError(message)
    railing = tilt.railing_azimuth_deg
    middle = _SOUTH_DEG if railing is None else railing
    kind, shown = _shown(tilt, tilt.map)
    values = np.array(shown)
    most = _brought(tilt.free, kind)
    title, described = say("tilt", f"map.title.{kind}"), _described(tilt, tilt.map, kind, most)
    box = f"0 0 {_LEFT + _WIDE + _RIGHT} {_TOP + _HIGH + _ROOM}"
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}" role="img" aria-labelledby="title desc">',
        '<g font-family="sans-serif">',
        f'<title id="title">{title}</title><desc id="desc">{" ".join(described)}</desc>',
        '<rect width="100%" height="100%" fill="#ffffff"/>',
        _text(_LEFT, 18, title, size=15),
        *(_text(_LEFT, 36 + 16 * at, line) for at, line in enumerate(described)),
        *_bands(tilt.map, values / max(most, 1e-9), middle),
        *_axes(railing, middle),
        *_marks(tilt, middle),
        *_legend(),
        *_legend_of_marks(),
        "</g></svg>\n",
    ]
    return "\n".join(parts).encode()


def _lead(tilt: TiltOut, planes: PlanesOut) -> PlaneOut:
    """Of planes of all arrays that of the first array that moves."""
    at = next(at for at, one in enumerate(tilt.best_planes.planes) if one.plane == tilt.best)
    return planes.planes[at].plane


def _shown(tilt: TiltOut, found: MapOut) -> tuple[str, list[list[float]]]:
    """What the picture is of."""
    if tilt.objective == "money" and found.saving_first_year is not None:
        return "money", found.saving_first_year
    if tilt.objective == "self_used" and found.self_used_kwh is not None:
        return "self_used", found.self_used_kwh
    return "energy", found.year_kwh


def _described(tilt: TiltOut, found: MapOut, kind: str, most: float) -> tuple[str, str]:
    """In two lines: what a full share is, and the best plane where the set may stand with what it brings."""
    top, railing = tilt.best, tilt.railing_azimuth_deg
    amounts = [
        say("tilt", f"map.{kind}", {"best": amount, "currency": found.currency or ""})
        for amount in (most, _brought(tilt.best_planes, kind))
    ]
    facts = {
        "most": amounts[0],
        "best": amounts[1],
        "out": f"{top.tilt_deg if railing is None else 90.0 - top.tilt_deg:.0f}",
        "from_where": say("tilt", f"map.from.{'tilt' if railing is None else 'out'}"),
        "way": direction_said(top.azimuth_deg, railing),
    }
    where = "map.where.one" if facts["out"] == "1" else "map.where"
    return say("tilt", "map.share", facts), say("tilt", where, facts)


def _brought(planes: PlanesOut, kind: str) -> float:
    brings = planes.brings
    found = {"money": brings.saving_first_year, "self_used": brings.self_used_kwh, "energy": brings.year_kwh}[kind]
    return found or 0.0


def _bands(found: MapOut, shares: Floats, middle: float) -> Iterator[str]:
    """Runs of equal shade, row by row; each cell has its plane in its middle."""
    turns = (np.array(found.azimuth_deg) - middle + 180.0) % 360.0 - 180.0
    order = np.argsort(turns, kind="stable")
    ordered = turns[order]
    # Half-way to each neighbour around the circle; the first cell may reach over the left end, back in on the right.
    between = (ordered + np.append(ordered[1:], ordered[0] + 360.0)) / 2.0
    edges = np.concatenate(([between[-1] - 360.0], between))
    shade = np.searchsorted(-np.array(_BANDS), -shares[:, order], side="left")
    tilts = np.array(found.tilt_deg)
    ends = np.concatenate(([tilts[0]], (tilts[1:] + tilts[:-1]) / 2, [tilts[-1]])) if tilts.size > 1 else [0.0, 90.0]
    yield '<g shape-rendering="crispEdges">'
    for row, low, high in zip(shade, ends, ends[1:], strict=False):
        at = 0
        for band, run in groupby(row.tolist()):
            to = at + len(list(run))
            for begin, end in _on_the_axis(float(edges[at]), float(edges[to])):
                yield (
                    f'<rect x="{_x(begin):.1f}" y="{_y(high):.1f}" width="{_x(end) - _x(begin):.1f}" '
                    f'height="{_y(low) - _y(high):.1f}" fill="{_SHADES[band]}"/>'
                )
            at = to
    yield "</g>"


def _on_the_axis(begin: float, end: float) -> Iterator[tuple[float, float]]:
    """The parts of a stretch of turns from -180 to 180; what reaches over an end comes in at the other."""
    for around in (-360.0, 0.0, 360.0):
        low, high = max(begin + around, -180.0), min(end + around, 180.0)
        if high > low:
            yield low, high


def _axes(railing: float | None, middle: float) -> Iterator[str]:
    for tilt in range(0, 91, _TILT_TICK_DEG):
        yield _text(_LEFT - 8, _y(tilt) + 4, str(tilt if railing is None else 90 - tilt), anchor="end")
        yield f'<line x1="{_LEFT - 4}" x2="{_LEFT}" y1="{_y(tilt):.1f}" y2="{_y(tilt):.1f}" stroke="#333333"/>'
    for turn in range(-180, 181, _TURN_TICK_DEG):
        x = _x(turn)
        label = (f"{turn:+d}" if turn else "0") if railing is not None else f"{(middle + turn) % 360:.0f}"
        yield _text(x, _TOP + _HIGH + 18, label, anchor="middle")
        yield f'<line x1="{x:.1f}" x2="{x:.1f}" y1="{_TOP + _HIGH}" y2="{_TOP + _HIGH + 4}" stroke="#333333"/>'
    across = say("tilt", "map.azimuth" if railing is None else "map.turned")
    up = say("tilt", "map.tilt" if railing is None else "map.out")
    yield _text(_LEFT + _WIDE / 2, _TOP + _HIGH + 36, across, anchor="middle")
    turned = f"translate(18 {_TOP + _HIGH / 2}) rotate(-90)"
    yield f'<text transform="{turned}" text-anchor="middle" font-size="12" fill="#222222">{up}</text>'


def _marks(tilt: TiltOut, middle: float) -> Iterator[str]:
    """The best plane of all, the best where the set may stand, and the set as it stands."""
    marked = (("free", _lead(tilt, tilt.free)), ("best", tilt.best), ("stands", _lead(tilt, tilt.stands)))
    for kind, plane in marked:
        yield _mark(kind, _x((plane.azimuth_deg - middle + 180.0) % 360.0 - 180.0), _y(plane.tilt_deg))


def _mark(kind: str, x: float, y: float) -> str:
    if kind == "best":
        place = f'x="{x - 4:.1f}" y="{y - 4:.1f}" width="8" height="8"'
        return f'<rect {place} fill="none" stroke="{_RED}" stroke-width="2"/>'
    radius, fill = (4, _RED) if kind == "free" else (8, "none")
    return f'<circle cx="{x:.1f}" cy="{y:.1f}" r="{radius}" fill="{fill}" stroke="{_RED}" stroke-width="2"/>'


def _legend_of_marks() -> Iterator[str]:
    for at, kind in enumerate(("free", "best", "stands")):
        x, y = _LEFT + 8 + at * _WIDE / 3, _TOP + _HIGH + 92
        yield _mark(kind, x, y)
        yield _text(x + 14, y + 4, say("tilt", f"map.{kind}"))


def _legend() -> Iterator[str]:
    names = [say("tilt", "map.within", {"share": 100 * share}) for share in _BANDS]
    names.append(say("tilt", "map.below", {"share": 100 * _BANDS[-1]}))
    for at, (name, shade) in enumerate(zip(names, _SHADES, strict=True)):
        x = _LEFT + at * _WIDE / len(names)
        yield (
            f'<rect x="{x:.1f}" y="{_TOP + _HIGH + 54}" width="14" height="14" fill="{shade}" stroke="#888888" '
            'stroke-width="0.5"/>'
        )
        yield _text(x + 18, _TOP + _HIGH + 66, name)


def _x(turn: float) -> float:
    return _LEFT + (turn + 180.0) * _WIDE / 360.0


def _y(tilt: float) -> float:
    return _TOP + _HIGH * (1.0 - tilt / 90.0)


def _text(x: float, y: float, text: str, *, anchor: str = "start", size: int = 12) -> str:
    return f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}" font-size="{size}" fill="#222222">{text}</text>'
