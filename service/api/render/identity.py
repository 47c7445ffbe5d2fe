"""How does a panel's identity read on paper? Candidates first, then doubts, then what to read next; 72 columns."""

from collections.abc import Iterator
from math import ceil, floor

from service.api.render.lines import as_text, headed, wrapped
from service.api.schemas.panel_identity import CandidateOut, PanelIdentityOut, RangeOut
from service.api.words import say
from service.core.model.bounds import BOUNDS

MOST_SHOWN = 6
_LEAST_SURE_SHARE = 0.01


def identity_text(answer: PanelIdentityOut) -> bytes:
    """The whole answer, made of nothing but the answer."""
    identity = answer.identity
    shown = [one for one in identity.candidates[:MOST_SHOWN] if one.sureness_share >= _LEAST_SURE_SHARE]
    shown = shown or identity.candidates[:1]
    left = len(identity.candidates) - len(shown)
    return as_text(
        [
            *headed("Which panel it can be", (line for one in shown for line in _candidate(one)))[1:],
            *(wrapped(f"Less likely: {left} more.") if left else ()),
            *headed("What does not hang together", (line for d in identity.doubts for line in wrapped(d.text, "- "))),
            *headed("What to read next", (line for one in identity.read_next for line in wrapped(one.text, "- "))),
            "",
            *wrapped(
                f"As of {answer.as_of}. Sunsill {answer.service_version}, tables {answer.data_version}. A range is "
                "meant to hold 95 panels in a hundred; what is not read off the label stays not known."
            ),
        ]
    )


def _candidate(one: CandidateOut) -> Iterator[str]:
    yield from wrapped(f"{100 * one.sureness_share:.0f} % sure. {one.text}", "- ")
    for name, reach in one.ranges.items():
        yield from wrapped(_range(name, reach), "    ", "      ")


def _range(name: str, reach: RangeOut) -> str:
    """Ends are rounded outwards: a range on paper holds what the range of the answer holds."""
    unit, title = BOUNDS[name].unit, say("identity", f"name.{name}")
    if reach.low == reach.high:
        return f"{title}: {reach.likely:g} {unit}, as told"
    decimals = 2 if unit == "%/K" else 1
    low, high = floor(reach.low * 10**decimals) / 10**decimals, ceil(reach.high * 10**decimals) / 10**decimals
    return f"{title}: {low:.{decimals}f} to {high:.{decimals}f} {unit}"
