"""The proof where bound and plan differ: all ways of filling an opening as paths through a graph.

After Valerio de Carvalho (1999) and Brandao and Pedroso (2016) for the graph and its compression, de Lima, Iori and
Miyazawa (2022) for leaving out arcs by their reduced cost (all from memory). A node is the room that is left in an
opening, an arc a strip; strips stand in the order of the members. Arcs that no plan cheaper than the best can use
are left out; since their reduced costs are whole numbers, that is exact.
"""

from collections import Counter, defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from nesting.effort import Effort
from nesting.solving import Columns, Programme, Status, minimize_whole

from .filling import Whole, exact_fill_values
from .groups import Group
from .safe_bound import Proof
from .task import Task

#: Cells of the tables (members times room), and arcs, beyond which the graph is not built.
MOST_CELLS = 30_000_000
MOST_ARCS = 150_000

#: Nodes of the solver's search tree where seconds are counted; else nodes times arcs, since those of a large graph
#: take long.
NODES = 20_000
FEWER_NODES = 1_000_000

Node = tuple[int, int]


@dataclass(frozen=True)
class Arc:
    """A strip of the member cut from an opening: ``tail`` and ``head`` are the set of members and the room left."""

    tail: Node
    head: Node
    member: int


@dataclass(frozen=True)
class Settled:
    """A cheaper choice of groups, if there is one, and a bound in cents that holds whatever was found."""

    plan: Counter[Group] | None
    cents: int | None


def settled(task: Task, found: Proof, best: int, step: int, effort: Effort) -> Settled:
    """Look for a plan cheaper than the best by at least a step of money, or prove that there is none.

    Only for strips without joints.
    """
    if len(task.members) * max(opening.room for opening in task.openings) > MOST_CELLS:
        return Settled(None, None)
    arcs = _compressed(task, _arcs(task, found, found.most_reduced(best - step)))
    if arcs is None or len(arcs.arcs) > MOST_ARCS:
        return Settled(None, None)
    programme = _programme(task, arcs, found, best, step)
    effort.spend(len(arcs.arcs) // 10)
    answer = minimize_whole(
        programme,
        nodes=NODES if effort.seconds_left is not None else max(5, FEWER_NODES // max(1, len(arcs.arcs))),
        stop=lambda: effort.over,
        good_enough=-int(-found.cents // step),
        seconds=effort.seconds_left,
    )
    if answer.status is Status.IMPOSSIBLE:
        return Settled(None, best)
    bound = None if answer.bound is None else min(answer.bound * step, best)  # of plans that are better than the best
    plan = _read(task, arcs, answer.values) if answer.found else None
    return Settled(plan, bound)


@dataclass(frozen=True)
class _Graph:
    arcs: tuple[Arc, ...]
    entries: tuple[Node | None, ...]


@dataclass(frozen=True)
class _Tables:
    """Best values of filling a room: exactly, with members up to each; or within it, with members from each on."""

    task: Task
    openings: Whole
    values: Whole
    before: Whole
    after: Whole

    def kept(self, kind: int, place: int, most: int) -> Iterator[tuple[int, int]]:
        """Yield (room left, member) of the arcs of a member from a kind of opening within a reduced cost."""
        size, room = int(self.task.sizes[place]), self.task.openings[kind].room
        if size > room:
            return
        used = np.arange(room - size + 1)
        value = self.before[place + 1][used] + self.values[place] + self.after[place][room - size - used]
        for x in used[int(self.openings[kind]) - value <= most].tolist():
            yield room - x, place


def _arcs(task: Task, found: Proof, most: int) -> Iterator[tuple[int, list[tuple[int, int]]]]:
    """Yield for each set of members the arcs that are kept, as room left before the strip, and member."""
    for number, members in enumerate(_sets(task)):
        kinds = [k for k, opening in enumerate(task.openings) if opening.members == members]
        tables = _tables(task, found, members, max(task.openings[k].room for k in kinds))
        yield number, sorted({arc for k in kinds for place in sorted(members) for arc in tables.kept(k, place, most)})


def _sets(task: Task) -> list[frozenset[int]]:
    return sorted({opening.members for opening in task.openings}, key=sorted)


def _tables(task: Task, found: Proof, members: frozenset[int], room: int) -> _Tables:
    values = np.array([p if k in members else 0 for k, p in enumerate(found.strips)], dtype=np.int64)
    copies = np.array([d if k in members else 0 for k, d in enumerate(task.demand)], dtype=np.int64)
    before = exact_fill_values(values, task.sizes, copies, room, False)
    after = exact_fill_values(values, task.sizes, copies, room, True)
    return _Tables(task, found.openings, values, before, after)


def _compressed(task: Task, kept: Iterator[tuple[int, list[tuple[int, int]]]]) -> _Graph | None:
    """Return the graph with every node moved to the most room that its strips can use."""
    arcs: set[tuple[Node, Node, int]] = set()
    labels: dict[Node, int] = {}
    for number, pairs in kept:
        out: dict[int, list[int]] = defaultdict(list)
        for room, place in pairs:
            out[room].append(place)
        for room in sorted(out):
            ends = [(place, room - int(task.sizes[place])) for place in out[room]]
            heads = [(place, labels.get((number, end), 0)) for place, end in ends]
            label = max(int(task.sizes[place]) + head for place, head in heads)
            labels[number, room] = label
            arcs.update(((number, label), (number, head), place) for place, head in heads)
            if len(arcs) > MOST_ARCS:
                return None
    sets = _sets(task)
    starts = [(sets.index(opening.members), opening.room) for opening in task.openings]
    entries = tuple((node[0], labels[node]) if node in labels else None for node in starts)
    return _Graph(tuple(Arc(*arc) for arc in sorted(arcs)), entries)


def _programme(task: Task, graph: _Graph, found: Proof, best: int, step: int) -> Programme:
    """Return the flow programme: variables are stock, entries by opening, arcs; costs count steps of money."""
    kinds, openings = len(task.members), len(task.openings)
    nodes = {node: k for k, node in enumerate(sorted({a.tail for a in graph.arcs} | {a.head for a in graph.arcs}))}
    rows: list[int] = []
    entries: list[float] = []
    starts: list[int] = []

    def column(parts: list[tuple[int, float]]) -> None:
        starts.append(len(rows))
        rows.extend(row for row, _ in parts)
        entries.extend(entry for _, entry in parts)

    money = kinds + openings + len(nodes)
    costs = [int(cents) // step for cents in task.cents]
    for row, cost in zip(task.yields, costs, strict=True):
        column([(kinds + kind, float(n)) for kind, n in enumerate(row) if n] + [(money, float(cost))] * (cost > 0))
    for kind, node in enumerate(graph.entries):
        column([(kinds + kind, -1.0)] + ([] if node is None else [(kinds + openings + nodes[node], 1.0)]))
    for arc in graph.arcs:
        ends = [(kinds + openings + nodes[arc.tail], -1.0), (kinds + openings + nodes[arc.head], 1.0)]
        column([(arc.member, 1.0), *ends])
    most = [float(best // step) if c is None else float(c) for c in task.available]
    upper = np.array(most + [np.inf] * openings + [float(task.demand[arc.member]) for arc in graph.arcs])
    columns = Columns(
        costs=np.array(costs + [0] * (openings + len(graph.arcs)), dtype=float),
        lower=np.zeros(len(starts)),
        upper=upper,
        starts=np.array(starts, dtype=np.int32),
        rows=np.array(rows, dtype=np.int32),
        entries=np.array(entries),
    )
    lower = np.concatenate(
        [task.demand.astype(float), np.zeros(openings + len(nodes)), [float(-int(-found.cents // step))]]
    )
    infinite = np.concatenate([np.full(money, np.inf), [float((best - step) // step)]])
    return Programme(columns, lower, infinite)


def _read(task: Task, graph: _Graph, values: tuple[int, ...]) -> Counter[Group]:
    """Follow the flow from each entry until no strip goes on."""
    first = len(task.stocks) + len(task.openings)
    out: dict[Node, list[int]] = defaultdict(list)
    flow = list(values[first:])
    for place, arc in enumerate(graph.arcs):
        if flow[place]:
            out[arc.tail].append(place)
    plan: Counter[Group] = Counter()
    left = task.demand.copy()
    for kind, node in enumerate(graph.entries):
        for _ in range(values[len(task.stocks) + kind] if node is not None else 0):
            strips = _path(task, graph, out, flow, node, left)
            if any(strips):
                plan[Group(strips, tuple(int(k == kind) for k in range(len(task.openings))), 0)] += 1
    return plan


def _path(
    task: Task, graph: _Graph, out: dict[Node, list[int]], flow: list[int], node: Node | None, left: Whole
) -> tuple[int, ...]:
    strips = [0] * len(task.members)
    while node is not None:
        places = out.get(node, [])
        while places and not flow[places[-1]]:
            places.pop()
        if not places:
            break
        arc = graph.arcs[places[-1]]
        flow[places[-1]] -= 1
        node = arc.head
        if left[arc.member] > 0:
            left[arc.member] -= 1
            strips[arc.member] += 1
    return tuple(strips)
