"""A round being shot: where it has come to, and what is asked next (``layouts.shooting_steps``: what an answer does).

The file is the whole memory: a round is taken up from its text alone, wherever it was left. Seats are read in walking
order; a set-up that is not the round's first begins with points read before, and the last ends with its check-back.
"""

from __future__ import annotations

from typing import Literal

from msgspec import Struct
from msgspec.structs import replace

from layouts import shooting_view as views
from layouts.book import ONE, Book, Sight
from layouts.shooting_start import Site


class Ask(Struct, frozen=True):
    """What is asked for: a reading of *point* from *setup*, the *nth* there (not the first: its check-back); the point
    that joins *setup* to the others; or nothing more."""

    kind: Literal["reading", "join", "end"]
    setup: str
    point: str = ""
    nth: int = 0


class Shoot(Struct, frozen=True):
    """*text* is the file; *setup* the one read from now; *here* the column the walk has come to; *trail* what was read,
    in the order of reading; *where* a benchmark asked for is; *ending* that no more seats are wanted; *alone* that this
    set-up is to be joined by no second point."""

    site: Site
    text: str
    book: Book
    setup: str
    here: str
    ask: Ask
    skipped: frozenset[str] = frozenset()
    trail: tuple[Ask, ...] = ()
    where: str = ""
    ending: bool = False
    alone: bool = False

    def label(self, setup: str = "") -> list[Sight]:
        """What was read from a set-up (this one) in this round, in the order of the file."""
        mine = setup or self.setup
        return [s for s in self.book.sights if (s.round, s.setup) == (self.site.round, mine)]

    def read_back(self, setup: str = "") -> bool:
        """Whether the last reading from a set-up (this one) is its check-back."""
        label = self.label(setup)
        return len(label) > 1 and label[-1].point == label[0].point

    def sight(self, ask: Ask) -> Sight | None:
        """The reading asked for, if it is made already."""
        same = [s for s in self.label(ask.setup) if s.point == ask.point]
        return same[ask.nth] if ask.kind == "reading" and ask.nth < len(same) else None

    def others(self) -> list[str]:
        """Points that other set-ups of this round have read."""
        mine = [s for s in self.book.sights if s.round == self.site.round and s.setup != self.setup]
        return list(dict.fromkeys(s.point for s in mine))

    def joined(self) -> bool:
        """Whether this set-up has read a point of another one, or there is none."""
        others = self.others()
        return not others or any(s.point in others for s in self.label())

    def joints(self) -> list[str]:
        """Points that this set-up can still be joined by."""
        here = {s.point for s in self.label()}
        return [p for p in self.others() if p not in here]


def start(site: Site, text: str, setup: str = "") -> Shoot:
    """The round of *site* taken up where *text*, which has a heading, leaves it; from *setup*, else the last one used.
    Raises ``JobRefused``."""
    found = site.read(text)
    mine = [s for s in found.sights if s.round == site.round]
    made: list[Ask] = []
    for s in mine:
        nth = sum((a.setup, a.point) == (s.setup, s.point) for a in made)
        made.append(Ask("reading", s.setup, s.point, nth))
    now = setup or (mine[-1].setup if mine else ONE)
    state = Shoot(site, text, found, now, site.columns[0], Ask("end", now), trail=tuple(made))
    if mine and views.is_open(mine[-1]) and mine[-1].setup == now:
        return replace(state, ask=made[-1])
    return next_ask(state)


def prompt(s: Shoot) -> str:
    """What is asked, in words."""
    ask, columns = s.ask, s.site.columns
    if ask.kind == "end":
        return "Nothing more to read. Enter ends, go NAME changes one: "
    if ask.kind == "join":
        if s.joined():
            return "Read another one again? Two are better. [Enter: no more] "
        return f"Which seat or benchmark read before do you read again? [{s.joints()[0]}] "
    told = [f"{columns.index(ask.point) + 1} of {len(columns)}"] if ask.point in columns else []
    told += [f"round {s.site.round}"] * (s.site.round != ONE) + [f"set-up {ask.setup}"] * (ask.setup != ONE)
    name = f"{ask.point} ({', '.join(told)})" if told else ask.point
    old = s.sight(ask)
    if old and views.is_open(old):
        return f"{name} AGAIN: "
    if old:
        return f"{name} is {old.text}, Enter keeps it: "
    return f"CHECK-BACK, {name} again: " if ask.nth else f"{name}: "


# --- what is asked next ---------------------------------------------------------------------------------------------


def next_ask(s: Shoot) -> Shoot:
    """*s* with the next thing to ask."""
    if not s.ending and _wants_joint(s):
        return replace(s, ask=Ask("join", s.setup), where="")
    seat = None if s.ending else _seat(s)
    if seat:
        return replace(s, ask=Ask("reading", s.setup, seat), here=seat, where="")
    return replace(s, ask=_check_back(s) or Ask("end", s.setup), where="")


def _wants_joint(s: Shoot) -> bool:
    """Whether this set-up has none of the points of the others, or one alone."""
    return bool(s.joints()) and (not s.joined() or (len(s.label()) == 1 and not s.alone))


def _seat(s: Shoot) -> str | None:
    """The next column, walking on from here, that has no reading."""
    names, wanted = s.site.columns, views.unread(s.site, s.book)
    at = names.index(s.here)
    return next((n for n in names[at:] + names[:at] if n in wanted and n not in s.skipped), None)


def _check_back(s: Shoot) -> Ask | None:
    """The first point of this set-up again, unless that was the last reading."""
    label = s.label()
    if len(label) < 2:
        return None
    first = label[0].point
    count = sum(x.point == first for x in label)
    if not s.read_back():
        return Ask("reading", s.setup, first, count)
    return Ask("reading", s.setup, first, count - 1) if views.is_open(label[-1]) else None
