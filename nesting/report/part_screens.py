"""Screens of finished parts: those that are joined drawn whole with their neighbours, and every panel's offsets."""

from collections.abc import Iterator

from markupsafe import Markup

from nesting.model import Plan

from .drawings import whole_parts
from .marking import panel_marking_table
from .screen import Block, Listing, Picture, Screen
from .table import filled


def part_screens(plan: Plan) -> Iterator[Screen]:
    """Yield one screen for each panel, and for each strip that is joined."""
    joined = {joint.part for joint in plan.joints}
    panels = [panel.name for panel in plan.job.panels]
    strips = [strip.name for strip in plan.job.strips if strip.name in joined]
    for number, name in enumerate([*panels, *strips], 1):
        whole = [_whole(plan, name)] if name in joined else []
        offsets = [Listing(table=filled(panel_marking_table(plan, name)))] if name in panels else []
        blocks: tuple[Block, ...] = (*whole, *offsets)
        yield Screen(key=f"part-{number}", heading=f"Finished part: {name}", short=f"Part: {name}", blocks=blocks)


def _whole(plan: Plan, name: str) -> Picture:
    return Picture(svg=Markup(whole_parts(plan)[name]), caption=f"{name}, whole, with its joints and its neighbours'.")
