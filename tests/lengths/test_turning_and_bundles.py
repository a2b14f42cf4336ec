"""Where scarfs of long planks may lie, and which strips are ripped from each."""

from collections import Counter

from hypothesis import given
from hypothesis import strategies as st
from test_long_planks import job, plank
from timber_jobs import strip

from nesting.lengths.bundles import Sorting, bundles
from nesting.lengths.crossing import allowed_stations
from nesting.lengths.cutting import measured
from nesting.lengths.turning import between, families, mirrored, staggering, zones_of
from nesting.lengths.wide import WideRule, wide_cutting

PERIODS = st.none() | st.integers(20, 400)


@given(st.integers(10, 500), st.integers(0, 200), PERIODS)
def test_stations_and_their_mirror_images_keep_the_distance(length, distance, period):
    """Of any two stations that are allowed, the same one twice included."""
    spans = staggering(length, distance, period)
    stations = [x for start, end in spans for x in range(start, end + 1)]
    assert all(0 <= x <= length for x in stations)
    mirror = sorted(length - x for x in stations)
    assert all(abs(x - m) >= distance for x in stations for m in (mirror[:3] + mirror[-3:]))
    gaps = [(start, end) for start, end in between(spans, length)]
    for x in range(length + 1):
        assert (x in set(stations)) != any(start < x < end for start, end in gaps)


@given(st.integers(10, 300), st.integers(1, 100), PERIODS, st.data())
def test_every_pair_of_stations_keeps_the_distance(length, distance, period, data):
    """Any station of one strip, and the mirror image of any of another."""
    stations = [x for start, end in staggering(length, distance, period) for x in range(start, end + 1)]
    if stations:
        one, other = (data.draw(st.sampled_from(stations)) for _ in range(2))
        assert abs(one - (length - other)) >= distance


@given(
    st.integers(100, 400),
    st.integers(1, 20),
    st.lists(st.tuples(st.integers(-50, 400), st.integers(1, 90)), max_size=4),
)
def test_zones_keep_stations_out_of_what_is_forbidden(length, half_lap, starts):
    """The stations that a strip with these zones has lie in none of the open stretches."""
    forbidden = tuple((start, start + size) for start, size in starts)
    zones = zones_of(forbidden, half_lap, length)
    kept_out = [x for x in range(length + 1) if all(x + half_lap <= a or x - half_lap >= b for a, b in zones)]
    assert not [x for x in kept_out for a, b in forbidden if a < x < b]


@given(st.lists(st.tuples(st.integers(-50, 400), st.integers(1, 90)), max_size=5))
def test_mirroring_twice_changes_nothing(starts):
    """Whatever the stretches."""
    spans = tuple(sorted((start, start + size) for start, size in starts))
    assert tuple(sorted(mirrored(mirrored(spans, 300), 300))) == spans


def cutting_of(a_job):
    """Return the cutting of a job, all strips in one."""
    return measured(a_job)[0]


ASKED = st.lists(st.tuples(st.sampled_from([11, 13, 15, 17]), st.integers(1, 5), st.booleans()), min_size=1, max_size=4)


@given(ASKED, st.integers(2, 6), st.booleans(), st.booleans(), st.booleans())
def test_every_copy_has_a_stick(asked, width, mixing, turning, shifted):
    """Once, on a plank that is long enough and has no more sticks than it gives; a matched pair lies one way."""
    strips = [
        strip(units, 2 * count if matched else count, "scarf", name=f"s{k}", matched=matched)
        for k, (units, count, matched) in enumerate(asked)
    ]
    shifts = [("s0", "s1", 100)] if shifted and len(strips) > 1 else []
    cutting = cutting_of(job([plank(width)], strips, shifts=shifts))
    tied = families(cutting, range(len(strips)))
    made = bundles(cutting, range(len(strips)), tied, width, Sorting(mixing, turning))
    given_out = Counter(place for bundle in made for place, _ in bundle.sticks)
    assert given_out == {place: member.quantity for place, member in enumerate(cutting.members)}
    for bundle in made:
        assert len(bundle.sticks) <= width
        assert all(cutting.members[place].length <= bundle.length for place, _ in bundle.sticks)
        ways = Counter(bundle.sticks)
        assert not [stick for stick, count in ways.items() if cutting.members[stick[0]].matched and count % 2]
    if shifts:
        assert {turned for b in made for place, turned in b.sticks if place == 0} == {False}
        assert {turned for b in made for place, turned in b.sticks if place == 1} == {True}


def test_a_long_plank_keeps_the_zones_of_all_its_strips():
    """A zone from 1 to 3 of a turned strip of 15 is one from 12 to 14 of its plank; a shift of 1 asks for 8 or more."""
    strips = [strip(15, 1, "scarf", name="a"), strip(15, 1, "scarf", [(1, 3)], name="b")]
    cutting = cutting_of(job([plank(2)], strips, shifts=[("a", "b", 100)]))
    tied = families(cutting, (0, 1))
    made = bundles(cutting, (0, 1), tied, 2, Sorting(mixing=True, turning=True))
    (index,) = [k for k in cutting.stocks if cutting.stocks[k].sticks is None]
    wide, _ = wide_cutting(cutting, cutting.stocks[index], made, tied, WideRule(500, None, mirrored=False))
    assert cutting.members[0].length == 15
    assert list(allowed_stations(wide.members[0])) == [(8, 11)]
