-- The record, version 1. Times are milliseconds since 1970-01-01T00:00Z, temperatures thousandths of a degree Celsius.
--
-- What was written while nobody vouched for the clock has trusted = 0; it is dated anew, by boot and since_boot_ms, as soon
-- as the clock of the same boot is believed.

-- Chambers, batches and boots by a number, for they stand in every row of the large tables.
CREATE TABLE name (
    key INTEGER PRIMARY KEY,
    text TEXT NOT NULL UNIQUE
) STRICT;

-- document: the whole batch as JSON; the columns before it are what is searched for and listed.
CREATE TABLE batch (
    id TEXT PRIMARY KEY NOT NULL,
    chamber TEXT NOT NULL,
    name TEXT NOT NULL,
    stage TEXT NOT NULL,
    decides INTEGER NOT NULL CHECK (decides IN (0, 1)),
    created_at INTEGER NOT NULL,
    pitched_at INTEGER,
    ended_at INTEGER,
    revision INTEGER NOT NULL,
    document TEXT NOT NULL
) STRICT;

CREATE INDEX batch_created ON batch (created_at);

-- Each schedule that a batch has had.
CREATE TABLE schedule_revision (
    batch TEXT NOT NULL,
    revision INTEGER NOT NULL,
    saved_at INTEGER NOT NULL,
    trusted INTEGER NOT NULL CHECK (trusted IN (0, 1)),
    boot INTEGER NOT NULL REFERENCES name (key),
    since_boot_ms INTEGER NOT NULL,
    actor TEXT NOT NULL,
    document TEXT NOT NULL,
    PRIMARY KEY (batch, revision)
) STRICT, WITHOUT ROWID;

-- What people have asked of a chamber, at their last word. How far it has got since is in the chamber's small file.
CREATE TABLE mandate (
    chamber TEXT PRIMARY KEY NOT NULL,
    revision INTEGER NOT NULL,
    saved_at INTEGER NOT NULL,
    document TEXT NOT NULL
) STRICT;

-- Rows are added and never changed, but for their date. An event without a chamber is about the daemon itself.
CREATE TABLE event (
    id INTEGER PRIMARY KEY,
    chamber INTEGER REFERENCES name (key),
    batch INTEGER REFERENCES name (key),
    at INTEGER NOT NULL,
    trusted INTEGER NOT NULL CHECK (trusted IN (0, 1)),
    boot INTEGER NOT NULL REFERENCES name (key),
    since_boot_ms INTEGER NOT NULL,
    kind TEXT NOT NULL,
    loudness TEXT NOT NULL,
    sentence TEXT NOT NULL,
    detail TEXT,
    actor TEXT
) STRICT;

CREATE INDEX event_chamber ON event (chamber, id);
CREATE INDEX event_batch ON event (batch, id) WHERE batch IS NOT NULL;
CREATE INDEX event_undated ON event (boot) WHERE trusted = 0;

-- One wide row a chamber and minute, so that a commit touches one page a chamber. A minute has several rows after a restart,
-- a step of the clock or a change of the batch. seconds: how much of it was seen. No reading was believed: NULL.
-- watched: JSON, in the order of the config, each [min, mean, max] or null.
CREATE TABLE minute (
    chamber INTEGER NOT NULL REFERENCES name (key),
    at_minute INTEGER NOT NULL, -- minutes since 1970-01-01T00:00Z
    boot INTEGER NOT NULL REFERENCES name (key),
    since_boot_ms INTEGER NOT NULL,
    trusted INTEGER NOT NULL CHECK (trusted IN (0, 1)),
    batch INTEGER REFERENCES name (key),
    seconds INTEGER NOT NULL,
    setpoint INTEGER,
    beer_min INTEGER,
    beer_mean INTEGER,
    beer_max INTEGER,
    second_min INTEGER,
    second_mean INTEGER,
    second_max INTEGER,
    air_min INTEGER,
    air_mean INTEGER,
    air_max INTEGER,
    room_min INTEGER,
    room_mean INTEGER,
    room_max INTEGER,
    watched TEXT,
    cooling_seconds INTEGER NOT NULL,
    heating_seconds INTEGER NOT NULL,
    PRIMARY KEY (chamber, at_minute, boot, since_boot_ms)
) STRICT, WITHOUT ROWID;

CREATE INDEX minute_undated ON minute (boot) WHERE trusted = 0;

-- What people set that is of no chamber or batch.
CREATE TABLE setting (
    name TEXT PRIMARY KEY NOT NULL,
    value TEXT NOT NULL,
    revision INTEGER NOT NULL
) STRICT;
