"""A field is spelled in the core, in the request and in the answer: none is ever dropped on the way."""

from dataclasses import fields
from typing import Any

import pytest
from pydantic import BaseModel

from service.api.says import SAYS
from service.api.schemas import (
    advice,
    array,
    assumption,
    circuit,
    energy,
    finding,
    household,
    inverter,
    local_rules,
    money,
    panel,
    payback,
    place,
    storage,
    use,
    what_if,
)
from service.core import appraisal as core_appraisal
from service.core import energy as core_energy
from service.core import payback as core_payback
from service.core import rules, worth
from service.core.model import assumption as core_assumption
from service.core.model import caution, facts
from service.core.model import finding as core_finding
from service.core.model import place as core_place
from service.core.model import storage as core_storage
from service.core.model.bounds import BOUNDS

# What a request spells otherwise, or spells in addition, with the reason.
_TURNED = {"voc_coefficient_v_per_k", "voc_coefficient_mv_per_k", "isc_coefficient_a_per_k", "isc_coefficient_ma_per_k"}

REQUESTS: list[tuple[type[BaseModel], Any, set[str], set[str]]] = [
    # when the sun was seen at the railing becomes the azimuth of planes
    (place.SiteIn, core_place.Site, {"sun_seen"}, set()),
    (array.PlaneIn, core_place.Plane, set(), set()),
    (array.SkylinePointIn, core_place.SkylinePoint, set(), set()),
    (array.OverhangIn, core_place.Overhang, set(), set()),
    (array.SideWallIn, core_place.SideWall, set(), set()),
    (array.HandRailIn, core_place.HandRail, set(), set()),
    (array.RowInFrontIn, core_place.RowInFront, set(), set()),
    (array.CoverIn, core_place.Cover, set(), set()),
    (array.ShadeIn, core_place.Shade, set(), set()),
    (array.ArrayIn, facts.Array, set(), set()),
    # a coefficient may be given in volts or amperes or thousandths of them too; completion turns it into per cent
    (panel.PanelIn, facts.Panel, _TURNED, set()),
    (inverter.InputIn, facts.Input, set(), set()),
    (inverter.InverterIn, facts.Inverter, set(), set()),
    (circuit.OtherSetIn, facts.OtherSet, set(), set()),
    (circuit.SocketCircuitIn, facts.SocketCircuit, set(), set()),
    (household.AtHomeIn, facts.AtHome, set(), set()),
    (household.MachineIn, facts.Machine, set(), set()),
    # own hours come inside "demand", with their kind and how many of them were gaps in a log
    (household.HouseholdIn, facts.Household, {"demand"}, {"values_w", "values_kind", "filled_share"}),
    (household.OtherGenerationIn, facts.OtherGeneration, set(), set()),
    (household.MeterIn, facts.Meter, set(), set()),
    (money.RateIn, facts.Rate, set(), set()),
    (money.HourlyPricesIn, facts.HourlyPrices, set(), set()),
    (money.TariffPeriodIn, facts.TariffPeriod, set(), set()),
    (money.TariffIn, facts.Tariff, set(), set()),
    (money.OutlayItemIn, facts.OutlayItem, set(), set()),
    (money.FetchingIn, facts.Fetching, set(), set()),
    (money.OutlayIn, facts.Outlay, set(), set()),
    (money.InverterSwapIn, facts.InverterSwap, set(), set()),
    (money.MoneyIn, facts.Money, set(), set()),
    (storage.StorageIn, core_storage.Storage, set(), set()),
]

# What an answer says in addition (sentences), and what it leaves in the core.
ANSWERS: list[tuple[type[BaseModel], Any, set[str], set[str]]] = [
    (finding.FindingOut, core_finding.Finding, {"text"}, set()),
    (finding.RemedyOut, core_finding.Remedy, {"text"}, set()),
    (energy.EnergyOut, core_energy.EnergyYear, {"hours", "weather", "what_if", "what_if_because"},
     {"ac_w", "dc_w", "before_export_limit", "other_light"}),
    (what_if.WhatIfOut, core_appraisal.WhatIf, {"text"}, {"verdict_told"}),
    (energy.ArrayYearOut, core_energy.ArrayYear, set(), {"little"}),  # told as the finding ``next_to_nothing``
    (energy.DayKindOut, core_energy.DayKind, set(), set()),
    (use.UseOut, worth.UseAtHome, {"habits"}, {"self_used_w", "cases", "meter"}),
    (use.HabitOut, worth.Habit, {"currency"}, set()),
    (use.OtherShareOut, worth.OtherShare, set(), set()),
    (payback.PaybackOut, worth.Worth,
     {"currency", "crossings", "rates_of_return", "co2", "co2_avoided_kg_per_year", "notes"},
     {"least_by_import_price", "netted_by", "cautious_gains", "cautious_more"}),
    (payback.OutlayPartsOut, core_payback.OutlayParts, set(), {"less", "more"}),
    (payback.SensitivityOut, worth.Sensitivity, {"text"}, set()),
    # whether it is sold then stands in the sentence
    (payback.BreakEvenOut, worth.BreakEven, {"text", "outlay"}, {"by_selling"}),
    (payback.YearFlowOut, worth.YearFlow, set(), set()),
    (payback.MovingOut, worth.Moving, set(), set()),
    (storage.UseBesideOut, worth.UseBeside, set(), set()),
    (storage.StoreYearOut, worth.StoreYear, set(), set()),
    (storage.StoragePaysOut, worth.StoragePays, set(), set()),
    (storage.StorageOut, worth.StorageBeside, {"pays", "outlay_to_pay", "told", "inputs", "settings_tried"}, {"tried"}),
    (assumption.AssumptionOut, core_assumption.Assumption, {"text", "moves", "moves_because"},
     {"less_share", "more_share"}),
    (advice.ReasonOut, core_appraisal.Reason, {"text"}, set()),
    (advice.ConditionOut, core_appraisal.Condition, {"text"}, set()),
    (advice.DecisionOut, core_appraisal.Decision, {"text"}, {"currency"}),
    (advice.OnceMetOut, core_appraisal.OnceMet, {"text"}, set()),
    (advice.StepOut, core_appraisal.Step, {"text"}, set()),
    (advice.CautionOut, caution.Caution, {"text"},
     {"rank", "always", "shown_if_open", "needs", "topic", "source", "status"}),
    (local_rules.RuleCardOut, rules.RuleCard, set(), set()),
    (local_rules.NotifyOut, rules.Notify, set(), set()),
    (local_rules.CardSourceOut, rules.CardSource, set(), set()),
    (local_rules.AcTierOut, rules.AcTier, set(), set()),
    (local_rules.PanelCapOut, rules.PanelCap, set(), set()),
    (local_rules.AdvisoryCapOut, rules.AdvisoryCap, set(), set()),
]  # fmt: skip


@pytest.mark.parametrize(
    ("model", "core", "more", "less"), REQUESTS + ANSWERS, ids=lambda one: getattr(one, "__name__", "")
)
def test_interface_and_core_have_the_same_fields(
    model: type[BaseModel], core: Any, more: set[str], less: set[str]
) -> None:
    assert set(model.model_fields) - more == {field.name for field in fields(core)} - less


def test_every_bounded_number_of_a_request_is_described() -> None:
    # fetching by the kilometre belongs to the ranking of adverts, which is not served yet
    assert set(BOUNDS) - set(SAYS) <= {"fetching_per_km"}
    assert set(SAYS) <= set(BOUNDS)


def test_every_example_lies_within_its_bounds() -> None:
    for name, says in SAYS.items():
        values = says.example if isinstance(says.example, list) else [says.example]
        for value in values:
            assert value is None or BOUNDS[name].low <= value <= BOUNDS[name].high, name
