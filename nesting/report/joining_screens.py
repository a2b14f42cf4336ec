"""Screens of what is joined: bevels, the glue-up sheet, and all joints."""

from collections.abc import Iterator

from nesting.model import Plan

from .bevels import bevel_table, stack_table
from .cautions import GLUING
from .gluing import glue_up_table, glue_ups, mark_table
from .joint_schedule import joint_table
from .screen import Block, Listing, Screen, Warnings, Words
from .table import filled


def joining_screens(plan: Plan) -> Iterator[Screen]:
    """Yield bevels if there are any, then gluing and joints; one that says so where nothing is joined."""
    if bevel_table(plan).rows:
        yield Screen(key="bevels", heading="Bevel schedule", short="Bevels", blocks=tuple(_bevels(plan)))
    if glue_ups(plan):
        yield Screen(key="gluing", heading="Glue-up sheet", short="Gluing", blocks=tuple(_gluing(plan)))
    yield Screen(key="joints", heading="Joint schedule", short="Joints", blocks=tuple(_joints(plan)))


def _bevels(plan: Plan) -> Iterator[Block]:
    yield Words(
        text="Ends of one stack have the same thickness and slope, and can be planed together: lay them on one "
        "another, the named face up, each one step behind the one below, so that the bevels make one slope. Plane "
        "only as many at once as can be held flat. Sawdust-thin edges break: let a batten back them up. An end that "
        "is chipped is best used where there is no bevel."
    )
    yield Listing(table=stack_table(plan))
    table = filled(bevel_table(plan))
    ticks = (f"bevel {row[0]} {row[1]} {row[3]}" for row in table.rows)
    yield Listing(table=table, ticks=tuple(ticks))


def _gluing(plan: Plan) -> Iterator[Block]:
    yield Words(
        text="Before gluing, draw a register mark across each of the two ends, on the good face and square to the "
        "length, so far from the end as the second table says. When the marks are as far apart as told, and both "
        "ends lie along one straight line, the joint has its whole lap. Joints of one glue-up may be glued at one "
        "time or one after the other; like ones in a stack, with film between. Check the finished length and the "
        "straight measures before the glue sets: figures in brackets are station and offset of the corners to "
        "measure between."
    )
    table = filled(glue_up_table(plan))
    yield Listing(table=table, ticks=tuple(f"glue {row[0]}" for row in table.rows))
    yield Listing(table=mark_table(plan))
    yield Warnings(cautions=GLUING)


def _joints(plan: Plan) -> Iterator[Block]:
    joints = filled(joint_table(plan))
    if not joints.rows:
        yield Words(text="No part is divided: there are no joints.")
        return
    wholes = [*(["a blank"] if plan.blanks else []), *(["a long plank"] if plan.long_planks else [])]
    of_blank = (
        f" A joint at a scarf of {' or '.join(wholes)} is there before its piece is cut: it has one piece, and its "
        "bevels are those of what is scarfed there."
    )
    yield Words(
        text="A station is the middle of a lap, or where the square ends of a butt meet, measured along the part "
        f"from its own origin.{of_blank if any(joint.scarf for joint in plan.joints) else ''} Distances to "
        "neighbours are measured along the boat, from middle to middle."
    )
    yield Listing(table=joints)
