-- A size of paper or picture that was put right leaves its entry, too.

CREATE TRIGGER format_changed AFTER UPDATE ON format
BEGIN
    INSERT INTO history (at, subject, subject_id, what, why, told)
    VALUES (NEW.at, 'format', NEW.id, 'changed', NEW.why, json_object(
        'work', NEW.work, 'name', NEW.name, 'image_w', NEW.image_w, 'image_h', NEW.image_h,
        'sheet_w', NEW.sheet_w, 'sheet_h', NEW.sheet_h));
END;
