"""The cheapest lengths that together have enough room, wherever strips are cut from them: a small knapsack, exact."""

import numpy as np

from nesting.compiling import kernel

from .filling import Whole


@kernel
def most_room(prices: Whole, rooms: Whole, there: Whole, most: int) -> Whole:
    """Return the most room that can be had for each price up to ``most``, a row for each stock: of it and those after.

    The last row is of no stock.

    Parameters
    ----------
    prices, rooms, there : arrays
        Of one length of each stock, and how many there are.
    """
    n = len(prices)
    tables = np.zeros((n + 1, most + 1), np.int64)
    for s in range(n - 1, -1, -1):
        row, price, room = tables[s], prices[s], rooms[s]
        row[:] = tables[s + 1]
        if price == 0:
            row += there[s] * room
            continue
        if there[s] >= most // price:
            for cost in range(price, most + 1):
                row[cost] = max(row[cost], row[cost - price] + room)
            continue
        left, bundle = there[s], 1
        while left > 0:  # any number up to what is there is a sum of some of these bundles
            bundle = min(bundle, left)
            for cost in range(most, price * bundle - 1, -1):
                row[cost] = max(row[cost], row[cost - price * bundle] + room * bundle)
            left, bundle = left - bundle, 2 * bundle
    return tables


@kernel
def cheapest_room(
    prices: Whole, rooms: Whole, least: Whole, most: Whole, tables: Whole, need: int, below: int, most_steps: int
) -> tuple[int, Whole, bool]:
    """Return the least price, below a limit, of lengths that have enough room; how many of each; whether it is proven.

    A search in depth that goes on only where the stock that is left can have enough room for what is left to pay.

    Parameters
    ----------
    prices, rooms, least, most : arrays
        Of one length of each stock, and how many are taken at least and at most.
    tables : array
        What :func:`most_room` says of no fewer lengths than ``most``, up to ``below``.
    need, below : int
        The price is ``below`` where nothing cheaper has room for the need.
    most_steps : int
        Steps of the search after which it ends, and nothing is proven.
    """
    n = len(prices)
    best, found = below, np.zeros(n, np.int64)
    taken, left, cost = np.zeros(n, np.int64), np.full(n + 1, need), np.zeros(n + 1, np.int64)
    for s in range(n):
        left[0] -= rooms[s] * least[s]
        cost[0] += prices[s] * least[s]
    s, begun = 0, False
    for _ in range(most_steps):
        if not begun:
            useful = -(-left[s] // rooms[s]) if left[s] > 0 and rooms[s] > 0 else 0
            taken[s], begun = min(most[s] - least[s], useful) + 1, True
        taken[s] -= 1
        if taken[s] < 0:
            s -= 1
            if s < 0:
                return best, found, True
            continue
        left[s + 1] = left[s] - taken[s] * rooms[s]
        cost[s + 1] = cost[s] + taken[s] * prices[s]
        if cost[s + 1] >= best or left[s + 1] > tables[s + 1, best - 1 - cost[s + 1]]:
            continue
        if left[s + 1] <= 0:
            best = cost[s + 1]
            found[: s + 1] = least[: s + 1] + taken[: s + 1]
            found[s + 1 :] = least[s + 1 :]
            continue
        s, begun = s + 1, False
    return best, found, False
