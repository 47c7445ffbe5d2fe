"""Is this set worth buying for this home?"""

from service.core.appraisal.appraise import Appraisal, appraise
from service.core.appraisal.cautions import CautionTable, ChosenCautions, chosen_cautions
from service.core.appraisal.conditions import Condition
from service.core.appraisal.decided import Again, Decided, decided
from service.core.appraisal.decision import Choice, Decision, OnceMet, Reason, decide
from service.core.appraisal.mended import Mended, mended
from service.core.appraisal.over_the_year import told_over_the_year
from service.core.appraisal.remedies import priced_by_the_set_alone, priced_remedies, with_remedy
from service.core.appraisal.steps import MOMENTS, Step, door_voltage_v, steps_of
from service.core.appraisal.what_if import MOST_CHANGES, WhatIf, what_ifs

__all__ = [
    "MOMENTS",
    "MOST_CHANGES",
    "Again",
    "Appraisal",
    "CautionTable",
    "Choice",
    "ChosenCautions",
    "Condition",
    "Decided",
    "Decision",
    "Mended",
    "OnceMet",
    "Reason",
    "Step",
    "WhatIf",
    "appraise",
    "chosen_cautions",
    "decide",
    "decided",
    "door_voltage_v",
    "mended",
    "priced_by_the_set_alone",
    "priced_remedies",
    "steps_of",
    "told_over_the_year",
    "what_ifs",
    "with_remedy",
]
