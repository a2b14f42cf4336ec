"""Lengths as people write them, turned into millimetres."""

import re
from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from fractions import Fraction

#: Millimetres in each unit of length; the inch by the international agreement of 1959, exactly.
UNITS = {"mm": Fraction(1), "cm": Fraction(10), "m": Fraction(1000), "in": Fraction(254, 10), "ft": Fraction(3048, 10)}

_FIGURE = r"[0-9]+(?:\.[0-9]*)?|\.[0-9]+"
_MIXED = rf"(?:(?:{_FIGURE})(?:[ -][0-9]+/[0-9]+)?|[0-9]+/[0-9]+)"
_METRIC = re.compile(rf"(?P<figure>{_FIGURE})\s*(?P<unit>mm|cm|m)")
_FEET_AND_INCHES = re.compile(
    rf"""(?:(?P<feet>{_MIXED})\s*(?:'|′|ft)\s*(?:(?P<rest>{_MIXED})\s*(?:"|″|''|in)?)?)"""
    rf"""|(?:(?P<inches>{_MIXED})\s*(?:"|″|''|in))"""
)
_BARE = re.compile(rf"(?P<figure>{_MIXED})")

_unit: ContextVar[Fraction] = ContextVar("unit", default=UNITS["mm"])


@contextmanager
def figures_in(unit: str) -> Iterator[None]:
    """Take bare figures to be in this unit (a key of ``UNITS``) while the block runs."""
    token = _unit.set(UNITS[unit])
    try:
        yield
    finally:
        _unit.reset(token)


def scaled(figure: float) -> float:
    """Return a bare figure, in the unit that holds now, in millimetres."""
    unit = _unit.get()
    return float(figure) if unit == 1 else float(figure) * unit.numerator / unit.denominator


def millimetres(text: str) -> float:
    """Return a length written as a text, such as ``7' 6 1/2"``, ``2440 mm``, ``1.5 m`` or ``3/4``.

    Without a unit the text is a figure in the unit that holds now.

    Raises
    ------
    ValueError
        If it is no length.
    """
    words = text.strip()
    sign, words = (-1, words[1:].lstrip()) if words.startswith("-") else (1, words)
    if match := _METRIC.fullmatch(words):
        return float(sign * Fraction(match["figure"]) * UNITS[match["unit"]])
    if match := _BARE.fullmatch(words):
        return float(sign * _mixed(match["figure"]) * _unit.get())
    match = _FEET_AND_INCHES.fullmatch(words)
    if match is None:
        raise ValueError("""must be a length such as 2440, "2440 mm", "1.5 m" or "7' 6 1/2\\"\"""")
    feet, inches = _mixed(match["feet"] or "0"), _mixed(match["rest"] or match["inches"] or "0")
    return float(sign * (feet * UNITS["ft"] + inches * UNITS["in"]))


def _mixed(text: str) -> Fraction:
    """Return a whole or decimal figure, a fraction, or a figure and a fraction such as ``6 1/2``."""
    try:
        return sum((Fraction(part.rstrip(".") or "0") for part in re.split(r"[ -]", text)), Fraction(0))
    except ZeroDivisionError:
        raise ValueError("has a fraction of nothing: its lower figure is 0") from None
