"""The road from a job to an audited plan."""

from .planning import USUAL_WORK, plan
from .resolving import job_sha256, resolved

__all__ = ["USUAL_WORK", "job_sha256", "plan", "resolved"]
