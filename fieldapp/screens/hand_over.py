"""Something handed to others through the device's share sheet; where there is none, as a download, or as words to copy."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from fieldapp.hosts.ports import PickedFile
from fieldapp.words import say

if TYPE_CHECKING:
    from fieldapp.app import App


async def hand_over(app: App, files: Sequence[PickedFile], text: str) -> bool:
    """Whether it left this device. What did not go is said, never as a mishap. files: the one that matters most first."""
    went = await app.host.share.share(files, text)
    if went == "none" and files:
        await app.host.files.save(files[0].name, files[0].data)
        app.tell(say("share.gone_saved", name=files[0].name), "clear")
    elif went == "sent":
        app.settled()
    else:
        app.tell(say(f"share.gone_{went}"), "query" if went == "refused" else "todo")
    return went == "sent" or (went == "none" and bool(files))
