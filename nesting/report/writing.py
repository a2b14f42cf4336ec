"""All files for the bench, by name."""

from nesting.drawing import containers, draw_blank, draw_lengths, draw_sheet
from nesting.model import Plan, UsedLength, UsedSheet

from .blank_make_up import blank_make_up, blank_scarfs
from .cut_list import cut_list
from .joint_schedule import joint_schedule
from .page import page
from .shopping import shopping_list


def report_files(plan: Plan) -> dict[str, str]:
    """Return the text of each file by its name; the same plan gives the same texts."""
    has_timber = any(isinstance(used, UsedLength) for used in plan.used)
    return {
        "index.html": page(plan),
        **_blanks(plan),
        **_sheets(plan),
        **({"lengths.svg": draw_lengths(plan)} if has_timber else {}),
        "shopping-list.csv": shopping_list(plan),
        "cut-list.csv": cut_list(plan),
        "joint-schedule.csv": joint_schedule(plan),
    }


def _blanks(plan: Plan) -> dict[str, str]:
    """Return the drawings and lists of blanks, if there are any."""
    if not plan.blanks:
        return {}
    drawings = {f"blank-{blank.id}.svg": draw_blank(plan, blank.id) for blank in plan.blanks}
    return {**drawings, "blank-make-up.csv": blank_make_up(plan), "blank-scarfs.csv": blank_scarfs(plan)}


def _sheets(plan: Plan) -> dict[str, str]:
    """Return the drawings of sheets from which pieces are cut."""
    sheets = (on for on in containers(plan) if isinstance(on, UsedSheet))
    return {f"sheet-{sheet.id}.svg": draw_sheet(plan, sheet.id) for sheet in sheets}
