"""What an audit says is wrong."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

#: Every kind of finding there is.
Code = Literal[
    # what was asked
    "another-job",  # the plan was made for a job that asks for other things
    "wrong-hash",  # job_sha256 is not that of the job in the plan
    "arc-in-plan",  # an outline of the plan's job still holds arcs
    # names
    "same-id",  # an id stands for two things
    "unknown-id",  # something refers to a sheet, length or blank that is not in the plan
    "unknown-part",  # a piece or joint of a part that the job does not ask for
    "unknown-copy",  # a copy beyond the asked quantity
    "unknown-stock",  # a sheet or length of a stock that the job does not offer
    # parts
    "bad-polygon",  # a polygon crosses itself, has no area, or is absurdly large
    "missing-copy",  # a copy was not planned
    "piece-numbering",  # the pieces of a copy are not 1 to n, each once
    "wrong-hand",  # port and starboard are not half and half, or a piece is mirrored when it must not be
    "wrong-grain",  # the face grain does not run as asked
    "not-congruent",  # a piece is not the stretch of its panel between its joints
    "not-whole",  # the pieces put together are not the part
    "piece-too-long",  # a piece is longer than can be handled
    # stock
    "wrong-material",  # cut from another material
    "wrong-thickness",  # cut from a sheet of another thickness
    "wrong-plank",  # a plank does not give its sticks, or they are not told as they are
    "wrong-section",  # cut from timber of another section
    "wrong-grade",  # cut from a poorer grade than asked
    "wrong-stock",  # a used sheet or length differs from its stock
    "too-many-used",  # more is used than there is
    # blanks
    "blank-rule",  # its sheets are joined by no scarf of the job
    "blank-member",  # a member is no sound sheet less its trim, nor an equal part of one, laid straight, face up
    "blank-members-differ",  # its sheets are not of one material, thickness, true thickness and usable width
    "blank-lap",  # its sheets don't lie flush, each exactly one lap over the last
    "blank-outline",  # its outline is not that of its sheets joined
    "blank-too-long",  # it is longer than can be handled
    "blank-scarf",  # a scarf's place, width, lap, slope or thickness is not what its sheets and rule give
    "blank-scarf-cost",  # a scarf's cost is not that of the rule
    "member-twice",  # a sheet stands in two blanks, or two members of it leave no room for the saw
    "on-member",  # something is cut from a sheet less than a kerf away from what of it is in a blank
    "divided-on-blank",  # a piece of a divided panel lies on a blank
    "scarf-askew",  # a panel lies across a scarf of its blank, and not along the blank
    "scarf-cut-into",  # a panel reaches over a part of a scarf's lap only
    # long planks
    "long-plank",  # its planks are not of one kind, or were ripped before, or don't come to its length
    "long-plank-scarf",  # a scarf's place, width, lap, slope, thickness or cost is not what its planks and rule give
    "long-plank-strip",  # a strip cut from it is not in one piece
    # layouts
    "outside-sheet",  # a piece reaches into the trim or beyond the edge
    "in-hole",  # a piece reaches into a hole of its sheet
    "on-fault",  # a piece lies on a fault
    "outside-length",  # a piece reaches beyond the end of its timber
    "pieces-overlap",  # two pieces lie on one another
    "kerf-too-small",  # two pieces leave no room for the saw
    "offcut-misplaced",  # a kept offcut lies beyond the usable sheet or length, or on a fault
    "offcut-overlap",  # a kept offcut is not a kerf away from a piece or another offcut
    "offcut-too-small",  # a kept offcut is smaller than what is worth keeping
    # joints
    "joint-not-allowed",  # a joint in a part that must be in one piece, or a blank's scarf by another rule than its own
    "joint-missing",  # a scarf of a blank runs across a panel, and no joint tells of it
    "joint-not-there",  # a joint tells of a scarf of a blank that does not run across its panel
    "joint-kind",  # a scarf where the rule asks for a butt, or a butt for a scarf
    "too-many-joints",  # more joints in a strip than it may have
    "joint-count",  # not one joint fewer than pieces
    "joint-pieces",  # a joint names other pieces than those at its station
    "joint-rule",  # slope, thickness, lap or strap are not those of the part's rule
    "joint-outside",  # a joint beyond the ends of its part
    "joint-spacing",  # a joint too near to another or to an end
    "joint-width",  # the width of a joint is not that of the part at its station
    "joint-cost",  # the cost of a joint is not that of the rule
    "joint-station",  # a station does not agree with the lengths of the pieces
    "lap-short",  # the lap is not fully on both pieces
    "butt-open",  # the pieces of a butt don't meet, or overlap
    "lap-not-plain",  # the lap, or what a strap covers, is not one region without holes: it can't be planed and glued
    "no-joint-zone",  # a lap or strap reaches into a stretch where none may lie
    "not-matched",  # joints of a matched pair of strips do not lie at the same stations
    "shift-too-small",  # joints of neighbours are too near to one another
    # straps
    "strap-missing",  # a butt without a strap
    "strap-too-many",  # a second strap for a butt, or one for what is no butt
    "wrong-strap",  # a strap whose name, panel, copy or hand is not that of its butt
    "strap-not-turned",  # a strap whose good face would look at the panel
    # sums
    "offcut-value",  # an offcut is not worth what its stock says of a metre
    "wrong-purchase",  # the shopping list is not what is used
    "wrong-total",  # a sum of money is wrong
    "wrong-count",  # a number of sheets, lengths or joints is wrong
    "wrong-area",  # areas or waste of the sheets don't add up
    "wrong-length",  # lengths or waste of the timber don't add up
    # what is said about the best
    "wrong-way",  # panels are joined in a way that is not the workshop's
    "wrong-ways",  # what is told of the ways agrees neither with the plan nor with its bound
    "bound-above-objective",  # the plan itself refutes its bound
    "false-proof",  # "proven" does not agree with the bound
    "more",  # further findings of one kind were left out
]

#: Findings of one kind that are told; a badly broken plan needs no thousand.
MOST_OF_A_KIND = 10


@dataclass(frozen=True)
class Finding:
    """One thing that is wrong with a plan.

    Attributes
    ----------
    code : Code
        Short fixed name of the kind of finding.
    where, reason : str
        The place, and what is wrong there, in words.
    """

    code: Code
    where: str
    reason: str

    def __str__(self) -> str:
        """Give the finding on one line."""
        return f"{self.where}: {self.reason} [{self.code}]"


def capped(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Return the first few findings of every kind, and for each kind how many more there were."""
    told: list[Finding] = []
    count: Counter[Code] = Counter()
    for finding in findings:
        count[finding.code] += 1
        if count[finding.code] <= MOST_OF_A_KIND:
            told.append(finding)
    more = {code: number - MOST_OF_A_KIND for code, number in count.items() if number > MOST_OF_A_KIND}
    return (*told, *(Finding("more", "plan", f"{number} more of {code}") for code, number in more.items()))
