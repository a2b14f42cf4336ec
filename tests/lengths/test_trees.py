"""Groups whose openings hang together as a tree: what is tried by trees equals what a solver says of all rules."""

from itertools import pairwise, product

from hypothesis import assume, given, settings
from hypothesis import strategies as st
from ortools.sat.python import cp_model
from timber_jobs import job, length, strip

from nesting.lengths.crossing import Crossing
from nesting.lengths.cutting import hanging_together, measured
from nesting.lengths.group_model import add_group
from nesting.lengths.groups import Group
from nesting.lengths.task import task_of
from nesting.lengths.trees import laid_out_as_tree
from nesting.solving import Status, minimize

#: Lengths, strips with a zone or none, kerf and least piece, in hundreds of millimetres.
sizes = st.lists(st.integers(5, 14), min_size=2, max_size=2, unique=True)
kinds = st.lists(st.tuples(st.integers(3, 26), st.sampled_from([(), (3, 6), (8, 12)])), min_size=2, max_size=3)


def task_with(rooms, strips, kerf, least):
    """Return the task of a job with these lengths and strips, all joined with laps of 2."""
    asked = [
        strip(units, 3, joint="scarf", zones=[zone] if zone and zone[1] <= units else (), name=f"s{k}")
        for k, (units, zone) in enumerate(strips)
    ]
    a_job = job([length(room, 100) for room in rooms], asked, lap=2, least=least, kerf=kerf)
    (cutting,) = hanging_together(measured(a_job)[0])
    return task_of(cutting)


@settings(max_examples=60)
@given(sizes, kinds, st.integers(0, 1), st.integers(2, 3), st.data())
def test_trees_find_a_layout_if_and_only_if_a_solver_does(rooms, strips, kerf, least, data):
    """A group of up to four openings, with one joint fewer: the model of all its pieces has no trees in it."""
    task = task_with(rooms, strips, kerf, least)
    openings = data.draw(st.tuples(*(st.integers(0, 3) for _ in task.openings)).filter(lambda n: 2 <= sum(n) <= 4))
    copies = data.draw(st.tuples(*(st.integers(0, 2) for _ in task.members)).filter(any))
    group = Group(copies, openings, sum(openings) - 1)
    tried = laid_out_as_tree(task, group)
    assume(tried is not None)
    model = cp_model.CpModel()
    add_group(task, model, group, "")
    answer = minimize(model, effort=2.0)
    assume(answer.status is not Status.UNKNOWN)
    status, part = tried
    if answer.status is Status.IMPOSSIBLE:
        assert status is Status.IMPOSSIBLE
    if status is not Status.IMPOSSIBLE:
        assert_made(task, group, part)
    elif answer.found:
        assert _falls_apart(answer, group)


def _falls_apart(answer, group):
    """Whether what the solver found is not one tree: then it stands for several groups, one of them with a ring."""
    name = [(k, c) for k, n in enumerate(group.strips) for c in range(n)]
    on = {key: value for key, value in answer.values.items() if key.startswith("on ") and value}
    towards = list(range(sum(group.openings)))
    for place, copy in name:
        bars = sorted({int(key.split()[-1]) for key in on if key.split()[1:3] == [str(place), str(copy)]})
        for bar in bars[1:]:
            towards = [towards[bars[0]] if each == towards[bar] else each for each in towards]
    return len(set(towards)) > 1


def assert_made(task, group, part):
    """Assert that all strips are made with their laps, at stations that are allowed, within the rooms of openings."""
    loads = dict.fromkeys(range(len(part.openings)), 0)
    for cut in part.cuts:
        loads[cut.bar] += cut.length + task.cutting.kerf
    assert all(load <= task.openings[part.openings[bar]].room for bar, load in loads.items())
    assert sum(cut.index > 0 for cut in part.cuts) == group.joints
    for member, count in zip(task.members, group.strips, strict=True):
        for copy in range(1, count + 1):
            pieces = [c.length for c in part.cuts if (c.member, c.copy) == (member.index, copy)]
            assert sum(pieces) - member.lap * (len(pieces) - 1) == member.length
            ends = [sum(pieces[: k + 1]) - member.lap * k - member.half_lap for k in range(len(pieces) - 1)]
            assert all(any(a <= end <= b for a, b in Crossing(member, 10**9).stations) for end in ends)
            assert all(b - a >= member.least_between for a, b in pairwise(ends))


@given(st.integers(6, 24), st.integers(0, 20), st.integers(0, 20), st.sampled_from([(), (6, 9)]), st.integers(2, 4))
def test_the_shortest_piece_of_a_strip_in_three_is_found(units, one, other, zone, least):
    """Held against trying all stations."""
    task = task_with([24, 30], [(units, zone)], 0, least)
    (member,) = task.members
    crossing = Crossing(member, member.length)
    allowed = [s for s in range(member.length + 1) if any(a <= s <= b for a, b in crossing.stations)]
    best = [
        own[place]
        for s, t in product(allowed, repeat=2)
        if s + member.least_between <= t
        for own in [(s + member.half_lap, t - s + member.lap, member.length - t + member.half_lap)]
        for place in range(3)
        for a, b in [[own[k] for k in range(3) if k != place]]
        if (a <= one and b <= other) or (a <= other and b <= one)
    ]
    way = crossing.shortest((one, other))
    assert (None if way is None else way.piece) == min(best, default=None)
    if way is not None:
        assert way.pieces(member)[way.order.index(0)] == way.piece
