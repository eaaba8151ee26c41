-- The record, version 2: alarms, and the messages about them.

-- One row an alarm, as it was after its latest change. worst: thousandths of a kelvin.
CREATE TABLE alarm (
    id TEXT PRIMARY KEY NOT NULL,
    rule TEXT NOT NULL,
    chamber TEXT,
    part TEXT,
    priority TEXT NOT NULL,
    state TEXT NOT NULL,
    raised_at INTEGER NOT NULL,
    returned_at INTEGER,
    seen_at INTEGER,
    seen_by TEXT,
    quiet_until INTEGER,
    worst INTEGER,
    sentence TEXT NOT NULL
) STRICT;

CREATE INDEX alarm_raised ON alarm (raised_at);
CREATE INDEX alarm_open ON alarm (state) WHERE state <> 'NORMAL';

-- One row a message and channel; number: the order in which they were made, which a channel keeps to.
-- added_at, trusted, boot, since_boot_ms: the clocks by which its dates were made; all of them move when those are put right.
-- ending: NULL while it waits, else SENT or GIVEN_UP; why: it was given up.
CREATE TABLE letter (
    number INTEGER PRIMARY KEY,
    id TEXT NOT NULL UNIQUE,
    alarm TEXT,
    channel TEXT NOT NULL,
    kind TEXT NOT NULL,
    priority TEXT NOT NULL,
    subject TEXT NOT NULL,
    text TEXT NOT NULL,
    made_at INTEGER NOT NULL,
    not_before INTEGER NOT NULL,
    give_up_at INTEGER NOT NULL,
    added_at INTEGER NOT NULL,
    trusted INTEGER NOT NULL CHECK (trusted IN (0, 1)),
    boot INTEGER NOT NULL REFERENCES name (key),
    since_boot_ms INTEGER NOT NULL,
    attempts INTEGER NOT NULL,
    tried_at INTEGER,
    next_try INTEGER,
    failure TEXT,
    ending TEXT CHECK (ending IN ('SENT', 'GIVEN_UP')),
    ended_at INTEGER,
    why TEXT
) STRICT;

CREATE INDEX letter_waiting ON letter (number) WHERE ending IS NULL;
CREATE INDEX letter_alarm ON letter (alarm, number) WHERE alarm IS NOT NULL;
CREATE INDEX letter_undated ON letter (boot) WHERE trusted = 0;
CREATE INDEX letter_past ON letter (made_at) WHERE ending IS NOT NULL AND trusted = 1;
