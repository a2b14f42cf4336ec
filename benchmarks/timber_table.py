"""The tables of the timber benchmarks: each family, by us and by direct models, in one row each."""

from collections.abc import Sequence

from .records import Record, table

HEADER = (
    "family", "by", "budget s", "instances", "proven", "in 2 s", "in 5 s", "median s", "95 % s", "longest s",
    "below reference", "above", "open gap %", "open",
)  # fmt: skip

#: Names of open instances that a row has room for.
NAMED = 6


def timber_tables(records: Sequence[Record]) -> str:
    """Return one row for each family, way of solving and budget, then where the references are from.

    Seconds of a run that was not proven count up to its end; the gap is that between plan and bound, of the plan.
    """
    groups: dict[tuple[str, str, float | None], list[Record]] = {}
    for record in records:
        groups.setdefault((record.family, record.measure, record.budget), []).append(record)
    rows = [_row(*key, group) for key, group in groups.items()]
    sources = sorted({f"reference: {record.reference_source}" for record in records if record.reference_source})
    wrong = [f"{record.instance}: {fault}" for record in records for fault in record.faults]
    return "\n\n".join([table(HEADER, rows), *sources, *wrong])


def _row(family: str, measure: str, budget: float | None, group: Sequence[Record]) -> tuple[str, ...]:
    seconds = sorted(record.seconds for record in group)
    still = [record for record in group if not record.proven]
    names = [record.instance for record in still]
    return (
        family,
        measure,
        "" if budget is None else f"{budget:g}",
        str(len(group)),
        str(len(group) - len(still)),
        *(str(sum(record.proven and record.seconds <= limit for record in group)) for limit in (2, 5)),
        *(f"{each:.2f}" for each in (seconds[len(seconds) // 2], seconds[int(len(seconds) * 0.95)], seconds[-1])),
        str(sum(record.reference is not None and record.value < record.reference for record in group)),
        str(sum(record.reference is not None and record.value > record.reference for record in group)),
        " ".join(map(_gap, still[:NAMED])) or "-",
        " ".join([*names[:NAMED], *(["..."] if len(names) > NAMED else [])]) or "-",
    )


def _gap(record: Record) -> str:
    known = record.bound is not None and 0 < record.value < float("inf")
    return f"{100 * (record.value - (record.bound or 0)) / record.value:.2f}" if known else "?"
