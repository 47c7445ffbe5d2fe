"""How much does each quantity of a log speak for each cause?"""

from service.data.log_causes.table import load_cause_weights

__all__ = ["load_cause_weights"]
