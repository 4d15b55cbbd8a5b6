"""Where the boards of a wall's rows meet: joints on column centres, staggered from row to row.

A row of girts, grade boards or nailers is made of pieces that meet only on column centres. No piece is longer than the
longest stock, and no two adjacent rows break on the same column where that can be avoided (common practice, no
source). All lengths are inches.

Cost, in this order: joints shared with an adjacent row, pieces, waste (stock less piece, each piece from the shortest
stock that holds it). A row may have gaps where an opening stands: no board crosses one, and its edges are no joints.
Waste is counted in whole millionths of an inch, so equal plans tie exactly. Ties: `split` puts
the first joint as late (as far from `start`) as the cost allows, then the next, and so on; `stagger` prefers late
joints at each of its steps. Both give the same answer every time.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Collection, Iterable, Sequence
from itertools import groupby, pairwise
from operator import itemgetter

from layouts.joint_tracks import SHARED, Joints, NoJoint, Row, Track, ready

__all__ = ["NoJoint", "Row", "split", "stagger"]

_MOST_WAYS = 512  # of making up one row; beyond this a mixed wall is solved window by window
_WINDOW = 12  # positions solved at once; each window overlaps half of the one before

State = tuple[int, int]  # last joint of each of two rows
Way = tuple[int, int, Joints]  # columns broken on as bits, cost, joints


def split(row: Row, avoid: Iterable[float] = frozenset()) -> tuple[float, ...]:
    """Joints of one row, ascending inches, sharing as few columns with `avoid` (inches) as can be.

    A joint on an avoided column is a cost, not an error. Linear in the number of columns.
    Raises NoJoint where two neighbouring columns stand further apart than the longest stock.
    """
    avoided = tuple(avoid)
    (track,), rank = ready([row], avoided)
    return track.at(_best_row(track, {rank[at] for at in avoided}))


def stagger(rows: Sequence[Row]) -> tuple[tuple[float, ...], ...]:
    """Joints of each row, bottom to top, ascending inches.

    Least total cost over the whole wall, proved, when all rows are alike or when every row can be made up in at most
    512 ways with no joint to spare (some 20 bays of 8 ft in 16 ft stock). A longer mixed wall starts from each run of
    like rows at its best; where joints are then shared its rows are solved together, a stretch of the wall at a time:
    good, not proved. Linear in rows times columns. Raises NoJoint as `split` does.
    """
    tracks, _ = ready(rows)
    plan: list[Joints] = []
    if len(set(tracks)) == 1:
        plan = _best_run(tracks[0], len(tracks))
    elif tracks and _ways(max(tracks, key=lambda track: track.last), 0):
        ways = {track: _ways(track, 0) for track in set(tracks)}
        plan = _solve([ways[track] for track in tracks])
    plan = plan or _search(tracks)
    return tuple(track.at(joints) for track, joints in zip(tracks, plan, strict=True))


def _best_row(track: Track, taken: Collection[int]) -> Joints:
    """Least-cost joints of one row, a joint on a `taken` rank counting as shared; worked from the far end."""
    inner = zip(track.ranks[1:-1], track.solid[1:-1], strict=True)
    fees = [0, *(SHARED * (solid and rank in taken) for rank, solid in inner), 0]
    to_go = [0] * len(fees)
    via = [0] * len(fees)
    for a in range(track.last - 1, -1, -1):
        to_go[a], _, via[a] = min((cost + fees[b] + to_go[b], -b, b) for b, cost in track.hops[a])
    joints = [via[0]]
    while joints[-1] != track.last:
        joints.append(via[joints[-1]])
    return tuple(joints[:-1])


def _best_pair(track: Track, by_p: int, by_q: int) -> tuple[Joints, Joints]:
    """Least-cost joints of two adjacent like rows p and q; exact.

    `by_p` and `by_q` say how often the pieces of p and q count. A state is the last joint of each row; the row
    that lags moves on, so the two stay within a piece of each other and time is linear.
    """
    last = track.last
    fees = [SHARED * solid for solid in track.solid[:-1]] + [0]

    def moves(i: int, j: int) -> list[tuple[int, State]]:
        if i <= j:
            return [(by_p * c + fees[b] * (b == j), (b, j)) for b, c in track.hops[i]]
        return [(by_q * c + fees[b] * (b == i), (i, b)) for b, c in track.hops[j]]

    ways: dict[State, list[tuple[int, State]]] = {(last, last): []}
    todo = [(0, 0)]
    while todo:
        state = todo.pop()
        if state not in ways:
            ways[state] = moves(*state)
            todo.extend(after for _, after in ways[state])
    to_go = {(last, last): 0}
    via: dict[State, State] = {}
    # Every move raises the sum of the two positions, so this order meets each state after all that follow it.
    for state in sorted(ways, key=sum, reverse=True)[1:]:
        # Ways are listed far first, so the first of equals is the late one.
        to_go[state], via[state] = min(((c + to_go[on], on) for c, on in ways[state]), key=itemgetter(0))
    steps = [(0, 0)]
    while steps[-1] != (last, last):
        steps.append(via[steps[-1]])
    p, q = (tuple(sorted(set(joints)))[1:-1] for joints in zip(*steps, strict=True))
    return p, q


def _best_run(track: Track, count: int, below: Collection[int] = ()) -> list[Joints]:
    """A run of like rows by itself, or one row over the ranks `below` it breaks on; exact.

    The fewest joints shared over the run is (count - 1) times the fewest one pair can share, so every adjacent pair of
    a best plan shares just that. Take the cheapest adjacent pair of such a plan. Set aside, when count is odd, the row
    of that pair in an odd place; the rest falls into adjacent pairs, none cheaper than the one taken. So that pair,
    repeated with its cheaper row first, costs no more than the plan.
    """
    if count == 1:
        return [_best_row(track, below)]
    pair = _best_pair(track, (count + 1) // 2, count // 2)
    return [pair[r % 2] for r in range(count)]


def _ways(track: Track, low: int) -> list[Way]:
    """Every way to make up a row with no joint to spare, late first; none at all when there are too many.

    Dropping a joint that can be spared saves a piece and shares no more: no other way is best. Bits count from `low`.
    """
    found: list[Way] = []
    stack: list[tuple[int, int, int, int, Joints]] = [(0, -1, 0, 0, ())]
    while stack:
        at, spare, bits, cost, joints = stack.pop()
        if len(found) > _MOST_WAYS:
            return []
        if at == track.last:
            found.append((bits, cost, joints[:-1]))
            continue
        for b, more in reversed(track.hops[at]):
            if b > spare:  # else the piece before would have reached b by itself
                bit = 1 << (track.ranks[b] - low) if b != track.last and track.solid[b] else 0
                stack.append((b, track.hops[at][0][0], bits | bit, cost + more, (*joints, b)))
    return found


def _solve(rows: Sequence[Sequence[Way]]) -> list[Joints]:
    """The best choice of one way for each row, worked from the top row down; none if a row has no ways."""
    if not all(rows):
        return []
    above = [(0, 0)]  # of each way of the row above: (cost from there up, columns as bits)
    links = []  # of each row, top first: the best way of the row above, for each way
    for ways in reversed(rows):
        order = sorted(range(len(above)), key=lambda k: above[k][0])
        best = [_cheapest(bits, above, order) for bits, _, _ in ways]
        above = [(way[1] + least, way[0]) for way, (least, _) in zip(ways, best, strict=True)]
        links.append([k for _, k in best])
    k = above.index(min(above, key=itemgetter(0)))
    plan = []
    for ways, link in zip(rows, reversed(links), strict=True):
        plan.append(ways[k][2])
        k = link[k]
    return plan


def _cheapest(bits: int, above: Sequence[tuple[int, int]], order: Sequence[int]) -> tuple[int, int]:
    """(cost, which) of the best way above; `order` is cheapest first, so the look-through stops early."""
    least, which = -1, 0
    for k in order:
        cost, taken = above[k]
        if 0 <= least <= cost:
            break
        cost += SHARED * (bits & taken).bit_count()
        if least < 0 or cost < least:
            least, which = cost, k
    return least, which


def _search(tracks: Sequence[Track]) -> list[Joints]:
    """A plan for a mixed wall too long to solve at once."""
    plan: list[Joints] = []
    for track, run in groupby(tracks):
        below = tracks[len(plan) - 1].broken(plan[-1]) if plan else set()
        plan += _best_run(track, len(list(run)), below)
    for _ in range(3):
        broken = [track.broken(joints) for track, joints in zip(tracks, plan, strict=True)]
        shared = set().union(*(a & b for a, b in pairwise(broken)))  # by any two adjacent rows
        for low in range(0, max(shared, default=0), _WINDOW // 2):
            if any(low <= rank < low + _WINDOW for rank in shared):
                plan = _replace(tracks, plan, low, low + _WINDOW)
    return plan


def _replace(tracks: Sequence[Track], plan: Sequence[Joints], low: int, high: int) -> list[Joints]:
    """The plan with all joints on ranks low to high - 1 placed again at their best, the others left alone."""
    made: dict[tuple[Track, int, int], tuple[list[int], list[Way]]] = {}
    parts, ends = [], []
    for track, joints in zip(tracks, plan, strict=True):
        i, k = (bisect_left(joints, rank, key=track.ranks.__getitem__) for rank in (low, high))
        a, b = joints[i - 1] if i else 0, joints[k] if k < len(joints) else track.last
        if (track, a, b) not in made:
            made[track, a, b] = _part(track, a, b, low, high)
        parts.append(made[track, a, b])
        ends.append((joints[:i], joints[k:]))
    new = _solve([ways for _, ways in parts])
    inner = [tuple(kept[j] for j in joints) for (kept, _), joints in zip(parts, new, strict=False)]
    return [left + mid + right for (left, right), mid in zip(ends, inner, strict=True)] if new else list(plan)


def _part(track: Track, a: int, b: int, low: int, high: int) -> tuple[list[int], list[Way]]:
    """The points of a row that are open between fixed points a and b, and every way between them."""
    first, past = bisect_left(track.ranks, low, a + 1, b), bisect_left(track.ranks, high, a + 1, b)
    # the edges of a gap are passed in any case
    kept = [a, *(j for j in range(a + 1, b) if first <= j < past or not track.solid[j]), b]
    place = {j: k for k, j in enumerate(kept)}
    hops = tuple(tuple((place[j], cost) for j, cost in track.hops[at] if j in place) for at in kept)
    points, solid = tuple(track.points[j] for j in kept), tuple(track.solid[j] for j in kept)
    return kept, _ways(Track(points, solid, tuple(track.ranks[j] for j in kept), hops), low)
