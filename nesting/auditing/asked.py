"""Whether the job in a plan is what was asked for."""

import hashlib
import json
from collections.abc import Iterator, Sequence

from nesting.model import TOLERANCE, Job, Length, Outline, Panel, Sheet, Strip

from .findings import Finding
from .geometry import flattened, has_arcs, polygon, same_shape
from .register import Register

#: Millimetres from an arc to its chords at most, by the contract of the plan file.
SAG = 0.05

#: What a plan may hold in another form than the job: outlines become polygons, faults are cleaned.
RESOLVED = {"outline", "faults"}


def own_job(register: Register) -> Iterator[Finding]:
    """Yield whether the hash in the plan is not that of its job's canonical JSON."""
    plain = register.job.model_dump(mode="json")
    text = json.dumps(plain, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    if hashlib.sha256(text.encode("utf-8")).hexdigest() != register.plan.job_sha256:
        yield Finding("wrong-hash", "job_sha256", "it is not the hash of the job in the plan")


def asked(register: Register, job: Job) -> Iterator[Finding]:
    """Yield all in which the job in the plan asks for something else than ``job``.

    Outlines may have become polygons within 0.05 mm of their arcs, and stock from the rack may have been added.
    """
    if register.job == job:
        return
    for name in ("title", "units", "currency", "grades", "workshop", "joints", "frames", "neighbours"):
        if getattr(register.job, name) != getattr(job, name):
            yield Finding("another-job", f"job, {name}", "it is not what was asked")
    yield from _same_names("panels", register.job.panels, job.panels)
    yield from _same_names("strips", register.job.strips, job.strips)
    yield from _same_stock("sheets", register.job.sheets, job.sheets)
    yield from _same_stock("lengths", register.job.lengths, job.lengths)


Items = Sequence[Panel] | Sequence[Strip] | Sequence[Sheet] | Sequence[Length]


def _same_names(kind: str, planned: Items, wanted: Items) -> Iterator[Finding]:
    if [item.name for item in planned] != [item.name for item in wanted]:
        yield Finding("another-job", f"job, {kind}", "they are not those asked for, in their order")
    yield from _same_items(kind, planned, wanted)


def _same_stock(kind: str, planned: Sequence[Sheet] | Sequence[Length], wanted: Items) -> Iterator[Finding]:
    known, there = {item.name for item in wanted}, {item.name for item in planned}
    for item in planned:
        if item.name not in known and item.source != "rack":
            yield Finding("another-job", f'job, {kind}, "{item.name}"', "it is not offered, nor from the rack")
    for name in sorted(known - there):
        yield Finding("another-job", f'job, {kind}, "{name}"', "it is offered, but not in the plan's job")
    yield from _same_items(kind, planned, wanted)


def _same_items(kind: str, planned: Items, wanted: Items) -> Iterator[Finding]:
    known = {item.name: item for item in wanted}
    for item in planned:
        other = known.get(item.name)
        if other is not None and not _same(item, other):
            yield Finding("another-job", f'job, {kind}, "{item.name}"', "it is not what was asked")


def _same(planned: Panel | Strip | Sheet | Length, wanted: Panel | Strip | Sheet | Length) -> bool:
    if planned == wanted:
        return True
    if planned.model_dump(exclude=RESOLVED) != wanted.model_dump(exclude=RESOLVED):
        return False
    outlines = getattr(planned, "outline", None), getattr(wanted, "outline", None)
    return _same_outline(*outlines) and _same_faults(planned, wanted)


def _same_outline(planned: Outline | None, wanted: Outline | None) -> bool:
    if planned is None or wanted is None:
        return planned is wanted
    one, other = flattened(planned), flattened(wanted)
    if one is None or other is None:
        return planned == wanted
    tolerance = TOLERANCE + (SAG if has_arcs(wanted) else 0)
    return planned.marks == wanted.marks and same_shape(other, one, tolerance)


def _same_faults(planned: object, wanted: object) -> bool:
    told = [polygon(fault.points) for fault in getattr(planned, "faults", ())]
    true = [polygon(fault.points) for fault in getattr(wanted, "faults", ())]
    sides = [[fault.side for fault in getattr(sheet, "faults", ())] for sheet in (planned, wanted)]
    if sides[0] != sides[1] or None in told or None in true:
        return False
    return all(a is not None and b is not None and same_shape(a, b) for a, b in zip(true, told, strict=True))
