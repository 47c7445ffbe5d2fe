"""What is wrong with a set, by its own log: named evidence for each cause, weighed."""

from service.core.logbook.diagnosis.diagnose import Diagnosis, Suspect, suspects
from service.core.logbook.diagnosis.evidence import Evidence, evidence_of
from service.core.logbook.diagnosis.input_apart import BESIDE_ANOTHER, may_have_alone
from service.core.logbook.diagnosis.input_silent import SilentInput, silent_inputs
from service.core.logbook.diagnosis.input_weak import SharedDays, WeakInput, all_compared, weak_inputs
from service.core.logbook.diagnosis.lower_limit import clipped_steps
from service.core.logbook.diagnosis.plane_fit import PlaneFit
from service.core.logbook.diagnosis.set_model import turned_planes

__all__ = [
    "BESIDE_ANOTHER",
    "Diagnosis",
    "Evidence",
    "PlaneFit",
    "SharedDays",
    "SilentInput",
    "Suspect",
    "WeakInput",
    "all_compared",
    "clipped_steps",
    "evidence_of",
    "may_have_alone",
    "silent_inputs",
    "suspects",
    "turned_planes",
    "weak_inputs",
]
