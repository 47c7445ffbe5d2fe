"""How does the map of planes look as a picture? Bands of the share of the best, axes in the words of a railing."""

from collections.abc import Iterator, Sequence
from itertools import groupby

import numpy as np

from service.api.schemas.answers import TiltAnswerOut
from service.api.schemas.tilt import MapOut
from service.api.words import say

# Shares of the best at which a band begins, palest last; one hue, so that it reads in grey and for any eye.
_BANDS = (0.99, 0.98, 0.95, 0.9, 0.8, 0.65, 0.5)
_SHADES = ("#0b3c5d", "#1c5d85", "#3a7fa8", "#63a0c2", "#90bfd8", "#bbd9e8", "#dcebf2", "#f4f8fa")
_LEFT, _TOP, _WIDE, _HIGH, _ROOM = 64, 44, 720, 360, 96
_TILT_TICK_DEG, _TURN_TICK_DEG = 15, 45
_UPRIGHT_FROM_DEG = 75.0


def tilt_map_svg(answer: TiltAnswerOut) -> bytes:
    """The picture, made of nothing but the answer.

    A set that stands upright has its axes from the railing: degrees out from upright, turned left or right of the way
    that it faces. Any other has tilt and direction.
    """
    tilt = answer.tilt
    if tilt.map is None:
        message = "a picture of a map that was not made"
        raise ValueError(message)
    stands = tilt.stands.planes[0].plane
    railing = stands.azimuth_deg if stands.tilt_deg >= _UPRIGHT_FROM_DEG else None
    middle = 180.0 if railing is None else railing
    energy = np.array(tilt.map.year_kwh)
    row, column = np.unravel_index(int(np.argmax(energy)), energy.shape)
    best, top = float(energy.max()), (tilt.map.tilt_deg[row], tilt.map.azimuth_deg[column])
    facts = {"best": best, "tilt": top[0], "azimuth": top[1]}
    title, described = say("tilt", "map.title"), say("tilt", "map.description", facts)
    box = f"0 0 {_LEFT + _WIDE + 16} {_TOP + _HIGH + _ROOM}"
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}" role="img" aria-labelledby="title desc">',
        '<g font-family="sans-serif">',
        f'<title id="title">{title}</title><desc id="desc">{described}</desc>',
        '<rect width="100%" height="100%" fill="#ffffff"/>',
        _text(_LEFT, 18, title, size=15),
        _text(_LEFT, 36, described),
        *_bands(tilt.map, middle, best),
        *_axes(railing, middle),
        *_dots((top, (stands.tilt_deg, stands.azimuth_deg)), middle),
        *_legend(),
        "</g></svg>\n",
    ]
    return "\n".join(parts).encode()


def _bands(found: MapOut, middle: float, best: float) -> Iterator[str]:
    """Runs of equal shade, row by row."""
    turns = (np.array(found.azimuth_deg) - middle + 180.0) % 360.0 - 180.0
    order = np.argsort(turns, kind="stable")
    step = 360.0 / turns.size
    shares = np.array(found.year_kwh)[:, order] / max(best, 1e-9)
    shade = np.searchsorted(-np.array(_BANDS), -shares, side="left")
    tilts = np.array(found.tilt_deg)
    edges = np.concatenate(([tilts[0]], (tilts[1:] + tilts[:-1]) / 2, [tilts[-1]])) if tilts.size > 1 else tilts[[0, 0]]
    yield '<g shape-rendering="crispEdges">'
    for row, low, high in zip(shade, edges, edges[1:], strict=False):
        at = 0
        for band, run in groupby(row.tolist()):
            wide = len(list(run))
            yield (
                f'<rect x="{_LEFT + at * step * _WIDE / 360:.1f}" y="{_y(high):.1f}" '
                f'width="{wide * step * _WIDE / 360:.1f}" height="{_y(low) - _y(high):.1f}" fill="{_SHADES[band]}"/>'
            )
            at += wide
    yield "</g>"


def _axes(railing: float | None, middle: float) -> Iterator[str]:
    for tilt in range(0, 91, _TILT_TICK_DEG):
        yield _text(_LEFT - 8, _y(tilt) + 4, str(tilt if railing is None else 90 - tilt), anchor="end")
        yield f'<line x1="{_LEFT - 4}" x2="{_LEFT}" y1="{_y(tilt):.1f}" y2="{_y(tilt):.1f}" stroke="#333333"/>'
    for turn in range(-180, 181, _TURN_TICK_DEG):
        x = _x(turn)
        label = f"{turn:+d}" if railing is not None else f"{(middle + turn) % 360:.0f}"
        yield _text(x, _TOP + _HIGH + 18, label, anchor="middle")
        yield f'<line x1="{x:.1f}" x2="{x:.1f}" y1="{_TOP + _HIGH}" y2="{_TOP + _HIGH + 4}" stroke="#333333"/>'
    across = say("tilt", "map.azimuth" if railing is None else "map.turned")
    up = say("tilt", "map.tilt" if railing is None else "map.out")
    yield _text(_LEFT + _WIDE / 2, _TOP + _HIGH + 36, across, anchor="middle")
    turned = f"translate(18 {_TOP + _HIGH / 2}) rotate(-90)"
    yield f'<text transform="{turned}" text-anchor="middle" font-size="12" fill="#222222">{up}</text>'


def _dots(planes: Sequence[tuple[float, float]], middle: float) -> Iterator[str]:
    """The best plane of the map as a full dot, the set as it stands as a ring; by tilt and azimuth."""
    for (tilt, azimuth), fill in zip(planes, ("#ffffff", "none"), strict=True):
        turn = (azimuth - middle + 180.0) % 360.0 - 180.0
        yield (
            f'<circle cx="{_x(turn):.1f}" cy="{_y(tilt):.1f}" r="5" fill="{fill}" stroke="#d1495b" stroke-width="2"/>'
        )


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
