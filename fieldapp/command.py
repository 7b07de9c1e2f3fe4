"""The command `spanbook`: opens the app, or checks, orders, plans, packs and measures speed from the command line.

Every subcommand imports what it needs and no more: `check` and `order` see neither flet nor a web server.
Exit codes: 0 fine, 1 findings stand in the way, 2 unreadable input or wrong use; 130 and 143 when it was stopped from
outside, 141 when nobody reads what it prints.
"""

from __future__ import annotations

import argparse
import contextlib
import gc
import os
import signal
import sys
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

if TYPE_CHECKING:
    from measure.documents import JobDocument
    from measure.job import Job

PORT = 8455
FINE, IN_THE_WAY, UNREADABLE = 0, 1, 2
STOPPED_BY_KEY, STOPPED_BY_SIGNAL, NOBODY_READS = 130, 143, 141
ABOUT = "From post spans measured on site to a glass order that can be cut."
BENCHES = "core: from a job file to the order's files; app: the touch app in a browser; phone: the same alone in a browser, without a server"
CODES = "Exit codes: 0 fine, 1 findings stand in the way, 2 unreadable input or wrong use."


def main(given: Sequence[str] | None = None) -> int:
    """Run one command; the exit code. given: the words after the command's name, the process's own if None."""
    from measure.errors import SpanbookError

    try:
        signal.signal(signal.SIGTERM, _stopped)
        options = _parser().parse_args(given)
        code = int(options.run(options))
        sys.stdout.flush()
        return code
    except SpanbookError as problem:
        print(f"spanbook: {problem}", file=sys.stderr)
        return UNREADABLE
    except KeyboardInterrupt:
        print("spanbook: stopped", file=sys.stderr)
        return STOPPED_BY_KEY
    except BrokenPipeError:
        # Whoever read our output has gone; the interpreter would complain once more while it closes.
        with contextlib.suppress(OSError):
            os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return NOBODY_READS


def _stopped(number: int, frame: object) -> NoReturn:
    raise SystemExit(STOPPED_BY_SIGNAL)


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="spanbook", description=ABOUT + " Without a command: opens the app.", epilog=CODES)
    _app_options(parser)
    parser.set_defaults(run=_open_app)
    commands = parser.add_subparsers(title="commands", metavar="COMMAND")
    for name, about, options, run in COMMANDS:
        command = commands.add_parser(name, help=about, description=about, epilog=CODES)
        options(command)
        command.set_defaults(run=run)
    return parser


def _app_options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--port", type=_port, default=PORT, metavar="N", help=f"the port it answers on ({PORT}; 0: any free one)")
    parser.add_argument("--data", type=Path, metavar="DIR", help="where the jobs are kept (a folder of yours)")
    parser.add_argument("--no-browser", action="store_true", help="do not open a browser")
    parser.add_argument(
        "--share", nargs="?", const="", metavar="ADDRESS",
        help="let phones on the same network in, with a job's join code; ADDRESS: this machine's, to answer on that network only",
    )  # fmt: skip
    parser.add_argument("--cert", type=Path, metavar="FILE", help="your certificate (PEM): all lines are encrypted")
    parser.add_argument("--key", type=Path, metavar="FILE", help="its private key (PEM)")
    parser.add_argument(
        "--allow-origin", action="append", default=[], metavar="ORIGIN", dest="origins",
        help="an app for phones that is handed out elsewhere may send jobs here: how its address begins, https://app.example",
    )  # fmt: skip
    parser.add_argument(
        "--phone", type=Path, metavar="DIR", help="hand out this folder below /phone/, as `spanbook pack` wrote it (made here when asked for)"
    )


def _port(text: str) -> int:
    if not text.isdecimal() or int(text) > 65535:
        raise argparse.ArgumentTypeError(f"“{text}” is no port: a whole number to 65535, like {PORT}")
    return int(text)


def _open_app(options: argparse.Namespace) -> int:
    from fieldapp.hosts.network import Network
    from fieldapp.hosts.server import serve

    cert, key = (str(f) if f else None for f in (options.cert, options.key))
    network = Network(options.share, cert, key, tuple(origin.lower().rstrip("/") for origin in options.origins))
    return serve(options.port, options.data, browser=not options.no_browser, network=network, phone=options.phone)


def _job_options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("job", nargs="?", metavar="JOB", help="a job file")
    parser.add_argument("--db", nargs=2, metavar=("DIR", "NAME"), help="a job of the app: its data folder and the job's name")


def _job(options: argparse.Namespace) -> Job:
    """The job that the options name. Raises SpanbookError when it cannot be read."""
    from measure.errors import SpanbookError

    if (options.job is None) == (options.db is None):
        raise SpanbookError("Say which job: a job file, or --db DIR NAME.")
    if options.job is not None:
        return _from_file(Path(options.job))
    return _from_book(*options.db)


def _from_file(path: Path) -> Job:
    return _document(path).job()


def _document(path: Path) -> JobDocument:
    from measure.documents import read_job
    from measure.errors import DocumentError, PlaceError, SpanbookError

    try:
        data = path.read_bytes()
    except OSError as problem:
        raise SpanbookError(f"{path}: {problem.strerror or 'cannot be read'}. Give a job file, like job.json.") from None
    try:
        return read_job(data)
    except DocumentError as problem:
        raise DocumentError([PlaceError(f"{path}: {p.place}", p.sentence) for p in problem.problems]) from None


def _from_book(folder: str, name: str) -> Job:
    from measure.documents import read_words
    from measure.errors import StoreError
    from measure.store import Store

    with Store.open(Path(folder), read_only=True) as store:
        found = store.job_by_name(name)
        if found is None:
            there = ", ".join(card.name for card in store.jobs()) or "none yet"
            raise StoreError(f"There is no job “{name}” in {folder}. Jobs there: {there}.")
        return read_words(store.document(found)).job()


def _check_options(parser: argparse.ArgumentParser) -> None:
    _job_options(parser)
    parser.add_argument("--all", action="store_true", help="clear findings too")


@contextlib.contextmanager
def _without_collecting() -> Iterator[None]:
    """A command makes one job and ends: Python's collector would look through all its values again and again, and find nothing."""
    gc.disable()
    try:
        yield
    finally:
        gc.enable()


def _check(options: argparse.Namespace) -> int:
    from measure.command_check import run

    with _without_collecting():
        return run(_job(options), options.all, sys.stdout)


def _order_options(parser: argparse.ArgumentParser) -> None:
    _job_options(parser)
    parser.add_argument("-o", "--output", type=Path, required=True, metavar="DIR", help="where the order's files go")
    parser.add_argument("--partial", action="store_true", help="leave out what stands in the way, and list it")
    parser.add_argument("--drawings", action="store_true", help="a drawing (SVG) for every panel too")


def _order(options: argparse.Namespace) -> int:
    from measure.command_order import run

    with _without_collecting():
        return run(_job(options), options.output, options.partial, options.drawings, sys.stdout, sys.stderr)


def _plan_options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--like", type=Path, required=True, metavar="JOB", help="the job file whose system, glass, tape and limits it takes")
    parser.add_argument("--name", required=True, help="the new job's name")
    parser.add_argument(
        "--run",
        action="append",
        required=True,
        dest="runs",
        metavar="NAME:LENGTH[:ANGLE[:KIND]]",
        help="a run, from the middle of its first post to the middle of its last; ANGLE: how it turns from the run before; KIND: its last post",
    )
    parser.add_argument("-o", "--output", type=Path, metavar="FILE", help="where the job file goes (standard output)")


def _plan(options: argparse.Namespace) -> int:
    document = _document(options.like)
    from measure.command_plan import run

    return run(document.job(), document.as_dict(), options.name, options.runs, options.output, sys.stdout, sys.stderr)


def _bench_options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("what", choices=("core", "app", "phone"), help=BENCHES)
    parser.add_argument("--runs", type=int, default=5, metavar="N", help="runs of each measurement, taking turns (5); phone: starts of each app")
    parser.add_argument("--taps", type=int, default=60, metavar="N", help="app, phone: measured taps on each page (60)")
    parser.add_argument("--most", type=int, default=100_000, metavar="BAYS", help="bays of the largest job (100 000)")


def _bench(options: argparse.Namespace) -> int:
    if options.what == "app":
        from fieldapp.bench_app import run as run_app

        return run_app(max(10, options.taps), sys.stdout)
    if options.what == "phone":
        from fieldapp.bench_phone import run as run_phone

        return run_phone(max(2, options.runs), max(10, options.taps), sys.stdout)
    from measure.bench_core import run

    return run(max(1, options.runs), max(1000, options.most), sys.stdout)


def _pack_options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("-o", "--output", type=Path, required=True, metavar="DIR", help="the folder; an earlier one is replaced")
    parser.add_argument("--base", default="./", metavar="PATH", help="bind the folder to one path, like /x/ (any path will do)")


def _pack(options: argparse.Namespace) -> int:
    from fieldapp.hosts.pack import pack

    pack(options.output, options.base, lambda line: print(line, flush=True))
    return FINE


Command = tuple[str, str, Callable[[argparse.ArgumentParser], None], Callable[[argparse.Namespace], int]]
COMMANDS: tuple[Command, ...] = (
    ("check", "Print what is found in a job: bay, verdict, check, sentence, tab-separated.", _check_options, _check),
    ("order", "Check a job and write its order for the glass shop.", _order_options, _order),
    ("plan", "Make a job file from run lengths: equal bays below the greatest spacing, posts counted.", _plan_options, _plan),
    ("pack", "Write the folder for phones: the whole app, for any web server that hands out files over https.", _pack_options, _pack),
    ("bench", "Measure speed beside a baseline of the same run.", _bench_options, _bench),
)

if __name__ == "__main__":
    sys.exit(main())
