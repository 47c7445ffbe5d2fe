"""What did the caller leave open, and what was taken instead?"""

from service.core.completion.account import CompletedAccount, complete_account
from service.core.completion.as_request import as_request
from service.core.completion.candidates import INVERTER, PANEL, inverter_alone, moved_to, panel_alone
from service.core.completion.complete import Completed, Known, complete
from service.core.completion.defaults import default_rows
from service.core.completion.fill_set import KnownSets
from service.core.completion.fill_terms import KnownTerms
from service.core.completion.fill_weather import climate_of_given
from service.core.completion.lean import with_lean_told
from service.core.completion.mismatch import with_mismatch_again
from service.core.completion.moves import moves, unmoved
from service.core.completion.rows import Row
from service.core.completion.stands_square import with_facade_told
from service.core.completion.tables import DefaultTables
from service.core.completion.tariff_contradictions import contradictions_of_tariff

__all__ = [
    "INVERTER",
    "PANEL",
    "Completed",
    "CompletedAccount",
    "DefaultTables",
    "Known",
    "KnownSets",
    "KnownTerms",
    "Row",
    "as_request",
    "climate_of_given",
    "complete",
    "complete_account",
    "contradictions_of_tariff",
    "default_rows",
    "inverter_alone",
    "moved_to",
    "moves",
    "panel_alone",
    "unmoved",
    "with_facade_told",
    "with_lean_told",
    "with_mismatch_again",
]
