"""The screen of a long plank: glue it up, rip it, turn the sticks that are to be turned, cut strips to length."""

from markupsafe import Markup

from nesting.drawing import tape_in
from nesting.model import LongPlank, Plan

from .cautions import RIPPING
from .counting import counted
from .cuts_from import cuts_from
from .drawings import long_planks
from .long_planks import part_table, plank_scarf_table, stick_table
from .screen import Listing, Picture, Screen, Warnings, Words
from .table import filled, without


def long_plank_screen(plan: Plan, plank: LongPlank) -> Screen:
    """Return what is done with a long plank, in the order of the work."""
    picture = Picture(
        svg=Markup(long_planks(plan)[plank.id]),
        caption=f"Long plank {plank.id} as it is scarfed, and its sticks as they lie in it.",
    )
    return Screen(
        key=f"long-plank-{plank.id}",
        heading=f"Long plank {plank.id}: {' + '.join(part.used for part in plank.members)}",
        short=f"Long plank {plank.id}",
        blocks=(
            *(Words(text=words) for words in (_gluing(plan, plank), _ripping(plan, plank))),
            Warnings(cautions=(RIPPING,)),
            picture,
            Listing(table=filled(without(part_table(plan, [plank]), "long_plank", "finished_length"))),
            Listing(table=plank_scarf_table(plan, [plank])),
            Listing(table=filled(stick_table(plan, [plank]))),
            cuts_from(plan, *(stick.id for stick in plank.sticks)),
        ),
    )


def _gluing(plan: Plan, plank: LongPlank) -> str:
    tape = tape_in(plan)
    return (
        "Cut the parts to length and lay them good face up. Bevel their ends over the whole width: at each scarf the "
        "left part on its back, the other on its good face. Glue them in order along one straight edge: "
        f"{tape.figure(plank.length)} {tape.unit} when done."
    )


def _ripping(plan: Plan, plank: LongPlank) -> str:
    sticks = f"{counted(len(plank.sticks), 'stick')} of {tape_in(plan).figures(*plank.section)}"
    turned = (
        " Then turn those that are to be turned end over end, so that their other face comes up: their strips count "
        "from what was the right end, joints in strips side by side lie apart, and all scarfs slope the same way."
    )
    return (
        f"Once the glue has cured, plane the faces flush, straighten the edge, and rip {sticks} from it. Number them "
        f"as they come off, and mark the left end of each.{turned if any(s.turned for s in plank.sticks) else ''} Cut "
        "to length as told."
    )
