"""The drawings that stand both in the page and in files of their own."""

from nesting.drawing import containers, draw_blank, draw_sheet, once_for_a_plan
from nesting.model import Blank, Plan


@once_for_a_plan
def drawings(plan: Plan) -> dict[str, str]:
    """Return the SVG drawing of each blank, and of each sheet that goes into none, by its id."""
    return {on.id: (draw_blank if isinstance(on, Blank) else draw_sheet)(plan, on.id) for on in containers(plan)}
