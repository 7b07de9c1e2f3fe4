"""The whole app, proved from outside: the same server, browser and tabs as in tests/fieldapp."""

from tests.fieldapp.conftest import browser, served, tab

__all__ = ["browser", "served", "tab"]
