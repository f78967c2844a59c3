-- Schema 3: named tries, what is set aside and what readers have, where a drink comes from, tastings on the
-- user's own scales, photos, blind panels, saved searches, and what search reads. Groups of fields that nobody
-- has written yet have version 0 and no author.

ALTER TABLE drink ADD COLUMN published BLOB REFERENCES revision (id); -- the revision readers have
ALTER TABLE drink ADD COLUMN published_author BLOB
    CHECK (published_author IS NULL OR length(published_author) = 16);
ALTER TABLE drink ADD COLUMN published_version INTEGER NOT NULL DEFAULT 0;

-- "After" another drink of the book, an outside source, or both. `credit` stays beside it, free text.
ALTER TABLE drink ADD COLUMN after_drink BLOB REFERENCES drink (id);
ALTER TABLE drink ADD COLUMN after_revision BLOB REFERENCES revision (id);
ALTER TABLE drink ADD COLUMN after_person TEXT NOT NULL DEFAULT '';
ALTER TABLE drink ADD COLUMN after_place TEXT NOT NULL DEFAULT '';
ALTER TABLE drink ADD COLUMN after_year TEXT NOT NULL DEFAULT '';
ALTER TABLE drink ADD COLUMN after_work TEXT NOT NULL DEFAULT '';
ALTER TABLE drink ADD COLUMN after_author BLOB CHECK (after_author IS NULL OR length(after_author) = 16);
ALTER TABLE drink ADD COLUMN after_version INTEGER NOT NULL DEFAULT 0;
CREATE INDEX drink_after ON drink (after_drink) WHERE after_drink IS NOT NULL;

ALTER TABLE drink ADD COLUMN tags TEXT NOT NULL DEFAULT '[]'; -- JSON array
ALTER TABLE drink ADD COLUMN tags_author BLOB CHECK (tags_author IS NULL OR length(tags_author) = 16);
ALTER TABLE drink ADD COLUMN tags_version INTEGER NOT NULL DEFAULT 0;

ALTER TABLE draft ADD COLUMN name TEXT NOT NULL DEFAULT '';
ALTER TABLE draft ADD COLUMN name_author BLOB CHECK (name_author IS NULL OR length(name_author) = 16);
ALTER TABLE draft ADD COLUMN name_version INTEGER NOT NULL DEFAULT 0;
ALTER TABLE draft ADD COLUMN set_aside INTEGER NOT NULL DEFAULT 0 CHECK (set_aside IN (0, 1));
ALTER TABLE draft ADD COLUMN set_aside_author BLOB
    CHECK (set_aside_author IS NULL OR length(set_aside_author) = 16);
ALTER TABLE draft ADD COLUMN set_aside_version INTEGER NOT NULL DEFAULT 0;
ALTER TABLE draft ADD COLUMN binned_author BLOB CHECK (binned_author IS NULL OR length(binned_author) = 16);
ALTER TABLE draft ADD COLUMN binned_version INTEGER NOT NULL DEFAULT 0;

-- What is said of a revision afterwards: a revision itself never changes.
CREATE TABLE revision_mark (
    revision BLOB PRIMARY KEY REFERENCES revision (id),
    set_aside INTEGER NOT NULL CHECK (set_aside IN (0, 1)),
    why TEXT NOT NULL,
    marked_ms INTEGER NOT NULL,
    marked_offset INTEGER NOT NULL,
    author BLOB NOT NULL CHECK (length(author) = 16),
    version INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

-- Where an ingredient is used is asked by row: small entries beside each other instead of whole revisions.
CREATE INDEX revision_place ON revision (row, drink, id);

-- Left out of a tasting's content while it is '{}', so that older tastings keep their hash.
ALTER TABLE tasting ADD COLUMN circumstances TEXT NOT NULL DEFAULT '{}';

-- Known by the SHA-256 of their bytes, stored once. 16 MiB: core/tasting/photo.h.
CREATE TABLE photo (
    row INTEGER PRIMARY KEY,
    hash BLOB NOT NULL UNIQUE CHECK (length(hash) = 32),
    mime TEXT NOT NULL CHECK (mime IN ('image/jpeg', 'image/png')),
    width INTEGER NOT NULL CHECK (width > 0),
    height INTEGER NOT NULL CHECK (height > 0),
    size INTEGER NOT NULL CHECK (size > 0 AND size <= 16777216),
    added_ms INTEGER NOT NULL,
    added_offset INTEGER NOT NULL,
    author BLOB NOT NULL CHECK (length(author) = 16),
    bytes BLOB NOT NULL CHECK (length(bytes) = size)
) STRICT;

-- What a photo shows. Only `hidden` may change: a photo on the wrong revision is taken off by it.
CREATE TABLE photo_link (
    row INTEGER PRIMARY KEY,
    id BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
    photo BLOB NOT NULL REFERENCES photo (hash),
    revision BLOB REFERENCES revision (id),
    tasting BLOB REFERENCES tasting (id),
    caption TEXT NOT NULL,
    linked_ms INTEGER NOT NULL,
    linked_offset INTEGER NOT NULL,
    author BLOB NOT NULL CHECK (length(author) = 16),
    hidden INTEGER NOT NULL DEFAULT 0 CHECK (hidden IN (0, 1)),
    hidden_author BLOB CHECK (hidden_author IS NULL OR length(hidden_author) = 16),
    hidden_version INTEGER NOT NULL DEFAULT 0,
    CHECK ((revision IS NULL) <> (tasting IS NULL))
) STRICT;
CREATE INDEX photo_link_photo ON photo_link (photo);
CREATE INDEX photo_link_revision ON photo_link (revision) WHERE revision IS NOT NULL;
CREATE INDEX photo_link_tasting ON photo_link (tasting) WHERE tasting IS NOT NULL;

-- A blind session as it was dealt: `plan` is its canonical JSON, the secret included, without answers. What
-- happened to it stands in the two tables after it.
CREATE TABLE panel (
    row INTEGER PRIMARY KEY,
    id BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
    created_ms INTEGER NOT NULL,
    created_offset INTEGER NOT NULL,
    author BLOB NOT NULL CHECK (length(author) = 16),
    plan_hash BLOB NOT NULL CHECK (length(plan_hash) = 32),
    plan TEXT NOT NULL,
    name TEXT NOT NULL,
    name_author BLOB NOT NULL CHECK (length(name_author) = 16),
    name_version INTEGER NOT NULL,
    binned INTEGER NOT NULL DEFAULT 0 CHECK (binned IN (0, 1)),
    binned_author BLOB CHECK (binned_author IS NULL OR length(binned_author) = 16),
    binned_version INTEGER NOT NULL DEFAULT 0
) STRICT;

CREATE TABLE panel_product (
    panel BLOB NOT NULL REFERENCES panel (id),
    revision BLOB NOT NULL REFERENCES revision (id),
    PRIMARY KEY (panel, revision)
) STRICT, WITHOUT ROWID;
CREATE INDEX panel_product_revision ON panel_product (revision);

CREATE TABLE panel_step (
    panel BLOB NOT NULL REFERENCES panel (id),
    state TEXT NOT NULL CHECK (state IN ('pouring', 'closed')),
    step_ms INTEGER NOT NULL,
    step_offset INTEGER NOT NULL,
    author BLOB NOT NULL CHECK (length(author) = 16),
    PRIMARY KEY (panel, state)
) STRICT, WITHOUT ROWID;

-- A taster's last row counts; an empty answer takes back what was said before.
CREATE TABLE panel_answer (
    row INTEGER PRIMARY KEY,
    id BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
    panel BLOB NOT NULL REFERENCES panel (id),
    taster BLOB NOT NULL REFERENCES person (id),
    given_ms INTEGER NOT NULL,
    given_offset INTEGER NOT NULL,
    author BLOB NOT NULL CHECK (length(author) = 16),
    content_hash BLOB NOT NULL CHECK (length(content_hash) = 32),
    answer TEXT NOT NULL
) STRICT;
CREATE INDEX panel_answer_panel ON panel_answer (panel);
CREATE INDEX panel_answer_taster ON panel_answer (taster);

CREATE TABLE saved_search (
    row INTEGER PRIMARY KEY,
    id BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
    name TEXT NOT NULL,
    request TEXT NOT NULL, -- canonical JSON: words and filters
    binned INTEGER NOT NULL DEFAULT 0 CHECK (binned IN (0, 1)),
    author BLOB NOT NULL CHECK (length(author) = 16),
    version INTEGER NOT NULL
) STRICT;

-- What emptying the bin took out of the file, so that a merge does not bring it back.
CREATE TABLE removed (
    id BLOB PRIMARY KEY CHECK (length(id) = 16),
    sort TEXT NOT NULL CHECK (sort IN ('drink', 'draft', 'panel', 'ingredient', 'search')),
    removed_ms INTEGER NOT NULL,
    removed_offset INTEGER NOT NULL,
    author BLOB NOT NULL CHECK (length(author) = 16)
) STRICT, WITHOUT ROWID;

-- Search. All of it is derived: one row for each drink, with the words of its present text, its reasons and
-- its tasters' notes as they were written; `search_index` has the same, folded. Several texts in one column
-- are lines, and the ids of what they were said of stand beside them in the same order.
CREATE TABLE search_text (
    drink INTEGER PRIMARY KEY REFERENCES drink (row),
    name_key BLOB NOT NULL, -- sorts as people sort names
    changed_ms INTEGER NOT NULL,
    name TEXT NOT NULL,
    tags TEXT NOT NULL,
    lines TEXT NOT NULL,
    brief TEXT NOT NULL,
    notes TEXT NOT NULL,
    reasons TEXT NOT NULL,
    reasons_of BLOB NOT NULL,
    tasted TEXT NOT NULL,
    tasted_of BLOB NOT NULL
) STRICT;
CREATE VIRTUAL TABLE search_index USING fts5 (name, tags, lines, brief, notes, reasons, tasted, content='',
    detail='column', columnsize=0, prefix='1 2 3', tokenize='unicode61 remove_diacritics 0');
CREATE VIRTUAL TABLE search_word USING fts5vocab (search_index, 'row');

-- Drinks whose text has changed since it was last read; search reads them first.
CREATE TABLE search_due (
    drink INTEGER PRIMARY KEY
) STRICT;
INSERT INTO search_due SELECT row FROM drink;

-- WHERE NOT EXISTS and not OR IGNORE: the statement that fires a trigger may bring another rule for conflicts.
CREATE TRIGGER search_drink_added AFTER INSERT ON drink
BEGIN INSERT INTO search_due SELECT NEW.row
    WHERE NOT EXISTS (SELECT 1 FROM search_due WHERE drink = NEW.row); END;
CREATE TRIGGER search_drink_changed
AFTER UPDATE OF name, brief, notes, credit, tags, menu_name, house, published, binned, after_drink, after_person,
    after_place, after_year, after_work ON drink
BEGIN INSERT INTO search_due SELECT NEW.row
    WHERE NOT EXISTS (SELECT 1 FROM search_due WHERE drink = NEW.row); END;
CREATE TRIGGER search_draft_added AFTER INSERT ON draft
BEGIN INSERT INTO search_due SELECT row FROM drink
    WHERE id = NEW.drink AND row NOT IN (SELECT drink FROM search_due); END;
CREATE TRIGGER search_draft_changed AFTER UPDATE OF spec, name, based_on, set_aside, binned ON draft
BEGIN INSERT INTO search_due SELECT row FROM drink
    WHERE id = NEW.drink AND row NOT IN (SELECT drink FROM search_due); END;
CREATE TRIGGER search_mark_added AFTER INSERT ON revision_mark
BEGIN INSERT INTO search_due SELECT d.row FROM revision r JOIN drink d ON d.id = r.drink
    WHERE r.id = NEW.revision AND d.row NOT IN (SELECT drink FROM search_due); END;
CREATE TRIGGER search_mark_changed AFTER UPDATE ON revision_mark
BEGIN INSERT INTO search_due SELECT d.row FROM revision r JOIN drink d ON d.id = r.drink
    WHERE r.id = NEW.revision AND d.row NOT IN (SELECT drink FROM search_due); END;
CREATE TRIGGER search_revision_added AFTER INSERT ON revision
BEGIN INSERT INTO search_due SELECT row FROM drink
    WHERE id = NEW.drink AND row NOT IN (SELECT drink FROM search_due); END;
CREATE TRIGGER search_tasting_added AFTER INSERT ON tasting
BEGIN INSERT INTO search_due SELECT d.row FROM revision r JOIN drink d ON d.id = r.drink
    WHERE r.id = NEW.revision AND d.row NOT IN (SELECT drink FROM search_due); END;

CREATE TRIGGER photo_no_update BEFORE UPDATE ON photo
BEGIN SELECT RAISE (ABORT, 'a photo never changes'); END;
CREATE TRIGGER photo_no_delete BEFORE DELETE ON photo
BEGIN SELECT RAISE (ABORT, 'a photo never disappears'); END;
CREATE TRIGGER photo_no_replace BEFORE INSERT ON photo
WHEN EXISTS (SELECT 1 FROM photo WHERE hash = NEW.hash OR row = NEW.row)
BEGIN SELECT RAISE (ABORT, 'a photo is never replaced'); END;

CREATE TRIGGER photo_link_no_update BEFORE UPDATE OF row, id, photo, revision, tasting, caption, linked_ms,
    linked_offset, author ON photo_link
BEGIN SELECT RAISE (ABORT, 'what a photo shows never changes'); END;
CREATE TRIGGER photo_link_no_delete BEFORE DELETE ON photo_link
BEGIN SELECT RAISE (ABORT, 'what a photo shows never disappears'); END;
CREATE TRIGGER photo_link_no_replace BEFORE INSERT ON photo_link
WHEN EXISTS (SELECT 1 FROM photo_link WHERE id = NEW.id OR row = NEW.row)
BEGIN SELECT RAISE (ABORT, 'what a photo shows is never replaced'); END;

CREATE TRIGGER panel_no_update BEFORE UPDATE OF row, id, created_ms, created_offset, author, plan_hash, plan
    ON panel
BEGIN SELECT RAISE (ABORT, 'a panel''s plan never changes'); END;
CREATE TRIGGER panel_no_delete BEFORE DELETE ON panel
BEGIN SELECT RAISE (ABORT, 'a panel never disappears'); END;
CREATE TRIGGER panel_no_replace BEFORE INSERT ON panel
WHEN EXISTS (SELECT 1 FROM panel WHERE id = NEW.id OR row = NEW.row)
BEGIN SELECT RAISE (ABORT, 'a panel is never replaced'); END;

CREATE TRIGGER panel_product_no_update BEFORE UPDATE ON panel_product
BEGIN SELECT RAISE (ABORT, 'a panel''s products never change'); END;
CREATE TRIGGER panel_product_no_delete BEFORE DELETE ON panel_product
BEGIN SELECT RAISE (ABORT, 'a panel''s products never disappear'); END;
CREATE TRIGGER panel_product_no_replace BEFORE INSERT ON panel_product
WHEN EXISTS (SELECT 1 FROM panel_product WHERE panel = NEW.panel AND revision = NEW.revision)
BEGIN SELECT RAISE (ABORT, 'a panel''s products are never replaced'); END;

CREATE TRIGGER panel_step_no_update BEFORE UPDATE ON panel_step
BEGIN SELECT RAISE (ABORT, 'a panel''s steps never change'); END;
CREATE TRIGGER panel_step_no_delete BEFORE DELETE ON panel_step
BEGIN SELECT RAISE (ABORT, 'a panel''s steps never disappear'); END;
CREATE TRIGGER panel_step_no_replace BEFORE INSERT ON panel_step
WHEN EXISTS (SELECT 1 FROM panel_step WHERE panel = NEW.panel AND state = NEW.state)
BEGIN SELECT RAISE (ABORT, 'a panel''s steps are never replaced'); END;
CREATE TRIGGER panel_step_in_order BEFORE INSERT ON panel_step
WHEN NEW.state = 'closed'
    AND NOT EXISTS (SELECT 1 FROM panel_step WHERE panel = NEW.panel AND state = 'pouring')
BEGIN SELECT RAISE (ABORT, 'a panel is poured before it is closed'); END;

CREATE TRIGGER panel_answer_no_update BEFORE UPDATE ON panel_answer
BEGIN SELECT RAISE (ABORT, 'an answer never changes; another takes its place'); END;
CREATE TRIGGER panel_answer_no_delete BEFORE DELETE ON panel_answer
BEGIN SELECT RAISE (ABORT, 'an answer never disappears'); END;
CREATE TRIGGER panel_answer_no_replace BEFORE INSERT ON panel_answer
WHEN EXISTS (SELECT 1 FROM panel_answer WHERE id = NEW.id OR row = NEW.row)
BEGIN SELECT RAISE (ABORT, 'an answer is never replaced'); END;
CREATE TRIGGER panel_answer_while_pouring BEFORE INSERT ON panel_answer
WHEN NOT EXISTS (SELECT 1 FROM panel_step WHERE panel = NEW.panel AND state = 'pouring')
    OR EXISTS (SELECT 1 FROM panel_step WHERE panel = NEW.panel AND state = 'closed')
BEGIN SELECT RAISE (ABORT, 'a panel takes answers only while it is poured'); END;
