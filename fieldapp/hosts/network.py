"""Where this machine answers: itself only, unless it was told to share; then its address on the network, encrypted or not."""

from __future__ import annotations

import re
import socket
import ssl
from dataclasses import dataclass

from measure.errors import SpanbookError

HERE, EVERYWHERE = "127.0.0.1", "0.0.0.0"
_ORIGIN = re.compile(r"https?://([a-z0-9]([a-z0-9.-]*[a-z0-9])?|\[[0-9a-f:]+\])(:[0-9]{1,5})?")
_SOMEWHERE = ("198.51.100.1", 9)  # RFC 5737: an address that nobody has; naming it sends nothing


@dataclass(frozen=True, slots=True)
class Network:
    """share: None for this machine only, empty for every network it is in, else its one address. cert, key: PEM files.

    origins: of the app for phones where it is handed out elsewhere; its jobs may be sent here too.
    """

    share: str | None = None
    cert: str | None = None
    key: str | None = None
    origins: tuple[str, ...] = ()

    @property
    def shared(self) -> bool:
        return self.share is not None

    @property
    def binds(self) -> tuple[str, ...]:
        """Addresses to listen at, the one for this machine itself first."""
        if self.share is None:
            return (HERE,)
        return (HERE, self.share) if self.share else (EVERYWHERE,)

    def own(self, port: int) -> str:
        """Where the owner finds it."""
        return f"{self._scheme}://{HERE}:{port}/"

    def address(self, port: int) -> str:
        """Where phones find it; empty where they do not."""
        return f"{self._scheme}://{self.share or own_address()}:{port}/" if self.shared else ""

    @property
    def _scheme(self) -> str:
        return "https" if self.cert else "http"

    def check(self) -> None:
        """Raises SpanbookError when certificate and key do not serve, or an origin is none."""
        for origin in self.origins:
            if not _ORIGIN.fullmatch(origin):
                raise SpanbookError(f"“{origin}” is no origin. Give how the address begins, and no more: --allow-origin https://app.example")
        if self.cert is None and self.key is None:
            return
        if self.cert is None or self.key is None:
            raise SpanbookError("An encrypted line needs both: --cert FILE and --key FILE.")
        try:
            ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER).load_cert_chain(self.cert, self.key, password=lambda: "")
        except (OSError, ssl.SSLError, ValueError) as problem:
            why = getattr(problem, "strerror", None) or getattr(problem, "reason", None) or str(problem)
            raise SpanbookError(
                f"The certificate {self.cert} with the key {self.key} does not serve: {why}. Both are PEM files, the key without a password."
            ) from None


def own_address() -> str:
    """This machine's address on the network that leads on; 127.0.0.1 where there is none. Sends nothing."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(_SOMEWHERE)
        except OSError:
            return HERE
        found: str = probe.getsockname()[0]
        return found
