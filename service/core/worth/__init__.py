"""From energy to self-use to money, spelled once: what of the yield is used at home, and what is it all worth?"""

from service.core.worth.account import Moving, Worth, YearFlow, worth, worth_of_energy
from service.core.worth.bands import HomeCases
from service.core.worth.export_limit import limited_export
from service.core.worth.use import UseAtHome, use_at_home

__all__ = [
    "HomeCases",
    "Moving",
    "UseAtHome",
    "Worth",
    "YearFlow",
    "limited_export",
    "use_at_home",
    "worth",
    "worth_of_energy",
]
