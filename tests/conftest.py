"""The one flag of the suite: `pytest --rewrite-golden` writes the expected outputs of the sample jobs anew."""

import pytest


def pytest_addoption(parser):
    parser.addoption(
        "--rewrite-golden", action="store_true", help="write the sample jobs' expected outputs anew, to be read in the diff"
    )


@pytest.fixture
def rewrite_golden(request) -> bool:
    return bool(request.config.getoption("--rewrite-golden"))
