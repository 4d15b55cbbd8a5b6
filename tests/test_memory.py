"""Many jobs one after another in one process: what they take is given back."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
STATM = Path("/proc/self/statm")
MANY = """
import os
import resource
from pathlib import Path
import jobs
from layouts import job as reader
from layouts.building import lay_out
from sheets import packet, report
from sheets.paper import PAPERS

def held():
    return int(Path("/proc/self/statm").read_text().split()[1]) * resource.getpagesize() / 2**20

warm = 0.0
many = 80 * int(os.environ.get("RODWRIGHT_JOBS", "1"))
for number in range(many):
    language = ("english", "spanish")[number % 2]
    changes = {"truss.bearing": 120 + number / 16, "job.name": f"Shed {number}", "job.language": language}
    job = reader.read(jobs.job_text(changes))
    rows = {name: 45 + (i * 7 + number) % 33 / 16 for i, name in enumerate(jobs.every(job).values)}
    building = lay_out(job, jobs.readings(rows, job))
    report.as_json(building)
    if number % 50 == 0:
        packet.build(building, PAPERS["letter"], "tags").page()
    if number == 30:
        warm = held()
print(held() - warm)
"""


@pytest.mark.skipif(not STATM.exists(), reason="memory is read off /proc")
def test_many_jobs_leave_nothing_behind() -> None:
    """Job names, readings and bearings are all different: what is kept by them would grow. 4 MB are what the allocator
    may still move by; a job's layout alone is a tenth of that. ``RODWRIGHT_JOBS=13`` makes it a thousand."""
    given = {**os.environ, "PYTHONPATH": f"{ROOT}{os.pathsep}{ROOT / 'tests'}"}
    done = subprocess.run([sys.executable, "-c", MANY], env=given, cwd=ROOT, capture_output=True, text=True, check=True)
    assert float(done.stdout) < 4
