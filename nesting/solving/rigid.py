"""Bodies of boxes that are tied to one another, to be placed without overlap in a rectangle."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from ortools.sat.python import cp_model

from .answer import Status
from .cp_sat import minimize


@dataclass(frozen=True, order=True)
class Box:
    """A box of whole numbers, from its lower left corner."""

    x: int
    y: int
    width: int
    height: int

    @property
    def right(self) -> int:
        """Where it ends along x."""
        return self.x + self.width

    @property
    def top(self) -> int:
        """Where it ends along y."""
        return self.y + self.height


@dataclass(frozen=True, order=True)
class Way:
    """One way in which a body may lie: its boxes, and its reach, which has to stay in the room.

    Boxes don't overlap one another. They may go beyond the reach: those of bodies that keep a gap do.
    """

    reach: Box
    boxes: tuple[Box, ...]


@dataclass(frozen=True)
class Body:
    """What lies in one of some ways, moved anywhere; it overlaps no other body, and none of its walls."""

    ways: tuple[Way, ...]
    walls: tuple[Box, ...] = ()


@dataclass(frozen=True)
class Lying:
    """The way in which a body lies, by its index, and by how much it is moved."""

    way: int
    x: int
    y: int


@dataclass(frozen=True)
class Arrangement:
    """Where each body lies, if the status says that places were found."""

    status: Status
    places: tuple[Lying, ...] = ()

    @property
    def found(self) -> bool:
        """Whether there are places."""
        return self.status in (Status.OPTIMAL, Status.FEASIBLE)


def arrange(room: Box, bodies: Sequence[Body], *, effort: float, seed: int = 0) -> Arrangement:
    """Find a place for every body, or prove that there is none.

    IMPOSSIBLE holds for places that are not whole numbers as well: that two boxes do not overlap means that the
    places of their bodies differ by at least a whole number along x or y, and so they still do when all places are
    rounded down.

    Parameters
    ----------
    room : Box
        Where the reach of every body stays.
    effort : float
        Deterministic time as in ``minimize``.
    """
    fitting = [[index for index, way in enumerate(body.ways) if _fits(room, way)] for body in bodies]
    if not all(fitting):
        return Arrangement(Status.IMPOSSIBLE)
    model = cp_model.CpModel()
    laid = [
        _Laid(model, room, {index: body.ways[index] for index in ways}, f"body{number}")
        for number, (body, ways) in enumerate(zip(bodies, fitting, strict=True))
    ]
    _keep_apart(model, room, bodies, laid)
    _order_equals(model, bodies, laid)
    answer = minimize(model, effort=effort, seed=seed)
    return Arrangement(answer.status, tuple(one.read(answer.values) for one in laid) if answer.found else ())


def _fits(room: Box, way: Way) -> bool:
    return way.reach.width <= room.width and way.reach.height <= room.height


class _Laid:
    """The variables of one body: where it is moved to, which way it lies, and the intervals of its boxes."""

    def __init__(self, model: cp_model.CpModel, room: Box, ways: Mapping[int, Way], name: str) -> None:
        self._model, self._room, self._name, self._ways = model, room, name, tuple(ways)
        reaches = [way.reach for way in ways.values()]
        self.x = model.new_int_var(
            min(room.x - reach.x for reach in reaches), max(room.right - reach.right for reach in reaches), f"{name}x"
        )
        self.y = model.new_int_var(
            min(room.y - reach.y for reach in reaches), max(room.top - reach.top for reach in reaches), f"{name}y"
        )
        self.intervals: list[_BoxIntervals] = []
        chosen = {index: model.new_bool_var(f"{name}way{index}") for index in ways}
        model.add_exactly_one(chosen.values())
        for index, way in ways.items():
            self._stay(way.reach, chosen[index])
            self.intervals += [self._boxed(box, chosen[index]) for box in way.boxes]

    def read(self, values: Mapping[str, int]) -> Lying:
        """Return where the body lies in a solution."""
        way = next(index for index in self._ways if values[f"{self._name}way{index}"])
        return Lying(way, values[f"{self._name}x"], values[f"{self._name}y"])

    def _stay(self, reach: Box, lies: cp_model.IntVar) -> None:
        """Keep the reach of a way in the room if the body lies so."""
        room = self._room
        inside = [
            self.x >= room.x - reach.x,
            self.x <= room.right - reach.right,
            self.y >= room.y - reach.y,
            self.y <= room.top - reach.top,
        ]
        for condition in inside:
            self._model.add(condition).only_enforce_if(lies)

    def _boxed(self, box: Box, lies: cp_model.IntVar) -> "_BoxIntervals":
        new = self._model.new_optional_fixed_size_interval_var
        along = new(self.x + box.x, box.width, lies, "")
        return _BoxIntervals(along, new(self.y + box.y, box.height, lies, ""), box)


@dataclass(frozen=True)
class _BoxIntervals:
    """The stretches along x and y that a box takes up."""

    along: cp_model.IntervalVar
    across: cp_model.IntervalVar
    box: Box


def _keep_apart(model: cp_model.CpModel, room: Box, bodies: Sequence[Body], laid: Sequence[_Laid]) -> None:
    """Let no two bodies overlap, and no body and its walls."""
    by_walls: dict[tuple[Box, ...], list[_Laid]] = {}
    for body, one in zip(bodies, laid, strict=True):
        by_walls.setdefault(body.walls, []).append(one)
    edge = _edge(room, bodies)
    if len(by_walls) > 1:
        _no_overlap(model, edge, [intervals for one in laid for intervals in one.intervals])
    for walls, group in by_walls.items():
        fixed = [_fixed(model, part) for wall in walls if (part := _common(wall, edge))]
        moving = [intervals for one in group for intervals in one.intervals]
        _no_overlap(model, edge, [*moving, *fixed])


def _no_overlap(model: cp_model.CpModel, edge: Box, boxes: Sequence[_BoxIntervals]) -> None:
    """Let boxes within an edge not overlap.

    That no line square to an axis crosses more boxes than it is long follows, and saying so too was a hundred times
    faster where boxes fill the whole edge.
    """
    along, across = [one.along for one in boxes], [one.across for one in boxes]
    model.add_no_overlap_2d(along, across)
    model.add_cumulative(along, [one.box.height for one in boxes], edge.height)
    model.add_cumulative(across, [one.box.width for one in boxes], edge.width)


def _fixed(model: cp_model.CpModel, wall: Box) -> _BoxIntervals:
    along = model.new_fixed_size_interval_var(wall.x, wall.width, "")
    return _BoxIntervals(along, model.new_fixed_size_interval_var(wall.y, wall.height, ""), wall)


def _edge(room: Box, bodies: Iterable[Body]) -> Box:
    """Return the room with what boxes may go beyond it."""
    pairs = [(way.reach, box) for body in bodies for way in body.ways for box in way.boxes]
    west = max((reach.x - box.x for reach, box in pairs), default=0)
    east = max((box.right - reach.right for reach, box in pairs), default=0)
    south = max((reach.y - box.y for reach, box in pairs), default=0)
    north = max((box.top - reach.top for reach, box in pairs), default=0)
    return Box(room.x - west, room.y - south, room.width + west + east, room.height + south + north)


def _common(one: Box, other: Box) -> Box | None:
    """Return what two boxes share, or None."""
    left, low = max(one.x, other.x), max(one.y, other.y)
    right, top = min(one.right, other.right), min(one.top, other.top)
    return Box(left, low, right - left, top - low) if left < right and low < top else None


def _order_equals(model: cp_model.CpModel, bodies: Sequence[Body], laid: Sequence[_Laid]) -> None:
    """Bodies that are equal may be exchanged, so let their places rise along x."""
    last: dict[Body, _Laid] = {}
    for body, one in zip(bodies, laid, strict=True):
        if body in last:
            model.add(last[body].x <= one.x)
        last[body] = one
