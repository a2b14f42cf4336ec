"""How much room letters take, and figures as the bench reads them."""

import math
import unicodedata

from .canvas import Canvas, Point

#: Capitals are 0.73 of the size of a plain sans-serif font.
CAPITALS = 0.73

#: Mean width of a letter over the size of the font, on the wide side for common sans-serif fonts.
LETTER = 0.62


def font_size(height: float) -> float:
    """Return the font size that gives capitals of this height."""
    return height / CAPITALS


def width_of(words: str, height: float) -> float:
    """Return about how wide words are, in the unit of ``height``; rather too wide than too narrow."""
    if words.isascii():
        return len(words) * LETTER * font_size(height)
    ems = sum(1.0 if unicodedata.east_asian_width(letter) in "WF" else LETTER for letter in words)
    return ems * font_size(height)


def shortened(words: str, height: float, room: float) -> str:
    """Return the words, cut short with an ellipsis if they take more than ``room``."""
    if width_of(words, height) <= room:
        return words
    kept = words
    while kept and width_of(kept + "…", height) > room:
        kept = kept[:-1]
    return kept.rstrip() + "…"


def millimetres(value: float) -> str:
    """Return a length to a tenth, without a needless zero: what a tape and an eye can tell."""
    written = f"{value:.1f}".removesuffix(".0")
    return "0" if written == "-0" else written


def reading_angle(angle: float) -> float:
    """Return the angle, or its opposite, at which words read from the bottom or the right of the drawing."""
    return 90 - (90 - angle) % 180


def write_centred(canvas: Canvas, words: str, centre: Point, height: float, angle: float = 0.0) -> None:
    """Write words whose middle, across and along, is at ``centre``."""
    drop = height * canvas.scale / 2
    turn = math.radians(angle)
    at = (centre[0] + drop * math.sin(turn), centre[1] - drop * math.cos(turn))
    canvas.text(words, at, height, anchor="middle", angle=angle)
