"""Draws the plans made by hand."""

import re
from pathlib import Path

from good_blank_plan import blank_plan
from good_butt_plan import butt_plan
from sample_plan import sample_plan

from nesting.drawing import draw_blank, draw_lengths, draw_panel, draw_sheet, jointed_parts, plan_mark
from nesting.model import Plan

#: Where the drawings are kept.
GOLDEN = Path(__file__).parent / "golden"


def drawings() -> dict[str, str]:
    """Return each drawing by the name of its file."""
    divided, blank, butt = with_habits(sample_plan()), blank_plan(), butt_plan()
    drawn = {
        "divided-S1.svg": draw_sheet(divided, "S1"),
        "divided-S2.svg": draw_sheet(divided, "S2"),
        "divided-lengths.svg": draw_lengths(divided, ["L1", "L2", "L3", "L4"]),
        **{f"divided-part-{n}.svg": draw_panel(divided, part) for n, part in enumerate(jointed_parts(divided), 1)},
        "butt-S1.svg": draw_sheet(butt, "S1"),
        "butt-S2.svg": draw_sheet(butt, "S2"),
        "butt-part.svg": draw_panel(butt, "side"),
        "blank-B1.svg": draw_blank(blank, "B1"),
        "blank-part.svg": draw_panel(blank, blank.joints[0].part),
    }
    # A plan's mark changes whenever the model learns another word; the drawings are not to.
    return {
        name: re.sub("|".join(map(plan_mark, (divided, blank, butt))), "00000000", svg) for name, svg in drawn.items()
    }


def with_habits(plan: Plan) -> Plan:
    """Return the plan with an allowance, a zone without joints, and a bow, so that these are drawn too."""
    panels = tuple(
        panel.model_copy(update={"forward": "low", "no_joint": ((600.0, 1100.0),)} if panel.joint else {})
        for panel in plan.job.panels
    )
    workshop = plan.job.workshop.model_copy(update={"allowance": 1.5})
    return plan.model_copy(update={"job": plan.job.model_copy(update={"panels": panels, "workshop": workshop})})
