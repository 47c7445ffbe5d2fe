"""How is the climate table made? Run ``python -m service.data.builders.climate`` with the extra ``tables``."""
