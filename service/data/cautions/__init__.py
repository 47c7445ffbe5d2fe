"""What should people be warned of, and when? Cautions with their conditions; the sentences stand in api/words."""

from service.data.cautions.table import load_cautions

__all__ = ["load_cautions"]
