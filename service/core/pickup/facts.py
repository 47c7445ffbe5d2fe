"""What is known at the seller's door: the panel, the light, the temperature, the multimeter, and what it read?"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from types import MappingProxyType

from service.core.model.finding import Fact


class Seen(StrEnum):
    """What a reading says."""

    AS_EXPECTED = "as_expected"
    SUSPICIOUS = "suspicious"
    CANNOT_TELL = "cannot_tell"


@dataclass(frozen=True, slots=True, kw_only=True)
class Between:
    """A figure that is not known exactly: the least and most that about 95 % of cases lie between, and the likely one.

    Raises:
        ValueError: the three are out of order.
    """

    low: float
    likely: float
    high: float

    def __post_init__(self) -> None:
        """Refuse ends in the wrong order; NaN is in no order."""
        if not self.low <= self.likely <= self.high:
            message = f"not in order: {self.low}, {self.likely}, {self.high}"
            raise ValueError(message)

    @classmethod
    def exactly(cls, value: float) -> "Between":
        """A figure without a range."""
        return cls(low=value, likely=value, high=value)

    def holds(self, value: float) -> bool:
        """Does a value lie between the ends?"""
        return self.low <= value <= self.high


@dataclass(frozen=True, slots=True, kw_only=True)
class Ratings:
    """The panel as far as the readings hang on it.

    ``voltage_known``, ``current_known``: read off the label; where False, the range reaches over all that the panel can
    be. ``doubt``: why the figures that were read do not hang together, None where they do. No reading is ever as
    expected by a rating that is unknown or doubtful. ``age_years``: low is the age given. ``sections``: the groups of
    cells, each with a bypass diode of its own; low is 0 where there may be none. ``rear_share``: what light on the rear
    may add to the current at most. ``cells_known``: were they counted, or are they taken of the power?
    """

    open_circuit_voltage_v: Between
    short_circuit_current_a: Between
    voc_coefficient_pct_per_k: Between
    isc_coefficient_pct_per_k: Between
    cells_in_series: Between
    sections: Between
    age_years: Between
    area_m2: Between
    voltage_known: bool
    current_known: bool
    connector: str
    doubt: str | None = None
    rear_share: float = 0.0
    cells_known: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Light:
    """Light on the panel, in W/m2, and how it is known: measured, sky, current, indoors, not_known.

    ``askew_w_per_m2``: the least where the panel may not have been turned to the sun; None where its plane is known.
    """

    w_per_m2: Between
    origin: str
    askew_w_per_m2: float | None = None

    @property
    def guessed(self) -> bool:
        """Is it too rough to accuse a whole lot by: a guess from the sky, or measured no better than 20 %?"""
        if self.origin != "measured":
            return True
        return self.w_per_m2.high - self.w_per_m2.low > 0.4 * self.w_per_m2.likely


@dataclass(frozen=True, slots=True, kw_only=True)
class Multimeter:
    """What the meter bears: amperes of its fused current input, volts. ``clamps_dc``: a d.c. clamp is at hand."""

    current_limit_a: float
    voltage_limit_v: float
    clamps_dc: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Door:
    """The conditions of all readings of one visit."""

    ratings: Ratings
    light: Light
    cell_c: Between
    multimeter: Multimeter


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelReading:
    """What was read on one panel at one moment; None where it was not.

    Volts and amperes are as the meter shows them. ``wetted``: were frame and back wet during the readings to the frame?
    ``bypass_forward_v``: the diode test of the dark panel, red on the minus lead; ``bypass_over_range``: it showed no
    value. ``bypass_swapped_v`` and ``bypass_swapped_over_range``: the same with red on the plus lead. ``back_state``:
    sound, chalky, cracked, burnt; ``glass_state``: sound, cracked. ``shaded``: a shadow lay on the panel.
    """

    panel: str
    open_circuit_voltage_v: float | None = None
    short_circuit_current_a: float | None = None
    plus_to_frame_v: float | None = None
    frame_to_minus_v: float | None = None
    wetted: bool = False
    meter_input_mohm: Between = field(default_factory=lambda: Between(low=1.0, likely=10.0, high=11.0))
    bypass_forward_v: float | None = None
    bypass_over_range: bool = False
    bypass_swapped_v: float | None = None
    bypass_swapped_over_range: bool = False
    back_state: str | None = None
    glass_state: str | None = None
    shaded: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Cause:
    """A likely cause, or what keeps from telling; ``facts`` fill the sentence."""

    code: str
    facts: Mapping[str, Fact] = field(default_factory=lambda: MappingProxyType({}))


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantity:
    """One thing that was read, and what it says; between ``low`` and ``high`` it was expected, None where unknown.

    ``leak_mohm``: insulation to the frame that the volts tell, at least, in megohms, beside the least that there should
    be, ``least_mohm``; None for all else.
    """

    what: str
    verdict: Seen
    measured: float | None = None
    low: float | None = None
    high: float | None = None
    unit: str = ""
    causes: tuple[Cause, ...] = ()
    leak_mohm: float | None = None
    least_mohm: float | None = None


def cause(code: str, **facts: Fact) -> Cause:
    """A cause with its facts."""
    return Cause(code=code, facts=MappingProxyType(facts))
