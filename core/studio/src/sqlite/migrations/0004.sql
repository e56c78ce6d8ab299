-- What was out before the record began was taken to be sold, though nobody said so. It is neither
-- sold nor at hand until someone says where it is. What was said of one since stays.

UPDATE print SET state = 'unknown', why = 'nobody said that it is sold'
WHERE live = 1 AND kind = 'numbered' AND state = 'sold' AND why = 'out before the record began'
    AND cents IS NULL AND buyer = '' AND place = '' AND plan = ''
    AND (SELECT count(*) FROM history WHERE subject = 'print' AND subject_id = print.id) = 1;
