"""How a panel that is cut from a blank lies across its scarfs."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Crossing:
    """A panel across scarfs of one kind, ``least`` of them at the least.

    Attributes
    ----------
    kind : int
        Place among the kinds of scarf.
    least : int
    at_scarf : float
        The least that it takes up of any scarf that it crosses, a gap included, in millimetres.
    between : float
        The least that it takes up, halfway, of the sheet between any two of them; nought if it need not cross two.
    """

    kind: int
    least: int
    at_scarf: float
    between: float
