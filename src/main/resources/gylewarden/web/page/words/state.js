// The sentence, with its sign; and the conditions that need a person.

import { alarmOf, alarms, isCalling, isWaiting } from '../board/alarms.js';
import { chamber as chamberOf, freshness as freshnessOf, note } from '../board/house.js';
import { redraw } from '../board/redraw.js';
import { get, post } from '../board/server.js';
import { html, nothing, repeat } from '../library.js';
import { momentSeenFrom } from './moments.js';
import { unit } from './scale.js';
import { sign, signOf } from './signs.js';

const ORDER = { high: 0, middle: 1, low: 2 };
const TAGS = { high: ['Needs you now', 'now'], middle: ['Needs you', 'soon'], low: ['Good to know', ''] };
const answers = new Map();

/** What is read aloud changes with the kind of reason alone, not with each counted second. */
export function sentence(chamber) {
    const freshness = freshnessOf(chamber.id);
    return html`<div class="state">${sign(signOf(chamber, freshness))}
        <p class="say">${words(chamber, freshness)}</p></div>
        <p class="sr" aria-live="polite">${spoken(chamber, freshness)}</p>`;
}

function words(chamber, freshness) {
    if (freshness === 'alive') return chamber.reason.sentence;
    const at = momentSeenFrom(chamber.asOf, chamber.asOf);
    return freshness === 'lost'
        ? html`As it was at ${at}: <span class="pencil">${chamber.reason.sentence}</span>`
        : html`Nothing new from this chamber since ${at}. Look at the board. <span class="pencil">It was then:
            ${chamber.reason.sentence}</span>`;
}

const lastSpoken = new Map();

function spoken(chamber, freshness) {
    const kind = [freshness, chamber.reason.kind, unit()].join(' ');
    const before = lastSpoken.get(chamber.id);
    if (before?.kind === kind) return before.words;
    const news = freshness === 'alive' ? chamber.reason.sentence : 'no longer up to date.';
    const said = { kind, words: `${chamber.name}: ${news}` };
    lastSpoken.set(chamber.id, said);
    return said.words;
}

/** What nobody has seen yet: alarms, and what is too young to ring for. */
export const needingAPerson = chamber => [
    ...conditionsOf(chamber).filter(({ kind, priority }) => priority !== 'low' && !alarmOf(chamber.id, kind)),
    ...alarms.open.filter(alarm => alarm.chamberId === chamber.id && isCalling(alarm)),
];

function conditionsOf({ conditions = [] }) {
    return conditions
        .map(condition => ({ ...condition, priority: condition.priority.toLowerCase() }))
        .sort((one, other) => ORDER[one.priority] - ORDER[other.priority]);
}

export function conditions(chamber) {
    const all = conditionsOf(chamber);
    if (all.length === 0) return nothing;
    const isAbove = ({ kind }) => {
        const alarm = alarmOf(chamber.id, kind);
        return alarm !== undefined && isWaiting(alarm);
    };
    return html`<div class="stack">
        ${repeat(all.filter(condition => !isAbove(condition)), condition => condition.kind,
            condition => card(condition, alarmOf(chamber.id, condition.kind)))}
        ${all.some(({ priority }) => priority !== 'low') ? seenTo(chamber) : nothing}
    </div>`;
}

/** What somebody has seen, or made quiet, is said without red. */
function card({ priority, sentence }, known) {
    const [words, look] = TAGS[priority];
    if (known) return html`<article class="alarm is-low"><p>${sentence}</p></article>`;
    return html`<article class="alarm is-${priority}"><p class="tag ${look}">${words}</p><p>${sentence}</p></article>`;
}

function seenTo({ id }) {
    return html`<div class="acts"><button type="button" @click=${() => acknowledge(id)}>I have seen to it</button>
        <span>Says that probes and plugs are where they belong. What was held off may be tried again.</span>
        <p role="status">${answers.get(id)}</p></div>`;
}

async function acknowledge(id) {
    try {
        await post(`/api/chambers/${id}/acknowledge`, {});
        answers.set(id, 'Told to the chamber.');
        note(await get(`/api/chambers/${id}`));
    } catch (refusal) {
        answers.set(id, refusal.message);
    }
    redraw();
}

export function notSaved(chamber) {
    if (chamber.saved !== false) return nothing;
    return html`<article class="alarm is-high"><p class="tag now">Not saved</p>
        <p>What was asked of this chamber last is obeyed, but it is not on the disk. After a power cut it would be
            forgotten.</p></article>`;
}

/** What is asked, and limits in force stop before the beer gets there. */
export function cautions({ limits }) {
    const all = limits?.cautions ?? [];
    if (all.length === 0) return nothing;
    return html`<div class="caution" role="group" aria-label="What the limits stop">${all.map(words => html`<p>${words}</p>`)}</div>`;
}

/** What comes next and when, for one chamber. */
export function next(chamber) {
    if (chamber.nextChange) {
        const at = chamber.nextChange.at;
        const when = at ? html`, <time datetime=${at}>${momentSeenFrom(at, chamber.asOf)}</time>` : nothing;
        return html`<p><span class="soft">Next${when}:</span> ${chamber.nextChange.sentence}</p>`;
    }
    if (chamber.batchId) return html`<p class="soft">Nothing is next until somebody says so.</p>`;
    return html`<p class="soft">No batch in here.</p>`;
}

export const isKnown = id => chamberOf(id) !== undefined;
