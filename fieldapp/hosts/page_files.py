"""Files and share sheet through the page itself: the same in a served page, alone in the browser and in a package.

A download goes as bytes through the open page. A route of the server would need a second way in the phone alone, an address
that a stranger could guess, and a new tab on some phones.
"""

from __future__ import annotations

from collections.abc import Sequence

import flet as ft

from fieldapp.hosts.ports import AS_TEXT, OnPicked, PickedFile, Went

_TYPES = {"csv": "text/csv", "html": "text/html", "json": "application/json", "txt": "text/plain"}
_REFUSED = "share() failed"
"""Stands in what the page tells where a share sheet is there and did not open."""


class PageFiles:
    """`Files` by the page's file picker. To be made where the page is the current one (its start, a handler)."""

    def __init__(self) -> None:
        self._picker = ft.FilePicker()
        self._pickers: list[ft.FilePicker] = []  # the page drops a picker that nobody holds

    async def save(self, name: str, data: bytes) -> None:
        await self._picker.save_file(file_name=name, src_bytes=data)

    async def pick(self, *endings: str) -> Sequence[PickedFile]:
        found = await self._picker.pick_files(with_data=True, **_kind(endings))
        return _picked(found)

    async def dropped(self) -> Sequence[PickedFile]:
        found = await self._picker.pick_files(with_data=True, allow_multiple=True, cancel_upload_on_window_blur=False, **_kind(["json"]))
        return _picked(found)

    def picking(self, then: OnPicked, *endings: str, several: bool = False) -> ft.ClientAction:
        async def chosen(event: ft.FilePickerResultEvent) -> None:
            await then(_picked(event.files or []))

        picker = ft.FilePicker(on_result=chosen)
        self._pickers.append(picker)
        return ft.PickFiles(picker, with_data=True, allow_multiple=several, cancel_upload_on_window_blur=False, **_kind(endings))

    def forget(self) -> None:
        """Drop the pickers of a screen that is left."""
        self._pickers.clear()


class PageShare:
    """`Share` by the page; `none` wherever the browser has no share sheet (any page without https among them)."""

    def __init__(self) -> None:
        self._share = ft.Share()

    async def share(self, files: Sequence[PickedFile], text: str) -> Went:
        went = await self._try(files, text)
        if went == "none" and any(f.name.endswith(".json") for f in files):
            # Some browsers let no job file through their share sheet, and any plain text.
            went = await self._try([PickedFile(f"{f.name}{AS_TEXT}" if f.name.endswith(".json") else f.name, f.data) for f in files], text)
        return went

    async def _try(self, files: Sequence[PickedFile], text: str) -> Went:
        sent = [ft.ShareFile.from_bytes(f.data, name=f.name, mime_type=_TYPES.get(f.name.rpartition(".")[2])) for f in files]
        plain = {"download_fallback_enabled": False, "mail_to_fallback_enabled": False}
        try:
            result = await (self._share.share_files(sent, text=text, **plain) if sent else self._share.share_text(text, **plain))
        except RuntimeError as problem:  # all that the page can tell
            return "refused" if _REFUSED in str(problem) else "none"
        return "closed" if result.status is ft.ShareResultStatus.DISMISSED else "sent"


def _kind(endings: Sequence[str]) -> dict[str, object]:
    if not endings:
        return {}
    if {"png", "jpg", "jpeg"} >= set(endings):  # so asked, a phone offers its camera too
        return {"file_type": ft.FilePickerFileType.IMAGE}
    return {"file_type": ft.FilePickerFileType.CUSTOM, "allowed_extensions": list(endings)}


def _picked(found: Sequence[ft.FilePickerFile]) -> list[PickedFile]:
    return [PickedFile(f.name, bytes(f.bytes or b"")) for f in found]
