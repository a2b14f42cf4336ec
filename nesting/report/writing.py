"""All files for the bench, by name."""

from nesting.model import Plan, UsedLength

from .bevels import bevel_schedule
from .blank_make_up import blank_make_up, blank_scarfs
from .consumables import consumables
from .cut_list import cut_list
from .drawings import drawing_files
from .gluing import glue_up_sheet, register_marks
from .joint_schedule import joint_schedule
from .long_planks import long_plank_sticks, long_planks
from .marking import marking_out, panel_offsets
from .page import page
from .shopping import shopping_list
from .timber_tally import timber_tally
from .weights import weights
from .workload import workload


def report_files(plan: Plan) -> dict[str, str]:
    """Return the text of each file by its name; the same plan gives the same texts."""
    return {
        "index.html": page(plan),
        **drawing_files(plan),
        **_blanks(plan),
        **_timber(plan),
        "shopping-list.csv": shopping_list(plan),
        "cut-list.csv": cut_list(plan),
        **_marking(plan),
        "joint-schedule.csv": joint_schedule(plan),
        **_gluing(plan),
        "consumables.csv": consumables(plan),
        "weights.csv": weights(plan),
        "workload.csv": workload(plan),
    }


def _timber(plan: Plan) -> dict[str, str]:
    """Return the tally of timber, if there is any."""
    if not any(isinstance(used, UsedLength) for used in plan.used):
        return {}
    return {"timber-tally.csv": timber_tally(plan), **_long_planks(plan)}


def _long_planks(plan: Plan) -> dict[str, str]:
    """Return the lists of long planks, if there are any."""
    if not plan.long_planks:
        return {}
    return {"long-planks.csv": long_planks(plan), "long-plank-sticks.csv": long_plank_sticks(plan)}


def _marking(plan: Plan) -> dict[str, str]:
    """Return the tables for marking out, if there are panels."""
    if not plan.job.panels:
        return {}
    return {"marking-out.csv": marking_out(plan), "panel-offsets.csv": panel_offsets(plan)}


def _gluing(plan: Plan) -> dict[str, str]:
    """Return what to bevel and how to glue, if anything is joined."""
    if not plan.joints and not plan.blanks:
        return {}
    return {
        "bevel-schedule.csv": bevel_schedule(plan),
        "glue-up.csv": glue_up_sheet(plan),
        "register-marks.csv": register_marks(plan),
    }


def _blanks(plan: Plan) -> dict[str, str]:
    """Return the lists of blanks, if there are any."""
    if not plan.blanks:
        return {}
    return {"blank-make-up.csv": blank_make_up(plan), "blank-scarfs.csv": blank_scarfs(plan)}
