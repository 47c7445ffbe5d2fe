"""Two hypothesis profiles: ``quick`` for every run, ``thorough`` (HYPOTHESIS_PROFILE=thorough) before a release."""

import os

from hypothesis import HealthCheck, settings

settings.register_profile(
    "quick", max_examples=12, deadline=None, derandomize=True, suppress_health_check=[HealthCheck.too_slow]
)
settings.register_profile("thorough", max_examples=400, deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "quick"))
