"""What check and order make of the sample jobs, byte for byte. Regression: these outputs are our own and prove nothing by themselves.

`pytest --rewrite-golden` writes them anew; read the difference before it is kept. A file that nothing makes any more fails.
"""

import io
from pathlib import Path

import pytest

from measure import command_check, command_order
from measure.documents import read_job
from measure.order import make_order
from measure.order_files import PAGE, order_bytes
from measure.report import evaluate

SAMPLES = Path(__file__).parents[2] / "sample_jobs"
EXPECTED = SAMPLES / "expected"
JOBS = {path.stem: path for path in sorted(SAMPLES.glob("*.json"))}
LARGEST_PAGE = 60
"""Panels: the page of a larger order is left out, its drawings would only swell the repository."""


def made(path: Path) -> dict[str, bytes]:
    """Every output of one sample job by its name."""
    job = read_job(path.read_bytes()).job()
    told, ordered, trouble = io.StringIO(), io.StringIO(), io.StringIO()
    code = command_check.run(job, False, told)
    files = {"check.txt": f"{told.getvalue()}exit {code}\n".encode()}
    order = make_order(evaluate(job))
    if order.left_out:
        code = command_order.run(job, Path("nowhere"), False, False, ordered, trouble)
        files["order.txt"] = f"{ordered.getvalue()}{trouble.getvalue()}exit {code}\n".encode()
    if order.lines:
        files |= order_bytes(order)
    if len(order.lines) > LARGEST_PAGE:
        del files[PAGE]
    return files


@pytest.mark.parametrize("name", JOBS)
def test_outputs_are_the_expected_ones(name, rewrite_golden):
    folder, files = EXPECTED / name, made(JOBS[name])
    if rewrite_golden:
        folder.mkdir(parents=True, exist_ok=True)
        for old in folder.iterdir():
            old.unlink()
        for file, data in files.items():
            (folder / file).write_bytes(data)
    assert folder.is_dir(), "no expected outputs yet: run pytest --rewrite-golden and read them"
    assert sorted(path.name for path in folder.iterdir()) == sorted(files)
    for file, data in files.items():
        assert (folder / file).read_bytes() == data, f"{name}/{file} differs: pytest --rewrite-golden, then read the difference"


def test_there_are_sample_jobs_and_no_outputs_without_one():
    assert JOBS
    assert {path.name for path in EXPECTED.iterdir()} == set(JOBS)
