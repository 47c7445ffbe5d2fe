"""How is the socket circuit written in a request?"""

from typing import Annotated

from pydantic import Field

from service.api import fields as f
from service.api.schemas.base import In
from service.core.compatibility.conductors import METHODS

_LAYING = "How the cable lies; behind each word the reference method of IEC 60364-5-52 that is read: " + ", ".join(
    f"{word} {letter}" for word, letter in METHODS.items()
)


class OtherSetIn(In):
    """Another plug-in set behind the same meter."""

    ac_power_w: f.AcPowerW
    panel_power_w: f.PanelPowerW | None = None
    same_circuit: f.Yes | None = Field(default=None, description="Is it on the same circuit?")


class SocketCircuitIn(In):
    """The final circuit of the home and the lead to it; what is not described is not looked at."""

    plug: f.Plug | None = Field(default=None, description="How the set is connected.")
    breaker_a: f.BreakerA | None = None
    voltage_v: f.VoltageV | None = None
    cable_mm2: f.CableMm2 | None = None
    laying: f.Laying | None = Field(default=None, description=_LAYING)
    ambient_c: f.AmbientC | None = None
    dedicated: f.Yes | None = Field(default=None, description="Is nothing else on this circuit?")
    shared_neutral: f.Yes | None = Field(
        default=None, description="Does another circuit of another phase or leg return through this one's neutral?"
    )
    residual_current_device: f.ResidualCurrentDevice | None = Field(
        default=None, description="The residual-current device of the circuit."
    )
    lead_length_m: f.LeadLengthM | None = None
    lead_mm2: f.LeadMm2 | None = None
    feeder_length_m: f.FeederLengthM | None = None
    indoors: f.Yes | None = Field(default=None, description="Is the socket indoors?")
    lead_route: f.LeadRoute | None = Field(default=None, description="How the lead reaches the socket.")
    other_sets: Annotated[list[OtherSetIn], f.several("Other sets behind the same meter.", 0, 8)] | None = None
