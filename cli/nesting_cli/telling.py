"""What came out of planning, told on standard output: as a table for people, as JSON for programs."""

import json
import sys
from collections.abc import Collection
from pathlib import Path
from typing import Any, Protocol

from nesting.model import Plan, Way


class Teller(Protocol):
    """Tells of a plan whose files, of these ``names``, lie in ``out``."""

    def __call__(self, plan: Plan, out: Path, names: Collection[str], *, stopped: bool) -> None:
        """Tell."""


def tell_as_table(plan: Plan, out: Path, names: Collection[str], *, stopped: bool) -> None:
    """Print the outcome in words."""
    totals, currency = plan.totals, plan.job.currency
    if stopped:
        print("Stopped early: this is the best plan found until then.")
    rows = [
        ("sheets", str(totals.sheets)),
        ("lengths", str(totals.lengths)),
        ("joints", str(totals.joints)),
        *_blank_rows(plan),
        ("waste of sheets", f"{totals.waste_percent:.1f} %"),
        *_long_plank_rows(plan),
        *_strap_rows(plan),
        ("waste of timber", f"{totals.timber_waste_percent:.1f} %"),
        ("to pay", f"{totals.to_pay:.2f} {currency}"),
        ("joints, in glue and time", f"{totals.joint_cost:.2f} {currency}"),
        ("together", f"{totals.objective:.2f} {currency}"),
        ("no plan can be below", f"{totals.bound:.2f} {currency}, by {totals.bound_reason}"),
    ]
    if totals.proven:
        rows[-1] = ("proven minimum", f"by {totals.bound_reason}")
    for name, value in rows:
        print(f"{name:<26}{value}")
    _tell_ways(plan)
    print(f"audited: nothing wrong. Open {out / 'index.html'}")
    print(f"{len(names)} files in {out}", file=sys.stderr)


def _blank_rows(plan: Plan) -> list[tuple[str, str]]:
    if not plan.blanks:
        return []
    return [("blanks", str(len(plan.blanks))), ("scarfs of blanks", str(plan.totals.scarfs_of_blanks))]


def _long_plank_rows(plan: Plan) -> list[tuple[str, str]]:
    if not plan.long_planks:
        return []
    return [("long planks", str(len(plan.long_planks))), ("scarfs of long planks", str(plan.totals.scarfs_of_planks))]


def _strap_rows(plan: Plan) -> list[tuple[str, str]]:
    straps = plan.totals.areas.straps
    return [("straps behind butts", f"{straps / 1e6:.3f} m²")] if straps else []


def _tell_ways(plan: Plan) -> None:
    """Print what each way of joining panels that was tried comes to."""
    chosen = _chosen(plan)
    for way in plan.ways:
        if way.objective is None:
            print(f"{way.way:<26}no plan: {way.told}")
        else:
            mark = " (chosen)" if way is chosen else ""
            print(f"{way.way:<26}{way.objective:.2f} {plan.job.currency}{mark}: {way.told}")
    for planks in plan.plank_ways:
        money = "no plan" if planks.objective is None else f"{planks.objective:.2f} {plan.job.currency}"
        print(f"{f'planks {planks.way} first':<26}{money}: {planks.told}, for {', '.join(planks.strips)}")


def tell_as_json(plan: Plan, out: Path, names: Collection[str], *, stopped: bool) -> None:
    """Print the outcome as one JSON object."""
    print(json.dumps(_outcome(plan, out, names, stopped=stopped), indent=1, ensure_ascii=False))


def _outcome(plan: Plan, out: Path, names: Collection[str], *, stopped: bool) -> dict[str, Any]:
    totals = plan.totals
    return {
        "out": str(out),
        "files": sorted(names),
        "sheets": totals.sheets,
        "lengths": totals.lengths,
        "joints": totals.joints,
        "blanks": len(plan.blanks),
        "scarfs_of_blanks": totals.scarfs_of_blanks,
        "long_planks": len(plan.long_planks),
        "scarfs_of_planks": totals.scarfs_of_planks,
        "waste_percent": totals.waste_percent,
        "timber_waste_percent": totals.timber_waste_percent,
        "to_pay": f"{totals.to_pay:.2f}",
        "joint_cost": f"{totals.joint_cost:.2f}",
        "objective": f"{totals.objective:.2f}",
        "ways": _ways(plan),
        "plank_ways": [way.model_dump(mode="json") for way in plan.plank_ways],
        "bound": f"{totals.bound:.2f}",
        "bound_reason": totals.bound_reason,
        "proven": totals.proven,
        "currency": plan.job.currency,
        "seed": plan.seed,
        "work": plan.work,
        "stopped_early": stopped,
    }


def _ways(plan: Plan) -> list[dict[str, Any]]:
    chosen = _chosen(plan)
    return [
        {
            "way": way.way,
            "objective": None if way.objective is None else f"{way.objective:.2f}",
            "told": way.told,
            "chosen": way is chosen,
        }
        for way in plan.ways
    ]


def _chosen(plan: Plan) -> Way | None:
    from nesting.report import chosen_way  # only now: the first plan shows the sooner

    return chosen_way(plan)
