"""The page for the phone shown in Chromium, for the tests: the demo on a phone and a desk, and hostile names in it."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import browser
import pytest
from browser import DESK, PHONE, Browser, Tab, tab
from msgspec.structs import replace
from printed import demo_job

from layouts.building import Building
from layouts.costs import Cost, Warned
from sheets import packet
from sheets.load import load
from sheets.paper import PAPERS

SIZES = {"phone": PHONE, "desk": DESK}
HOSTILE = (
    "<script>alert(1)</script>\"><img src=x onerror='alert(2)'><svg onload=alert(3)>]]></style>"
    "<iframe src=javascript:alert(4)>&lt;b&gt; &#x3c;i&#x3e; <a href=https://example.com/>" + "W" * 80
)


@pytest.fixture(scope="module")
def chromium(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    """The browser, started once."""
    program = browser.found()
    if program is None:
        pytest.skip("no Chromium (Debian: chromium-headless-shell)")
    started = Browser(program, tmp_path_factory.mktemp("profile"))
    yield started
    started.end()


@pytest.fixture(scope="module")
def building() -> Building:
    return load(demo_job())


def written(building: Building, folder: Path, only: str | None = None) -> Path:
    """The page alone, without its packet."""
    path = folder / "index.html"
    path.write_bytes(packet.build(building, PAPERS["letter"], only).page())
    return path


@pytest.fixture(scope="module")
def page(building: Building, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo's."""
    return written(building, tmp_path_factory.mktemp("page"))


@pytest.fixture(scope="module")
def hostile(building: Building, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo's tags under a name that is markup, with a warning and a column called so too."""
    part = replace(building.job.job, name=HOSTILE, place=HOSTILE, crew=HOSTILE)
    first, *rest = building.columns
    columns = (replace(first, name="<b onclick=alert(5)>", neighbours=('"><b>', "'")), *rest)
    job = replace(building.job, job=part)
    named = replace(building, job=job, columns=columns, warned=(Warned(Cost.LOOK, HOSTILE), *building.warned))
    return written(named, tmp_path_factory.mktemp("hostile"), "tags")


@pytest.fixture(params=SIZES)
def shown(request: pytest.FixtureRequest, chromium: Browser, page: Path) -> Iterator[Tab]:
    """The page in a window of either size."""
    with tab(chromium, SIZES[request.param], page) as found:
        yield found


@pytest.fixture
def phone(chromium: Browser, page: Path) -> Iterator[Tab]:
    """The page on a phone."""
    with tab(chromium, PHONE, page) as found:
        yield found
