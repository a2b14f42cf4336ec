"""What drawings and labels are told apart by: the plan they are of, and their place among its sheets."""

from hashlib import sha256

from nesting.model import Plan, StripPiece

from .datum import containers


def plan_mark(plan: Plan) -> str:
    """Return eight figures that change with the job, the search, and where any piece lies."""
    lines = [f"{plan.job_sha256} {plan.seed} {plan.work}"]
    for piece in plan.pieces:
        place = (piece.start, piece.end) if isinstance(piece, StripPiece) else (piece.x, piece.y, piece.angle)
        lines.append(f"{piece.id} {piece.on} {place}")
    return sha256("\n".join(lines).encode()).hexdigest()[:8]


def place_among(plan: Plan, name: str) -> str:
    """Return which of how many blanks and sheets one is, as ``2 of 6``, in the order in which they are drawn."""
    names = [on.id for on in containers(plan)]
    return f"{names.index(name) + 1} of {len(names)}" if name in names else ""
