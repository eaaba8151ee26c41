// All alarms: what needs a person now, and what was.

import { alarms, isWaiting, whenAnAlarmChanges } from '../board/alarms.js';
import { redraw } from '../board/redraw.js';
import { get } from '../board/server.js';
import { entry } from '../frame/entry.js';
import { html, nothing, repeat } from '../library.js';
import { dayAndTime } from '../words/moments.js';
import { alarmCard, placeOf, since, whatCameOfIt } from './alarm.js';
import { letters } from './letters.js';
import { service } from './service.js';

const PAGE = 25;

export function alarmsRoom() {
    const past = history();
    const rules = service();
    const anew = () => {
        past.learn();
        rules.learn();
    };
    const endWatching = whenAnAlarmChanges(({ state }) => state === 'normal' && past.learn());
    addEventListener('gylewarden:scale', anew);
    anew();
    return {
        title: () => 'Alarms',
        view: () => html`
            <div class="title"><h1>Alarms</h1><p class="say">${summary()}</p></div>
            ${entry('open', 'Now', 'the most urgent first', html`${whatCameOfIt()}
                ${repeat(alarms.open, ({ id }) => id, alarmCard)}
                ${alarms.open.length === 0 ? html`<p class="soft">Nothing stands.</p>` : nothing}`)}
            ${entry('past', 'What was', 'newest first', past.view())}
            ${entry('rules', 'Not looked at', 'rules that are switched off', rules.view())}`,
        leave() {
            endWatching();
            removeEventListener('gylewarden:scale', anew);
        },
    };
}

function summary() {
    if (!alarms.isKnown) return alarms.trouble || 'Asking the board.';
    const number = alarms.open.filter(isWaiting).length;
    if (number > 0) return number === 1 ? 'One thing needs you.' : `${number} things need you.`;
    return alarms.open.length ? 'Nothing new. What stands was seen, or is quiet for a while.' : 'Nothing needs you.';
}


function history() {
    let all = [];
    let isAll = true;
    let trouble = '';

    async function take(before) {
        try {
            const page = await get(`/api/alarms?all=true&limit=${PAGE}${before ? `&before=${before}` : ''}`);
            const known = new Set(page.map(({ id }) => id));
            const others = all.filter(({ id }) => !known.has(id));
            if (before || all.length === 0) isAll = page.length < PAGE;
            all = before ? [...others, ...page] : [...page, ...others];
            trouble = '';
        } catch (failure) {
            trouble = failure.message;
        }
        redraw();
    }

    return {
        learn: () => take(),
        view() {
            const over = all.filter(({ state }) => state === 'normal');
            return html`
                ${over.length === 0 && isAll && !trouble ? html`<p class="soft">Nothing yet.</p>` : nothing}
                <ol class="log">${repeat(over, ({ id }) => id, line)}</ol>
                ${trouble ? html`<p class="mistake">${trouble}</p>` : nothing}
                ${isAll ? nothing : html`<div class="acts"><button type="button"
                    @click=${() => take(all.at(-1).id)}>Further back</button></div>`}`;
        },
    };
}

function line(alarm) {
    return html`<li><time datetime=${alarm.raisedAt}>${dayAndTime(alarm.raisedAt)}</time>
        <p>${placeOf(alarm)}: ${alarm.sentence}</p>
        <p class="soft">${since(alarm)}</p>
        ${letters(alarm)}</li>`;
}
