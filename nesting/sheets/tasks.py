"""What is to be made and from what, for each way of joining that the job allows."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from nesting.model import Job, NoPlanError, Problem

from . import refusing
from .blanks import blanks_of, with_blanks
from .clashing import clashes
from .joined import joined_variants
from .parts import Part, part_of
from .stock import Stock, serving, stock_of
from .variants import Variant, variants_of

WayName = Literal["divided", "joined", "mixed"]

#: Variants that may be used in each way.
USABLE: Mapping[WayName, tuple[str, ...]] = {
    "divided": ("whole", "divided"),
    "joined": ("whole", "joined"),
    "mixed": ("whole", "divided", "joined"),
}

#: Ways that a job allows, the one that is looked at first before the others.
ALLOWED: Mapping[str, tuple[WayName, ...]] = {
    "divided": ("divided",),
    "joined": ("joined",),
    "both": ("divided", "joined", "mixed"),
}


@dataclass(frozen=True, eq=False)
class Task:
    """What is to be made and from what in one way, worked out once; parts and variants are shared by all ways."""

    way: WayName
    job: Job
    stocks: tuple[Stock, ...]
    parts: tuple[Part, ...]
    variants: tuple[tuple[Variant, ...], ...]
    clashing: dict[tuple[Variant, Variant], None]


def tasks_of(job: Job) -> tuple[Task, ...]:
    """Work out the sheets, the panels, and the ways to make each.

    Raises
    ------
    NoPlanError
        If panels can't be made in any way that the job allows; it says which and why.
    """
    sheets = stock_of(job)
    serve = {k: serving(sheets, job, panel) for k, panel in enumerate(job.panels)}
    parts = {k: part_of(k, job.panels[k], those, job) for k, those in serve.items() if those}
    blanks = () if job.workshop.way == "divided" else blanks_of(job, list(parts.values()), sheets)
    parts = {k: with_blanks(part, blanks, job) for k, part in parts.items()}
    variants = {k: (*variants_of(part, job), *joined_variants(part, job)) for k, part in parts.items()}
    problems = [refusing.no_stock(k, job.panels[k], sheets) for k, those in serve.items() if not those]
    problems += _without_a_way(job, parts, variants)
    if problems:
        raise NoPlanError(problems)
    return by_way(job, (*sheets, *blanks), tuple(parts.values()), tuple(variants.values()))


def _without_a_way(job: Job, parts: Mapping[int, Part], variants: Mapping[int, tuple[Variant, ...]]) -> list[Problem]:
    """Tell of the panels for which no allowed way is left."""
    allowed = {kind for way in ALLOWED[job.workshop.way] for kind in USABLE[way]}
    told = []
    for k, several in variants.items():
        if not any(variant.way in allowed for variant in several):
            other_way = bool(several)
            told.append(refusing.no_blank(parts[k], job) if other_way else refusing.no_variant(parts[k], job))
    return told


def by_way(
    job: Job, stocks: Sequence[Stock], parts: tuple[Part, ...], variants: tuple[tuple[Variant, ...], ...]
) -> tuple[Task, ...]:
    """Return a task for each way in which every panel can be made, and which differs from those before."""
    clashing = clashes(job, variants)
    tasks: list[Task] = []
    for way in ALLOWED[job.workshop.way]:
        usable = tuple(tuple(v for v in several if v.way in USABLE[way]) for several in variants)
        if all(usable) and not any(usable == task.variants for task in tasks):
            those = tuple(stock for stock in stocks if way != "divided" or stock.blank is None)
            tasks.append(Task(way, job, those, parts, usable, _among(clashing, usable)))
    return tuple(tasks)


def _among(
    clashing: Mapping[tuple[Variant, Variant], None], variants: Sequence[Sequence[Variant]]
) -> dict[tuple[Variant, Variant], None]:
    there = {variant for several in variants for variant in several}
    return dict.fromkeys(pair for pair in clashing if there.issuperset(pair))
