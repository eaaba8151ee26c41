// One chamber: the sentence, the figures, the one time line, the steps and what can be done.

import { ask, chamber as chamberOf, freshness, house, whenSomethingHappens } from '../board/house.js';
import { redraw } from '../board/redraw.js';
import { get } from '../board/server.js';
import { entry } from '../frame/entry.js';
import { html, nothing } from '../library.js';
import { dayAndTime, dayOfBatch, dayTimeAndYear } from '../words/moments.js';
import { figures } from '../words/figures.js';
import { cautions, conditions, next, notSaved, sentence } from '../words/state.js';
import { batchDeeds } from './batch-deeds.js';
import { chamberDeeds } from './chamber-deeds.js';
import { log } from './log.js';
import { stepDeeds } from './step-deeds.js';
import { steps } from './steps.js';
import { timeLine } from './time-line.js';

const LEARN_AT_MOST_EVERY_MS = 2_000;

export function chamberRoom(id) {
    const room = { id, batch: undefined, others: [], plan: undefined, askedFor: undefined };
    const parts = { line: timeLine(room), log: log(room) };
    const change = async () => {
        await ask();
        await learn(room, parts);
    };
    const soon = atMostEvery(LEARN_AT_MOST_EVERY_MS, change);
    const doings = {
        step: stepDeeds(room, change), batch: batchDeeds(room, change), chamber: chamberDeeds(room, change),
    };
    const endWatching = whenSomethingHappens(event => event.chamberId === id && soon());
    addEventListener('gylewarden:scale', change);
    return {
        title: () => room.batch?.name ?? chamberOf(id)?.name ?? 'Chamber',
        view() {
            const chamber = chamberOf(id);
            if (!chamber) return unknown();
            if (room.askedFor !== (chamber.batchId ?? 'none')) learn(room, parts);
            return view(room, chamber, parts, doings);
        },
        drawn: () => parts.line.drawn(chamberOf(id)),
        leave() {
            endWatching();
            removeEventListener('gylewarden:scale', change);
            parts.line.leave();
        },
    };
}

/** Events come in flocks; one asking serves them all. */
function atMostEvery(ms, doing) {
    let isWaiting = false;
    return () => {
        if (isWaiting) return;
        isWaiting = true;
        setTimeout(() => {
            isWaiting = false;
            doing();
        }, ms);
    };
}

function unknown() {
    return html`<div class="title"><h1>${house.isLoaded ? 'No such chamber' : 'Chamber'}</h1>
        <p class="say">${house.isLoaded ? html`Chambers are named in the config. <a href="/">Back to the cellar.</a>`
            : house.isReachable ? 'Asking the board.' : 'The board does not answer.'}</p></div>`;
}

/** Asks anew for all that live events do not carry. */
async function learn(room, parts) {
    const chamber = chamberOf(room.id);
    if (!chamber) return;
    room.askedFor = chamber.batchId ?? 'none';
    const [batch, plan, others] = await Promise.allSettled([
        chamber.batchId ? get(`/api/batches/${chamber.batchId}`) : undefined,
        chamber.batchId ? get(`/api/batches/${chamber.batchId}/schedule`) : undefined,
        Promise.all((chamber.otherBatchIds ?? []).map(other => get(`/api/batches/${other}`))),
    ]);
    room.batch = batch.value;
    room.plan = plan.value;
    room.others = others.value ?? [];
    parts.log.learn();
    redraw();
}

function view(room, chamber, parts, doings) {
    const state = freshness(room.id);
    const { batch, plan } = room;
    return html`
        <div class="title">
            <p class="soft"><a href="/">Cellar</a> / ${chamber.name}</p>
            <h1>${batch?.name ?? chamber.name}</h1>
            <p class="soft">${under(chamber, batch)}</p>
        </div>
        ${entry('now', 'Now', stepLine(chamber, plan), html`
            ${notSaved(chamber)}${conditions(chamber)}${sentence(chamber)}${figures(chamber, state)}
            ${chamber.step ? html`<p>${chamber.step.sentence}</p>` : nothing}
            ${next(chamber)}
            ${cautions(chamber)}${clockNote(chamber)}`, state === 'alive' ? '' : 'is-old')}
        ${entry('line', 'Time line', 'measured in ink, planned in pencil', parts.line.view(chamber))}
        ${batch && plan ? html`<div class="pair">
            ${entry('schedule', 'Schedule', html`<a href="/batch/${batch.id}/schedule">Change it</a>`,
                steps(plan, chamber))}
            ${entry('steps', 'Do', 'each is written into the log', doings.step.view(chamber))}
        </div>` : nothing}
        <div class="pair">
            ${entry('batch', 'Batch', batch ? '' : 'none in here', doings.batch.view(chamber))}
            ${entry('chamber', 'Chamber', '', html`${commissionedNote(chamber)}${doings.chamber.view(chamber)}`)}
        </div>
        ${entry('log', 'Log', 'newest first', parts.log.view(chamber))}`;
}


function under(chamber, batch) {
    if (!batch) return 'No batch is in here.';
    if (!batch.pitchedAt) return `${chamber.name}, not yet pitched`;
    return html`${chamber.name}, day ${dayOfBatch(batch.pitchedAt, chamber.asOf)}, pitched
        <time datetime=${batch.pitchedAt}>${dayAndTime(batch.pitchedAt)}</time>`;
}

function stepLine({ step }, plan) {
    if (!step) return '';
    return plan ? `step ${step.index + 1} of ${plan.steps.length}` : `step ${step.index + 1}`;
}

/** A hint and no alarm: whoever reads it knows what was proved before beer came in. */
function commissionedNote({ id, commissioned }) {
    return html`<p class="soft">${commissionedWords(commissioned)}
        <a href="/chamber/${id}/commissioning">Commissioning</a></p>`;
}

function commissionedWords(commissioned) {
    if (!commissioned) return 'Never commissioned with its wires as they are now.';
    const at = html`<time datetime=${commissioned.at}>${dayTimeAndYear(commissioned.at)}</time>`;
    if (commissioned.passed) return html`Passed its commissioning on ${at}.`;
    return html`Has not passed its commissioning of ${at}: ${commissioned.findings.join(' ')}`;
}

function clockNote({ clock }) {
    if (!clock?.awaysUnsettled) return nothing;
    return html`<p class="caution">Power was away for a time that nobody knows yet. The schedule counts on from where it
        stood; once the clock is trusted, the time away is added.</p>`;
}
