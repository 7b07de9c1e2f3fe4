"""`spanbook check`: a line a finding, tab-separated, and a last line that counts them."""

from __future__ import annotations

from collections import Counter
from typing import TextIO

from measure.finding import Finding
from measure.job import Job
from measure.report import evaluate


def line(finding: Finding) -> str:
    """Bay (or `run A`, or `job`), verdict, check, sentence; an answered query adds why it stands and who says so."""
    sentence = finding.sentence
    if finding.answer is not None:
        sentence += f" It stands: {finding.answer.reason} ({finding.answer.by})."
    return "\t".join(" ".join(part.split()) for part in (finding.place, finding.word, finding.check, sentence))


def count_line(findings: tuple[Finding, ...] | list[Finding]) -> str:
    """How many of each word, and how many stand in the way."""
    words = Counter(f.word for f in findings)
    told = ", ".join(f"{words[w]} {w}" for w in ("hold", "query", "answered", "caution", "clear") if words[w]) or "no findings"
    in_the_way = sum(f.stands_in_the_way for f in findings)
    return f"{told}; {in_the_way or 'nothing'} {'stands' if in_the_way < 2 else 'stand'} in the way"


def run(job: Job, every: bool, out: TextIO) -> int:
    """Print the findings of a job; 1 where something stands in the way, else 0."""
    report = evaluate(job, every)
    for finding in report.findings:
        out.write(line(finding) + "\n")
    out.write(count_line(report.findings) + "\n")
    return 1 if any(f.stands_in_the_way for f in report.findings) else 0
