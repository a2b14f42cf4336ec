"""Tests, laid out as the rooms of the library."""
