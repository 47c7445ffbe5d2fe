"""How is an inverter written in a request?"""

from typing import Annotated

from pydantic import Field

from service.api import fields as f
from service.api.schemas.base import In


class InputIn(In):
    """The limits of one input. The two short-circuit limits mean different things: give the one that is printed."""

    max_input_voltage_v: f.MaxInputVoltageV | None = None
    tracking_min_v: f.TrackingMinV | None = None
    tracking_max_v: f.TrackingMaxV | None = None
    start_voltage_v: f.StartVoltageV | None = None
    max_current_a: f.MaxCurrentA | None = None
    max_short_circuit_current_a: f.MaxShortCircuitCurrentA | None = None
    max_panel_short_circuit_current_a: f.MaxPanelShortCircuitCurrentA | None = None
    max_panel_power_w: f.MaxPanelPowerW | None = None
    max_panel_power_kind: f.PanelPowerKind | None = Field(
        default=None, description="Is that panel power a maximum or a recommendation?"
    )
    max_input_power_w: f.MaxInputPowerW | None = None
    connector_pairs: f.ConnectorPairs | None = None


class InverterIn(In):
    """A small inverter with its inputs. Only its a.c. power must be there."""

    ac_power_w: f.AcPowerW
    set_limit_w: f.SetLimitW | None = None
    input_count: f.InputCount | None = None
    inputs: Annotated[list[InputIn], f.several("One entry for all inputs, or one for each.", 1, 8)] | None = None
    weighted_efficiency_share: f.WeightedEfficiencyShare | None = None
    efficiency_weighting: f.Weighting | None = Field(default=None, description="Which weights that efficiency has.")
    night_draw_w: f.NightDrawW | None = None
    seat: f.Seat | None = Field(default=None, description="Where the inverter sits.")
    certificates: Annotated[list[f.Certificate], f.several("Certificates at hand.", 0, 20)] | None = None
    export_limit_w: f.ExportLimitW | None = None
    grid_voltage_v: f.GridVoltageV | None = None
    connector_make: f.ConnectorMake | None = None
