"""Which patterns make all strips, each exactly as often as asked, at the least cost."""

from collections import Counter
from collections.abc import Iterator

import numpy as np

from nesting.effort import Effort
from nesting.solving import Programme, Status, columns_from_dense, minimize_whole
from nesting.solving.programme import Floats

from .choosing import Choice
from .patterns import Near, Patterns
from .task import Task

#: Nodes of the solver's search tree for one choice.
NODES = 3_000

#: Share by which what stock has to hold is lowered, since the solver works in floats.
SLACK = 1e-9


def covered(task: Task, near: Near, least: int, step: int, effort: Effort) -> Choice:
    """Return the patterns of a cheapest plan up to a cost; its bound holds for all plans, if need be by that cost.

    Each strip exactly so often, no cost beyond the limits, stock that holds all strips: though none of this changes
    what is cheapest, the solver is a good deal faster with it.

    Parameters
    ----------
    near : Near
        All patterns that a plan up to its cost can hold.
    least, step : int
        Cents that a plan costs at least, and of which all prices are multiples.
    """
    patterns, beyond = near.patterns, near.cents // step * step + step
    answer = minimize_whole(
        _programme(task, patterns, -(-least // step), near.cents // step, step),
        nodes=NODES,
        stop=lambda: effort.over,
        good_enough=-(-least // step),
        seconds=effort.seconds_left,
    )
    effort.spend(40 + len(patterns))
    if answer.status is Status.IMPOSSIBLE:
        return Choice(Counter(), answer.status, beyond)
    bound = least if answer.bound is None else min(max(least, answer.bound * step), beyond)
    chosen = answer.values[len(task.stocks) :]
    return Choice(
        Counter({patterns.group(task, k): n for k, n in enumerate(chosen) if n}) if answer.found else Counter(),
        answer.status,
        bound,
    )


def _programme(task: Task, patterns: Patterns, least: int, most: int, step: int) -> Programme:
    """Return the choice as a programme: columns are stock and patterns; rows strips, openings, money, and room."""
    stocks, kinds, openings = len(task.stocks), len(task.members), len(task.openings)
    rooms = list(_rooms(task))
    matrix = np.zeros((stocks + len(patterns), kinds + openings + 1 + len(rooms)))
    matrix[:stocks, kinds : kinds + openings] = -task.yields
    matrix[:stocks, kinds + openings] = costs = task.cents // step
    matrix[:stocks, kinds + openings + 1 :] = np.array([held for held, _ in rooms]).T
    matrix[stocks:, :kinds] = patterns.strips
    matrix[np.arange(stocks, len(matrix)), kinds + patterns.kinds] = 1
    pieces, asked = float(task.demand.sum()), task.demand.astype(float)
    often = np.where(patterns.strips > 0, task.demand // np.maximum(patterns.strips, 1), pieces).min(axis=1)
    lengths = [pieces if count is None else float(count) for count in task.available]
    return Programme(
        columns_from_dense(
            np.concatenate([costs, np.zeros(len(patterns))]),
            matrix,
            np.zeros(len(matrix)),
            np.concatenate([lengths, often]),
        ),
        np.concatenate([asked, np.full(openings, -np.inf), [float(least)], [need for _, need in rooms]]),
        np.concatenate([asked, np.zeros(openings), [float(most)], np.full(len(rooms), np.inf)]),
    )


def _rooms(task: Task) -> Iterator[tuple[Floats, float]]:
    """Yield what one length of each stock holds, and what it all has to: of strips that only some stock serves."""
    cutting = task.cutting
    for stocks, members in cutting.levels():
        held = np.array([cutting.stocks[index].room if index in stocks else 0 for index in task.stocks])
        need = sum(member.quantity * cutting.need(member, 0) for member in members)
        yield held / held.max(), need / held.max() * (1 - SLACK)
