-- What a certificate tells of a work, and works that are withdrawn. Nothing that was there before
-- means anything else: the new texts are empty, and no work is withdrawn.

ALTER TABLE work ADD COLUMN process TEXT NOT NULL DEFAULT '';
ALTER TABLE work ADD COLUMN master TEXT NOT NULL DEFAULT '';
ALTER TABLE work ADD COLUMN authorised TEXT NOT NULL DEFAULT '';
ALTER TABLE work ADD COLUMN signed TEXT NOT NULL DEFAULT '';
ALTER TABLE work ADD COLUMN others TEXT NOT NULL DEFAULT '';
ALTER TABLE work ADD COLUMN withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1));

DROP TRIGGER work_added;
DROP TRIGGER work_changed;
CREATE TRIGGER work_added AFTER INSERT ON work
WHEN NOT EXISTS (SELECT 1 FROM setting WHERE key = 'rebuilding')
BEGIN
    INSERT INTO history (at, subject, subject_id, what, why, payload)
    VALUES (NEW.at, 'work', NEW.id, 'added', NEW.why, json_patch('{}', json_object(
        'catalogue', NEW.catalogue, 'title', NEW.title, 'maker', NEW.maker,
        'taken', NEW.taken, 'printed', NEW.printed, 'medium', nullif(NEW.medium, ''),
        'process', nullif(NEW.process, ''), 'paper', nullif(NEW.paper, ''),
        'signed', nullif(NEW.signed, ''), 'authorised', nullif(NEW.authorised, ''),
        'master', nullif(NEW.master, ''), 'others', nullif(NEW.others, ''),
        'picture', nullif(NEW.picture, ''), 'sha256', nullif(NEW.sha256, ''),
        'notes', nullif(NEW.notes, ''), 'withdrawn', nullif(NEW.withdrawn, 0))));
END;
CREATE TRIGGER work_changed AFTER UPDATE ON work
BEGIN
    INSERT INTO history (at, subject, subject_id, what, why, payload)
    VALUES (NEW.at, 'work', NEW.id, 'changed', NEW.why, json_patch('{}', json_object(
        'catalogue', NEW.catalogue, 'title', NEW.title, 'maker', NEW.maker,
        'taken', NEW.taken, 'printed', NEW.printed, 'medium', nullif(NEW.medium, ''),
        'process', nullif(NEW.process, ''), 'paper', nullif(NEW.paper, ''),
        'signed', nullif(NEW.signed, ''), 'authorised', nullif(NEW.authorised, ''),
        'master', nullif(NEW.master, ''), 'others', nullif(NEW.others, ''),
        'picture', nullif(NEW.picture, ''), 'sha256', nullif(NEW.sha256, ''),
        'notes', nullif(NEW.notes, ''), 'withdrawn', nullif(NEW.withdrawn, 0))));
END;

-- A work of which anybody may have a print stays on the list, and a withdrawn one gets no prints.
CREATE TRIGGER work_withdrawn BEFORE UPDATE OF withdrawn ON work
WHEN NEW.withdrawn = 1 AND EXISTS (SELECT 1 FROM print JOIN edition ON edition.id = print.edition
    WHERE edition.work = NEW.id AND print.live = 1)
BEGIN SELECT RAISE (ABORT, 'prints-issued'); END;
CREATE TRIGGER print_of_withdrawn BEFORE INSERT ON print
WHEN NEW.live = 1 AND EXISTS (SELECT 1 FROM work JOIN edition ON edition.work = work.id
    WHERE edition.id = NEW.edition AND work.withdrawn = 1)
BEGIN SELECT RAISE (ABORT, 'work-withdrawn'); END;
