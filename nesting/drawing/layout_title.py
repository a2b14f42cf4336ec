"""The title block of what pieces are laid out on: a sheet or a blank."""

from collections.abc import Sequence

from nesting.model import Plan

from .numbering import place_among, plan_mark
from .title_block import TitleBlock


def layout_title(plan: Plan, name: str, kind: str, lines: Sequence[str | tuple[str, ...]]) -> TitleBlock:
    """Return the block of a sheet or blank, with its number and its place among all of them."""
    return TitleBlock(
        title=plan.job.title,
        lines=lines,
        kind=f"{kind} layout",
        number=f"{plan_mark(plan)} {name}",
        sheet=place_among(plan, name),
    )
