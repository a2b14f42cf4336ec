"""The tables that benchmarks print when they have nothing better of their own."""

from collections.abc import Sequence
from statistics import fmean, median

from .records import Record, means_of_seeds, off_reference, table

HEADER = (
    "instance", "seed", "budget s", "measure", "value", "bound", "proven", "reference", "off %", "s", "CPU s",
    "verified",
)  # fmt: skip

SUMMARY = (
    "family", "budget s", "measure", "instances", "mean value", "proven", "mean off %", "at reference",
    "median s", "mean CPU s", "not verified",
)  # fmt: skip


def tables(records: Sequence[Record]) -> str:
    """Return one row a record, a mean over seeds where there are several, and a summary of each family."""
    rows = [_row(record) for record in records]
    if len({record.seed for record in records}) > 1:
        rows += [_row(record) for record in means_of_seeds(records)]
    parts = [table(HEADER, rows), table(SUMMARY, _summaries(records))]
    parts += sorted({f"reference: {record.reference_source}" for record in records if record.reference_source})
    return "\n\n".join(parts)


def _row(record: Record) -> tuple[str, ...]:
    off = off_reference(record)
    return (
        record.instance,
        "mean" if record.seed < 0 else str(record.seed),
        _figure(record.budget),
        record.measure,
        _figure(record.value),
        _figure(record.bound),
        "yes" if record.proven else "no",
        _figure(record.reference),
        "" if off is None else f"{off:+.2f}",
        f"{record.seconds:.2f}",
        f"{record.cpu_seconds:.2f}",
        "yes" if record.verified else "; ".join(record.faults) or "no",
    )


def _summaries(records: Sequence[Record]) -> list[tuple[str, ...]]:
    """One row for each family, budget and measure, over the means of seeds."""
    groups: dict[tuple[str, float | None, str], list[Record]] = {}
    for record in means_of_seeds(records):
        groups.setdefault((record.family, record.budget, record.measure), []).append(record)
    return [_summary(*key, group) for key, group in groups.items()]


def _summary(family: str, budget: float | None, measure: str, group: Sequence[Record]) -> tuple[str, ...]:
    off = [value for record in group if (value := off_reference(record)) is not None]
    return (
        family,
        _figure(budget),
        measure,
        str(len(group)),
        _figure(fmean(record.value for record in group)),
        str(sum(record.proven for record in group)),
        f"{fmean(off):+.2f}" if off else "",
        f"{sum(abs(value) < 1e-9 for value in off)} of {len(off)}" if off else "",
        f"{median(record.seconds for record in group):.2f}",
        f"{fmean(record.cpu_seconds for record in group):.2f}",
        str(sum(not record.verified for record in group)),
    )


def _figure(value: float | None) -> str:
    return "" if value is None else f"{value:.2f}".rstrip("0").rstrip(".")
