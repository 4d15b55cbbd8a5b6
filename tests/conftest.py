"""What all tests share: property tests try the same cases in every run; each packet is written once."""

from __future__ import annotations

import pytest
from hypothesis import settings
from printed import Printed, print_out

settings.register_profile("rodwright", deadline=None, derandomize=True, max_examples=50)
settings.load_profile("rodwright")


@pytest.fixture(scope="session", params=["letter", "a4", "mm"])
def printed(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Printed:
    """The demo on either paper and a metric job, as files."""
    return print_out(request.param, tmp_path_factory.mktemp("packets") / request.param)
