"""The plan as one page that needs nothing beside it: to read on a phone, print, and take to the bench."""

from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from jinja2 import Environment, StrictUndefined, Template
from markupsafe import Markup

from nesting.drawing import (
    by,
    containers,
    draw_blank,
    draw_sheet,
    draw_some_lengths,
    extents,
    made_of,
    named_pieces,
)
from nesting.model import Blank, PanelPiece, Plan, UsedLength, UsedSheet

from .blank_make_up import finished, make_up_table, scarf_table
from .cautions import CAUTIONS
from .cut_list import cut_table
from .joint_schedule import joint_table
from .leftovers import leftover_table
from .outcome import area_table, outcome_table, timber_table, verdict
from .shopping import from_the_rack, shopping_table
from .table import Table, filled, is_figure, shown, without
from .ways import ways_in_words, ways_table

LENGTHS_A_PAGE = 3


@dataclass(frozen=True, kw_only=True)
class Drawn:
    """A drawing with its heading, its caption and the tables that say the same in words and figures."""

    key: str
    heading: str
    svg: Markup
    caption: str
    tables: tuple[Table, ...]


def page(plan: Plan) -> str:
    """Return the whole plan as one HTML page without scripts or references to anything outside it."""
    totals, job = plan.totals, plan.job
    return _template().render(
        title=job.title,
        intro=_intro(plan),
        to_pay=shown(totals.to_pay),
        currency=job.currency,
        shopping=shopping_table(plan),
        rack=from_the_rack(plan),
        verdict=verdict(plan),
        outcome=outcome_table(plan),
        waste=_waste(plan),
        shares=_shares(plan),
        ways=ways_table(plan),
        ways_in_words=ways_in_words(plan),
        blanks=[_blank(plan, blank) for blank in plan.blanks],
        sheets=[_sheet(plan, on) for on in containers(plan) if isinstance(on, UsedSheet)],
        kinds=_kinds(plan),
        across_width=any(joint.across == "width" for joint in plan.joints),
        timber=_timber(plan),
        planks=_planks(plan),
        joints=filled(joint_table(plan)),
        leftovers=leftover_table(plan),
        cautions=CAUTIONS,
        job_mark=plan.job_sha256[:12],
        seed=plan.seed,
        work=plan.work,
    )


@cache
def _template() -> Template:
    environment = Environment(
        undefined=StrictUndefined, autoescape=True, trim_blocks=True, lstrip_blocks=True, keep_trailing_newline=True
    )
    environment.globals.update(shown=shown, is_figure=is_figure)
    text = files("nesting.report").joinpath("page.html.j2").read_text(encoding="utf-8")
    return environment.from_string(text)


def _intro(plan: Plan) -> str:
    totals = plan.totals
    used = [_counted(totals.sheets, "sheet"), _counted(totals.lengths, "length of timber", "lengths of timber")]
    used += [_counted(len(plan.blanks), "blank")] if plan.blanks else []
    return f"Material plan: {', '.join(used)}, {_counted(totals.joints, 'joint')}."


def _counted(count: int, one: str, many: str | None = None) -> str:
    return f"{count} {one if count == 1 else many or one + 's'}"


def _waste(plan: Plan) -> list[str]:
    """Return the share of waste, for what there is of sheets and timber."""
    totals = plan.totals
    said = [(totals.sheets, "sheets", totals.waste_percent), (totals.lengths, "timber", totals.timber_waste_percent)]
    return [
        f"Of the used {what} {percent:.1f} % is waste: neither part nor kept offcut; laps and kerf count as waste."
        for count, what, percent in said
        if count
    ]


def _shares(plan: Plan) -> list[Table]:
    sheets = [area_table(plan)] if plan.totals.sheets else []
    timber = [timber_table(plan)] if plan.totals.lengths else []
    return sheets + timber


def _kinds(plan: Plan) -> set[str]:
    """Return which joints of panels there are: "scarf" and "butt" between pieces, "blank" in blanks."""
    panels = {piece.id for piece in plan.pieces if isinstance(piece, PanelPiece)}
    return {"blank" if joint.scarf else joint.kind for joint in plan.joints if joint.pieces[0] in panels}


def _blank(plan: Plan, blank: Blank) -> Drawn:
    return Drawn(
        key=f"blank-{blank.id}",
        heading=f"Blank {blank.id}: {made_of(blank)}",
        svg=Markup(draw_blank(plan, blank.id)),
        caption=f"Blank {blank.id}: {finished(blank)}. From it are cut {named_pieces(plan, blank)}. "
        "The tables below give the same in figures.",
        tables=(_make_up(plan, blank), scarf_table([blank]), filled(cut_table(plan, blank.id))),
    )


def _make_up(plan: Plan, blank: Blank) -> Table:
    """Return the sheets of one blank; its name and finished size stand in the caption of its drawing."""
    named = ("blank", "finished_length", "finished_width", "diagonal")
    return without(make_up_table([blank], plan), *named)


def _sheet(plan: Plan, sheet: UsedSheet) -> Drawn:
    size = by(*extents(sheet.outline, sheet).size)
    return Drawn(
        key=f"sheet-{sheet.id}",
        heading=f"Sheet {sheet.id}: {sheet.stock}",
        svg=Markup(draw_sheet(plan, sheet.id)),
        caption=f"Sheet {sheet.id}, {size} mm, with {named_pieces(plan, sheet)}. "
        "The table below gives the same in figures.",
        tables=(filled(cut_table(plan, sheet.id)),),
    )


def _planks(plan: Plan) -> tuple[str, ...]:
    """Return what each plank is ripped into, in words."""
    firsts = (used for used in plan.used if isinstance(used, UsedLength) and used.plank and used.is_first)
    return tuple(
        f"{used.plank} ({used.stock}) into {_counted(used.sticks, 'stick')}{_as(plan, used)}" for used in firsts
    )


def _as(plan: Plan, stick: UsedLength) -> str:
    """Return the section of the strips that are cut from a plank's sticks."""
    ids = {used.id for used in plan.used if isinstance(used, UsedLength) and used.plank == stick.plank}
    part = next((piece.part for piece in plan.pieces if piece.on in ids), None)
    return "" if part is None else f" of {' × '.join(f'{size:g}' for size in plan.job.strip(part).section)}"


def _timber(plan: Plan) -> list[Drawn]:
    """Return the lengths, as many to a drawing as a printed page shows without shrinking them."""
    ids = [used.id for used in plan.used if isinstance(used, UsedLength)]
    groups = [ids[first : first + LENGTHS_A_PAGE] for first in range(0, len(ids), LENGTHS_A_PAGE)]
    return [_lengths(plan, group) for group in groups]


def _lengths(plan: Plan, ids: list[str]) -> Drawn:
    named = ", ".join(ids)
    return Drawn(
        key=f"length-{ids[0]}",
        heading=f"Timber {named}",
        svg=Markup(draw_some_lengths(plan, ids)),
        caption=f"{named} with their cuts. The table below gives the same in figures.",
        tables=(filled(cut_table(plan, *ids)),),
    )
