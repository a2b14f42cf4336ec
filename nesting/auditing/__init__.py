"""Checks a plan against its job with plane geometry and arithmetic alone, and trusts no figure of the plan."""

from .checking import audit
from .findings import Code, Finding

__all__ = ["Code", "Finding", "audit"]
