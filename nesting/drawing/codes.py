"""Short codes for pieces and joints, used in every drawing and list."""

from nesting.model import PanelPiece, Plan, StrapPiece, StripPiece

from .remembering import once_for_a_plan

#: Without I and O, which pencil and poor light turn into 1 and 0, and without B, J, L and S, which name blanks,
#: joints, lengths and sheets.
LETTERS = "ACDEFGHKMNPQRTUVWXYZ"


@once_for_a_plan
def piece_codes(plan: Plan) -> dict[str, str]:
    """Return the code of each piece by its id, such as ``"A1"``: letters for the part, then a running number.

    Parts take their letters in the order of the job, panels before strips; pieces are counted copy by copy from the
    low stations. A strap is named after its butt, such as ``"J3 strap"``.
    """
    codes = _strap_codes(plan)
    for part, letters in part_letters(plan).items():
        whole = (piece for piece in plan.pieces if piece.part == part and not isinstance(piece, StrapPiece))
        of_part = sorted(whole, key=_order)
        codes |= {piece.id: f"{letters}{number}" for number, piece in enumerate(of_part, 1)}
    return codes


def part_letters(plan: Plan) -> dict[str, str]:
    """Return the letters of each part by its name, in the order of the job."""
    names = [panel.name for panel in plan.job.panels] + [strip.name for strip in plan.job.strips]
    return {name: _letters(index) for index, name in enumerate(names)}


@once_for_a_plan
def joint_codes(plan: Plan) -> dict[str, str]:
    """Return the code of each joint by its id, ``"J1"`` and so on in the order of the plan."""
    return {joint.id: f"J{number}" for number, joint in enumerate(plan.joints, 1)}


def _strap_codes(plan: Plan) -> dict[str, str]:
    joints = joint_codes(plan)
    return {piece.id: f"{joints[piece.joint]} strap" for piece in plan.pieces if isinstance(piece, StrapPiece)}


def _order(piece: PanelPiece | StripPiece) -> tuple[int, int, str]:
    return piece.copy_number, piece.index, piece.id


def _letters(index: int) -> str:
    """Return A to Z, then AA, AC and so on."""
    before, last = divmod(index, len(LETTERS))
    return (_letters(before - 1) if before else "") + LETTERS[last]
