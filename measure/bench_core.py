"""`spanbook bench core`: how fast a job file becomes an order, each figure beside a baseline of the same run.

The baseline of the order reads the same JSON, multiplies a float a reading and writes as many cells with csv.writer. Every
stage runs in a process of its own, so that memory is its own; the stages take turns, and medians are told. Seconds of a stage are the processor's, since other work may
share the machine; a start is wall time.
"""

from __future__ import annotations

import csv
import gc
import io
import json
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import TextIO

SPELLINGS = ("35.25 inch", "895 mm", "89.5 cm", "0.895 m", "35 in", "2.5 ft", "41.4375 in", "1057.5 mm")
"""Lengths that pint reads too, and reads right."""
STAGE = "import sys; from measure.bench_core import stage; stage(sys.argv[1], sys.argv[2])"
CELLS = 49


def baseline_rows(data: bytes) -> int:
    """Read the JSON, multiply floats, write the same number of cells; bytes written."""
    job = json.loads(data)
    out = io.StringIO()
    write = csv.writer(out)
    figures = {}
    for reading in job["readings"]:
        if reading["what"] == "span":
            whole, part = reading["value"].removesuffix(" in").split()
            over, under = part.split("/")
            figures[reading["bay"]] = (int(whole) + int(over) / int(under)) * 25.4
    for bay in job["bays"]:
        span = figures[bay["tag"]]
        write.writerow([bay["tag"], *(f"{span * n:.2f}" for n in range(1, CELLS))])
    return len(out.getvalue().encode())


def our_csv(data: bytes) -> int:
    """From the file to order.csv, order.schema.json, order-summary.csv and order-head.csv; bytes made."""
    return sum(len(b) for name, b in _order_files(data, page=False).items())


def our_page(data: bytes) -> int:
    """From the file to all five files; bytes made."""
    return sum(len(b) for name, b in _order_files(data, page=True).items())


def _order_files(data: bytes, page: bool) -> dict[str, bytes]:
    from measure.documents import read_job
    from measure.order import make_order
    from measure.order_csv import head_csv, order_csv, summary_csv
    from measure.order_files import order_bytes
    from measure.order_schema import order_schema
    from measure.report import evaluate

    order = make_order(evaluate(read_job(data).job()))
    if page:
        return order_bytes(order)
    return {"csv": order_csv(order), "schema": order_schema(order), "summary": summary_csv(order), "head": head_csv(order)}


STAGES: dict[str, Callable[[bytes], int]] = {"baseline": baseline_rows, "csv": our_csv, "page": our_page}


def stage(name: str, path: str) -> None:
    """Run one stage in this process and print seconds and peak memory (MB) as JSON."""
    data = Path(path).read_bytes()
    if name != "baseline":
        gc.disable()  # as the commands do
        import measure.documents
        import measure.order_files
        import measure.report  # noqa: F401
    begun = time.process_time()
    made = STAGES[name](data)
    seconds = time.process_time() - begun
    peak = next((int(row.split()[1]) for row in Path("/proc/self/status").read_text().splitlines() if row.startswith("VmHWM")), 0)
    print(json.dumps({"seconds": seconds, "mb": peak / 1024, "bytes": made}))


def _staged(name: str, path: Path) -> dict[str, float]:
    done = subprocess.run([sys.executable, "-c", STAGE, name, str(path)], capture_output=True, text=True, check=True)
    told: dict[str, float] = json.loads(done.stdout)
    return told


def _interleaved(names: tuple[str, ...], path: Path, runs: int) -> dict[str, tuple[float, float]]:
    """Median seconds and greatest memory of each stage, the stages taking turns."""
    found: dict[str, list[dict[str, float]]] = {name: [] for name in names}
    for _ in range(runs):
        for name in names:
            found[name].append(_staged(name, path))
    return {n: (statistics.median(f["seconds"] for f in all_), max(f["mb"] for f in all_)) for n, all_ in found.items()}


def bench_order(folder: Path, bays: int, runs: int, out: TextIO) -> None:
    from measure.bench_job import bench_job

    path = folder / "job.json"
    path.write_bytes(bench_job(bays))
    told = _interleaved(("baseline", "csv", "page"), path, runs)
    base = told["baseline"][0]
    out.write(f"order of {bays} bays, {runs} runs in turn: baseline {base:.3f} s\n")
    for name, words in (("csv", "file to CSV, schema, summary, head"), ("page", "the same and the page")):
        seconds, mb = told[name]
        out.write(f"  {words}: {seconds:.3f} s, {seconds / base:.2f} × baseline, {mb:.0f} MB at most\n")


def bench_flat(folder: Path, sizes: tuple[int, ...], runs: int, out: TextIO) -> None:
    from measure.bench_job import bench_job

    each: list[float] = []
    for bays in sizes:
        path = folder / f"job-{bays}.json"
        path.write_bytes(bench_job(bays))
        each.append(_interleaved(("csv",), path, runs)["csv"][0] / bays * 1e6)
    told = ", ".join(f"{bays} bays {micro:.0f} µs" for bays, micro in zip(sizes, each, strict=True))
    out.write(f"time a bay: {told}; the last is {each[-1] / each[0]:.2f} × the first\n")


def bench_parse(runs: int, out: TextIO) -> None:
    """Our parser against pint's on spellings that both read, without a memo on either side."""
    from pint import UnitRegistry

    from measure.parse import parse_length

    pint: UnitRegistry[float] = UnitRegistry()
    ratios = []
    for _ in range(runs):
        begun = time.process_time()
        for text in SPELLINGS * 50:
            parse_length(text, "in")
        ours = time.process_time() - begun
        begun = time.process_time()
        for text in SPELLINGS * 50:
            pint.parse_expression(text)
        ratios.append(((time.process_time() - begun) / ours, ours / len(SPELLINGS) / 50 * 1e6))
    ratio = statistics.median(r for r, _ in ratios)
    out.write(f"reading a length: {statistics.median(m for _, m in ratios):.1f} µs, pint's parser takes {ratio:.1f} times as long\n")


def bench_start(folder: Path, runs: int, out: TextIO) -> None:
    """`spanbook check` on a small job against a Python that only imports pydantic's BaseModel."""
    from measure.bench_job import bench_job

    path = folder / "small.json"
    path.write_bytes(bench_job(3))
    ours = [sys.executable, "-c", "from fieldapp.command import main; main()", "check", str(path)]
    base = [sys.executable, "-c", "from pydantic import BaseModel"]
    pairs = [(_wall(ours), _wall(base)) for _ in range(runs)]
    ratio = statistics.median(a / b for a, b in pairs)
    out.write(f"start of `spanbook check`: {statistics.median(a for a, _ in pairs):.3f} s, {ratio:.2f} × importing pydantic\n")


def _wall(command: list[str]) -> float:
    begun = time.perf_counter()
    subprocess.run(command, capture_output=True, check=False)
    return time.perf_counter() - begun


def run(runs: int, most: int, out: TextIO) -> int:
    """All of it. runs: of each measurement; most: bays of the largest job."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        bench_parse(runs, out)
        bench_start(folder, runs, out)
        bench_order(folder, min(10_000, most), runs, out)
        bench_flat(folder, tuple(n for n in (1_000, 10_000, 100_000) if n <= most), max(1, runs // 2), out)
    return 0
