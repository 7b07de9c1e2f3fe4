PRAGMA application_id = 1397771842;
PRAGMA user_version = 1;
BEGIN TRANSACTION;
CREATE TABLE "_sqlite_migrations" (
   "id" INTEGER PRIMARY KEY,
   "migration_set" TEXT,
   "name" TEXT,
   "applied_at" TEXT
);
INSERT INTO "_sqlite_migrations" VALUES(1,'spanbook','m001_first','2026-11-25 16:00:32.302081+00:00');
CREATE TABLE answer (
    seq INTEGER PRIMARY KEY,
    job TEXT NOT NULL REFERENCES job (id),
    key TEXT NOT NULL,
    kind TEXT NOT NULL CHECK (kind IN ('bay', 'run')),
    place TEXT NOT NULL,
    "check" TEXT NOT NULL,
    at_us INTEGER NOT NULL,
    tie INTEGER NOT NULL CHECK (tie >= 0),
    words TEXT NOT NULL CHECK (json_valid(words)),
    kept_at TEXT NOT NULL,
    UNIQUE (job, key)
) STRICT;
INSERT INTO "answer" VALUES(1,'1ef3cf580c265e2c44749f89cd6d38ac','7f27d9a5141d3dabb5d449b1#1','bay','A2','off-plan',1777715700000000,0,'{"bay": "A2", "check": "off-plan", "reason": "post set clear of a joist – ½ in", "by": "Mona", "at": "2026-05-02T09:55:00Z"}','2026-05-02T12:00:00.000Z');
CREATE TABLE draft (scope TEXT NOT NULL, key TEXT NOT NULL, words TEXT NOT NULL, PRIMARY KEY (scope, key)) STRICT;
INSERT INTO "draft" VALUES('phone','A4 span','41 7');
CREATE TABLE glass_order (
    order_no INTEGER NOT NULL CHECK (order_no > 0),
    revision INTEGER NOT NULL CHECK (revision > 0),
    job TEXT NOT NULL REFERENCES job (id),
    issued_by TEXT NOT NULL,
    issued_at TEXT NOT NULL,
    content_hash TEXT NOT NULL,
    PRIMARY KEY (order_no, revision)
) STRICT;
INSERT INTO "glass_order" VALUES(1,1,'1ef3cf580c265e2c44749f89cd6d38ac','Mona','2026-05-02T10:00:00Z','38fa5e041947e17b7cdf3955f0641ea34fc19e526ce17b9776021bcb09779664');
CREATE TABLE job (
    id TEXT NOT NULL PRIMARY KEY CHECK (length(id) BETWEEN 1 AND 64),
    name TEXT NOT NULL,
    site TEXT NOT NULL,
    units TEXT NOT NULL CHECK (units IN ('in', 'mm')),
    layout TEXT NOT NULL CHECK (json_valid(layout)),          -- the parts of the file it came from, in their order
    grown INTEGER NOT NULL CHECK (grown IN (0, 1)),           -- 1: holds more than that file
    by_time INTEGER NOT NULL CHECK (by_time IN (0, 1)),       -- 1: met another copy, lists go by time
    added_by TEXT NOT NULL,
    added_at TEXT NOT NULL,
    changed_at TEXT NOT NULL,
    opened_at TEXT,
    left_at TEXT NOT NULL DEFAULT '',                         -- the place where it was left
    changes INTEGER NOT NULL DEFAULT 0,                       -- goes up with every change
    copied_at TEXT,                                           -- when a copy last left this device
    copied_changes INTEGER NOT NULL DEFAULT 0,                -- the changes that this copy held
    binned_at TEXT
) STRICT;
INSERT INTO "job" VALUES('1ef3cf580c265e2c44749f89cd6d38ac','Heron landing','invented','in','["format", "job", "tape", "system", "glass", "limits", "posts", "bays", "readings", "moved", "answers"]',1,1,'','2026-05-02T12:00:00.000Z','2026-05-02T12:00:00.000Z','2026-05-02T12:00:00.000Z','bay A4',6,'2026-05-02T12:00:00.000Z',6,NULL);
CREATE TABLE later_tie (                                      -- another copy knew a later place on a tie
    job TEXT NOT NULL REFERENCES job (id),
    list TEXT NOT NULL CHECK (list IN ('readings', 'moved', 'answers', 'notes')),
    key TEXT NOT NULL,
    tie INTEGER NOT NULL CHECK (tie >= 0),
    PRIMARY KEY (job, list, key)
) STRICT;
CREATE TABLE moved (
    seq INTEGER PRIMARY KEY,
    job TEXT NOT NULL REFERENCES job (id),
    key TEXT NOT NULL,
    post TEXT NOT NULL,
    at_us INTEGER NOT NULL,
    tie INTEGER NOT NULL CHECK (tie >= 0),
    words TEXT NOT NULL CHECK (json_valid(words)),
    kept_at TEXT NOT NULL,
    UNIQUE (job, key)
) STRICT;
INSERT INTO "moved" VALUES(1,'1ef3cf580c265e2c44749f89cd6d38ac','7e4043f1c15cd083a1a36b66#1','P5',1777713600000000,0,'{"post": "P5", "at": "2026-05-02T09:20:00Z", "by": "Mona"}','2026-05-02T12:00:00.000Z');
CREATE TABLE newest_plan (
    job TEXT NOT NULL,
    plan TEXT NOT NULL,
    PRIMARY KEY (job, plan),
    FOREIGN KEY (job, plan) REFERENCES plan (job, id)
) STRICT;
INSERT INTO "newest_plan" VALUES('1ef3cf580c265e2c44749f89cd6d38ac','0b0f8afef17062bf');
INSERT INTO "newest_plan" VALUES('1ef3cf580c265e2c44749f89cd6d38ac','b17202089213b1a0');
CREATE TABLE note (
    seq INTEGER PRIMARY KEY,
    job TEXT NOT NULL REFERENCES job (id),
    key TEXT NOT NULL,
    bay TEXT NOT NULL,
    at_us INTEGER NOT NULL,
    tie INTEGER NOT NULL CHECK (tie >= 0),
    words TEXT NOT NULL CHECK (json_valid(words)),
    kept_at TEXT NOT NULL,
    UNIQUE (job, key)
) STRICT;
INSERT INTO "note" VALUES(1,'1ef3cf580c265e2c44749f89cd6d38ac','6fcb257e6cc0dc0a5a6398bd#1','A2',1777716000000000,0,'{"bay": "A2", "text": "downpipe in the way", "photo": "A2-1.jpg", "by": "Kit", "at": "2026-05-02T10:00:00Z"}','2026-05-02T12:00:00.000Z');
CREATE TABLE order_file (
    order_no INTEGER NOT NULL,
    revision INTEGER NOT NULL,
    name TEXT NOT NULL,
    content BLOB NOT NULL,
    PRIMARY KEY (order_no, revision, name),
    FOREIGN KEY (order_no, revision) REFERENCES glass_order (order_no, revision)
) STRICT;
INSERT INTO "order_file" VALUES(1,1,'order.csv',X'70616E656C0D0A41310D0A');
CREATE TABLE order_panel (
    order_no INTEGER NOT NULL,
    revision INTEGER NOT NULL,
    line INTEGER NOT NULL CHECK (line > 0),
    words TEXT NOT NULL CHECK (json_valid(words)),
    PRIMARY KEY (order_no, revision, line),
    FOREIGN KEY (order_no, revision) REFERENCES glass_order (order_no, revision)
) STRICT;
INSERT INTO "order_panel" VALUES(1,1,1,'{"panel": "A1"}');
CREATE TABLE plan (
    seq INTEGER PRIMARY KEY,
    job TEXT NOT NULL REFERENCES job (id),
    id TEXT NOT NULL,
    words TEXT NOT NULL CHECK (json_valid(words)),
    said_by TEXT NOT NULL,
    said_at TEXT NOT NULL,
    before TEXT NOT NULL CHECK (json_valid(before)),
    kept_at TEXT NOT NULL,
    UNIQUE (job, id)
) STRICT;
INSERT INTO "plan" VALUES(1,'1ef3cf580c265e2c44749f89cd6d38ac','475cbbe802627536','{"format": "spanbook-job/1", "job": {"name": "Heron landing", "site": "invented", "units": "in", "read_back": "no", "po": "H-7"}, "tape": {"division": "1/16 in", "class": "US", "placing": "0.3 mm"}, "system": {"name": "Grooved post 65", "post_face": "2 1/2 in", "greatest_spacing": "54 in", "allowance": "1 5/16 in", "groove_depth": "13/16 in", "least_bite": "1/4 in", "least_play": "1/16 in", "turning": {"line": {"grooves": 180, "each": 40}}}, "glass": {"thickness": "10 mm", "height": 38.50, "size_tolerance": "2.5 mm", "greatest_mass_kg": 60.0}, "limits": {"plan_tolerance": "1/4 in"}, "posts": [{"id": "P1", "kind": "end"}, {"id": "P2", "kind": "line"}, {"id": "P3", "kind": "line"}, {"id": "P4", "kind": "line"}, {"id": "P5", "kind": "end"}], "bays": [{"tag": "A1", "run": "A", "left": "P1", "right": "P2", "spacing": "44 in"}, {"tag": "A2", "run": "A", "left": "P2", "right": "P3", "spacing": "44 in"}, {"tag": "A3", "run": "A", "left": "P3", "right": "P4", "spacing": "44 in", "glass": "none"}, {"tag": "A4", "run": "A", "left": "P4", "right": "P5", "spacing": "44 in"}]}','','','[]','2026-05-02T12:00:00.000Z');
INSERT INTO "plan" VALUES(2,'1ef3cf580c265e2c44749f89cd6d38ac','b17202089213b1a0','{"format": "spanbook-job/1", "job": {"name": "Heron landing", "site": "invented", "units": "in", "read_back": "no", "po": "H-7"}, "tape": {"division": "1/16 in", "class": "US", "placing": "0.3 mm"}, "system": {"name": "Grooved post 65", "post_face": "2 1/2 in", "greatest_spacing": "54 in", "allowance": "1 5/16 in", "groove_depth": "13/16 in", "least_bite": "1/4 in", "least_play": "1/16 in", "turning": {"line": {"grooves": 180, "each": 40}}}, "glass": {"thickness": "10 mm", "height": "40 in", "size_tolerance": "2.5 mm", "greatest_mass_kg": 60.0}, "limits": {"plan_tolerance": "1/4 in"}, "posts": [{"id": "P1", "kind": "end"}, {"id": "P2", "kind": "line"}, {"id": "P3", "kind": "line"}, {"id": "P4", "kind": "line"}, {"id": "P5", "kind": "end"}], "bays": [{"tag": "A1", "run": "A", "left": "P1", "right": "P2", "spacing": "44 in"}, {"tag": "A2", "run": "A", "left": "P2", "right": "P3", "spacing": "44 in"}, {"tag": "A3", "run": "A", "left": "P3", "right": "P4", "spacing": "44 in", "glass": "none"}, {"tag": "A4", "run": "A", "left": "P4", "right": "P5", "spacing": "44 in"}]}','Mona','2026-05-02T10:00:00Z','["475cbbe802627536"]','2026-05-02T12:00:00.000Z');
INSERT INTO "plan" VALUES(3,'1ef3cf580c265e2c44749f89cd6d38ac','0b0f8afef17062bf','{"format": "spanbook-job/1", "job": {"name": "Heron landing", "site": "invented", "units": "in", "read_back": "no", "po": "H-7"}, "tape": {"division": "1/32 in"}, "system": {"name": "Grooved post 65", "post_face": "2 1/2 in", "greatest_spacing": "54 in", "allowance": "1 5/16 in", "groove_depth": "13/16 in", "least_bite": "1/4 in", "least_play": "1/16 in", "turning": {"line": {"grooves": 180, "each": 40}}}, "glass": {"thickness": "10 mm", "height": "40 in", "size_tolerance": "2.5 mm", "greatest_mass_kg": 60.0}, "limits": {"plan_tolerance": "1/4 in"}, "posts": [{"id": "P1", "kind": "end"}, {"id": "P2", "kind": "line"}, {"id": "P3", "kind": "line"}, {"id": "P4", "kind": "line"}, {"id": "P5", "kind": "end"}], "bays": [{"tag": "A1", "run": "A", "left": "P1", "right": "P2", "spacing": "44 in"}, {"tag": "A2", "run": "A", "left": "P2", "right": "P3", "spacing": "44 in"}, {"tag": "A3", "run": "A", "left": "P3", "right": "P4", "spacing": "44 in", "glass": "none"}, {"tag": "A4", "run": "A", "left": "P4", "right": "P5", "spacing": "44 in"}]}','','','[]','2026-05-02T12:00:00.000Z');
CREATE TABLE preset (
    kind TEXT NOT NULL,
    name TEXT NOT NULL,
    words TEXT NOT NULL CHECK (json_valid(words)),
    PRIMARY KEY (kind, name)
) STRICT;
INSERT INTO "preset" VALUES('tape','old tape','{"division": "1/16 in"}');
CREATE TABLE reading (
    seq INTEGER PRIMARY KEY,
    job TEXT NOT NULL REFERENCES job (id),
    key TEXT NOT NULL,
    own_id TEXT,
    kind TEXT NOT NULL CHECK (kind IN ('bay', 'post', 'run')),
    place TEXT NOT NULL,
    what TEXT NOT NULL,
    role TEXT NOT NULL CHECK (role IN ('first', 'second', 'read-back')),
    replaces TEXT,
    at_us INTEGER NOT NULL,                                   -- microseconds since 1970, UTC
    tie INTEGER NOT NULL CHECK (tie >= 0),
    words TEXT NOT NULL CHECK (json_valid(words)),
    kept_at TEXT NOT NULL,
    UNIQUE (job, key)
) STRICT;
INSERT INTO "reading" VALUES(1,'1ef3cf580c265e2c44749f89cd6d38ac','eae3cdc1bffc253ba1a06c00#1',NULL,'bay','A1','span','first',NULL,1777714260000000,0,'{"bay": "A1", "what": "span", "value": "41 7/16", "by": "Mona", "at": "2026-05-02T09:31:00Z"}','2026-05-02T12:00:00.000Z');
INSERT INTO "reading" VALUES(2,'1ef3cf580c265e2c44749f89cd6d38ac','f84b2357e7cbb9ced5248096#1',NULL,'bay','A1','rise','first',NULL,1777714320000000,0,'{"bay": "A1", "what": "rise", "value": "3/8 in", "high": "right", "over": "centres", "by": "Mona", "at": "2026-05-02T09:32:00Z"}','2026-05-02T12:00:00.000Z');
INSERT INTO "reading" VALUES(3,'1ef3cf580c265e2c44749f89cd6d38ac','R3~f75c623b75f8b2c55b6f502f','R3','bay','A2','span','first',NULL,1777714380000000,0,'{"bay": "A2", "what": "span", "value": 41.50, "by": "Mona", "at": "2026-05-02T09:33:00Z", "id": "R3"}','2026-05-02T12:00:00.000Z');
INSERT INTO "reading" VALUES(4,'1ef3cf580c265e2c44749f89cd6d38ac','R4~0c42c489c6dda8ebd80d45d1','R4','bay','A2','span','first','R3',1777714380250000,0,'{"what": "span", "bay": "A2", "value": "41 1/2\"", "by": "Mona", "at": "2026-05-02T11:33:00.250+02:00", "id": "R4", "replaces": "R3"}','2026-05-02T12:00:00.000Z');
INSERT INTO "reading" VALUES(5,'1ef3cf580c265e2c44749f89cd6d38ac','7a122c8f7edd55d6813919e4#1',NULL,'run','A','overall','first',NULL,1777715400000000,0,'{"run": "A", "what": "overall", "value": "178 1/2 in", "by": "Kit", "at": "2026-05-02T09:50:00Z"}','2026-05-02T12:00:00.000Z');
INSERT INTO "reading" VALUES(6,'1ef3cf580c265e2c44749f89cd6d38ac','0123abcd-0123456789abcdef~26a38bbb255985cf006fa316','0123abcd-0123456789abcdef','bay','A4','span','first',NULL,1777716000000000,0,'{"bay": "A4", "what": "span", "value": "41 1/2 in", "by": "Kit", "at": "2026-05-02T10:00:00Z", "id": "0123abcd-0123456789abcdef"}','2026-05-02T12:00:00.000Z');
CREATE TABLE setting (key TEXT NOT NULL PRIMARY KEY, value TEXT NOT NULL CHECK (json_valid(value))) STRICT;
INSERT INTO "setting" VALUES('name of this store','"0123abcd"');
INSERT INTO "setting" VALUES('look','{"theme": "sun"}');
CREATE UNIQUE INDEX "idx__sqlite_migrations_migration_set_name"
    ON "_sqlite_migrations" ("migration_set", "name");
CREATE INDEX reading_at ON reading (job, at_us);
CREATE INDEX reading_replaces ON reading (job, replaces) WHERE replaces IS NOT NULL;
CREATE INDEX glass_order_job ON glass_order (job);
CREATE TRIGGER plan_never_UPDATE BEFORE UPDATE ON plan
BEGIN SELECT RAISE(ABORT, 'plan is only ever added to'); END;
CREATE TRIGGER plan_never_DELETE BEFORE DELETE ON plan
BEGIN SELECT RAISE(ABORT, 'plan is only ever added to'); END;
CREATE TRIGGER reading_never_UPDATE BEFORE UPDATE ON reading
BEGIN SELECT RAISE(ABORT, 'reading is only ever added to'); END;
CREATE TRIGGER reading_never_DELETE BEFORE DELETE ON reading
BEGIN SELECT RAISE(ABORT, 'reading is only ever added to'); END;
CREATE TRIGGER moved_never_UPDATE BEFORE UPDATE ON moved
BEGIN SELECT RAISE(ABORT, 'moved is only ever added to'); END;
CREATE TRIGGER moved_never_DELETE BEFORE DELETE ON moved
BEGIN SELECT RAISE(ABORT, 'moved is only ever added to'); END;
CREATE TRIGGER answer_never_UPDATE BEFORE UPDATE ON answer
BEGIN SELECT RAISE(ABORT, 'answer is only ever added to'); END;
CREATE TRIGGER answer_never_DELETE BEFORE DELETE ON answer
BEGIN SELECT RAISE(ABORT, 'answer is only ever added to'); END;
CREATE TRIGGER note_never_UPDATE BEFORE UPDATE ON note
BEGIN SELECT RAISE(ABORT, 'note is only ever added to'); END;
CREATE TRIGGER note_never_DELETE BEFORE DELETE ON note
BEGIN SELECT RAISE(ABORT, 'note is only ever added to'); END;
CREATE TRIGGER glass_order_never_UPDATE BEFORE UPDATE ON glass_order
BEGIN SELECT RAISE(ABORT, 'glass_order is only ever added to'); END;
CREATE TRIGGER glass_order_never_DELETE BEFORE DELETE ON glass_order
BEGIN SELECT RAISE(ABORT, 'glass_order is only ever added to'); END;
CREATE TRIGGER order_panel_never_UPDATE BEFORE UPDATE ON order_panel
BEGIN SELECT RAISE(ABORT, 'order_panel is only ever added to'); END;
CREATE TRIGGER order_panel_never_DELETE BEFORE DELETE ON order_panel
BEGIN SELECT RAISE(ABORT, 'order_panel is only ever added to'); END;
CREATE TRIGGER order_file_never_UPDATE BEFORE UPDATE ON order_file
BEGIN SELECT RAISE(ABORT, 'order_file is only ever added to'); END;
CREATE TRIGGER order_file_never_DELETE BEFORE DELETE ON order_file
BEGIN SELECT RAISE(ABORT, 'order_file is only ever added to'); END;
COMMIT;
