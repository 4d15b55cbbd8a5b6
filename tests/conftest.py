"""What all tests share: property tests try the same cases in every run; each packet is written once."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from hypothesis import settings
from printed import Printed, print_out

settings.register_profile("rodwright", deadline=None, derandomize=True, max_examples=50)
settings.load_profile("rodwright")


@pytest.fixture(scope="session", params=["letter", "a4", "mm"])
def printed(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Printed:
    """The demo on either paper and a metric job, as files."""
    return print_out(request.param, tmp_path_factory.mktemp("packets") / request.param)


@pytest.fixture(scope="session", autouse=True)
def _no_printers_of_ones_own(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """No test may see the printer profiles of whoever runs it."""
    folder = str(tmp_path_factory.mktemp("config"))
    with pytest.MonkeyPatch.context() as patch:
        for name in ("XDG_CONFIG_HOME", "APPDATA", "LOCALAPPDATA"):
            patch.setenv(name, folder)
        yield
