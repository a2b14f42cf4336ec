"""Screens of what is cut: each blank, each sheet, and timber a few lengths at a time."""

from collections.abc import Iterator

from markupsafe import Markup

from nesting.drawing import (
    container,
    containers,
    extents,
    lengths_by_drawing,
    made_of,
    named_pieces,
    once_for_a_plan,
    tape_in,
)
from nesting.model import Blank, Plan, UsedLength, UsedSheet

from .blank_make_up import finished, make_up_table, scarf_table
from .cautions import RIPPING
from .counting import counted
from .cut_order import cut_order_table
from .cuts_from import cuts_from
from .drawings import layouts, timber
from .long_plank_screen import long_plank_screen
from .marking import marking_table, setting_out
from .parts_for_blanks import parts_table
from .screen import Block, Listing, Picture, Screen, Warnings, Words
from .stacks import stacked_in_words, stacks
from .table import filled, without


def cutting_screens(plan: Plan) -> Iterator[Screen]:
    """Yield blanks, then sheets that go into none, then timber, long planks last."""
    for on in containers(plan):
        yield _blank(plan, on) if isinstance(on, Blank) else _sheet(plan, on)
    yield from _timber(plan)
    yield from (long_plank_screen(plan, plank) for plank in plan.long_planks)


def screen_keys(plan: Plan) -> dict[str, str]:
    """Return on which screen each blank, sheet and length is drawn, by its id."""
    keys = {on.id: f"blank-{on.id}" if isinstance(on, Blank) else f"sheet-{on.id}" for on in containers(plan)}
    keys |= {name: f"length-{group[0]}" for group in lengths_by_drawing(plan) for name in group}
    return keys | {stick.id: f"long-plank-{plank.id}" for plank in plan.long_planks for stick in plank.sticks}


def _blank(plan: Plan, blank: Blank) -> Screen:
    picture = Picture(
        svg=Markup(layouts(plan)[blank.id]),
        caption=f"Blank {blank.id}: {finished(blank, plan)}. From it are cut {named_pieces(plan, blank)}.",
    )
    named = ("blank", "finished_length", "finished_width", "diagonal")
    make_up = Listing(table=filled(without(make_up_table([blank], plan), *named)))
    return Screen(
        key=f"blank-{blank.id}",
        heading=f"Blank {blank.id}: {made_of(blank)}",
        short=f"Blank {blank.id}",
        blocks=(picture, make_up, Listing(table=filled(scarf_table([blank], plan))), *_to_cut(plan, blank.id)),
    )


def _sheet(plan: Plan, sheet: UsedSheet) -> Screen:
    tape = tape_in(plan)
    size = tape.figures(*extents(sheet.outline, sheet).size)
    picture = Picture(
        svg=Markup(layouts(plan)[sheet.id]),
        caption=f"Sheet {sheet.id}, {size} {tape.unit}, with {named_pieces(plan, sheet)}.",
    )
    return Screen(
        key=f"sheet-{sheet.id}",
        heading=f"Sheet {sheet.id}: {sheet.stock}",
        short=f"Sheet {sheet.id}",
        blocks=(picture, *_to_cut(plan, sheet.id)),
    )


def _to_cut(plan: Plan, name: str) -> tuple[Block, ...]:
    """Return what is cut from a blank or sheet, and how it is marked out."""
    cuts = cuts_from(plan, name, hidden=("sheet",))
    marking = marking_table(plan, name)
    if not marking.rows:
        return (Words(text="Nothing is cut from it."),)
    return (
        *((cuts,) if cuts.table.rows else ()),
        *_parts_for_blanks(plan, name),
        Words(text=setting_out(plan, name)),
        Listing(table=filled(marking)),
        Listing(table=filled(cut_order_table(plan, name))),
        *(Words(text=words) for words in _stacked(plan).get(name, ())),
    )


def _parts_for_blanks(plan: Plan, name: str) -> Iterator[Listing]:
    """Yield the parts of a sheet that go into blanks with a box for each, if there are any."""
    table = parts_table(plan, container(plan, name))
    if table.rows:
        yield Listing(table=table, ticks=tuple(f"part {name} {row[0]}" for row in table.rows))


@once_for_a_plan
def _stacked(plan: Plan) -> dict[str, tuple[str, ...]]:
    """Return for each blank or sheet what is laid on it, or on what it is laid, to be cut together."""
    said: dict[str, tuple[str, ...]] = {}
    for stacked in stacks(plan):
        words = stacked_in_words(plan, [stacked])
        for name in (stacked.name, stacked.under):
            said[name] = said.get(name, ()) + words
    return said


def _timber(plan: Plan) -> Iterator[Screen]:
    for number, group in enumerate(lengths_by_drawing(plan)):
        named = ", ".join(group)
        picture = Picture(svg=Markup(timber(plan)[group[0]]), caption=f"{named} with their cuts.")
        ripping = list(_planks(plan)) if number == 0 else []
        cuts = cuts_from(plan, *group)
        yield Screen(
            key=f"length-{group[0]}",
            heading=f"Timber {named}",
            short=f"Timber {group[0]} to {group[-1]}" if len(group) > 1 else f"Timber {group[0]}",
            blocks=(*ripping, picture, *((cuts,) if cuts.table.rows else ())),
        )


def _planks(plan: Plan) -> Iterator[Block]:
    """Yield what the planks are ripped into, if any are."""
    firsts = [used for used in plan.used if isinstance(used, UsedLength) and used.plank and used.is_first]
    if firsts:
        said = "; ".join(f"{used.plank} ({used.stock}) into {_sticks(plan, used)}" for used in firsts)
        yield Words(
            text=f"First rip the planks over their whole length, from one edge: {said}. Number the sticks as they come "
            "off; each is then cut like a length."
        )
        yield Warnings(cautions=(RIPPING,))


def _sticks(plan: Plan, first: UsedLength) -> str:
    """Return how many sticks a plank gives, and the section of the strips that are cut from them."""
    ids = {used.id for used in plan.used if isinstance(used, UsedLength) and used.plank == first.plank}
    part = next((piece.part for piece in plan.pieces if piece.on in ids), None)
    section = "" if part is None else f" of {tape_in(plan).figures(*plan.job.strip(part).section)}"
    return f"{counted(first.sticks, 'stick')}{section}"
