"""How is it asked what a multimeter must read at the seller's door, and how answered?"""

from typing import Annotated, Any

from pydantic import ConfigDict, Field

from service.api import fields as f
from service.api.schemas import rounding as r
from service.api.schemas.advice import CautionOut
from service.api.schemas.array import PlaneIn
from service.api.schemas.assumption import AssumptionOut
from service.api.schemas.base import Code, Facts, In, Out, Text
from service.api.schemas.contradictions import of_panel
from service.api.schemas.guide import guide_of
from service.api.schemas.mistakes import NOTHING, Found, Mistake
from service.api.schemas.panel import PanelIn
from service.api.schemas.place import SiteIn
from service.api.words import say
from service.core.pickup import Between, Cause, Light, PanelSeen, Quantity, Seen, Told, WorthNow, stand_in_power_w

MOST_READINGS = 100

PANEL = {"open_circuit_voltage_v": 40.6, "short_circuit_current_a": 9.85, "cells_in_series": 60}
EXAMPLE: dict[str, Any] = {
    "panel": PANEL,
    "conditions": {"irradiance_w_per_m2": 650, "cell_c": 35},
    "readings": [{"panel": "a", "open_circuit_voltage_v": 38.3, "short_circuit_current_a": 6.1}],
}
_NO_VALUE_BESIDE = (
    ("bypass_over_range", "bypass_forward_v"),
    ("bypass_swapped_over_range", "bypass_swapped_v"),
)
# Facts by which one thing is said in several ways; where a sentence has no such way, the plain one is said.
_VARIANTS = ("doubt", "quantity", "among", "lot", "less_light", "otherwise", "heat", "over", "scale", "beside")


class DoorPanelIn(PanelIn):
    """The panel at the door; its rated power, or one of its outer figures, must be there."""

    rated_power_w: f.RatedPowerW | None = None  # type: ignore[assignment]


class ConditionsIn(In):
    """Light and temperature: a measured irradiance, or place, time and how the sky looks."""

    irradiance_w_per_m2: f.IrradianceWPerM2 | None = None
    irradiance_uncertainty_share: f.IrradianceUncertaintyShare | None = None
    cell_c: f.CellC | None = None
    air_c: f.AirC | None = None
    site: SiteIn | None = None
    time: f.Instant | None = None
    sky: f.Sky | None = Field(
        default=None,
        description="How the sky looks: cloudless, the sun through thin cloud, no sun to be seen. `indoors` counts "
        "before all else.",
    )
    plane: PlaneIn | None = Field(
        default=None, description="How the panel stands; not said, it is turned square to the sun by hand."
    )


class MultimeterIn(In):
    """What the meter bears."""

    current_limit_a: f.CurrentLimitA | None = None
    voltage_limit_v: f.VoltageLimitV | None = None
    clamps_dc: f.Yes | None = Field(default=None, description="Is a clamp for direct current at hand?")


class DoorReadingIn(In):
    """What was read on one panel; several readings of one panel are joined by its name."""

    panel: Annotated[str, f.text("Your name for the panel.", "a", 40)] | None = None
    open_circuit_voltage_v: f.OpenCircuitVoltageReadV | None = None
    short_circuit_current_a: f.ShortCircuitCurrentReadA | None = None
    plus_to_frame_v: f.PlusToFrameV | None = None
    frame_to_minus_v: f.FrameToMinusV | None = None
    wetted: f.Yes | None = Field(default=None, description="Were frame and back wet while the frame was read?")
    meter_input_mohm: f.MeterInputMohm | None = None
    bypass_forward_v: f.BypassForwardV | None = None
    bypass_over_range: f.Yes | None = Field(
        default=None, description="Did the diode test of the dark panel show no value at all, red on minus?"
    )
    bypass_swapped_v: f.BypassSwappedV | None = None
    bypass_swapped_over_range: f.Yes | None = Field(
        default=None, description="Did the diode test show no value with the leads swapped, red on plus, as it should?"
    )
    back_state: f.BackState | None = Field(default=None, description="How the back looks.")
    glass_state: f.GlassState | None = Field(default=None, description="How the glass looks.")
    shaded: f.Yes | None = Field(default=None, description="Did a shadow lie on the panel while it was read?")


class PickupCheckIn(In):
    """What must my multimeter read at the door? The panel, the conditions, the meter, and what was read if anything."""

    model_config = ConfigDict(json_schema_extra={"examples": [EXAMPLE]})

    panel: DoorPanelIn
    conditions: ConditionsIn | None = None
    multimeter: MultimeterIn | None = None
    readings: Annotated[list[DoorReadingIn], f.several("What was read.", 0, MOST_READINGS)] | None = None
    as_of: f.AsOf | None = None

    def contradict(self, found: Found) -> None:
        """How large the panel is and how it stands must be known; a test shows a value or none."""
        if stand_in_power_w(self.panel.given()) is None and self.panel.rated_power_w is None:
            problem, guide = say("problems", "mistake.missing.pickup"), guide_of(PickupCheckIn)
            place = ("panel", "rated_power_w")
            found.mistakes.append(
                Mistake(
                    code="missing", pointer="/panel/rated_power_w", problem=problem, accepted=guide.accepted(place),
                    example=guide.example(place),
                )
            )  # fmt: skip
        plane = self.conditions.plane if self.conditions else None
        for name in ("tilt_deg", "azimuth_deg") if plane else ():
            if getattr(plane, name) is None:
                problem, of_plane = say("problems", "mistake.missing.pickup_plane"), ("conditions", "plane", name)
                guide, pointer = guide_of(PickupCheckIn), f"/conditions/plane/{name}"
                accepted, example = guide.accepted(of_plane), guide.example(of_plane)
                found.mistakes.append(
                    Mistake(code="missing", pointer=pointer, problem=problem, accepted=accepted, example=example)
                )
        for number, reading in enumerate(self.readings or ()):
            for none, value in _NO_VALUE_BESIDE:
                if getattr(reading, none) and getattr(reading, value) is not None:
                    accepted = say("problems", "accepted.alone", {"beside": value})
                    found.contradiction(f"/readings/{number}/{none}", True, "value_and_none", accepted, NOTHING)
        of_panel(self.panel, "/panel", found)


class BetweenOut(Out):
    """A figure with the range that about 95 in a hundred sound panels lie in."""

    low: r.Figure
    likely: r.Figure
    high: r.Figure

    @classmethod
    def of(cls, between: Between | None) -> "BetweenOut | None":
        """Null where there is none."""
        return None if between is None else cls.from_core(between)


class ExpectedOut(Out):
    """What a sound panel reads now; null where there is no daylight to read by."""

    open_circuit_voltage_v: BetweenOut | None
    short_circuit_current_a: BetweenOut | None


class LightOut(Out):
    """The light that was reckoned with."""

    w_per_m2: BetweenOut
    origin: Code
    text: Text

    @classmethod
    def of(cls, light: Light) -> "LightOut":
        """With its sentence."""
        return cls.from_core(light, text=say("pickup", f"light.{light.origin}"))


class SaidOut(Out):
    """A thing said, with the figures that it is made of."""

    code: Code
    facts: Facts
    text: Text

    @classmethod
    def of(cls, told: Cause | Told, kind: str) -> "SaidOut":
        """With its sentence."""
        variant = f".{told.facts.get('lost')}_of_{told.facts.get('sections')}" if "lost" in told.facts else ""
        variant += "".join(f".{told.facts[name]}" for name in _VARIANTS if name in told.facts)
        text = say("pickup", f"{kind}.{told.code}{variant}", told.facts)
        return cls(code=told.code, facts=dict(told.facts), text=text)


class QuantityOut(Out):
    """One thing that was read or seen, beside what was to be expected."""

    what: Code
    verdict: Seen
    measured: r.Figure | None
    low: r.Figure | None
    high: r.Figure | None
    unit: str = Field(max_length=10)
    causes: list[SaidOut] = Field(max_length=20)
    leak_mohm: r.Figure | None = Field(
        description="Insulation from the cells to the frame, in megohms, at least, by the volts and the meter's input "
        "resistance; null for all else."
    )
    least_mohm: r.Figure | None = Field(
        description="The least that a panel of this size should have: 40 megohms times square metres."
    )

    @classmethod
    def of(cls, one: Quantity) -> "QuantityOut":
        """With its sentences."""
        return cls.from_core(one, causes=[SaidOut.of(cause, "cause") for cause in one.causes])


class WorthReasonOut(Out):
    """Why a panel is worth that share."""

    code: Code
    text: Text


class PanelSeenOut(Out):
    """What is said of one panel."""

    panel: str = Field(max_length=40)
    verdict: Seen
    text: Text
    worth_now_share: r.Share | None = Field(
        description="Of the price of a sound panel of its age, at most, to haggle by; null where nobody can say. Volts "
        "and amperes do not show all of its power: see `worth_now_least_share` and `not_seen`."
    )
    worth_now_least_share: r.Share | None = Field(
        description="The same at least, should everything be broken that what was read cannot show; null where nobody "
        "can say."
    )
    worth_because: WorthReasonOut
    beside_the_lot: dict[str, str] = Field(
        description="By quantity, how it stands against the other panels: alone, agrees, low, high, scattered (nobody "
        "can say which are sound), outdone (alike with most, while better ones come nearer to what is expected: nobody "
        "can say whether most lack the same or those are strangers), not_compared (too little light), silent (none of "
        "them gives any)."
    )
    causes: list[SaidOut] = Field(max_length=50, description="What speaks against it first, then what is open.")
    not_seen: list[SaidOut] = Field(max_length=10, description="What its readings cannot show, and what would show it.")
    quantities: list[QuantityOut] = Field(max_length=1000)

    @classmethod
    def of(cls, seen: PanelSeen) -> "PanelSeenOut":
        """With its sentences."""
        passed = seen.verdict is Seen.AS_EXPECTED
        return cls(
            panel=seen.panel,
            verdict=seen.verdict,
            text=say("pickup", f"verdict.{seen.verdict}{'.not_all' if passed and seen.not_seen else ''}"),
            worth_now_share=seen.worth.share,
            worth_now_least_share=seen.worth.least,
            worth_because=_because(seen.worth),
            beside_the_lot=dict(seen.lot),
            causes=[SaidOut.of(cause, "cause") for cause in seen.causes[:50]],
            not_seen=[SaidOut.of(one, "not_seen") for one in seen.not_seen],
            quantities=[QuantityOut.of(one) for one in seen.quantities],
        )


def _because(worth: WorthNow) -> WorthReasonOut:
    return WorthReasonOut(code=worth.because, text=say("pickup", f"worth.{worth.because}"))


class AskOut(Out):
    """When and where to ask for a reading that proves something; ends are null where no place was told."""

    code: Code
    from_time: str | None = Field(max_length=40)
    to_time: str | None = Field(max_length=40)
    text: Text


class PickupOut(Out):
    """What to expect, what was seen, how to measure, what to look at."""

    verdict: Seen | None = Field(description="The worst of all panels; null where nothing was read.")
    expected: ExpectedOut
    light: LightOut
    cell_c: BetweenOut
    results: list[PanelSeenOut] = Field(max_length=MOST_READINGS)
    how: list[SaidOut] = Field(max_length=20, description="How to measure without harm, in this order.")
    look_at: list[SaidOut] = Field(max_length=20)
    remarks: list[SaidOut] = Field(
        max_length=20, description="What was told and contradicts itself, or what nothing came of."
    )
    ask_for: AskOut | None = Field(description="Null where the light now will do.")


class _Pickup(Out):
    pickup: PickupOut


class PickupCheckOut(_Pickup):
    """What must my multimeter read at the door?"""

    cautions: list[CautionOut] = Field(max_length=100)
    cautions_kept_back: dict[str, int] = Field(description="By step: how many more there would be.")
    assumptions: list[AssumptionOut] = Field(max_length=100)
    as_of: str = Field(description="The day from which the age was counted.", max_length=10)
    service_version: str = Field(max_length=30)
    data_version: str = Field(max_length=30)
