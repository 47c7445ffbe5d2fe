"""Is this set worth buying for this home?"""

from service.core.appraisal.cautions import ChosenCautions, chosen_cautions

__all__ = ["ChosenCautions", "chosen_cautions"]
