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
    INSERT INTO history (at, subject, subject_id, what, why, told)
    VALUES (NEW.at, 'tier', NEW.edition, 'added', NEW.why, json_object(
        'first', NEW.first, 'cents', NEW.cents, 'currency', NEW.currency));
END;
CREATE TRIGGER tier_changed AFTER UPDATE ON tier
BEGIN
    INSERT INTO history (at, subject, subject_id, what, why, told)
    VALUES (NEW.at, 'tier', NEW.edition, 'changed', NEW.why, json_object(
        'first', NEW.first, 'cents', NEW.cents, 'currency', NEW.currency));
END;

CREATE INDEX print_place ON print (place) WHERE live = 1 AND state = 'show';
