// What needs a person, as the board last said it.

import { redraw } from './redraw.js';
import { get } from './server.js';

const ORDER = { high: 0, middle: 1, low: 2 };

export const alarms = { open: [], isKnown: false, trouble: '' };

const watchers = new Set();

/** Calls back with each alarm that has changed; answers a function that ends this. */
export function whenAnAlarmChanges(callback) {
    watchers.add(callback);
    return () => watchers.delete(callback);
}

export async function askAlarms() {
    try {
        alarms.open = await get('/api/alarms');
        alarms.isKnown = true;
        alarms.trouble = '';
    } catch (failure) {
        alarms.trouble = failure.message;
    }
    redraw();
}

/** Takes in an alarm as it is now, from wherever it came. */
export function noteAlarm(alarm) {
    const others = alarms.open.filter(({ id }) => id !== alarm.id);
    alarms.open = (alarm.state === 'normal' ? others : [...others, alarm]).sort(byNeed);
    watchers.forEach(watcher => watcher(alarm));
    redraw();
}

function byNeed(one, other) {
    return ORDER[one.priority] - ORDER[other.priority] || other.raisedAt.localeCompare(one.raisedAt);
}

export const isQuiet = alarm => alarm.quietUntil !== undefined;

/** Whether it waits for somebody: not seen, or over and not said to be mended. */
export const isWaiting = alarm => !isQuiet(alarm) && alarm.state !== 'acknowledged' && alarm.state !== 'normal';

/** Whether somebody has to go and look: it lasts, and nobody knows. */
export const isCalling = alarm => isWaiting(alarm) && alarm.state === 'unacknowledged' && alarm.priority !== 'low';

export const alarmOf = (chamberId, rule) =>
    alarms.open.find(alarm => alarm.chamberId === chamberId && alarm.rule === rule);
