// How and when each message about an alarm went out; asked for when somebody wants to know.

import { whenAnAlarmChanges } from '../board/alarms.js';
import { latest } from '../board/house.js';
import { redraw } from '../board/redraw.js';
import { get } from '../board/server.js';
import { html, nothing } from '../library.js';
import { momentSeenFrom } from '../words/moments.js';

const ASK_AGAIN_MS = 3_000;
const known = new Map();

whenAnAlarmChanges(({ id }) => known.get(id)?.isOpen && learn(id));
addEventListener('gylewarden:scale', () => known.forEach(({ isOpen }, id) => isOpen && learn(id)));

/** A part that opens. */
export const letters = ({ id }) => html`
    <details ?open=${known.get(id)?.isOpen} @toggle=${toggle => open(id, toggle.target.open)}>
        <summary>How it was told</summary>
        ${list(known.get(id))}
    </details>`;

function open(id, isOpen) {
    if (isOpen === Boolean(known.get(id)?.isOpen)) return;
    known.set(id, { ...known.get(id), isOpen });
    if (isOpen) learn(id);
}

/** What waits is asked for again, until it has arrived or nobody looks any more. */
async function learn(id) {
    try {
        const { letters: all } = await get(`/api/alarms/${id}`);
        known.set(id, { ...known.get(id), all, trouble: '' });
        if (all.some(({ state }) => state === 'waiting')) again(id);
    } catch (failure) {
        known.set(id, { ...known.get(id), trouble: failure.message });
    }
    redraw();
}

function again(id) {
    const entry = known.get(id);
    clearTimeout(entry.timer);
    entry.timer = setTimeout(() => known.get(id)?.isOpen && learn(id), ASK_AGAIN_MS);
}

function list(entry) {
    if (!entry) return nothing;
    if (entry.trouble) return html`<p class="mistake">${entry.trouble}</p>`;
    if (!entry.all) return html`<p class="soft">Asking the board.</p>`;
    if (entry.all.length === 0)
        return html`<p class="soft">No message was sent. <a href="/messages">Who hears what</a></p>`;
    return html`<ol class="log">${entry.all.map(line)}</ol>`;
}

function line(letter) {
    return html`<li class=${letter.state === 'givenUp' ? 'is-error' : ''}>
        <p><b>${letter.channel}</b>: ${letter.subject}</p>
        <p class="soft">${fate(letter)}</p></li>`;
}

function fate({ state, madeAt, arrivedAt, givenUpAt, nextTryAt, tries, failure }) {
    const at = moment => momentSeenFrom(moment, latest() ?? Date.now());
    const inVain = tries ? `, after ${tries === 1 ? 'one try' : `${tries} tries`} in vain` : '';
    if (state === 'arrived') return `Written ${at(madeAt)}, arrived ${at(arrivedAt)}${inVain}.`;
    if (state === 'givenUp') return `Given up ${at(givenUpAt)}${inVain}. ${failure}`;
    return `Written ${at(madeAt)}, waits until ${at(nextTryAt)}${inVain}. ${failure ?? ''}`;
}
