"""What of a schedule of nails is worth a look, in words: nails that rust in treated wood, nails that no table holds,
joints left out."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from layouts.lengths import Style
from layouts.nail_count import NAMES, Schedule, Tally, longest, nailing
from layouts.nails import Key, Nail, question, show_nail


def warnings(schedule: Schedule, found: Sequence[Tally], style: Style) -> tuple[str, ...]:
    """What is worth a look: nails that rust in treated wood, nails that no table holds, joints left out. Nothing where
    the schedule is empty: it is the user's to fill."""
    given = {nailing.nail for nailing in schedule.values() if nailing}
    if not given:
        return ()
    lines = _rusting(schedule, found, style)
    asked = (question(nail, style) for nail in sorted(given, key=longest))
    # one question for a nail, whatever its coat
    lines += dict.fromkeys(text for text in asked if text)
    missing: Counter[Key] = Counter()
    for tally in found:
        if nailing(schedule, tally) is None:
            missing[tally.joint] += tally.count
    if missing:
        each = ", ".join(f"{NAMES[key].lower()} ({count})" for key, count in missing.items())
        lines.append(f"No nails are given for: {each}. They are not in the count.")
    return tuple(lines)


def _rusting(schedule: Schedule, found: Sequence[Tally], style: Style) -> list[str]:
    """Joints with treated wood whose nail is not fit for it."""
    counts: dict[tuple[Key, Nail], list[int]] = {}
    for tally in found:
        given = nailing(schedule, tally)
        if given is not None and not given.nail.lasting:
            both = counts.setdefault((tally.joint, given.nail), [0, 0])
            both[0] += tally.treated
            both[1] += tally.count
    return [
        f"{NAMES[key]}: {'all' if some == all_of else f'{some} of'} {all_of} touch treated wood, and "
        f"{show_nail(nail, style)} is not HDG: it rusts there (IRC R317.3)."
        for (key, nail), (some, all_of) in counts.items()
        if some
    ]
