"""What the readings of a round make while they are still being shot: offsets so far, what is odd, how loops close."""

from __future__ import annotations

from statistics import median

from msgspec import Struct
from msgspec.structs import replace

from layouts import doubts, grade, survey
from layouts.book import Book, Sight
from layouts.book_number import PER_UNIT
from layouts.grade import Grade
from layouts.lengths import NOISE, show
from layouts.piers import fit
from layouts.problems import JobRefused
from layouts.readings import Readings, of, taken
from layouts.shooting_start import Site
from layouts.survey import Loop, Round

ODD = "odd: to be read again"  # the note of a reading that nobody has confirmed yet
TWICE = "read twice"  # of one that was, by the same number
BETWEEN = "; "  # notes
ANY = 1000.0  # inches: a misclosure that nothing exceeds


class View(Struct, frozen=True):
    """What *book* makes. *grade* is ``None`` where no line can be laid, *why* then says why not. *sure* is false while
    the line reading may still change: it is chosen, and seats are missing, or a reading is left out of it. *out*: this
    round does not close, so the rounds before it count without it; *readings* and *grade* are then of it alone."""

    book: Book
    readings: Readings
    grade: Grade | None
    why: str
    sure: bool
    out: bool = False


def view(site: Site, book: Book) -> View:
    """What *book* makes so far: all of it or, where it cannot be laid together yet, this round or its last set-up."""
    out = _left_out(site, book)
    readings, whole = _readings(site, book, out)
    job, wanted = site.job, site.job.grade.benchmark
    if wanted and wanted not in readings.values and wanted not in readings.benchmarks:
        job, whole = replace(job, grade=replace(job.grade, benchmark="")), False
    try:
        laid = grade.lay(job, site.plan, readings, site.tops)
    except JobRefused as refused:
        return View(book, readings, None, " ".join(str(p) for p in refused.problems), False, out)
    sure = job.grade.line is not None or (whole and not unread(site, book))
    return View(book, readings, laid, "", sure, out)


def _readings(site: Site, book: Book, out: bool) -> tuple[Readings, bool]:
    """What can be laid together, and whether that is all of *book*: never where this round is left *out* of it."""
    here = own(book, site.round)
    last = replace(here, sights=tuple(s for s in here.sights if s.setup == here.sights[-1].setup))
    loose = replace(site.job, readings=replace(site.job.readings, misclosure=ANY))
    whole = () if out else ((book, site.job),)
    for part, job in (*whole, (here, site.job), (here, loose)):
        try:
            return of(part, job), part is book
        except JobRefused:
            continue
    return of(last, loose), False


def _left_out(site: Site, book: Book) -> bool:
    """Whether the whole is laid without this round, because it does not close and others have read its seats."""
    try:
        found = survey.reduce(book, site.job.readings, site.job.style)
    except JobRefused:
        return False
    return any(r.name == site.round and r.refused for r in found.rounds)


def without(book: Book, sight: Sight) -> Book:
    """*book* before *sight* was read."""
    return replace(book, sights=tuple(s for s in book.sights if s != sight))


def own(book: Book, round_: str) -> Book:
    """The sights of one round."""
    return replace(book, sights=tuple(s for s in book.sights if s.round == round_))


def is_open(sight: Sight) -> bool:
    """Whether a reading was odd and has not been read again."""
    return ODD in sight.note.split(BETWEEN)


def is_marked(sight: Sight) -> bool:
    """Whether a reading was odd at any time."""
    return not {ODD, TWICE}.isdisjoint(sight.note.split(BETWEEN))


def marked(note: str, mark: str) -> str:
    """*note* with one of our own notes behind it, or with none."""
    kept = [part for part in note.split(BETWEEN) if part and part not in (ODD, TWICE)]
    return BETWEEN.join([*kept, mark] if mark else kept)


def unread(site: Site, book: Book) -> tuple[str, ...]:
    """Columns that this round still wants a reading of, in walking order: those without one, and the odd ones."""
    read = {s.point for s in book.sights if s.round == site.round and not is_open(s)}
    return tuple(name for name in site.columns if name not in read)


def parted(site: Site, book: Book) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The same, those without a reading and the odd ones apart: an odd reading counts until it is read again."""
    read, wanted = {s.point for s in book.sights if s.round == site.round}, unread(site, book)
    return tuple(n for n in wanted if n not in read), tuple(n for n in wanted if n in read)


# --- loops ----------------------------------------------------------------------------------------------------------


def adjusted(site: Site, book: Book) -> Round | None:
    """This round by itself, whether it closes or not; none where nothing is read or a set-up is not joined yet."""
    limits = site.job.readings
    try:
        found = survey.reduce(own(book, site.round), replace(limits, misclosure=ANY), site.job.style).rounds
    except JobRefused:
        return None
    if not found:
        return None
    loops = (replace(loop, allowed=limits.misclosure * len(loop.setups)) for loop in found[0].loops)
    return replace(found[0], loops=tuple(loops))


def closing(site: Site, book: Book, sight: Sight) -> Loop | None:
    """The loop that *sight* closes."""
    found = adjusted(site, book)
    return next((loop for loop in found.loops if loop.place == sight.place), None) if found else None


def told(site: Site, loop: Loop) -> str:
    """How a loop closes, and that it does or does not."""
    return f"{survey.told(loop, site.job.style)}: {'it closes.' if loop.closes else 'IT DOES NOT CLOSE.'}"


# --- what is odd ----------------------------------------------------------------------------------------------------


def odd(site: Site, was: View, now: View, sight: Sight) -> tuple[str, ...]:
    """What is odd about *sight*, the one reading that *now* has more than *was*; each in words."""
    loop = closing(site, now.book, sight)
    if loop and not loop.closes:
        return (told(site, loop),)
    other = _other_unit(site, was, sight)
    before, after = (_doubts(site, v, by_eye=False) for v in (was, now))
    if not other and len(after) > len(before):
        return tuple(text for text in after if text not in before)
    return other or _apart(site, now, sight)


def _doubts(site: Site, seen: View, *, by_eye: bool) -> list[str]:
    """What the readings give away about their unit or, *by_eye*, about their sense."""
    found, style = seen.readings.survey, site.job.style
    if found is None:
        return []
    plain = replace(found, book=replace(found.book, head=replace(found.book.head, highest="", lowest="")))
    texts = doubts.questions(plain.book, plain, style)
    return [t for t in doubts.questions(found.book, found, style) if t not in texts] if by_eye else texts


def by_eye(site: Site, was: View, now: View) -> tuple[str, ...]:
    """What the newest reading says against the highest and the lowest seat by eye: to read it again would not help."""
    before = _doubts(site, was, by_eye=True)
    return tuple(text for text in _doubts(site, now, by_eye=True) if text not in before)


def _other_unit(site: Site, was: View, sight: Sight) -> tuple[str, ...]:
    """One number that would be near the others of its set-up in another unit."""
    head, style = was.book.head, site.job.style
    same = [s for s in was.book.sights if (s.round, s.setup) == (sight.round, sight.setup)]
    seats = [s.raw for s in same if s.point not in head.benchmarks]
    if not seats or abs(sight.raw - median(seats)) <= doubts.SPREAD:
        return ()
    number = sight.raw / PER_UNIT[head.unit]
    for unit, per in PER_UNIT.items():
        if unit != head.unit and abs(number * per - median(seats)) <= doubts.SPREAD / 2:
            there, here = show(number * per, style), show(sight.raw, style)
            return (f"In {unit} it would be {there}, near the others; in {head.unit} it is {here}.",)
    return ()


def _apart(site: Site, now: View, sight: Sight) -> tuple[str, ...]:
    """A seat that stands out, in the words of the grade."""
    laid, name = now.grade, sight.point
    if laid is None or name not in _stand_out(site, now, laid):
        return ()
    return (laid.again[name][0].upper() + laid.again[name][1:],)


def _stand_out(site: Site, now: View, laid: Grade) -> dict[str, str]:
    """Why seats are to be shot again; a seat is held against its neighbours once both of them are read."""
    apart = now.readings.survey.apart if now.readings.survey else {}
    sure = {*apart, *laid.wild, *_far(site, laid)}
    names = site.columns
    beside = {n: (names[i - 1], names[(i + 1) % len(names)]) for i, n in enumerate(names)}
    return {n: why for n, why in laid.again.items() if n in sure or all(b in laid.lower for b in beside[n])}


def _far(site: Site, laid: Grade) -> list[str]:
    """Seats out of the flag."""
    return [name for name, lower in laid.lower.items() if abs(lower) > site.job.grade.flag + NOISE]


def others(site: Site, was: View, now: View, sight: Sight) -> tuple[str, ...]:
    """What *sight* tells about other seats: the reference, and those that stand out since."""
    if now.grade is None or was.grade is None:
        return ()
    laid, far = now.grade, _far(site, now.grade)
    sure = {s.point for s in now.book.sights if TWICE in s.note.split(BETWEEN)}
    known = {sight.point, *_stand_out(site, was, was.grade), *sure, *(n for n in far if n not in laid.wild)}
    found = []
    if sight.point in far and len(laid.lower) > 2 and 2 * len(far) > len(laid.lower):
        name = laid.reference
        found.append(f"Most seats stand far from {name}: is {name} right itself? go {name}")
        known.add(name)
    new = {name: why for name, why in _stand_out(site, now, laid).items() if name not in known}
    return (*found, *(f"Now {name} stands out: {why}. go {name}" for name, why in new.items()))


# --- in words -------------------------------------------------------------------------------------------------------


def words(site: Site, now: View, sight: Sight) -> tuple[str, ...]:
    """A reading told back: what it says; HIGH or LOW; the offset."""
    readings, laid, style, name = now.readings, now.grade, site.job.style, sight.point
    held = readings.down(sight.raw)
    said = f"{name} reads {taken(readings, held, style)}"
    if abs(held - sight.down) > NOISE:
        said += f" on the concrete, {taken(readings, sight.down, style)} to the seat"
    loop = closing(site, now.book, sight)
    if loop and len(loop.setups) == 1:
        return (said,)  # a check-back: how it closes is what counts
    value = {**readings.values, **readings.benchmarks}.get(name, sight.down)
    if abs(value - sight.down) > NOISE and len({(s.round, s.setup) for s in now.book.sights}) > 1:
        said += f", {taken(readings, value, style)} as from the first set-up"
    if laid is None:
        return said, f"no offset: {now.why}"
    if name not in laid.lower or laid.line is None:
        return (said,)
    if now.out:
        seat = grade.words(site.job, laid, name)[0]
        return said, seat, f"no offset: {survey.named(site.round)} does not close, nothing of it counts"
    line = taken(readings, laid.line, style)
    stands = fit(site.job, site.plan.spot(name).role != "end", laid.offsets[name])
    offset = show(stands.offset(laid.offsets[name]), style)
    if stands.packing > 0:
        offset += f" over {show(stands.packing, style)} of packing,"
    seat, column = grade.words(site.job, laid, name, stands)
    how = f"from line reading {line}" if now.sure else f"PROVISIONAL, from line reading {line} so far"
    return said, f"{seat}: {column}", f"offset {offset} {how}"
