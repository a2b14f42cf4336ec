"""The road from a job to an audited plan, and what can be said of a job before."""

from .checking import check
from .hints import hints
from .planning import USUAL_WORK, plan
from .resolving import job_sha256, resolved

__all__ = ["USUAL_WORK", "check", "hints", "job_sha256", "plan", "resolved"]
