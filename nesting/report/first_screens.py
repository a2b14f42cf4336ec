"""The first screens: what the plan comes to, what to buy, what to beware of, how to read the drawings."""

from collections.abc import Iterator

from nesting.drawing import FORWARD, tape_in
from nesting.model import PanelPiece, Plan, Purchase

from .cautions import CAUTIONS
from .consumables import consumables_table
from .counting import counted
from .glue import GLUE_SOURCE, RESIN_SOURCE
from .outcome import verdict
from .screen import Block, Contents, Listing, Screen, Warnings, Words
from .shopping import cost_of_spares, from_the_rack, more_than_used, shopping_table
from .table import Table, filled, shown
from .timber_tally import THIN_STOCK, tally_table


def first_screens(plan: Plan, mark: str) -> tuple[Screen, ...]:
    """Return what comes before any cut."""
    return (
        Screen(key="overview", heading="Overview", short="Overview", blocks=tuple(_overview(plan, mark))),
        Screen(key="buy", heading="What to buy", short="What to buy", blocks=tuple(_buying(plan))),
        Screen(key="cautions", heading="Cautions", short="Cautions", blocks=(Warnings(cautions=CAUTIONS),)),
        Screen(key="reading", heading="How to read the drawings", short="Reading", blocks=tuple(_reading(plan))),
    )


def _overview(plan: Plan, mark: str) -> Iterator[Block]:
    totals = plan.totals
    used = [counted(totals.sheets, "sheet"), counted(totals.lengths, "length of timber", "lengths of timber")]
    used += [counted(len(plan.blanks), "blank")] if plan.blanks else []
    used += [counted(len(plan.long_planks), "long plank")] if plan.long_planks else []
    yield Words(text=f"To pay: {shown(totals.to_pay)} {plan.job.currency}", heavy=True)
    yield Words(text=f"Material plan: {', '.join(used)}, {counted(totals.joints, 'joint')}. {verdict(plan)}")
    yield Words(text=f"This is plan {mark}: the mark stands on every page and label, and changes with the plan.")
    yield Contents()


def _buying(plan: Plan) -> Iterator[Block]:
    yield Words(text=f"To pay: {shown(plan.totals.to_pay)} {plan.job.currency}", heavy=True)
    shopping = filled(shopping_table(plan))
    bought = (*(f"buy {purchase.stock}" for purchase in _in_order(plan, shopping)), "")
    yield Listing(table=shopping, ticks=bought)
    if more := more_than_used(plan):
        yield Words(text=f"More are bought than are used, as that costs less: {'; '.join(more)}.")
    yield Words(text=_spare_words(plan))
    if rack := from_the_rack(plan):
        yield Words(text=f"From the rack, nothing to pay: {'; '.join(rack)}.")
    if (tally := tally_table(plan)).rows:
        yield Listing(table=tally)
        yield Words(text=THIN_STOCK)
    yield Listing(table=filled(consumables_table(plan)))
    yield Words(text=f"{GLUE_SOURCE} Waste is not in it. {RESIN_SOURCE}")


def _in_order(plan: Plan, shopping: Table) -> list[Purchase]:
    by_stock = {purchase.stock: purchase for purchase in plan.purchases}
    return [by_stock[str(row[0])] for row in shopping.rows[:-1]]


def _spare_words(plan: Plan) -> str:
    cost = cost_of_spares(plan)
    if cost:
        both = f"{shown(plan.totals.to_pay + cost)} {plan.job.currency}"
        return f"Spares are not in the total: with them it comes to {both}."
    return "No spare is counted. Where one more would come late or dear, buy it now: the job's key spare lists it."


def _reading(plan: Plan) -> Iterator[Block]:
    yield Words(
        text="All pieces lie good face up. Distances run from the ringed corner at the lower left of each sheet or "
        "blank, or from the ringed end at the left of each length. The arrow within a piece points to the "
        f"bow where it says {FORWARD}, else to its rising stations. Here the drawings are fitted to the page: check "
        "their scale by the bar. The SVG files print to the scale they state."
    )
    if not tape_in(plan).is_metric:
        yield Words(
            text="Lengths in drawings and lists are inches to the nearest sixteenth, so up to 1/32 off, and "
            "thicknesses to the nearest sixty-fourth. Tables for marking out say feet and inches."
        )
    for said in (*_joint_words(plan), *_blank_words(plan), *_long_plank_words(plan)):
        yield Words(text=said)
    if plan.totals.lengths:
        yield Words(
            text="Bars of timber are to scale along, not across; lay every length with the same face up, and number "
            "the sticks of a ripped plank as they come off."
        )


def _joint_words(plan: Plan) -> Iterator[str]:
    kinds = _kinds(plan)
    if "scarf" in kinds or any(joint.kind == "scarf" and not joint.scarf for joint in plan.joints):
        yield (
            "A hatched end is the lap of a scarf. Bevel the piece on the low side of a joint on its back, so "
            "underneath as it lies, and the other on its good face, so on top; the bold dashed edge becomes thin."
        )
    if any(joint.across == "width" for joint in plan.joints):
        yield (
            "Where the bevel runs through the width of a strip it is sawn along the slanting line: the piece on the "
            "low side of the joint is bevelled on its lower edge, the other on its upper edge."
        )
    if "butt" in kinds:
        yield (
            "The ends of a butt are cut square; the dashed line beside one shows how far the strap behind it "
            "reaches. Straps too lie good face up: glue them by their backs, so that their good faces look inwards, "
            "away from the panel."
        )


def _blank_words(plan: Plan) -> Iterator[str]:
    if plan.blanks:
        yield (
            "A blank is made of sheets, or of parts ripped and crosscut from them, scarfed before anything is cut from "
            "it: those that stand side by side along their edges first, then end to end. Trim the sheets, and lay them "
            "good face up in the order given. Of each scarf bevel the left or lower sheet on its back and the other on "
            "its good face: on the good face the glue line then shows at the right or upper end of the lap. Glue, "
            "check the finished length and both diagonals, and only then cut out the pieces. A sheet that goes into a "
            "blank as a whole has no drawing of its own."
        )


def _long_plank_words(plan: Plan) -> Iterator[str]:
    if plan.long_planks:
        yield (
            "A long plank is made of planks, or of parts cut from them, scarfed over their whole width before they are "
            "ripped. Its sticks are drawn as they lie in it, those that are alike once. One that is turned goes end "
            "over end when it has been ripped: the stations told are those of its strip, from what was the right end."
        )


def _kinds(plan: Plan) -> set[str]:
    """Return which joints of panels there are: "scarf" and "butt" between pieces, "blank" in blanks."""
    panels = {piece.id for piece in plan.pieces if isinstance(piece, PanelPiece)}
    return {"blank" if joint.scarf else joint.kind for joint in plan.joints if joint.pieces[0] in panels}
