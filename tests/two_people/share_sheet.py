"""A browser's share sheet, which no headless browser has: notes what it was given, and ends as the test says."""

from __future__ import annotations

from playwright.sync_api import Page

SHEET = """(() => {
  const lets = /\\.(csv|html|txt)$/;
  window.given = []; window.ends = "";
  const set = (name, value) => Object.defineProperty(navigator, name, { value, configurable: true });
  set("canShare", (data) => (data?.files ?? []).every((file) => lets.test(file.name)));
  set("share", async (data) => {
    const files = [];
    for (const file of data.files ?? []) files.push({ name: file.name, type: file.type, text: await file.text() });
    window.given.push({ text: data.text ?? data.url, files });
    if (window.ends) throw new DOMException("as the test says", window.ends);
  });
})()"""
"""No job file goes through it, as in the browser of most phones: spreadsheets, pages and plain text do."""


def given(page: Page, n: int) -> dict:
    """What the n-th share sheet was given, once it opened."""
    page.wait_for_function("n => window.given.length >= n", arg=n, timeout=30_000)
    return page.evaluate("n => window.given[n - 1]", n)
