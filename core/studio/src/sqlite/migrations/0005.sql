-- Works, editions, prints and their history. Lengths are in units of 1/720 micrometre, money in
-- hundredths. `at` and `why` are of the last change; the history has all of them, and in `payload`
-- all that was known from then on, as JSON.

CREATE TABLE setting (
    key TEXT PRIMARY KEY NOT NULL CHECK (key <> ''),
    value TEXT NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE work (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    catalogue TEXT NOT NULL UNIQUE CHECK (catalogue <> ''),
    title TEXT NOT NULL,
    maker TEXT NOT NULL,
    taken INTEGER CHECK (taken BETWEEN -9999 AND 9999),
    printed INTEGER CHECK (printed BETWEEN -9999 AND 9999),
    medium TEXT NOT NULL,
    paper TEXT NOT NULL,
    picture TEXT NOT NULL,
    sha256 TEXT NOT NULL,
    notes TEXT NOT NULL,
    at TEXT NOT NULL CHECK (at <> ''),
    why TEXT NOT NULL
) STRICT;

CREATE TABLE format (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    work INTEGER NOT NULL REFERENCES work (id),
    name TEXT NOT NULL,
    image_w INTEGER NOT NULL CHECK (image_w >= 0),
    image_h INTEGER NOT NULL CHECK (image_h >= 0),
    sheet_w INTEGER NOT NULL CHECK (sheet_w >= 0),
    sheet_h INTEGER NOT NULL CHECK (sheet_h >= 0),
    at TEXT NOT NULL CHECK (at <> ''),
    why TEXT NOT NULL,
    UNIQUE (id, work)
) STRICT;
CREATE INDEX format_work ON format (work);

CREATE TABLE edition (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    work INTEGER NOT NULL REFERENCES work (id),
    format INTEGER,
    name TEXT NOT NULL,
    size INTEGER NOT NULL CHECK (size BETWEEN 1 AND 1000000),
    proof_share INTEGER NOT NULL CHECK (proof_share BETWEEN 0 AND 100),
    artist INTEGER NOT NULL CHECK (artist >= 0 AND artist * 100 <= size * proof_share),
    printer INTEGER NOT NULL CHECK (printer BETWEEN 0 AND 1000000),
    hors_commerce INTEGER NOT NULL CHECK (hors_commerce BETWEEN 0 AND 1000000),
    trial INTEGER NOT NULL CHECK (trial BETWEEN 0 AND 1000000),
    roman INTEGER NOT NULL CHECK (roman IN (0, 1)),
    at TEXT NOT NULL CHECK (at <> ''),
    why TEXT NOT NULL,
    FOREIGN KEY (format, work) REFERENCES format (id, work)
) STRICT;
CREATE INDEX edition_work ON edition (work);
-- A format has one edition; a work has one across all its formats, or one a format.
CREATE UNIQUE INDEX edition_format ON edition (format) WHERE format IS NOT NULL;
CREATE UNIQUE INDEX edition_across ON edition (work) WHERE format IS NULL;

CREATE TABLE print (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    edition INTEGER NOT NULL REFERENCES edition (id),
    kind TEXT NOT NULL CHECK (kind IN ('numbered', 'ap', 'pp', 'hc', 'bat', 'tp')),
    number INTEGER NOT NULL CHECK (number >= 1),
    live INTEGER NOT NULL CHECK (live IN (0, 1)),
    replaces INTEGER UNIQUE REFERENCES print (id),
    format INTEGER REFERENCES format (id),
    state TEXT NOT NULL CHECK (state IN
        ('studio', 'show', 'sold', 'returned', 'unknown', 'destroyed', 'voided')),
    place TEXT NOT NULL,
    printed TEXT NOT NULL,
    matted TEXT NOT NULL,
    plan TEXT NOT NULL,
    plan_file TEXT NOT NULL,
    cents INTEGER CHECK (cents >= 0),
    currency TEXT NOT NULL,
    buyer TEXT NOT NULL,
    at TEXT NOT NULL CHECK (at <> ''),
    why TEXT NOT NULL,
    CHECK ((cents IS NULL) = (currency = '')),
    CHECK (live = 1 OR state IN ('voided', 'destroyed')),
    CHECK (live = 0 OR state <> 'voided')
) STRICT;
-- Two live prints of an edition never have one number.
CREATE UNIQUE INDEX print_number ON print (edition, kind, number) WHERE live = 1;
CREATE INDEX print_edition ON print (edition, kind, number);
CREATE INDEX print_plan ON print (plan) WHERE live = 1 AND plan <> '';

CREATE TABLE history (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    at TEXT NOT NULL,
    subject TEXT NOT NULL CHECK (subject IN ('work', 'format', 'edition', 'tier', 'print')),
    subject_id INTEGER NOT NULL,
    what TEXT NOT NULL CHECK (what IN ('added', 'changed')),
    why TEXT NOT NULL,
    payload TEXT NOT NULL
) STRICT;
CREATE INDEX history_subject ON history (subject, subject_id);

-- Nothing is ever deleted, and what happened stands.
CREATE TRIGGER work_stays BEFORE DELETE ON work
BEGIN SELECT RAISE (ABORT, 'never-deleted'); END;
CREATE TRIGGER format_stays BEFORE DELETE ON format
BEGIN SELECT RAISE (ABORT, 'never-deleted'); END;
CREATE TRIGGER edition_stays BEFORE DELETE ON edition
BEGIN SELECT RAISE (ABORT, 'never-deleted'); END;
CREATE TRIGGER print_stays BEFORE DELETE ON print
BEGIN SELECT RAISE (ABORT, 'never-deleted'); END;
CREATE TRIGGER history_stays BEFORE DELETE ON history
BEGIN SELECT RAISE (ABORT, 'never-deleted'); END;
CREATE TRIGGER history_stands BEFORE UPDATE ON history
BEGIN SELECT RAISE (ABORT, 'history-stands'); END;

-- One edition across all formats of a work, or one for each: never both.
CREATE TRIGGER edition_counts_once BEFORE INSERT ON edition
WHEN EXISTS (SELECT 1 FROM edition AS other WHERE other.work = NEW.work
    AND (other.format IS NULL) <> (NEW.format IS NULL))
BEGIN SELECT RAISE (ABORT, 'counted-twice'); END;

-- What was promised to the first buyer is promised to all.
CREATE TRIGGER edition_fixed BEFORE UPDATE ON edition
WHEN (OLD.size, OLD.proof_share, OLD.artist, OLD.printer, OLD.hors_commerce, OLD.trial,
        OLD.work, OLD.format)
    IS NOT (NEW.size, NEW.proof_share, NEW.artist, NEW.printer, NEW.hors_commerce, NEW.trial,
        NEW.work, NEW.format)
    AND EXISTS (SELECT 1 FROM print WHERE print.edition = OLD.id AND print.live = 1)
BEGIN SELECT RAISE (ABORT, 'edition-fixed'); END;

CREATE TRIGGER print_within BEFORE INSERT ON print
WHEN NEW.number > (SELECT CASE NEW.kind
        WHEN 'numbered' THEN size
        WHEN 'ap' THEN artist
        WHEN 'pp' THEN printer
        WHEN 'hc' THEN hors_commerce
        WHEN 'bat' THEN 1
        WHEN 'tp' THEN trial END
    FROM edition WHERE edition.id = NEW.edition)
BEGIN SELECT RAISE (ABORT, 'beyond-edition'); END;

CREATE TRIGGER print_format_new BEFORE INSERT ON print
WHEN NEW.format IS NOT NULL AND NOT EXISTS (
    SELECT 1 FROM edition JOIN format ON format.work = edition.work
    WHERE edition.id = NEW.edition AND format.id = NEW.format
        AND (edition.format IS NULL OR edition.format = NEW.format))
BEGIN SELECT RAISE (ABORT, 'other-format'); END;
CREATE TRIGGER print_format_changed BEFORE UPDATE OF format ON print
WHEN NEW.format IS NOT NULL AND NOT EXISTS (
    SELECT 1 FROM edition JOIN format ON format.work = edition.work
    WHERE edition.id = NEW.edition AND format.id = NEW.format
        AND (edition.format IS NULL OR edition.format = NEW.format))
BEGIN SELECT RAISE (ABORT, 'other-format'); END;

-- A print keeps its number; one that gave it up is left as it is.
CREATE TRIGGER print_number_fixed BEFORE UPDATE ON print
WHEN (OLD.id, OLD.edition, OLD.kind, OLD.number, OLD.replaces)
    IS NOT (NEW.id, NEW.edition, NEW.kind, NEW.number, NEW.replaces)
BEGIN SELECT RAISE (ABORT, 'number-fixed'); END;
CREATE TRIGGER print_gone BEFORE UPDATE ON print WHEN OLD.live = 0
BEGIN SELECT RAISE (ABORT, 'print-gone'); END;

-- The history writes itself, except while a whole record is brought in with its own.
CREATE TRIGGER work_added AFTER INSERT ON work
WHEN NOT EXISTS (SELECT 1 FROM setting WHERE key = 'rebuilding')
BEGIN
    INSERT INTO history (at, subject, subject_id, what, why, payload)
    VALUES (NEW.at, 'work', NEW.id, 'added', NEW.why, json_patch('{}', json_object(
        'catalogue', NEW.catalogue, 'title', NEW.title, 'maker', NEW.maker,
        'taken', NEW.taken, 'printed', NEW.printed, 'medium', nullif(NEW.medium, ''),
        'paper', nullif(NEW.paper, ''), 'picture', nullif(NEW.picture, ''),
        'sha256', nullif(NEW.sha256, ''), 'notes', nullif(NEW.notes, ''))));
END;
CREATE TRIGGER work_changed AFTER UPDATE ON work
BEGIN
    INSERT INTO history (at, subject, subject_id, what, why, payload)
    VALUES (NEW.at, 'work', NEW.id, 'changed', NEW.why, json_patch('{}', json_object(
        'catalogue', NEW.catalogue, 'title', NEW.title, 'maker', NEW.maker,
        'taken', NEW.taken, 'printed', NEW.printed, 'medium', nullif(NEW.medium, ''),
        'paper', nullif(NEW.paper, ''), 'picture', nullif(NEW.picture, ''),
        'sha256', nullif(NEW.sha256, ''), 'notes', nullif(NEW.notes, ''))));
END;
CREATE TRIGGER format_added AFTER INSERT ON format
WHEN NOT EXISTS (SELECT 1 FROM setting WHERE key = 'rebuilding')
BEGIN
    INSERT INTO history (at, subject, subject_id, what, why, payload)
    VALUES (NEW.at, 'format', NEW.id, 'added', NEW.why, json_object(
        'work', NEW.work, 'name', NEW.name, 'image_w', NEW.image_w, 'image_h', NEW.image_h,
        'sheet_w', NEW.sheet_w, 'sheet_h', NEW.sheet_h));
END;
CREATE TRIGGER format_changed AFTER UPDATE ON format
BEGIN
    INSERT INTO history (at, subject, subject_id, what, why, payload)
    VALUES (NEW.at, 'format', NEW.id, 'changed', NEW.why, json_object(
        'work', NEW.work, 'name', NEW.name, 'image_w', NEW.image_w, 'image_h', NEW.image_h,
        'sheet_w', NEW.sheet_w, 'sheet_h', NEW.sheet_h));
END;
CREATE TRIGGER edition_added AFTER INSERT ON edition
WHEN NOT EXISTS (SELECT 1 FROM setting WHERE key = 'rebuilding')
BEGIN
    INSERT INTO history (at, subject, subject_id, what, why, payload)
    VALUES (NEW.at, 'edition', NEW.id, 'added', NEW.why, json_patch('{}', json_object(
        'work', NEW.work, 'format', NEW.format, 'name', nullif(NEW.name, ''),
        'size', NEW.size, 'proof_share', NEW.proof_share, 'artist', NEW.artist,
        'printer', NEW.printer, 'hors_commerce', NEW.hors_commerce, 'trial', NEW.trial,
        'roman', NEW.roman)));
END;
CREATE TRIGGER edition_changed AFTER UPDATE ON edition
BEGIN
    INSERT INTO history (at, subject, subject_id, what, why, payload)
    VALUES (NEW.at, 'edition', NEW.id, 'changed', NEW.why, json_patch('{}', json_object(
        'work', NEW.work, 'format', NEW.format, 'name', nullif(NEW.name, ''),
        'size', NEW.size, 'proof_share', NEW.proof_share, 'artist', NEW.artist,
        'printer', NEW.printer, 'hors_commerce', NEW.hors_commerce, 'trial', NEW.trial,
        'roman', NEW.roman)));
END;
CREATE TRIGGER print_added AFTER INSERT ON print
WHEN NOT EXISTS (SELECT 1 FROM setting WHERE key = 'rebuilding')
BEGIN
    INSERT INTO history (at, subject, subject_id, what, why, payload)
    VALUES (NEW.at, 'print', NEW.id, 'added', NEW.why, json_patch('{}', json_object(
        'kind', NEW.kind, 'number', NEW.number, 'live', NEW.live, 'replaces', NEW.replaces,
        'format', NEW.format, 'state', NEW.state, 'place', nullif(NEW.place, ''),
        'printed', nullif(NEW.printed, ''), 'matted', nullif(NEW.matted, ''),
        'plan', nullif(NEW.plan, ''), 'plan_file', nullif(NEW.plan_file, ''),
        'cents', NEW.cents, 'currency', nullif(NEW.currency, ''),
        'buyer', nullif(NEW.buyer, ''))));
END;
CREATE TRIGGER print_changed AFTER UPDATE ON print
BEGIN
    INSERT INTO history (at, subject, subject_id, what, why, payload)
    VALUES (NEW.at, 'print', NEW.id, 'changed', NEW.why, json_patch('{}', json_object(
        'kind', NEW.kind, 'number', NEW.number, 'live', NEW.live, 'replaces', NEW.replaces,
        'format', NEW.format, 'state', NEW.state, 'place', nullif(NEW.place, ''),
        'printed', nullif(NEW.printed, ''), 'matted', nullif(NEW.matted, ''),
        'plan', nullif(NEW.plan, ''), 'plan_file', nullif(NEW.plan_file, ''),
        'cents', NEW.cents, 'currency', nullif(NEW.currency, ''),
        'buyer', nullif(NEW.buyer, ''))));
END;

-- What prints cost from a number on, and shows found quickly.

CREATE TABLE tier (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    edition INTEGER NOT NULL REFERENCES edition (id),
    first INTEGER NOT NULL CHECK (first >= 1),
    cents INTEGER NOT NULL CHECK (cents >= 0),
    currency TEXT NOT NULL CHECK (currency <> ''),
    at TEXT NOT NULL CHECK (at <> ''),
    why TEXT NOT NULL,
    UNIQUE (edition, first)
) STRICT;

CREATE TRIGGER tier_stays BEFORE DELETE ON tier
BEGIN SELECT RAISE (ABORT, 'never-deleted'); END;
CREATE TRIGGER tier_within BEFORE INSERT ON tier
WHEN NEW.first > (SELECT size FROM edition WHERE edition.id = NEW.edition)
BEGIN SELECT RAISE (ABORT, 'beyond-edition'); END;
CREATE TRIGGER tier_added AFTER INSERT ON tier
WHEN NOT EXISTS (SELECT 1 FROM setting WHERE key = 'rebuilding')
BEGIN
    INSERT INTO history (at, subject, subject_id, what, why, payload)
    VALUES (NEW.at, 'tier', NEW.edition, 'added', NEW.why, json_object(
        'first', NEW.first, 'cents', NEW.cents, 'currency', NEW.currency));
END;
CREATE TRIGGER tier_changed AFTER UPDATE ON tier
BEGIN
    INSERT INTO history (at, subject, subject_id, what, why, payload)
    VALUES (NEW.at, 'tier', NEW.edition, 'changed', NEW.why, json_object(
        'first', NEW.first, 'cents', NEW.cents, 'currency', NEW.currency));
END;

CREATE INDEX print_place ON print (place) WHERE live = 1 AND state = 'show';
