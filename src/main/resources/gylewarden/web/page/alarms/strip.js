// What needs a person stands above every room; what somebody has seen is one line there.

import { alarms, isWaiting } from '../board/alarms.js';
import { html, nothing, repeat } from '../library.js';
import { alarmCard, placeOf, standing, whatCameOfIt } from './alarm.js';

const MOST = 3;

/** Nothing on the page of alarms, which has all of them. */
export function strip() {
    if (location.pathname === '/alarms') return nothing;
    const waiting = alarms.open.filter(isWaiting);
    const shown = waiting.slice(0, MOST);
    const known = alarms.open.filter(alarm => !isWaiting(alarm));
    return html`<section class="strip" aria-label="What needs a person">
        ${whatCameOfIt()}
        ${repeat(shown, ({ id }) => id, alarmCard)}
        ${waiting.length > MOST ? html`<p><a href="/alarms">${waiting.length - MOST} more</a></p>` : nothing}
        ${known.length ? html`<ul class="known">${known.slice(0, MOST).map(alarm => html`<li>
            <span class="tag">${standing(alarm)}</span> ${placeOf(alarm)}: ${alarm.name}</li>`)}
            <li><a href="/alarms">Look at ${known.length === 1 ? 'it' : `all ${known.length}`}</a></li></ul>` : nothing}
    </section>`;
}
