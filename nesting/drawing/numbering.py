"""What drawings and labels are told apart by: the plan they are of, and their place among its sheets."""

from hashlib import sha256

from nesting.model import Plan, UsedLength

from .codes import part_letters
from .datum import containers
from .remembering import once_for_a_plan
from .whole_part import jointed_parts

#: As many lengths as a printed page shows without shrinking them.
LENGTHS_A_DRAWING = 3


@once_for_a_plan
def plan_mark(plan: Plan) -> str:
    """Return the first eight figures of the SHA-256 of ``plan.json``: any change of plan changes it."""
    return sha256(f"{plan.model_dump_json(indent=1)}\n".encode()).hexdigest()[:8]


def lengths_by_drawing(plan: Plan) -> tuple[tuple[str, ...], ...]:
    """Return the ids of all lengths, those together that are drawn together."""
    ids = [used.id for used in plan.used if isinstance(used, UsedLength)]
    return tuple(tuple(ids[first : first + LENGTHS_A_DRAWING]) for first in range(0, len(ids), LENGTHS_A_DRAWING))


def place_among(plan: Plan, name: str) -> str:
    """Return which of how many drawings one is, as ``2 of 6``: blanks, sheets, timber by its first length, long planks,
    parts.
    """
    places = _places(plan)
    return f"{places[name]} of {len(places)}" if name in places else ""


@once_for_a_plan
def _places(plan: Plan) -> dict[str, int]:
    letters = part_letters(plan)
    names = [on.id for on in containers(plan)]
    names += [ids[0] for ids in lengths_by_drawing(plan)]
    names += [plank.id for plank in plan.long_planks]
    names += [letters[part] for part in jointed_parts(plan)]
    return {name: number for number, name in enumerate(names, 1)}
