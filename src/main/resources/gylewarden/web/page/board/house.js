// What is known of the house, how old it is, and whether the board still answers.

import { isFahrenheit } from '../words/scale.js';
import { askAlarms, noteAlarm } from './alarms.js';
import { redraw } from './redraw.js';
import { get } from './server.js';

const LOOK_EVERY_MS = 2_000;
/** Nothing new for so long: ask, rather than wait. */
const ASK_AFTER_MS = 8_000;
/** A value that has not moved for so long is shown as old. */
const OLD_AFTER_MS = 20_000;
const ASK_RECORD_EVERY_MS = 60_000;
const PATIENCE_IN_MS = 5_000;

export const house = {
    chambers: new Map(),
    isLoaded: false,
    isReachable: true,
    clock: undefined,
    record: undefined,
};

const watchers = new Set();
let stream;
let asking = false;
let recordAskedAt = -Infinity;

/** Calls back with each event of the log as it happens; answers a function that ends this. */
export function whenSomethingHappens(callback) {
    watchers.add(callback);
    return () => watchers.delete(callback);
}

export function begin() {
    listen();
    ask();
    setInterval(look, LOOK_EVERY_MS);
    document.addEventListener('visibilitychange', () => document.hidden || look());
}

/** After another unit was chosen: every sentence has to come anew. */
export function beginAnew() {
    listen();
    ask();
}

export const chamber = id => house.chambers.get(id)?.status;

/** "alive", "old" (the board answers, but this value stands still) or "lost" (the board does not answer). */
export function freshness(id) {
    if (!house.isReachable) return 'lost';
    const known = house.chambers.get(id);
    return known && !known.isBehind && age(known.moved) < OLD_AFTER_MS ? 'alive' : 'old';
}

/** The latest moment of which anything is known. */
export function latest() {
    const times = [...house.chambers.values()].map(known => known.status.asOf).filter(Boolean);
    return times.sort().at(-1);
}

export async function ask() {
    if (asking) return;
    asking = true;
    try {
        const all = await get('/api/chambers', AbortSignal.timeout(PATIENCE_IN_MS));
        house.chambers = new Map(all.map(status => [status.id, known(status)]));
        house.isLoaded = true;
        house.isReachable = true;
        await Promise.all([askClockAndRecord(), askAlarms()]);
    } catch (failure) {
        // Whoever refuses is there: after a start it takes a moment until every chamber has something to say.
        house.isReachable = failure.status > 0;
    } finally {
        asking = false;
        redraw();
    }
}

export async function askClockAndRecord() {
    recordAskedAt = performance.now();
    const [clock, record] = await Promise.allSettled([get('/api/clock'), get('/api/record')]);
    house.clock = clock.value;
    house.record = record.value;
    for (const entry of house.chambers.values()) entry.isBehind ??= isBehind(entry.status);
    redraw();
}

/** Takes in a chamber's status, from wherever it came. */
export function note(status) {
    house.chambers.set(status.id, known(status));
    house.isReachable = true;
    redraw();
}

function known(status) {
    const before = house.chambers.get(status.id);
    const hasMoved = !before || before.status.asOf !== status.asOf;
    return {
        status,
        moved: hasMoved ? instant() : before.moved,
        isBehind: before && hasMoved ? false : before?.isBehind,
    };
}

/** Whether the very first answer was old already: a loop that stopped before this page was opened. */
function isBehind(status) {
    if (!house.clock?.now || !status.asOf) return false;
    return new Date(house.clock.now) - new Date(status.asOf) > 60_000;
}

function look() {
    const entries = [...house.chambers.values()];
    const somethingIsSilent = !house.isReachable || entries.some(entry => age(entry.moved) > ASK_AFTER_MS);
    if (somethingIsSilent || !house.isLoaded) ask();
    else if (performance.now() - recordAskedAt > ASK_RECORD_EVERY_MS) askClockAndRecord();
    if (stream.readyState === EventSource.CLOSED) listen();
    redraw();
}

function listen() {
    stream?.close();
    stream = new EventSource('/api/live' + (isFahrenheit() ? '?units=F' : ''));
    stream.addEventListener('status', message => note(JSON.parse(message.data)));
    stream.addEventListener('event', message => {
        const event = JSON.parse(message.data);
        watchers.forEach(watcher => watcher(event));
    });
    stream.addEventListener('alarm', message => noteAlarm(JSON.parse(message.data)));
    stream.addEventListener('error', () => ask());
}

// A device that slept counts its own uptime wrongly, one whose clock was set its time of day: the longer is the age.
const instant = () => ({ running: performance.now(), wall: Date.now() });
const age = since => Math.max(performance.now() - since.running, Math.abs(Date.now() - since.wall));
