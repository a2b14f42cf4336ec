"""Benchmarks: how good the plans are, and what they take."""
