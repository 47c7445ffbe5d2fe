"""From energy to self-use to money, spelled once: what of the yield is used at home, and what is it all worth?"""

from service.core.worth.account import worth, worth_of_energy
from service.core.worth.bands import HomeCases
from service.core.worth.box import StoreYear
from service.core.worth.box_inputs import BOX_FINDINGS, on_box_inputs
from service.core.worth.carbon import co2_avoided_kg_per_year
from service.core.worth.export_limit import limited_export
from service.core.worth.feed import ChosenFeed, FeedSetting, chosen_feed, left_off
from service.core.worth.habits import Habit, habits
from service.core.worth.result import BreakEven, Moving, Worth, YearFlow
from service.core.worth.roof import other_generation_w
from service.core.worth.sensitivity import Sensitivity
from service.core.worth.so_far import SoFar, so_far
from service.core.worth.storage import StorageBeside, StoragePays, UseBeside, storage_beside
from service.core.worth.use import AtTheMeter, OtherShare, UseAtHome, use_at_home, with_band_of_use

__all__ = [
    "BOX_FINDINGS",
    "AtTheMeter",
    "BreakEven",
    "ChosenFeed",
    "FeedSetting",
    "Habit",
    "HomeCases",
    "Moving",
    "OtherShare",
    "Sensitivity",
    "SoFar",
    "StorageBeside",
    "StoragePays",
    "StoreYear",
    "UseAtHome",
    "UseBeside",
    "Worth",
    "YearFlow",
    "chosen_feed",
    "co2_avoided_kg_per_year",
    "habits",
    "left_off",
    "limited_export",
    "on_box_inputs",
    "other_generation_w",
    "so_far",
    "storage_beside",
    "use_at_home",
    "with_band_of_use",
    "worth",
    "worth_of_energy",
]
