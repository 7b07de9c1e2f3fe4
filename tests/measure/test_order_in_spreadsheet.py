"""The order opened in a real spreadsheet program: LibreOffice, headless, in several languages.

Without `soffice` these tests fail; SPANBOOK_WITHOUT_SOFFICE=1 says that a machine has none, and skips them with that reason.
"""

import csv
import io
import os
import shutil
import subprocess
from decimal import Decimal
from pathlib import Path
from xml.etree import ElementTree

import pytest

from measure.job import OrderHead
from measure.order import make_order
from measure.order_csv import HEAD_FIGURES, head_csv, order_csv, summary_csv
from measure.report import evaluate
from measure.spreadsheet import safe_text
from measure.tag import tag_trouble

TABLE = "{urn:oasis:names:tc:opendocument:xmlns:table:1.0}"
OFFICE = "{urn:oasis:names:tc:opendocument:xmlns:office:1.0}"
TEXT = "{urn:oasis:names:tc:opendocument:xmlns:text:1.0}"
LANGUAGES = {
    "American": 1033,
    "British": 2057,
    "German": 1031,
    "French": 1036,
    "Swedish": 1053,
    "Swiss": 2055,
    "Japanese": 1041,
    "Polish": 1045,
}
FIGURES = ("qty", "revision", "thickness_mm", "area_m2", "mass_kg", "lower_angle_deg")
# Typed by people who mean text: each of them some language or other would take for something else.
TRAPS = (
    "3/8", "1-2", "12:30", "1:48", "1e5", "MAR 1", "May 5", "5 May 2026", "5. Mai 2026", "12 mars", "2026-06-12", "12.6.2026", "12.6.", "12.6",
    "1,250", "1 250", "1'250", "1.250", "45 %", "$5", "5 €", "£5", "5 kr", "5 Kč", "TRUE", "WAHR", "VRAI", "1 1/2", ".5", ",5", "5.", "5,", "-5",
    "+5", "(5)", "  5 ", "3 PM", "12:00am", "30:", "1.5E-3", "June 2026", "Friday, June 5, 2026", "2026年6月12日", "１２", "٣", "007", "4711", "=A1",
    "+1 555 0100", "@A1", "=1+1", "2026-06-12 09:31",
)  # fmt: skip


@pytest.fixture(scope="module")
def soffice(tmp_path_factory):
    """Opens a file in LibreOffice and saves it as another kind: `soffice(path, kind, filter)`, the path of the copy."""
    program = shutil.which("soffice")
    if program is None:
        if os.environ.get("SPANBOOK_WITHOUT_SOFFICE") == "1":
            pytest.skip("SPANBOOK_WITHOUT_SOFFICE=1: no spreadsheet program opened the order on this machine")
        pytest.fail("soffice is not on this machine: install Debian's libreoffice-calc, or set SPANBOOK_WITHOUT_SOFFICE=1")
    profile = tmp_path_factory.mktemp("profile")
    count = iter(range(10_000))

    def convert(path: Path, kind: str, read_as: str = "") -> Path:
        out = tmp_path_factory.mktemp(f"sheet{next(count)}")
        argv = [
            program,
            f"-env:UserInstallation=file://{profile}",
            "--headless",
            "--convert-to",
            kind,
            "--outdir",
            str(out),
            str(path),
        ]
        if read_as:
            argv.insert(3, f"--infilter={read_as}")
        subprocess.run(argv, check=True, capture_output=True, timeout=120)
        (made,) = out.iterdir()
        return made

    return convert


def read_as(language: int, special_numbers: bool) -> str:
    """LibreOffice's CSV filter: comma, double quote, UTF-8; special_numbers: dates and the like are recognised, as elsewhere."""
    return f"CSV:44,34,76,1,,{language},false,{str(special_numbers).lower()}"


def cells_of(fods: Path) -> list[list[tuple[str, str]]]:
    """Rows of (type, content): the text shown for strings, the stored value for everything else; `formula` where there is one."""
    rows = []
    for row in ElementTree.parse(fods).getroot().iter(f"{TABLE}table-row"):
        cells = []
        for cell in row.iter(f"{TABLE}table-cell"):
            kind = cell.get(f"{OFFICE}value-type", "empty")
            if cell.get(f"{TABLE}formula") is not None:
                kind = "formula"
            content = "\n".join("".join(_shown(p)) for p in cell.findall(f"{TEXT}p"))
            value = cell.get(f"{OFFICE}value", cell.get(f"{OFFICE}date-value", cell.get(f"{OFFICE}time-value", content)))
            cells += [(kind, content if kind == "string" else value)] * int(cell.get(f"{TABLE}number-columns-repeated", "1"))
        rows.append(cells)
    return rows


def _shown(paragraph):
    yield paragraph.text or ""
    for part in paragraph:
        yield " " * int(part.get(f"{TEXT}c", "1")) if part.tag == f"{TEXT}s" else "".join(part.itertext())
        yield part.tail or ""


@pytest.fixture
def order(deck):
    """An order full of traps: every free text is one, and figures of every kind stand in it."""
    words = ("kind", "edge_top", "edge_uprights", "edge_bottom", "corners", "holes", "stamp", "standard")
    made = deck(glass=dict(zip(words, TRAPS, strict=False)), head=OrderHead(*TRAPS[8:15]), name=TRAPS[15])
    for at, trap in enumerate(TRAPS):
        made.bay(f"A{at}", f"41 {1 + 2 * (at % 8)}/16", f"{5 + at % 3}/16 in", "right", by=trap, finish_face=trap, start="1/16")
    whole = make_order(evaluate(made.job())).issued("2026-7", 3, "2026-05-03", "3/8")
    assert len(whole.lines) == len(TRAPS)
    return whole


def table(data: bytes) -> list[list[str]]:
    return list(csv.reader(io.StringIO(data.decode("utf-8-sig"), newline="")))


def is_figure(column: str) -> bool:
    return column in FIGURES or column.endswith(("_mm", "_in"))


def as_cells(rows: list[list[str]]) -> list[list[tuple[str, str | Decimal]]]:
    """What the program should hold: figures as numbers, words as text."""
    header, *lines = rows
    return [
        [
            ("empty", "") if not cell else ("float", Decimal(cell)) if is_figure(name) else ("string", cell)
            for name, cell in zip(header, line, strict=True)
        ]
        for line in lines
    ]


def held(rows: list[list[tuple[str, str]]], width: int) -> list[list[tuple[str, str | Decimal]]]:
    """What the program holds: its rows under the header, as wide as the file is."""
    return [[(kind, Decimal(value) if kind == "float" else value) for kind, value in row[:width]] for row in rows[1:]]


@pytest.mark.parametrize("special_numbers", [False, True], ids=["plain", "special numbers"])
def test_every_cell_of_the_order_is_kept_as_a_number_or_as_text(order, soffice, tmp_path, special_numbers):
    for name, data in (("order", order_csv(order)), ("summary", summary_csv(order))):
        path = tmp_path / f"{name}.csv"
        path.write_bytes(data)
        rows = table(data)
        found = held(cells_of(soffice(path, "fods", read_as(1033, special_numbers))), len(rows[0]))
        assert found[: len(rows) - 1] == as_cells(rows)


def test_every_cell_of_the_head_is_kept(order, soffice, tmp_path):
    path = tmp_path / "head.csv"
    path.write_bytes(head_csv(order))
    rows = cells_of(soffice(path, "fods", read_as(1033, True)))
    told = {key[1]: value for key, value, *_ in rows[1:] if key[1]}
    for key, cell in table(head_csv(order))[1:]:
        kind, value = told[key]
        if key in HEAD_FIGURES:
            assert (kind, Decimal(value)) == ("float", Decimal(cell))
        else:
            assert (kind, value) == (("string", cell) if cell else ("empty", ""))


@pytest.mark.parametrize("kind", ["xlsx", "ods"])
def test_saved_as_a_workbook_and_back_every_cell_reads_the_same(order, soffice, tmp_path, kind):
    path = tmp_path / "order.csv"
    path.write_bytes(order_csv(order))
    again = soffice(soffice(path, kind, read_as(1033, True)), "csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,true,false")
    before, after = table(order_csv(order)), table(again.read_bytes())
    assert after[0] == before[0]
    assert as_cells(after) == as_cells(before)


@pytest.mark.parametrize("language", LANGUAGES.values(), ids=LANGUAGES.keys())
def test_no_text_turns_into_anything_else_in_any_language(order, soffice, tmp_path, language):
    path = tmp_path / "order.csv"
    path.write_bytes(order_csv(order))
    header, *lines = table(order_csv(order))
    found = cells_of(soffice(path, "fods", read_as(language, True)))[1:]
    for line, row in zip(lines, found, strict=False):
        for name, cell, (kind, value) in zip(header, line, row, strict=False):
            if cell and not is_figure(name):
                assert (name, kind, value) == (name, "string", cell)


@pytest.mark.parametrize("language", LANGUAGES.values(), ids=LANGUAGES.keys())
def test_whatever_the_program_takes_for_a_value_is_guarded(soffice, tmp_path, language):
    # The traps without their apostrophe, so that the program itself says which of them it would turn.
    path = tmp_path / "traps.csv"
    text = io.StringIO(newline="")
    csv.writer(text, quoting=csv.QUOTE_MINIMAL).writerows([["trap"], *([trap] for trap in TRAPS)])
    path.write_text(text.getvalue(), "utf-8-sig", newline="")
    found = [row[0] for row in cells_of(soffice(path, "fods", read_as(language, True)))][1 : len(TRAPS) + 1]
    turned = [trap for trap, (kind, value) in zip(TRAPS, found, strict=True) if (kind, value) != ("string", trap)]
    assert len(turned) >= 10, "the program recognises nothing: it proves nothing"
    assert [trap for trap in turned if safe_text(trap) != "'" + trap] == []


NAMES = (
    "A", "B", "D", "E", "F", "H", "M", "P", "R", "S", "T", "Z", "AM", "PM", "KM", "MM", "MIN", "INF", "NAN", "NULL", "NA", "Q", "KW",
    "MON", "FRI", "SUN", "MONDAY", "SUMMER", "DECK", "JANE", "MARCO", "MAYA", "JULIA", "OCTAGON", "NOVA",
)  # fmt: skip
ENDINGS = ("", " 1", "-1", ".1", "1", "12", "1-2", "1.2", " 1 2026", "2026", "-12-26", " 5.6.26", "1E5", ".5e3", "_1")


@pytest.mark.parametrize("language", [1033, 2057], ids=["American", "British"])
def test_a_tag_that_a_job_may_have_stays_a_tag(soffice, tmp_path, language):
    tags = [name + ending for name in (*NAMES, *(n.lower() for n in NAMES)) for ending in ENDINGS]
    tags = [tag for tag in tags if tag_trouble(tag) is None]
    assert len(tags) > 500
    path = tmp_path / "tags.csv"
    path.write_text("panel\r\n" + "".join(f"{tag}\r\n" for tag in tags), "utf-8-sig", newline="")
    found = [row[0] for row in cells_of(soffice(path, "fods", read_as(language, True)))][1 : len(tags) + 1]
    assert [tag for tag, cell in zip(tags, found, strict=True) if cell != ("string", tag)] == []
