"""All files for the bench, by name."""

from nesting.drawing import draw_lengths, draw_sheet
from nesting.model import Plan, UsedLength, UsedSheet

from .cut_list import cut_list
from .joint_schedule import joint_schedule
from .page import page
from .shopping import shopping_list


def report_files(plan: Plan) -> dict[str, str]:
    """Return the text of each file by its name; the same plan gives the same texts."""
    sheets = {f"sheet-{used.id}.svg": draw_sheet(plan, used.id) for used in plan.used if isinstance(used, UsedSheet)}
    has_timber = any(isinstance(used, UsedLength) for used in plan.used)
    return {
        "index.html": page(plan),
        **sheets,
        **({"lengths.svg": draw_lengths(plan)} if has_timber else {}),
        "shopping-list.csv": shopping_list(plan),
        "cut-list.csv": cut_list(plan),
        "joint-schedule.csv": joint_schedule(plan),
    }
