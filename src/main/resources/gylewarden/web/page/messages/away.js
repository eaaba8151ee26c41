// Going away: what to see to before, and until when.

import { latest } from '../board/house.js';
import { redraw } from '../board/redraw.js';
import { get, put, remove } from '../board/server.js';
import { html, nothing } from '../library.js';
import { deeds } from '../words/deed.js';
import { dayAndTime } from '../words/moments.js';

const A_WEEK_MS = 7 * 24 * 3600 * 1000;

export function away() {
    let typed = '';
    let until;
    let before;
    let trouble = '';
    let asked = 0;
    const deed = deeds(learn);

    async function learn() {
        const mine = ++asked;
        typed ||= localText(new Date(Date.parse(latest() ?? new Date()) + A_WEEK_MS));
        const at = instantOf(until ? localText(new Date(until)) : typed);
        try {
            const answer = await get(`/api/away${at ? `?until=${encodeURIComponent(at)}` : ''}`);
            if (mine !== asked) return;
            const wasHere = !until;
            until = answer.until;
            before = answer.before;
            trouble = '';
            // The list is of the end that holds, which only this answer has told.
            if (until && wasHere) return learn();
        } catch (failure) {
            trouble = failure.message;
        }
        redraw();
    }

    function take(change) {
        typed = change.target.value;
        learn();
    }

    function going() {
        return deed('go', 'Go away', html`until <label class="in"><span class="sr">Away until</span>
            <input name="until" type="datetime-local" class="date" .value=${typed} @change=${take}></label>`, async form => {
            const at = instantOf(form.get('until'));
            if (!at) throw new Error('Say until when, with date and time.');
            const { data } = await put('/api/away', { until: at });
            return `Away until ${dayAndTime(data.until)}. A line comes each day by every way whose turn is at once.`;
        });
    }

    const back = () => deed('back', 'I am back', html`Away until <time datetime=${until}>${dayAndTime(until)}</time>. If the
        line of a day stays away, look.`, async () => {
        await remove('/api/away');
        until = undefined;
        return 'Welcome back.';
    }, 'first');

    return {
        learn,
        view: () => html`<ul class="deeds">${deed.said()}${until ? back() : going()}</ul>
            ${list()}${trouble ? html`<p class="mistake">${trouble}</p>` : nothing}`,
    };

    function list() {
        if (!before) return nothing;
        if (before.length === 0) return html`<p>Nothing would wait for you until then.</p>`;
        return html`<div class="stack tight"><h3>${until ? 'Would wait for you' : 'See to this before'}</h3>
            <ul class="bullets">${before.map(sentence => html`<li>${sentence}</li>`)}</ul></div>`;
    }
}

/** As a field of the browser writes it, in the reader's zone. */
function localText(date) {
    return new Date(date - date.getTimezoneOffset() * 60_000).toISOString().slice(0, 16);
}

const instantOf = text => (text ? new Date(text).toISOString().replace('.000', '') : undefined);
