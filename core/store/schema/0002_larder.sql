-- Schema 2: what a purchase is worth, what stands on the shelf, lots, exchange rates, and where each
-- ingredient is named. Groups that nobody has written yet have version 0 and no author.

ALTER TABLE ingredient ADD COLUMN maker TEXT NOT NULL DEFAULT ''; -- of the name's group

ALTER TABLE ingredient ADD COLUMN usable_share TEXT NOT NULL DEFAULT '1'; -- exact rationals as text
ALTER TABLE ingredient ADD COLUMN got_from BLOB CHECK (got_from IS NULL OR length(got_from) = 16);
ALTER TABLE ingredient ADD COLUMN got_from_unit TEXT NOT NULL DEFAULT 'piece';
ALTER TABLE ingredient ADD COLUMN got_unit TEXT NOT NULL DEFAULT 'ml';
ALTER TABLE ingredient ADD COLUMN got_per_unit TEXT NOT NULL DEFAULT '1';
ALTER TABLE ingredient ADD COLUMN got_price_share TEXT NOT NULL DEFAULT '1';
ALTER TABLE ingredient ADD COLUMN terms_author BLOB CHECK (terms_author IS NULL OR length(terms_author) = 16);
ALTER TABLE ingredient ADD COLUMN terms_version INTEGER NOT NULL DEFAULT 0;

ALTER TABLE ingredient ADD COLUMN shelf TEXT NOT NULL DEFAULT 'not_said';
ALTER TABLE ingredient ADD COLUMN shelf_amount REAL;
ALTER TABLE ingredient ADD COLUMN shelf_unit TEXT NOT NULL DEFAULT 'ml';
ALTER TABLE ingredient ADD COLUMN shelf_off INTEGER NOT NULL DEFAULT 0 CHECK (shelf_off IN (0, 1));
ALTER TABLE ingredient ADD COLUMN shelf_on TEXT NOT NULL DEFAULT '';
ALTER TABLE ingredient ADD COLUMN shelf_author BLOB CHECK (shelf_author IS NULL OR length(shelf_author) = 16);
ALTER TABLE ingredient ADD COLUMN shelf_version INTEGER NOT NULL DEFAULT 0;

ALTER TABLE ingredient ADD COLUMN keep_days INTEGER;
ALTER TABLE ingredient ADD COLUMN lot_in_use BLOB CHECK (lot_in_use IS NULL OR length(lot_in_use) = 16);
ALTER TABLE ingredient ADD COLUMN keeping_author BLOB
    CHECK (keeping_author IS NULL OR length(keeping_author) = 16);
ALTER TABLE ingredient ADD COLUMN keeping_version INTEGER NOT NULL DEFAULT 0;

ALTER TABLE pack ADD COLUMN supplier TEXT NOT NULL DEFAULT '';
ALTER TABLE pack ADD COLUMN tax_percent TEXT NOT NULL DEFAULT '0';

-- What was made or bought on a date. `ingredient` may be a handbook kind, which has no row.
CREATE TABLE lot (
    row INTEGER PRIMARY KEY,
    id BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
    ingredient BLOB NOT NULL CHECK (length(ingredient) = 16),
    made_from BLOB REFERENCES revision (id),
    made_on TEXT NOT NULL,
    use_by TEXT NOT NULL,
    facts TEXT NOT NULL, -- canonical JSON of the figures measured of it, as of a fact state
    got_ml REAL,
    note TEXT NOT NULL,
    used_up INTEGER NOT NULL CHECK (used_up IN (0, 1)),
    author BLOB NOT NULL CHECK (length(author) = 16),
    version INTEGER NOT NULL
) STRICT;
CREATE INDEX lot_of_ingredient ON lot (ingredient);

-- What one major unit of a currency was in another on a day.
CREATE TABLE exchange_rate (
    from_currency TEXT NOT NULL,
    to_currency TEXT NOT NULL,
    day TEXT NOT NULL,
    per_unit TEXT NOT NULL, -- exact rational
    dropped INTEGER NOT NULL DEFAULT 0 CHECK (dropped IN (0, 1)),
    author BLOB NOT NULL CHECK (length(author) = 16),
    version INTEGER NOT NULL,
    PRIMARY KEY (from_currency, to_currency, day)
) STRICT, WITHOUT ROWID;

-- Derived: the ingredients a draft's lines and alternatives name, as the hex of their ids. Kept by the store
-- with every save; a check compares it with the drafts.
CREATE TABLE draft_use (
    ingredient TEXT NOT NULL,
    draft BLOB NOT NULL REFERENCES draft (id),
    PRIMARY KEY (ingredient, draft)
) STRICT, WITHOUT ROWID;
CREATE INDEX draft_use_of_draft ON draft_use (draft);
INSERT OR IGNORE INTO draft_use
    SELECT json_extract(line.value, '$.ingredient'), draft.id FROM draft, json_each(draft.spec, '$.lines') line
    WHERE json_extract(line.value, '$.ingredient') IS NOT NULL;
INSERT OR IGNORE INTO draft_use
    SELECT json_extract(other.value, '$.ingredient'), draft.id
    FROM draft, json_each(draft.spec, '$.lines') line, json_each(line.value, '$.or') other
    WHERE json_extract(other.value, '$.ingredient') IS NOT NULL;

CREATE INDEX revision_fact_ingredient ON revision_fact (ingredient);
CREATE INDEX revision_fact_pours ON revision_fact (pours) WHERE pours IS NOT NULL;
ALTER TABLE revision_fact ADD COLUMN lot BLOB CHECK (lot IS NULL OR length(lot) = 16);

-- The revisions whose dilution somebody measured, found without reading the others. In canonical JSON the
-- quotes of a person's words are escaped, so that no note reads as this.
CREATE INDEX revision_measured ON revision (drink) WHERE instr(spec, '"origin":"measured"') > 0;

UPDATE book SET readable_from = 2; -- schema 1 would read other costs and strengths
