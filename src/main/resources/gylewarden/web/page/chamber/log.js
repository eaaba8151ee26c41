// What happened, newest first, and a note of one's own.

import { redraw } from '../board/redraw.js';
import { get, post } from '../board/server.js';
import { html, nothing, repeat } from '../library.js';
import { deeds } from '../words/deed.js';
import { dayAndTime } from '../words/moments.js';

const PAGE = 25;
/** Switches come by the dozen: further back goes on until there is something else to read, within reason. */
const FURTHER = { page: 100, enough: 8, looks: 10 };
const LOOKS = { error: 'is-error', warn: 'is-warn', info: '' };

export function log(room) {
    let events = [];
    let isAll = false;
    let trouble = '';
    let isQuiet = true;
    const deed = deeds(learn);

    const path = (before, limit = PAGE) =>
        `/api/chambers/${room.id}/events?limit=${limit}${before ? `&before=${before}` : ''}`;

    async function learn() {
        try {
            const newest = await get(path());
            const known = new Set(newest.map(event => event.id));
            const older = events.filter(event => !known.has(event.id) && event.id < (newest.at(-1)?.id ?? Infinity));
            if (events.length === 0) isAll = newest.length < PAGE;
            events = [...newest, ...older];
            trouble = '';
        } catch (failure) {
            trouble = failure.message;
        }
        redraw();
    }

    async function further() {
        const enough = events.filter(isShown).length + FURTHER.enough;
        try {
            for (let look = 0; look < FURTHER.looks && !isAll && events.filter(isShown).length < enough; look++) {
                const older = await get(path(events.at(-1).id, FURTHER.page));
                events = [...events, ...older];
                isAll = older.length < FURTHER.page;
            }
        } catch (failure) {
            trouble = failure.message;
        }
        redraw();
    }

    function note() {
        return deed('note', 'Note', html`<label class="in wide"><span class="sr">A note for the log</span>
            <input name="text" class="full" placeholder="What you saw, smelt or did"></label>`,
        async (form, element) => {
            const text = form.get('text').trim();
            if (!text) throw new Error('Write a few words first.');
            await post(`/api/batches/${room.batch.id}/notes`, { text });
            element.reset();
            return 'Noted.';
        });
    }

    const isShown = event => !isQuiet || !isSwitching(event);

    function take(change) {
        isQuiet = !change.target.checked;
        redraw();
    }

    return {
        learn,
        view: () => html`
            ${room.batch ? html`<ul class="deeds">${deed.said()}${note()}</ul>` : nothing}
            <label class="tick"><input type="checkbox" .checked=${!isQuiet} @change=${take}>
                also each switching of a relay</label>
            <ol class="log">${repeat(events.filter(isShown), event => event.id, line)}</ol>
            ${events.length === 0 && !trouble ? html`<p class="soft">Nothing is written down yet.</p>` : nothing}
            ${events.length > 0 && !events.some(isShown) ? html`<p class="soft">Lately relays have switched, and nothing
                else was written down.</p>` : nothing}
            ${trouble ? html`<p class="mistake">${trouble}</p>` : nothing}
            ${isAll || events.length === 0 ? nothing : html`<div class="acts">
                <button type="button" @click=${further}>Further back</button></div>`}`,
    };
}

const isSwitching = ({ kind, loudness }) => loudness === 'info' && /relaySwitched|reasonChanged/i.test(kind);

function line(event) {
    return html`<li class=${LOOKS[event.loudness] ?? ''}>
        <time datetime=${event.at}>${event.trusted === false ? 'about ' : ''}${dayAndTime(event.at)}</time>
        <p>${event.sentence}
            ${event.actor ? html`<span class="soft">${event.actor}</span>` : nothing}</p>
    </li>`;
}
