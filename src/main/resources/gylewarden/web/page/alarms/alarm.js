// One alarm: what is the matter, what to do about it, and what a person says of it.

import { isCalling, isQuiet, isWaiting, noteAlarm } from '../board/alarms.js';
import { chamber as chamberOf, latest } from '../board/house.js';
import { redraw } from '../board/redraw.js';
import { post, remove } from '../board/server.js';
import { html, nothing } from '../library.js';
import { momentSeenFrom, span } from '../words/moments.js';
import { isoOfSeconds } from '../words/typed.js';
import { letters } from './letters.js';

const URGENCY = { high: 'Needs you now', middle: 'Needs you', low: 'When you have time' };
const MORNING_HOUR = 8;
const busy = new Set();
const mistakes = new Map();
let said = '';

/** What came of what was pressed last; read aloud. */
export const whatCameOfIt = () => html`<p role="status" class=${said ? 'done-note' : ''}>${said}</p>`;

const now = () => latest() ?? new Date().toISOString();
const seenFrom = at => momentSeenFrom(at, now());

/** The tag: whether it needs somebody, in plain words. */
export function standing(alarm) {
    if (isQuiet(alarm)) return `Quiet until ${seenFrom(alarm.quietUntil)}`;
    if (alarm.state === 'acknowledged') return 'Seen';
    if (alarm.state === 'returnedUnacknowledged') return 'Over, not seen yet';
    if (alarm.state === 'latchedReturned') return 'Over, waits until you say that it is mended';
    if (alarm.state === 'normal') return 'Over';
    return URGENCY[alarm.priority];
}

export const placeOf = alarm =>
    alarm.chamberId ? chamberOf(alarm.chamberId)?.name ?? alarm.chamberId : 'The board';

const look = alarm => (isCalling(alarm) ? `is-${alarm.priority}` : 'is-low');
const tagLook = alarm => (isCalling(alarm) ? { high: 'now', middle: 'soon' }[alarm.priority] : '');

export function alarmCard(alarm) {
    return html`<article class="alarm ${look(alarm)}" id="alarm-${alarm.id}" tabindex="-1"
        aria-label="${placeOf(alarm)}: ${alarm.name}">
        <p class="tag ${tagLook(alarm)}">${standing(alarm)}</p>
        <p>${place(alarm)}: ${alarm.sentence}</p>
        <p class="soft">${since(alarm)}</p>
        <div class="acts">${deeds(alarm)}</div>
        <div role="status">${mistakes.has(alarm.id) ? html`<p class="mistake">${mistakes.get(alarm.id)}</p>` : nothing}</div>
        <div class="opens"><details class="help"><summary>What to do</summary>
            <dl>
                <div><dt>Look first at</dt><dd>${alarm.lookFirst}.</dd></div>
                <div><dt>A neighbour can do this</dt><dd>${alarm.neighbour}.</dd></div>
            </dl>
            ${alarm.caution ? html`<p class="caution">${alarm.caution}</p>` : nothing}
        </details>
        ${letters(alarm)}</div>
    </article>`;
}

const place = alarm => (alarm.chamberId && location.pathname !== `/chamber/${alarm.chamberId}`
    ? html`<a href="/chamber/${alarm.chamberId}">${placeOf(alarm)}</a>` : placeOf(alarm));

export function since({ raisedAt, returnedAt, seen }) {
    return [
        `Since ${seenFrom(raisedAt)}`,
        returnedAt ? `, over after ${span((new Date(returnedAt) - new Date(raisedAt)) / 1000)}` : '',
        seen ? `. Seen ${seenFrom(seen.at)} by ${seen.by}` : '',
        '.',
    ].join('');
}

function deeds(alarm) {
    const isUnseen = ['unacknowledged', 'returnedUnacknowledged'].includes(alarm.state);
    return html`
        ${isUnseen ? button(alarm, 'Seen', isWaiting(alarm) ? 'first' : '', () => seen(alarm)) : nothing}
        ${alarm.latched ? button(alarm, 'It is mended', '', () => mended(alarm)) : nothing}
        ${isQuiet(alarm) ? button(alarm, 'Ring again', '', () => loud(alarm)) : quiet(alarm)}`;
}

const button = (alarm, words, kind, act) => html`<button type="button" class=${kind}
    ?disabled=${busy.has(alarm.id)} @click=${() => doIt(alarm, act)}>${words}</button>`;

function quiet(alarm) {
    return html`<form class="acts" @submit=${submit => {
        submit.preventDefault();
        const chosen = new FormData(submit.target).get('span');
        doIt(alarm, () => hush(alarm, chosen));
    }}><button ?disabled=${busy.has(alarm.id)}>Quiet for</button>
        <label class="in"><span class="sr">How long</span><select name="span">
            <option value="3600">1 h</option><option value="28800">8 h</option>
            <option value="morning">until tomorrow 8:00</option></select></label></form>`;
}

async function doIt(alarm, act) {
    if (busy.has(alarm.id)) return;
    busy.add(alarm.id);
    mistakes.delete(alarm.id);
    said = '';
    redraw();
    try {
        said = await act();
        afterwards(alarm.id);
    } catch (failure) {
        mistakes.set(alarm.id, failure.message);
    }
    busy.delete(alarm.id);
    redraw();
}

/** The button that was pressed may be gone; whoever goes by keyboard stays where they were. */
function afterwards(id) {
    requestAnimationFrame(() => requestAnimationFrame(() => {
        if (document.activeElement && document.activeElement !== document.body) return;
        const place = document.getElementById(`alarm-${id}`) ?? document.getElementById('main');
        place?.focus({ preventScroll: true });
    }));
}

const path = ({ id }, end) => `/api/alarms/${id}/${end}`;

async function seen(alarm) {
    noteAlarm((await post(path(alarm, 'acknowledge'), {})).data);
    return `Seen: ${alarm.name}.`;
}

async function mended(alarm) {
    noteAlarm((await post(path(alarm, 'mended'), {})).data);
    return `Said to be mended, and may be tried again: ${alarm.name}.`;
}

async function loud(alarm) {
    noteAlarm((await remove(path(alarm, 'shelve'))).data);
    return `May ring again: ${alarm.name}.`;
}

async function hush(alarm, chosen) {
    const seconds = chosen === 'morning' ? untilMorning() : Number(chosen);
    const { data } = await post(path(alarm, 'shelve'), { duration: isoOfSeconds(seconds) });
    noteAlarm(data);
    return `Quiet until ${seenFrom(data.quietUntil)}: ${alarm.name}.`;
}

/** From the board's now to tomorrow's 8:00 of the reader's zone, s. */
function untilMorning() {
    const at = new Date(now());
    const morning = new Date(at);
    morning.setDate(at.getDate() + 1);
    morning.setHours(MORNING_HOUR, 0, 0, 0);
    return Math.round((morning - at) / 1000);
}
