"""The whole app, proved from outside: the same server and tabs as in tests/fieldapp."""

from tests.fieldapp.conftest import served, tab

__all__ = ["served", "tab"]
