"""Where this device keeps how a job is taped."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldapp.screens.taken import Taken

if TYPE_CHECKING:
    from fieldapp.app import App


def kept_taken(app: App, job: str) -> Taken:
    """What this device remembers of how the job is taped."""
    return Taken.from_dict(app.desk.setting(_key(app, job), {}))


async def keep_taken(app: App, job: str, taken: Taken) -> None:
    """Remember it, safely."""
    await app.desk.keep_setting(_key(app, job), taken.as_dict(), tell=False)


def _key(app: App, job: str) -> str:
    return f"{app.host.connection.device} taken {job}"
