"""Is this set worth buying for this home?"""

from service.core.appraisal.appraise import Appraisal, appraise
from service.core.appraisal.cautions import ChosenCautions, chosen_cautions
from service.core.appraisal.conditions import Condition
from service.core.appraisal.decision import Choice, Decision, Reason, decide
from service.core.appraisal.remedies import priced_remedies
from service.core.appraisal.steps import MOMENTS, Step, door_voltage_v, steps_of

__all__ = [
    "MOMENTS",
    "Appraisal",
    "Choice",
    "ChosenCautions",
    "Condition",
    "Decision",
    "Reason",
    "Step",
    "appraise",
    "chosen_cautions",
    "decide",
    "door_voltage_v",
    "priced_remedies",
    "steps_of",
]
