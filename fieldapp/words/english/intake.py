"""Words of taking in jobs that phones send, beside the office's machine."""

WORDS = {
    "intake.title": "Jobs from phones",
    "intake.row_under": "Phones send their jobs here, with a code",
    "intake.off": "Phones can send their jobs to this machine.",
    "intake.off_how": "Each needs the code that is made here. With it a job comes whole: a new one, or what is new in one that is here. Nothing is ever taken out.",
    "intake.open": "Take jobs in",
    "intake.address": "Address",
    "intake.code": "Code",
    "intake.code_says": "code {code}",
    "intake.on_phone": "On the phone, in the job: Review, then The office.",
    "intake.join_code": "A job's join code lets in that job's readings and notes too; its plan stays as it is here.",
    "intake.plain": "The line is not encrypted: who listens on this network can read the code. Start Spanbook with --cert and --key.",
    "intake.elsewhere": "An app that came from another address sends here only if it was allowed: --allow-origin.",
    "intake.renew": "New code",
    "intake.close": "Take none in",
    "intake.came": "Came in",
    "intake.readings": ("{n} new reading", "{n} new readings"),
    "intake.other_job": "This code is that of another job.",
}
