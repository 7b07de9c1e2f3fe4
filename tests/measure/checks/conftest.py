"""Makes `deck` known to the tests beside it."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

from conftest_checks import deck  # noqa: F401
