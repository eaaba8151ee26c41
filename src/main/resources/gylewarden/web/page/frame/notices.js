// What concerns the whole house and stands above every room: no answer, a clock that is not trusted, a broken record.

import { ask, askClockAndRecord, house, latest } from '../board/house.js';
import { patch, post } from '../board/server.js';
import { redraw } from '../board/redraw.js';
import { html, nothing } from '../library.js';
import { deeds } from '../words/deed.js';
import { dayAndTime, dayTimeAndYear, span, timeOfDay } from '../words/moments.js';

const CLOCKS_DIFFER_FROM_SECONDS = 120;
let confirmation = '';

export const notices = () => html`<div class="notices">${silence()}${clock()}${record()}${strays()}</div>`;

const deed = deeds(ask);


function silence() {
    if (house.isReachable) return html`<div role="status"></div>`;
    const at = latest();
    return html`<div role="status"><div class="notice is-hatched">
        <p class="say">${at ? html`No word from the board since ${timeOfDay(at)}.` : 'The board does not answer.'}</p>
        <p>${at ? `What you see is as it was on ${dayAndTime(at)}. ` : ''}The chambers go on by themselves.
            This page asks again every few seconds.</p>
        <div class="acts"><button type="button" @click=${ask}>Ask now</button></div>
    </div></div>`;
}

function clock() {
    const known = house.clock;
    if (!known || known.trusted) return nothing;
    const apart = Math.abs(Date.now() - new Date(known.now)) / 1000;
    return html`<section class="notice" aria-label="The board's clock">
        <p class="say">The board is not sure what time it is.</p>
        <p>${known.because} It takes it for <b>${dayTimeAndYear(known.now)}</b>; this device says
            ${dayTimeAndYear(Date.now())}.</p>
        ${apart > CLOCKS_DIFFER_FROM_SECONDS
            ? html`<p class="caution">The two are ${span(apart)} apart. If this device is right, set the board’s clock
                first, then come back here.</p>` : nothing}
        <div class="acts"><button type="button" class="first" @click=${confirmTime}>This is the right time</button>
            <span>Schedules then reckon time without power by the board’s clock, until it restarts.</span></div>
        <p role="status">${confirmation}</p>
    </section>`;
}

async function confirmTime() {
    confirmation = '';
    try {
        await post('/api/clock', { rightNow: true });
        await askClockAndRecord();
    } catch (refusal) {
        confirmation = refusal.message;
    }
    redraw();
}

function record() {
    const known = house.record;
    if (!known || known.state !== 'broken') return nothing;
    return html`<section class="notice is-red" aria-label="The record">
        <p class="tag now">Not saved</p>
        <p class="say">${known.sentence}</p>
        <p>Control goes on. ${known.since ? html`Since ${dayAndTime(known.since)}, ` : nothing}${waiting(known)}</p>
    </section>`;
}

function waiting({ waitingMinutes, droppedMinutes }) {
    const waits = `${waitingMinutes ?? 0} min of measurements wait in memory`;
    return droppedMinutes ? `${waits}; ${droppedMinutes} min are lost for good.` : `${waits}.`;
}

/** What nothing follows, because its chamber left the config. */
function strays() {
    const known = house.record?.strays ?? [];
    if (known.length === 0) return nothing;
    return html`<section class="notice" aria-label="What nothing follows">
        <p class="say">${known.some(({ batchId }) => batchId) ? 'A batch stands where nothing looks after it.'
            : 'A chamber is not in the config any more.'}</p>
        <ul class="deeds">${deed.said()}${known.map(stray => html`<li><p>${stray.sentence}</p></li>
            ${stray.batchId ? ways(stray) : nothing}`)}</ul>
    </section>`;
}

function ways({ batchId }) {
    const chambers = [...house.chambers.values()].map(({ status }) => status);
    return html`${deed(`move-${batchId}`, 'Move', html`to <label class="in"><span class="sr">Chamber</span>
        <select name="chamberId">${chambers.map(({ id, name }) => html`<option value=${id}>${name}</option>`)}</select>
        </label> with its schedule, which goes on there at once unless another batch decides there.`,
    async form => {
        await patch(`/api/batches/${batchId}`, { chamberId: form.get('chamberId') });
        return 'Moved.';
    })}
    ${deed(`end-${batchId}`, 'End it', 'Its record stays. No chamber is changed by this.', async () => {
        await post(`/api/batches/${batchId}/end`, { chamber: 'off' });
        return 'Ended. Its record stays.';
    })}`;
}
