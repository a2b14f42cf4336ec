"""How thoroughly hypothesis looks: HYPOTHESIS_PROFILE is quick, ci (the default) or deep."""

import os

from hypothesis import HealthCheck, settings

_SLOW = [HealthCheck.too_slow]

settings.register_profile(
    "quick", max_examples=15, derandomize=True, deadline=None, database=None, suppress_health_check=_SLOW
)
settings.register_profile(
    "ci", max_examples=60, derandomize=True, deadline=None, database=None, suppress_health_check=_SLOW
)
settings.register_profile("deep", max_examples=500, deadline=None, suppress_health_check=_SLOW)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "ci"))
