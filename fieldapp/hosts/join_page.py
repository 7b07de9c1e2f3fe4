"""The page where a phone joins: everything in one answer, so that whoever has no code yet is given nothing else."""

from __future__ import annotations

import base64
import hashlib
from functools import cache
from html import escape
from pathlib import Path
from string import Template

from starlette.responses import HTMLResponse

from fieldapp.screens.settings_model import ROLES
from fieldapp.sharing import LENGTH
from fieldapp.words import LANGUAGE, say

PAGE = Path(__file__).parent / "page"
LETTERS = Path(__file__).parent.parent / "assets" / "assets" / "fonts"
# Seen from above: a piece of blade with its hook; a leaf and a pencil; a table.
PICTURES = {
    "tape": (
        '<rect x="20" y="34" width="80" height="24" fill="var(--tape)" stroke="var(--on-tape)" stroke-width="1.5"/>'
        '<path d="M20 28v36" stroke="var(--ink)" stroke-width="4"/>'
        '<path d="M30 34v7M40 34v10M50 34v7M60 34v14M70 34v7M80 34v10M90 34v7" stroke="var(--on-tape)" stroke-width="1.5"/>'
    ),
    "scribe": (
        '<rect x="32" y="26" width="50" height="40" fill="var(--paper)" stroke="var(--ink)" stroke-width="1.5"/>'
        '<path d="M38 38h20M38 47h16M38 56h20" stroke="var(--ink)" stroke-width="1.5"/>'
        '<path d="M66 54l18-30 7 5-18 29-9 6z" fill="var(--ink)"/>'
    ),
    "office": (
        '<rect x="26" y="24" width="68" height="44" fill="var(--paper)" stroke="var(--ink)" stroke-width="2"/>'
        '<path d="M26 35h68M26 46h68M26 57h68M48 24v44M71 24v44" stroke="var(--ink)" stroke-width="1.2"/>'
    ),
}


@cache
def _script() -> str:
    return (PAGE / "join.js").read_text(encoding="utf-8")


@cache
def _style() -> str:
    letters = {n.lower(): base64.b64encode((LETTERS / f"Spanbook-{n}.ttf").read_bytes()).decode() for n in ("Regular", "Bold")}
    return Template((PAGE / "join.css").read_text(encoding="utf-8")).substitute(letters)


@cache
def _page() -> Template:
    return Template((PAGE / "join.html").read_text(encoding="utf-8"))


@cache
def policy() -> str:
    """What this page may do: its own style, script and letters, and to send its form here."""
    style, script = (base64.b64encode(hashlib.sha256(t.encode()).digest()).decode() for t in (_style(), _script()))
    return (
        f"default-src 'none'; style-src 'sha256-{style}'; script-src 'sha256-{script}'; font-src data:; form-action 'self'; "
        "base-uri 'none'; frame-ancestors 'none'"
    )


def join_page(
    wrong: str = "", name: str = "", role: str = "", status: int = 200, wait: int = 0, then: str = ""
) -> HTMLResponse:
    """The page, with what was filled in before; never with the code. wait: seconds, where too many wrong codes were tried.

    then: where it goes on after that, as in `/join?then=phone`.
    """
    plates = "".join(
        f'<input name="code" maxlength="{LENGTH}" required autocomplete="off" autocapitalize="characters" spellcheck="false" '
        f'aria-label="{escape(say("join.sign", n=n, of=LENGTH))}">'
        for n in range(1, LENGTH + 1)
    )
    body = _page().substitute(
        language=LANGUAGE, app=say("app.name"), title=say("join.title"), where=say("join.where"), style=_style(), script=_script(),
        wrong=f'<p class="wrong" role="alert">{escape(wrong)}</p>' if wrong else "", code_words=say("join.code"),
        plates=f'<div class="plates">{plates}</div>', name_words=say("join.name"), name_hint=say("join.name_hint"),
        name=escape(name), role_words=say("join.role"), roles=f'<div class="tiles">{"".join(_tile(r, role) for r in ROLES)}</div>',
        action=f"/join?then={escape(then)}" if then else "/join", join=say("join.join"), join_as=escape(say("join.join_as", name="{name}", role="{role}")),
    )  # fmt: skip
    headers = {"content-security-policy": policy(), "cache-control": "no-store", "referrer-policy": "same-origin"}
    if wait:
        headers["retry-after"] = str(wait)
    return HTMLResponse(body, status, headers)


def _tile(role: str, chosen: str) -> str:
    word = escape(say(f"settings.role_{role}"))
    return (
        f'<label><input type="radio" name="role" value="{role}" required data-word="{word}" data-tell="{escape(say(f"join.tell_{role}"))}"'
        f'{" checked" if role == chosen else ""}><svg viewBox="0 0 120 92" aria-hidden="true">{PICTURES[role]}</svg>'
        f"<span>{word}</span></label>"
    )
