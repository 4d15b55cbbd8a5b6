"""What is said before the first reading and after the last: what is there, what is missing, what is to be done."""

from __future__ import annotations

from msgspec.structs import replace

from layouts import grade, survey
from layouts import shooting_view as views
from layouts.book import ONE, Book
from layouts.lengths import show, up
from layouts.problems import JobRefused
from layouts.readings import taken
from layouts.shooting import Shoot
from layouts.shooting_start import Site
from layouts.shooting_view import View
from layouts.shooting_words import LINE

READ = "READ"  # a seat of which nothing can be told yet: its set-up is not joined, or no line can be laid


def greeting(s: Shoot) -> tuple[str, ...]:
    """What is shot, how it is read, what is there already, and the words."""
    site, head = s.site, s.book.head
    name = site.job.job.name
    lines = [f"{name}: {len(site.columns)} columns, {survey.named(site.round, s.setup)}, into {site.file}"]
    sense = "larger is higher" if head.up else "larger is lower"
    lines.append(f"Read in {head.unit}, {sense}, on the {'concrete' if head.concrete else 'seat'}.")
    if s.label():
        count = len(site.columns) - len(views.parted(site, s.book)[0])
        lines.append(f"{count} read so far. If the laser was moved or set up anew since, type moved.")
    lines += refusals(site, s.book)
    lines += [f"The job wants its floor from {name}: benchmark {name}" for name in _benchmark(s)]
    return (*lines, LINE)


def refusals(site: Site, book: Book) -> list[str]:
    """Why the readings as they stand could not be laid out, in words."""
    if not book.sights:
        return []
    try:
        survey.reduce(book, site.job.readings, site.job.style)
    except JobRefused as refused:
        return [f"! {problem}" for problem in refused.problems]
    found = views.adjusted(site, book)
    return [f"! {views.told(site, loop)}" for loop in found.loops if not loop.closes] if found else []


def _benchmark(s: Shoot) -> list[str]:
    """The point the floor is wanted from, while nobody has read it and it is no column."""
    name = s.site.job.grade.benchmark
    return [name] if name and name not in s.site.columns and name not in {x.point for x in s.book.sights} else []


def table(site: Site, book: Book) -> tuple[str, ...]:
    """Every column and benchmark with its latest reading in this round."""
    now, here = views.view(site, book), views.own(book, site.round)
    read = {s.point: s for s in here.sights}
    many = len({s.setup for s in here.sights}) > 1  # numbers of two beams do not compare
    wide = max((len(s.text) for s in here.sights), default=0)
    lines = []
    for name in [*site.columns, *(p for p in read if p not in site.columns)]:
        if name not in read:
            note = book.notes.get(name, "")
            lines.append(f"  {name:<6}{'-':>{wide + 2}}  NOT READ" + f"  {note}" * bool(note))
            continue
        sight = read[name]
        told = READ if name in site.columns else "benchmark"
        if now.grade and name in now.grade.lower:
            told = grade.words(site.job, now.grade, name)[0]
        more = f"  set-up {sight.setup}" * many + f"  {sight.note}" * bool(sight.note)
        lines.append(f"  {name:<6}{sight.text:>{wide + 2}}  {told}{more}")
    return tuple(lines)


def ending(s: Shoot) -> tuple[str, ...]:
    """The round as it is left: what is read, how it closes, what is missing or is to be shot again."""
    site, now = s.site, views.view(s.site, s.book)
    missing, odd = views.parted(site, s.book)
    count = len(site.columns)
    round_ = survey.named(site.round)
    lines = [f"{round_[:1].upper()}{round_[1:]}: {count - len(missing)} of {count} seats are read."]
    if missing:
        lines.append(f"NOT READ: {', '.join(missing)}.")
    if odd:
        made = "" if now.out or _open(site, now) else " Tags are made from what was read."
        lines.append(f"ODD, NOT READ AGAIN: {', '.join(odd)}.{made}")
    lines += [f"NOT READ: {name}, which the job wants its floor from." for name in _benchmark(s)]
    lines += _closing(s, now)
    lines += _grade(site, now)
    return tuple(lines)


def _closing(s: Shoot, now: View) -> list[str]:
    """How the round closes, and what to do if it does not or nobody knows."""
    found, label = views.adjusted(s.site, s.book), s.label()
    if found is None:
        return ["NOT JOINED: this set-up has no point in common with the others yet."] if s.others() else []
    lines = [views.told(s.site, loop) for loop in found.loops]
    lines = [line[:1].upper() + line[1:] for line in lines]
    if found.refused:
        lines.append(
            "The laser has moved, or a reading is wrong. Go back to the one that is wrong, or shoot all of it again: "
            f"--round {_another(s)}"
        )
        return lines  # a check-back that is missing is not what is wrong
    unsure, told = "nobody knows whether the laser stood still", {s.setup}
    if len(label) > 1 and not s.read_back():
        of = f" of set-up {s.setup}" if s.others() else ""
        why = f"{label[0].point} was not read again at the end{of}, {unsure}."
        lines.append(f"NO CHECK-BACK: {why} Run this again to read it.")
    elif len(found.values) > 1 and not found.back:
        ways = {x.setup for x in s.book.sights if (x.round, x.point) == (s.site.round, found.first)}
        right = f"Read {'one more seat of the first set-up' if len(ways) > 1 else found.first} again."
        lines.append(f"NO CHECK-BACK over all set-ups: {found.first} is in no loop, {unsure}. {right}")
        told.add(found.setups[0])
    rounds = now.readings.survey.rounds if now.readings.survey else ()
    return lines + [text for r in rounds if r.name == s.site.round for text in survey.hung(r, told)]


def _another(s: Shoot) -> str:
    """A round that is not there yet."""
    used = {x.round for x in s.book.sights} | {s.site.round, ONE}
    return next(str(n) for n in range(2, len(used) + 3) if str(n) not in used)


def _open(site: Site, now: View) -> bool:
    """Whether a loop of this round does not close."""
    found = views.adjusted(site, now.book)
    return bool(found and found.refused)


def _grade(site: Site, now: View) -> list[str]:
    """Highest and lowest seat, the line reading, seats to be shot again."""
    laid, style = now.grade, site.job.style
    if now.out:
        return ["Nothing of this round counts until it closes: the rounds before it count without it."]
    if _open(site, now):  # its heights are spread over what does not close: good seats would look bad
        return ["Nothing of this round counts until it closes."]
    if laid is None:
        return [f"! {now.why}"]
    if not laid.lower:
        return []
    high, low = (pick(laid.lower, key=lambda n: laid.lower[n]) for pick in (min, max))
    told = [f"{name} {taken(now.readings, now.readings.values[name], style)}" for name in (high, low)]
    lines = [f"Highest seat {told[0]}, lowest seat {told[1]}.", laid.why]
    if not now.sure:
        lines[-1] += " PROVISIONAL until all are read."
    noted = {s.point for s in now.book.sights if views.TWICE in s.note.split(views.BETWEEN)}
    for name, why in laid.again.items():
        lines.append(f"SHOOT AGAIN {name}: {why}{'; read twice' * (name in noted)}.")
    so = [(name, _let(site, now, name)) for name in laid.again if name in noted]
    # more readings change nothing then, and its tag would ask for them for ever
    lines += [
        f"{n} was read twice: if it stands so, give {let}, else its tag says SHOOT AGAIN." for n, let in so if let
    ]
    return lines


def _let(site: Site, now: View, name: str) -> str:
    """What of the job lets a seat be that was read twice and is far from others; empty where nothing does."""
    assert now.grade is not None
    lower, names = now.grade.lower, [n for n in site.columns if n in now.grade.lower]
    at = names.index(name)
    by = min(abs(lower[name] - lower[n]) for n in (names[at - 1], names[(at + 1) % len(names)]))
    far = {("grade", "flag"): abs(lower[name]), ("readings", "neighbour"): by}
    for some in (*([key] for key in far), [*far]):
        job = site.job
        for part, field in some:
            job = replace(job, **{part: replace(getattr(job, part), **{field: far[part, field]})})
        if name not in grade.lay(job, site.plan, now.readings, site.tops).again:
            told = (f"{part}.{field} {show(far[part, field], job.style, rounded=up)} or more" for part, field in some)
            return " and ".join(told)
    return ""
