"""What is proven of a cutting, whatever proved it."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Proven:
    """What is proven about a cutting: no plan is below ``cents``, or (``impossible``) there is no plan at all."""

    cents: int
    reason: str
    impossible: bool = False
