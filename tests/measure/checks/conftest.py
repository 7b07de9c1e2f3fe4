"""Makes `deck` known to the tests beside it."""

from tests.measure.checks.three_bays import deck  # noqa: F401
