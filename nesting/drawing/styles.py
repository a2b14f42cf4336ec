"""Kinds of line, lettering and tints, all in millimetres on paper.

Line kinds and their dashes follow ISO 128-2: narrow 0.25 and wide 0.5, dashes 12, long dashes 24, short ones 6,
gaps 3 times the width (from memory). Colours are of the Okabe-Ito set, told apart by people who see colours
differently; they only ever repeat what a line kind or a word already says, so that a grey print loses nothing.
"""

from dataclasses import dataclass

NARROW = 0.25
WIDE = 0.5

BLACK = "#000000"
GREY = "#595959"
VERMILLION = "#D55E00"
BLUISH_GREEN = "#009E73"


@dataclass(frozen=True, kw_only=True)
class Line:
    """How a line is drawn; ``dashes`` alternates marks and gaps, empty for a continuous line."""

    kind: str
    width: float
    dashes: tuple[float, ...] = ()
    colour: str = BLACK


def _dashed(width: float) -> tuple[float, ...]:
    return (12 * width, 3 * width)


def _long_dashed(width: float, dots: int) -> tuple[float, ...]:
    return (24 * width, 3 * width, *(0.5 * width, 3 * width) * dots)


def _long_and_short(width: float) -> tuple[float, ...]:
    return (24 * width, 3 * width, 6 * width, 3 * width)


CUT = Line(kind="cut", width=WIDE)
ALLOWED = Line(kind="allowance", width=NARROW)
EDGE = Line(kind="edge", width=WIDE)
TRIM = Line(kind="trim", width=NARROW, dashes=_long_dashed(NARROW, 2), colour=GREY)
DIMENSION = Line(kind="dimension", width=NARROW)
ARROW = Line(kind="arrow", width=NARROW)
HATCH = Line(kind="hatch", width=NARROW, colour=GREY)
HIDDEN = Line(kind="hidden", width=NARROW, dashes=_dashed(NARROW))
BEVEL = Line(kind="bevel", width=NARROW)
STATION = Line(kind="station", width=NARROW, dashes=_long_dashed(NARROW, 1))
#: Drawn from either edge for so many millimetres on paper, so that it is not taken for a cut.
TICK = 3.0
REGISTER = Line(kind="register", width=WIDE)
FEATHER = Line(kind="feather", width=WIDE, dashes=_dashed(WIDE))
#: Laid under a feather line, so that its dashes show on the cut line it falls on.
CLEARED = Line(kind="cleared", width=1.4 * WIDE, colour="#FFFFFF")
FAULT = Line(kind="fault", width=WIDE, colour=VERMILLION)
FAULT_HATCH = Line(kind="fault-hatch", width=NARROW, colour=VERMILLION)
ZONE = Line(kind="zone", width=NARROW, dashes=_long_dashed(NARROW, 2), colour=VERMILLION)
KEEP = Line(kind="keep", width=NARROW, dashes=_long_and_short(NARROW), colour=BLUISH_GREEN)

#: Light tints of vermillion, bluish green and sky blue; each piece also names its hand.
TINTS = {"port": "#FBE9DD", "starboard": "#DFF2EC", "": "#E6F3FB"}

#: Heights of capitals (ISO 3098 series).
SMALL, MIDDLE, LARGE = 2.5, 3.5, 5.0
