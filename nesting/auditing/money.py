"""Whether the shopping list, the money, the counts and what is said about the best agree with what is used."""

from collections import Counter
from collections.abc import Iterator
from decimal import Decimal

from nesting.model import Length, LengthOffcut, Sheet

from .findings import Finding
from .long_planks import stock_of
from .planks import bought
from .register import Register
from .rules import CENT
from .ways import outside_scope

#: No break begins at more.
LARGEST = 100_000

#: Money far below a cent, for float arithmetic of lengths.
LEAST = Decimal("0.0001")


def money(register: Register) -> Iterator[Finding]:
    """Yield purchases, sums, counts and claims that don't follow from what is used."""
    yield from _purchases(register)
    yield from _offcuts(register)
    yield from _sums(register)
    yield from _counts(register)
    yield from _claims(register)


def _bought(register: Register) -> Counter[str]:
    """Count what is bought of each kind of stock, by what the job says about it."""
    known = register.stock
    names = (used.stock for used in bought(register))
    return Counter(name for name in names if name in known and known[name].source == "buy")


def _true_purchases(register: Register) -> dict[str, tuple[int, Decimal]]:
    """Return how many to buy of each kind of stock that is used, and what each then costs."""
    return {name: _least_paid(register.stock[name], count) for name, count in _bought(register).items()}


def _least_paid(item: Sheet | Length, used: int) -> tuple[int, Decimal]:
    """Return how many to buy, and the price of each, that cost least in all: none but the used, or up to a break."""
    breaks = item.price_breaks if isinstance(item, Sheet) else ()
    most = max(used, item.available or LARGEST)
    offers = []
    for number in (used, *(step.at_least for step in breaks if used < step.at_least <= most)):
        price = min([item.price, *(step.price for step in breaks if step.at_least <= number)])
        offers.append((number * price, number, price))
    _, number, price = min(offers)
    return number, price


def _purchases(register: Register) -> Iterator[Finding]:
    bought, true = _bought(register), _true_purchases(register)
    listed = Counter(purchase.stock for purchase in register.plan.purchases)
    for name in sorted(bought.keys() | listed.keys()):
        if listed[name] != (1 if bought[name] else 0):
            reason = f'"{name}" stands {listed[name]} times on the list, {bought[name]} of it are bought'
            yield Finding("wrong-purchase", "purchases", reason)
    for line in register.plan.purchases:
        if line.stock not in true:
            continue  # told above
        count, price = true[line.stock]
        if (line.count, line.price, line.cost) != (count, price, count * price):
            reason = f"{line.count} at {line.price} for {line.cost}: it is {count} at {price} for {count * price}"
            yield Finding("wrong-purchase", f'purchase "{line.stock}"', reason)


def _offcuts(register: Register) -> Iterator[Finding]:
    """Compare what kept offcuts are worth with their stock's value for the metre, divided among a plank's sticks."""
    for offcut in register.plan.offcuts:
        length, sticks = _under(offcut.on, register)
        if not isinstance(offcut, LengthOffcut) or length is None:
            continue
        metres = Decimal(repr(offcut.end - offcut.start)) / 1000 if offcut.kept else Decimal(0)
        true = length.offcut_value * metres / sticks
        if not true - CENT - LEAST < offcut.value < true + LEAST:
            reason = f"it is said to be worth {offcut.value}, by its stock {true:.4f} at most, in whole cents"
            yield Finding("offcut-value", f'offcut of "{offcut.on}"', reason)


def _under(name: str, register: Register) -> tuple[Length | None, int]:
    """Return the stock of a length or stick, and how many sticks share its value."""
    if plank := register.long_sticks.get(name):
        return stock_of(plank, register), len(plank.sticks)
    used = register.used_lengths.get(name)
    return (None, 1) if used is None else (register.lengths.get(used.stock), used.sticks)


def _true_sums(register: Register) -> dict[str, Decimal]:
    to_pay = sum((count * price for count, price in _true_purchases(register).values()), Decimal(0))
    plan = register.plan
    of_blanks = (scarf.cost for blank in plan.blanks for scarf in blank.scarfs)
    of_planks = (scarf.cost for plank in plan.long_planks for scarf in plank.scarfs)
    costs = (*(joint.cost for joint in plan.joints), *of_blanks, *of_planks)
    joint_cost = sum(costs, Decimal(0))
    offcuts = sum((offcut.value for offcut in register.plan.offcuts if offcut.kept), Decimal(0))
    rack = _worth_from_the_rack(register)
    return {
        "to_pay": to_pay,
        "joint_cost": joint_cost,
        "rack_value": rack,
        "offcut_value": offcuts,
        "objective": to_pay + joint_cost + rack - offcuts,
    }


def _worth_from_the_rack(register: Register) -> Decimal:
    """Add up what the sheets are worth that are used and not bought."""
    kinds = (register.sheets.get(used.stock) for used in register.used_sheets.values())
    return sum((sheet.price for sheet in kinds if sheet is not None and sheet.source == "rack"), Decimal(0))


def _sums(register: Register) -> Iterator[Finding]:
    for name, true in _true_sums(register).items():
        told = getattr(register.plan.totals, name)
        if told != true:
            yield Finding("wrong-total", f"totals, {name}", f"it is said to be {told}, it is {true}")


def _counts(register: Register) -> Iterator[Finding]:
    plan = register.plan
    true = {
        "sheets": sum(used.kind == "sheet" for used in plan.used),
        "lengths": sum(used.kind == "length" for used in bought(register)),
        "joints": len(plan.joints),
        "scarfs_of_blanks": sum(len(blank.scarfs) for blank in plan.blanks),
        "scarfs_of_planks": sum(len(plank.scarfs) for plank in plan.long_planks),
    }
    for name, count in true.items():
        if getattr(plan.totals, name) != count:
            reason = f"there are said to be {getattr(plan.totals, name)}, there are {count}"
            yield Finding("wrong-count", f"totals, {name}", reason)


def _claims(register: Register) -> Iterator[Finding]:
    """Compare the bound with the objective that the plan truly has."""
    totals, objective = register.plan.totals, _true_sums(register)["objective"]
    if totals.bound > objective:
        reason = f"no plan is said to be below {totals.bound}, this one is at {objective}"
        yield Finding("bound-above-objective", "totals", reason)
    if outside_scope(register):
        if totals.proven:
            reason = f"the plan is said to be a proven minimum; its bound is of {totals.bound_scope} plans only"
            yield Finding("false-proof", "totals", reason)
    elif totals.proven != (totals.bound == objective):
        claim = "is said" if totals.proven else "is not said"
        reason = f"the plan {claim} to be a proven minimum; its bound is {totals.bound}, its objective {objective}"
        yield Finding("false-proof", "totals", reason)
