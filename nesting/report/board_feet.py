"""Timber in board feet, the measure in which it is sold by the foot: 144 cubic inches."""

#: Millimetres in an inch, and in a foot.
INCH, FOOT = 25.4, 304.8


def board_feet(width: float, thickness: float, length: float) -> float:
    """Return the true volume of a piece in board feet; measures are millimetres."""
    return (width / INCH) * (thickness / INCH) * (length / FOOT) / 12


def board_feet_as_sold(width: float, thickness: float, length: float) -> float:
    """Return board feet as merchants count them: stock under an inch thick counts as an inch.

    The rule stands in Danforth, "Mechanical Processes" (1910s): "under 1 in counts as 1 in".
    """
    return board_feet(width, max(thickness, INCH), length)
