"""Current pictures of each screen:  python tests/pictures.py FOLDER [page …] [--looks phone-sun,wide-shade …] [--readme]

Starts `spanbook` on a book of sample jobs, opens every page of tests/app/book.py in each look and writes FOLDER/<page>-<look>.png.
The folder is not committed. --readme writes the few small pictures that the README and the guide show, into fieldapp/guide/.
"""

from __future__ import annotations

import argparse
import io
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent))  # run as a script, from anywhere

from PIL import Image
from playwright.sync_api import Browser, Page, sync_playwright

from tests.app.book import PAGES, fill
from tests.fieldapp.browser import DESK, PHONE, Served, launch

LOOKS = {
    "phone-sun": (PHONE, {"theme": "sun"}), "phone-shade": (PHONE, {"theme": "shade"}),
    "phone-200": (PHONE, {"theme": "sun", "text": 2.0}), "wide-sun": (DESK, {"theme": "sun"}),
    "wide-shade": (DESK, {"theme": "shade"}),
}  # fmt: skip
README = ("walk-span", "answer-query", "review", "order")
README_FOLDER = Path(__file__).parent.parent / "fieldapp" / "guide" / "pictures"
README_WIDE = 360


def settled(page: Page) -> bytes:
    """The picture once two in a row are the same."""
    page.wait_for_selector("flt-semantics-placeholder", state="attached", timeout=60_000)
    picture = b""
    for _ in range(20):
        page.wait_for_timeout(700)
        before, picture = picture, page.screenshot()
        if before == picture:
            break
    return picture


@contextmanager
def look_at(browser: Browser, look: str, scale: float) -> Iterator[tuple[Page, str, dict[str, str]]]:
    """A tab on a filled book in one look: page, address, jobs."""
    (width, height), chosen = LOOKS[look]
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name) / "book"
        jobs = fill(folder, **chosen)
        context = browser.new_context(viewport={"width": width, "height": height}, device_scale_factor=scale)
        with Served(folder) as served:
            yield context.new_page(), served.address, jobs
        context.close()


def shoot(folder: Path, pages: list[str], looks: list[str], scale: float) -> None:
    """One picture a page and look."""
    with sync_playwright() as playwright:
        browser = launch(playwright)
        for look in looks:
            with look_at(browser, look, scale) as (page, address, jobs):
                for name in pages:
                    page.goto(address + PAGES[name].format(**jobs).lstrip("/"))
                    (folder / f"{name}-{look}.png").write_bytes(settled(page))
                    print(f"{name}-{look}", flush=True)
        browser.close()


def small(picture: bytes, width: int) -> bytes:
    """The same with few colours, as small as a README wants it."""
    image = Image.open(io.BytesIO(picture)).convert("RGB")
    image = image.resize((width, round(image.height * width / image.width)), Image.Resampling.LANCZOS)
    out = io.BytesIO()
    image.quantize(128, Image.Quantize.MAXCOVERAGE, dither=Image.Dither.NONE).save(out, "png", optimize=True)
    return out.getvalue()


def for_readme() -> None:
    """The few that are committed."""
    with tempfile.TemporaryDirectory() as name:
        shoot(Path(name), list(README), ["phone-sun"], 2)
        README_FOLDER.mkdir(parents=True, exist_ok=True)
        for page in README:
            (README_FOLDER / f"{page}.png").write_bytes(small((Path(name) / f"{page}-phone-sun.png").read_bytes(), README_WIDE))


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("folder", type=Path, nargs="?", default=Path("pictures"))
    parser.add_argument("pages", nargs="*", help="pages such as walk-span; all when left out")
    parser.add_argument("--looks", default="phone-sun,phone-shade,wide-sun,wide-shade")
    parser.add_argument("--scale", type=float, default=1.5)
    parser.add_argument("--readme", action="store_true", help="only the small ones that README and guide show")
    asked = parser.parse_args()
    if asked.readme:
        for_readme()
        return
    asked.folder.mkdir(parents=True, exist_ok=True)
    shoot(asked.folder, asked.pages or list(PAGES), asked.looks.split(","), asked.scale)


if __name__ == "__main__":
    main()
