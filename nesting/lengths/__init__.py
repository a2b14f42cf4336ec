"""Timber: which lengths to use, and where each cut and scarf goes, with its own proven bound."""

from .planning import plan_lengths

__all__ = ["plan_lengths"]
