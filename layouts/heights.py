"""What the fields of a roof say, worked out: bearings, heels and pitches of both sides, whichever of them were given.

Plain trigonometry on levels. With the chord's top at a bearing ``bearing + heel``, a slope m and a run r: the chord's
top at the other end is ``+ m·r``; a member of depth d on the slope stands ``d·sqrt(1 + m²)`` plumb. Where an eave or
the height at a standing wall is given instead of a pitch, m solves ``a·m + d·sqrt(1 + m²) = k``, a quadratic.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:  # the job asks here for its own bearing
    from layouts.fields import Job

OR_EAVE = "Or give truss.eave, and the bearing is worked back from it."
HIGH = ("truss.far_eave", "truss.wall_height")
AGREE = 1 / 32  # inches: what is given twice may differ by what a print rounds off


class Unsettled(ValueError):
    """No roof comes of the fields: *place* is the one meant, *inches* what it holds, *wrong* and *right* are said."""

    def __init__(self, place: str, wrong: str, right: str, inches: float | None = None) -> None:
        super().__init__(wrong)
        self.place, self.wrong, self.right, self.inches = place, wrong, right, inches


class Heights(Struct, frozen=True):
    """Stations (inches above the grade line), heels in inches, pitches as rise over run inward from their own wall; of
    a roof of one slope *far_pitch* is minus *pitch*, and *far_heel* what is left over the far bearing."""

    bearing: float
    far_bearing: float
    heel: float
    far_heel: float
    pitch: float
    far_pitch: float


def plumb(depth: float, slope: float) -> float:
    """Plumb depth of a member *depth* inches deep on *slope* (rise over run): depth·sqrt(1 + slope²)."""
    return depth * math.sqrt(1 + slope * slope)


def over_chord(job: Job) -> float:
    """What the roof sheets lie on above the chord, square to the slope, inches: purlin and sheathing."""
    section = job.roof.purlin
    return {"edge": section.wide, "flat": section.thick, "flush": 0.0}[job.roof.purlins] + job.roof.sheathing


def work_out(job: Job) -> Heights:
    """The heights of *job*'s roof. Raises ``Unsettled`` where too little, too much or the impossible is given."""
    near, pitch = _near(job)
    if job.roof.shape == "gable":
        return _gable(job, near, pitch)
    heel = job.truss.heel
    chord = near + heel + _to_face(job, pitch) + pitch * job.across
    far = near if job.truss.far_bearing is None else job.truss.far_bearing + job.floor_shift
    if far >= chord - 1.0:
        raise Unsettled("truss.far_bearing", "is not under the chord there.", "Lower it, or steepen the roof.", far)
    return Heights(near, far, heel, chord - far, pitch, -pitch)


def _to_face(job: Job, pitch: float) -> float:
    """From the face the heel is given at in to the outer face of the column."""
    return job.heel_out * pitch


def _back(job: Job, eave: float, heel: float, pitch: float) -> float:
    """The bearing (a station) under an *eave* line (a station at the outside of the girts)."""
    drop = job.girt_out * pitch - _to_face(job, pitch)
    return eave - plumb(over_chord(job), pitch) - heel + drop


def _near(job: Job) -> tuple[float, float]:
    """Bearing, as a station, and pitch at wall A."""
    part, shift = job.truss, job.floor_shift
    if part.bearing is not None and part.eave is not None:
        raise Unsettled("truss.eave", "stands beside truss.bearing.", "Give one of the two.", part.eave)
    high = _high_side(job)
    if part.pitch is not None:
        if part.bearing is not None:
            bearing = part.bearing + shift
        elif part.eave is not None:
            bearing = _back(job, part.eave + shift, part.heel, part.pitch)
        elif high is not None and job.roof.shape == "lean-to":
            _, height, run = high
            chord = height - plumb(over_chord(job), part.pitch) - part.pitch * run
            return chord - part.heel, part.pitch
        else:
            raise Unsettled("truss.bearing", "must be given.", OR_EAVE)
        if high is not None:
            _twice(job, high, bearing, part.pitch)
        return bearing, part.pitch
    if high is None:
        raise Unsettled("truss.pitch", "must be given.", 'For example: pitch = "4/12".')
    return _pitch_from(job, high)


def _high_side(job: Job) -> tuple[str, float, float] | None:
    """The height given at the high side of a roof of one slope: its field, its station and the level run to it from the
    face the heel is given at."""
    part, face = job.truss, job.heel_out
    if job.roof.shape == "mono-slope" and part.far_eave is not None:
        return "truss.far_eave", part.far_eave + job.floor_shift, job.across + job.girt_out + face
    if job.roof.shape == "lean-to" and part.wall_height is not None:
        return "truss.wall_height", part.wall_height + job.floor_shift, job.across + face
    return None


def _twice(job: Job, high: tuple[str, float, float], bearing: float, pitch: float) -> None:
    """A height at the high side beside bearing and pitch: they must agree."""
    place, height, run = high
    got = bearing + job.truss.heel + pitch * run + plumb(over_chord(job), pitch)
    if abs(got - height) > AGREE:
        right = "Leave one of them out: bearing and pitch, or a pitch and this, or a bearing and this, are enough."
        raise Unsettled(place, "does not agree with the bearing and the pitch.", right, height - job.floor_shift)


def _pitch_from(job: Job, high: tuple[str, float, float]) -> tuple[float, float]:
    """Bearing and pitch of a roof of one slope from the heights at both sides."""
    part, shift = job.truss, job.floor_shift
    place, height, run = high
    if part.eave is not None:
        # the eave lies out from the heel's face by what the run has not
        whole = run + job.girt_out - job.heel_out
        pitch = (height - part.eave - shift) / whole
        _steep(place, pitch)
        return _back(job, part.eave + shift, part.heel, pitch), pitch
    if part.bearing is None:
        raise Unsettled("truss.bearing", "must be given.", OR_EAVE)
    pitch = slope_of(run, over_chord(job), height - part.bearing - shift - part.heel)
    _steep(place, pitch)
    return part.bearing + shift, pitch


def slope_of(run: float, depth: float, rise: float) -> float:
    """The slope m with run·m + depth·sqrt(1 + m²) = rise, for run > depth >= 0; not a number where there is none.

    Squaring rise - run·m = depth·sqrt(1 + m²) leaves (run² - depth²)m² - 2·rise·run·m + rise² - depth² = 0; the root
    wanted is the smaller one, where rise - run·m is not negative.
    """
    under = rise * rise + run * run - depth * depth
    if run <= depth or under < 0:
        return math.nan
    return (rise * run - depth * math.sqrt(under)) / (run * run - depth * depth)


def _steep(place: str, pitch: float) -> None:
    if not 0.5 / 12 - 1e-9 <= pitch <= 24 / 12 + 1e-9:
        wrong = f"makes a slope of {pitch * 12:.2f}/12." if math.isfinite(pitch) else "leaves no slope."
        low = " The roof rises from wall A: that is its low side." if place in HIGH and pitch < 0 else ""
        raise Unsettled(place, wrong, "From 0.5/12 to 24/12." + low)


def _gable(job: Job, near: float, pitch: float) -> Heights:
    """A gable: with the ridge, the far bearing and the far pitch, any two tell the third."""
    part, shift = job.truss, job.floor_shift
    heel = part.heel if part.far_heel is None else part.far_heel
    if part.far_bearing is not None and part.far_eave is not None:
        raise Unsettled("truss.far_eave", "stands beside truss.far_bearing.", "Give one of the two.", part.far_eave)
    given = part.far_bearing is not None or part.far_eave is not None
    chord = near + part.heel + _to_face(job, pitch)
    if job.roof.ridge is None:
        far_pitch = pitch if part.far_pitch is None else part.far_pitch
        far = _far(job, heel, far_pitch, near)
        return _ridged(job, Heights(near, far, part.heel, heel, pitch, far_pitch), chord)
    at = job.roof.ridge - job.inset
    rest = job.across - at
    if at <= 0 or rest <= 0:
        raise Unsettled("roof.ridge", "is not over the building.", "Between the two sidewalls.", job.roof.ridge)
    peak = chord + pitch * at
    run = rest + job.heel_out
    if part.far_pitch is not None:
        far = peak - heel - part.far_pitch * run
        if given and abs(far - _far(job, heel, part.far_pitch, near)) > AGREE:
            right = "Leave out the ridge, the far bearing or the far pitch: two of them tell the third."
            raise Unsettled("roof.ridge", "does not agree with the bearings and the pitches.", right, job.roof.ridge)
        return Heights(near, far, part.heel, heel, pitch, part.far_pitch)
    if part.far_eave is not None:
        # from the ridge down to the outside of the girts, purlins and all
        far_pitch = -slope_of(rest + job.girt_out, over_chord(job), part.far_eave + shift - peak)
    else:
        far_pitch = (peak - _far(job, heel, 0.0, near) - heel) / run
    _steep("roof.ridge", far_pitch)
    return Heights(near, _far(job, heel, far_pitch, near), part.heel, heel, pitch, far_pitch)


def _far(job: Job, heel: float, pitch: float, near: float) -> float:
    """The far bearing, as a station: given, worked back from the far eave, or as the near one."""
    part = job.truss
    if part.far_bearing is not None:
        return part.far_bearing + job.floor_shift
    return near if part.far_eave is None else _back(job, part.far_eave + job.floor_shift, heel, pitch)


def _ridged(job: Job, found: Heights, chord: float) -> Heights:
    """Both slopes meet over the building."""
    other = found.far_bearing + found.far_heel + _to_face(job, found.far_pitch)
    # offset ridge: x = (H_R - H_L + m_R·W) / (m_L + m_R), the heights at the columns' outer faces
    at = (other - chord + found.far_pitch * job.across) / (found.pitch + found.far_pitch)
    if not 0.0 < at < job.across:
        place = "truss.far_pitch" if job.truss.far_pitch is not None else "truss.far_bearing"
        if job.truss.far_bearing is None and job.truss.far_eave is not None:
            place = "truss.far_eave"
        raise Unsettled(place, "leaves no ridge over the building.", "The slopes must meet between the sidewalls.")
    return found
