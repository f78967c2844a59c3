-- Schema 1. Run whole, inside one transaction, by core/store/migrator.cpp, which also sets user_version.
--
-- `row` columns are local to this file and never leave it. What two books could both hold is known by a
-- random 128-bit `id` (16 bytes). Each group of fields that can change keeps the book that wrote it last
-- (`*_author`, a book id) and a version that grows with each write (`*_version`): merging compares these.
-- Deleting is a mark (`binned`, `dropped_ms`). Times are UTC milliseconds with the offset at entry in minutes.

PRAGMA application_id = 0x53746C72; -- "Stlr"

CREATE TABLE book (
    one INTEGER PRIMARY KEY CHECK (one = 1),
    id BLOB NOT NULL CHECK (length(id) = 16),
    -- The oldest schema version whose programs can still read this file, without writing to it.
    readable_from INTEGER NOT NULL CHECK (readable_from >= 1),
    created_ms INTEGER NOT NULL,
    created_offset INTEGER NOT NULL
) STRICT;

CREATE TABLE setting (
    name TEXT PRIMARY KEY,
    value TEXT NOT NULL,
    author BLOB NOT NULL CHECK (length(author) = 16),
    version INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

-- Immutable contents, stored once and known by the SHA-256 of their canonical JSON.
CREATE TABLE fact_state (
    row INTEGER PRIMARY KEY,
    hash BLOB NOT NULL UNIQUE CHECK (length(hash) = 32),
    json TEXT NOT NULL
) STRICT;

CREATE TABLE measure_state (
    row INTEGER PRIMARY KEY,
    hash BLOB NOT NULL UNIQUE CHECK (length(hash) = 32),
    json TEXT NOT NULL
) STRICT;

CREATE TABLE drink (
    row INTEGER PRIMARY KEY,
    id BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
    form TEXT NOT NULL CHECK (form IN ('drink', 'preparation')),
    created_ms INTEGER NOT NULL,
    created_offset INTEGER NOT NULL,
    name TEXT NOT NULL,
    name_author BLOB NOT NULL CHECK (length(name_author) = 16),
    name_version INTEGER NOT NULL,
    brief TEXT NOT NULL,
    notes TEXT NOT NULL,
    credit TEXT NOT NULL,
    words_author BLOB NOT NULL CHECK (length(words_author) = 16),
    words_version INTEGER NOT NULL,
    menu_name TEXT NOT NULL,
    menu_author BLOB NOT NULL CHECK (length(menu_author) = 16),
    menu_version INTEGER NOT NULL,
    house BLOB REFERENCES revision (id),
    house_author BLOB NOT NULL CHECK (length(house_author) = 16),
    house_version INTEGER NOT NULL,
    binned INTEGER NOT NULL DEFAULT 0 CHECK (binned IN (0, 1)),
    binned_author BLOB NOT NULL CHECK (length(binned_author) = 16),
    binned_version INTEGER NOT NULL
) STRICT;

CREATE TABLE draft (
    row INTEGER PRIMARY KEY,
    id BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
    drink BLOB NOT NULL REFERENCES drink (id),
    based_on BLOB REFERENCES revision (id),
    saved_ms INTEGER NOT NULL,
    saved_offset INTEGER NOT NULL,
    author BLOB NOT NULL CHECK (length(author) = 16),
    version INTEGER NOT NULL,
    binned INTEGER NOT NULL DEFAULT 0 CHECK (binned IN (0, 1)),
    spec_hash BLOB NOT NULL CHECK (length(spec_hash) = 32),
    spec TEXT NOT NULL
) STRICT;
CREATE INDEX draft_of_drink ON draft (drink);

-- A fixed point. Small columns stand before the long texts, so that lists never touch overflow pages.
CREATE TABLE revision (
    row INTEGER PRIMARY KEY,
    id BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
    drink BLOB NOT NULL REFERENCES drink (id),
    parent BLOB REFERENCES revision (id),
    number INTEGER NOT NULL, -- a label, never a key
    kept_ms INTEGER NOT NULL,
    kept_offset INTEGER NOT NULL,
    calc_version INTEGER NOT NULL,
    author BLOB NOT NULL CHECK (length(author) = 16),
    currency TEXT NOT NULL, -- of the cost readings
    measures INTEGER NOT NULL REFERENCES measure_state (row),
    -- The served strength among the readings, for lists.
    strength_bound TEXT NOT NULL,
    strength_value REAL NOT NULL,
    strength_upper REAL NOT NULL,
    strength_estimate INTEGER NOT NULL CHECK (strength_estimate IN (0, 1)),
    strength_gap_lines INTEGER NOT NULL,
    spec_hash BLOB NOT NULL CHECK (length(spec_hash) = 32),
    content_hash BLOB NOT NULL CHECK (length(content_hash) = 32),
    reason TEXT NOT NULL,
    spec TEXT NOT NULL,
    readings TEXT NOT NULL
) STRICT;
CREATE INDEX revision_of_drink ON revision (drink, number);
CREATE INDEX revision_child ON revision (parent) WHERE parent IS NOT NULL;

-- What each line's ingredient stood for when the revision was kept.
CREATE TABLE revision_fact (
    revision INTEGER NOT NULL REFERENCES revision (row),
    ingredient BLOB NOT NULL CHECK (length(ingredient) = 16), -- as the line names it
    state INTEGER NOT NULL REFERENCES fact_state (row),
    pours BLOB CHECK (pours IS NULL OR length(pours) = 16), -- the bottle poured for a kind
    preparation BLOB REFERENCES revision (id),              -- which revision of a house-made one
    PRIMARY KEY (revision, ingredient)
) STRICT, WITHOUT ROWID;
CREATE INDEX revision_fact_state ON revision_fact (state);
CREATE INDEX revision_fact_preparation ON revision_fact (preparation) WHERE preparation IS NOT NULL;

-- The book's own kinds, bottles and preparations. `kind`, `house_bottle` and a line's ingredient may also
-- be a handbook kind, which has no row here.
CREATE TABLE ingredient (
    row INTEGER PRIMARY KEY,
    id BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
    sort TEXT NOT NULL CHECK (sort IN ('kind', 'bottle', 'preparation')),
    handbook_id TEXT NOT NULL,
    name TEXT NOT NULL,
    aliases TEXT NOT NULL, -- JSON array
    kind BLOB CHECK (kind IS NULL OR length(kind) = 16),
    made_by BLOB REFERENCES drink (id),
    name_author BLOB NOT NULL CHECK (length(name_author) = 16),
    name_version INTEGER NOT NULL,
    house_bottle BLOB CHECK (house_bottle IS NULL OR length(house_bottle) = 16),
    house_bottle_author BLOB NOT NULL CHECK (length(house_bottle_author) = 16),
    house_bottle_version INTEGER NOT NULL,
    facts INTEGER NOT NULL REFERENCES fact_state (row),
    facts_author BLOB NOT NULL CHECK (length(facts_author) = 16),
    facts_version INTEGER NOT NULL,
    binned INTEGER NOT NULL DEFAULT 0 CHECK (binned IN (0, 1)),
    binned_author BLOB NOT NULL CHECK (length(binned_author) = 16),
    binned_version INTEGER NOT NULL
) STRICT;
CREATE INDEX ingredient_facts ON ingredient (facts);
CREATE INDEX ingredient_made_by ON ingredient (made_by) WHERE made_by IS NOT NULL;

-- Prices paid. A changed price is a new pack; the old one is marked, so that then-prices can be read.
CREATE TABLE pack (
    row INTEGER PRIMARY KEY,
    id BLOB NOT NULL CHECK (length(id) = 16),
    ingredient BLOB NOT NULL REFERENCES ingredient (id),
    place INTEGER NOT NULL, -- order within the ingredient: newest price last
    minor INTEGER NOT NULL,
    currency TEXT NOT NULL,
    for_ml REAL,
    for_g REAL,
    for_pieces REAL,
    priced_on TEXT NOT NULL,
    author BLOB NOT NULL CHECK (length(author) = 16),
    added_ms INTEGER NOT NULL,
    dropped_ms INTEGER
) STRICT;
CREATE INDEX pack_of_ingredient ON pack (ingredient, place);
CREATE UNIQUE INDEX pack_in_use ON pack (id) WHERE dropped_ms IS NULL;

CREATE TABLE remembered_name (
    folded TEXT PRIMARY KEY,
    ingredient BLOB NOT NULL CHECK (length(ingredient) = 16),
    author BLOB NOT NULL CHECK (length(author) = 16),
    version INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE person (
    row INTEGER PRIMARY KEY,
    id BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
    name TEXT NOT NULL, -- empty once removed
    initials TEXT NOT NULL,
    author BLOB NOT NULL CHECK (length(author) = 16),
    version INTEGER NOT NULL
) STRICT;

CREATE TABLE tasting (
    row INTEGER PRIMARY KEY,
    id BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
    revision BLOB NOT NULL REFERENCES revision (id),
    taster BLOB NOT NULL REFERENCES person (id),
    when_ms INTEGER NOT NULL,
    when_offset INTEGER NOT NULL,
    author BLOB NOT NULL CHECK (length(author) = 16),
    amends BLOB REFERENCES tasting (id),
    content_hash BLOB NOT NULL CHECK (length(content_hash) = 32),
    verdict TEXT NOT NULL,
    scores TEXT NOT NULL, -- JSON object: scale id -> 0…15, only the scales that were scored
    note TEXT NOT NULL,
    try_next TEXT NOT NULL
) STRICT;
CREATE INDEX tasting_of_revision ON tasting (revision);
CREATE INDEX tasting_of_person ON tasting (taster);
CREATE INDEX tasting_amends ON tasting (amends) WHERE amends IS NOT NULL;

-- Append-only. The insert triggers are there because INSERT OR REPLACE deletes without firing a delete
-- trigger.
CREATE TRIGGER revision_no_update BEFORE UPDATE ON revision
BEGIN SELECT RAISE (ABORT, 'a revision never changes'); END;
CREATE TRIGGER revision_no_delete BEFORE DELETE ON revision
BEGIN SELECT RAISE (ABORT, 'a revision never disappears'); END;
CREATE TRIGGER revision_no_replace BEFORE INSERT ON revision
WHEN EXISTS (SELECT 1 FROM revision WHERE id = NEW.id OR row = NEW.row)
BEGIN SELECT RAISE (ABORT, 'a revision is never replaced'); END;

CREATE TRIGGER revision_fact_no_update BEFORE UPDATE ON revision_fact
BEGIN SELECT RAISE (ABORT, 'a revision''s facts never change'); END;
CREATE TRIGGER revision_fact_no_delete BEFORE DELETE ON revision_fact
BEGIN SELECT RAISE (ABORT, 'a revision''s facts never disappear'); END;
CREATE TRIGGER revision_fact_no_replace BEFORE INSERT ON revision_fact
WHEN EXISTS (SELECT 1 FROM revision_fact WHERE revision = NEW.revision AND ingredient = NEW.ingredient)
BEGIN SELECT RAISE (ABORT, 'a revision''s facts are never replaced'); END;

CREATE TRIGGER fact_state_no_update BEFORE UPDATE ON fact_state
BEGIN SELECT RAISE (ABORT, 'a fact state never changes'); END;
CREATE TRIGGER fact_state_no_delete BEFORE DELETE ON fact_state
BEGIN SELECT RAISE (ABORT, 'a fact state never disappears'); END;
CREATE TRIGGER fact_state_no_replace BEFORE INSERT ON fact_state
WHEN EXISTS (SELECT 1 FROM fact_state WHERE hash = NEW.hash OR row = NEW.row)
BEGIN SELECT RAISE (ABORT, 'a fact state is never replaced'); END;

CREATE TRIGGER measure_state_no_update BEFORE UPDATE ON measure_state
BEGIN SELECT RAISE (ABORT, 'recorded house measures never change'); END;
CREATE TRIGGER measure_state_no_delete BEFORE DELETE ON measure_state
BEGIN SELECT RAISE (ABORT, 'recorded house measures never disappear'); END;
CREATE TRIGGER measure_state_no_replace BEFORE INSERT ON measure_state
WHEN EXISTS (SELECT 1 FROM measure_state WHERE hash = NEW.hash OR row = NEW.row)
BEGIN SELECT RAISE (ABORT, 'recorded house measures are never replaced'); END;

CREATE TRIGGER tasting_no_update BEFORE UPDATE ON tasting
BEGIN SELECT RAISE (ABORT, 'a tasting never changes; another amends it'); END;
CREATE TRIGGER tasting_no_delete BEFORE DELETE ON tasting
BEGIN SELECT RAISE (ABORT, 'a tasting never disappears'); END;
CREATE TRIGGER tasting_no_replace BEFORE INSERT ON tasting
WHEN EXISTS (SELECT 1 FROM tasting WHERE id = NEW.id OR row = NEW.row)
BEGIN SELECT RAISE (ABORT, 'a tasting is never replaced'); END;
