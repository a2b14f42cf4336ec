"""Timber of several stocks, without joints: made-up jobs, by us and by direct models, for as long."""

from collections.abc import Sequence
from dataclasses import replace

from .beside import beside
from .data import SpliceInstance
from .direct_timber import splicing_model
from .options import Options
from .records import Record
from .running import Benchmark
from .splices import cutting_of, planned
from .timber_jobs import several_stocks
from .timber_table import timber_tables

#: Seconds for each job where nobody says.
USUAL_SECONDS = 2.0


def bought(instance: SpliceInstance, seed: int, options: Options) -> list[Record]:
    """Plan one job, once for each budget, and let direct models do the same."""
    return [record for budget in options.budgets or (None,) for record in _bought(instance, seed, budget)]


def _bought(instance: SpliceInstance, seed: int, budget: float | None) -> Sequence[Record]:
    seconds = budget or USUAL_SECONDS
    ours = replace(planned(instance, seed, seconds), benchmark="stocks", budget=budget)
    dearest = 2 * int(ours.bound or 0)  # as for splices
    return [ours, *beside(ours, splicing_model(cutting_of(instance), dearest), seconds)]


STOCKS = Benchmark(name="stocks", instances=lambda _: several_stocks(), measure=bought, show=timber_tables)
"""What the command line knows it by."""
