"""The drawings, which stand both in the page and in files of their own."""

from nesting.drawing import (
    containers,
    draw_blank,
    draw_lengths,
    draw_long_plank,
    draw_panel,
    draw_sheet,
    jointed_parts,
    lengths_by_drawing,
    once_for_a_plan,
    part_letters,
)
from nesting.model import Blank, Plan


@once_for_a_plan
def layouts(plan: Plan) -> dict[str, str]:
    """Return the SVG drawing of each blank, and of each sheet that goes into none, by its id."""
    return {on.id: (draw_blank if isinstance(on, Blank) else draw_sheet)(plan, on.id) for on in containers(plan)}


@once_for_a_plan
def timber(plan: Plan) -> dict[str, str]:
    """Return the SVG drawings of all lengths, a few together, by the id of the first."""
    return {ids[0]: draw_lengths(plan, ids) for ids in lengths_by_drawing(plan)}


@once_for_a_plan
def long_planks(plan: Plan) -> dict[str, str]:
    """Return the SVG drawing of each long plank by its id."""
    return {plank.id: draw_long_plank(plan, plank.id) for plank in plan.long_planks}


@once_for_a_plan
def whole_parts(plan: Plan) -> dict[str, str]:
    """Return the SVG drawing of each part that has joints, whole, by its name."""
    return {name: draw_panel(plan, name) for name in jointed_parts(plan)}


def drawing_files(plan: Plan) -> dict[str, str]:
    """Return all drawings by the names of their files."""
    letters = part_letters(plan)
    blanks = {blank.id for blank in plan.blanks}
    return {
        **{f"{'blank' if name in blanks else 'sheet'}-{name}.svg": svg for name, svg in layouts(plan).items()},
        **{f"timber-{name}.svg": svg for name, svg in timber(plan).items()},
        **{f"long-plank-{name}.svg": svg for name, svg in long_planks(plan).items()},
        **{f"part-{letters[name]}.svg": svg for name, svg in whole_parts(plan).items()},
    }
