// A deed: a button, the sentence that says what it will do, and afterwards what came of it.

import { redraw } from '../board/redraw.js';
import { html, nothing } from '../library.js';

/** The status of what was asked of something that is another now. */
const WAS_FASTER = 412;

/** What was done last on this page; only that is said. */
let latest = {};

/**
 * Deeds of one part of a page. A deed is done by a function that reads the form and answers a promise; a mistake it
 * throws is shown under the deed it belongs to. What was done is said by `said()`, above them all, for a deed that is
 * done may not be offered any more.
 */
export function deeds(afterwards) {
    const mistakes = new Map();
    const busy = new Set();
    const group = {};

    async function doIt(key, act, submit) {
        submit.preventDefault();
        if (busy.has(key)) return;
        busy.add(key);
        mistakes.clear();
        latest = {};
        redraw();
        try {
            latest = { group, words: await act(new FormData(submit.target), submit.target) };
            await afterwards();
        } catch (failure) {
            await take(key, failure);
        } finally {
            busy.delete(key);
            redraw();
        }
    }

    /** Where somebody or time was faster, the page is behind: what is true now is asked for, and said above all. */
    async function take(key, failure) {
        if (failure.status !== WAS_FASTER) {
            mistakes.set(key, failure);
            return;
        }
        latest = { group, words: failure.message, look: 'caution' };
        await afterwards();
    }

    const deed = (key, button, sentence, act, look = '') => html`<li class=${look === 'tall' ? 'tall' : ''}>
        <form novalidate autocomplete="off" @submit=${submit => doIt(key, act, submit)}>
            <button class=${look} ?disabled=${busy.has(key)}>${button}</button>
            <div class="fill">${sentence}</div>
        </form>
        <div role="status">${mistake(mistakes.get(key))}</div>
    </li>`;
    deed.said = () => html`<li class="said"><div role="status">
        ${latest.group === group ? html`<p class=${latest.look ?? 'done-note'}>${latest.words}</p>` : nothing}</div></li>`;
    return deed;
}

function mistake(failure) {
    if (!failure) return nothing;
    const errors = failure.errors?.length ? failure.errors.map(told) : [failure.message];
    return html`<div class="mistake">${errors.map(words => html`<p>${words}</p>`)}</div>`;
}

/** The board names the field as the API does; a person reads a word. */
const FIELDS = {
    celsius: 'The temperature', duration: 'The time', name: 'The name', chamberId: 'The chamber', text: 'The note',
    beerMinCelsius: 'The beer’s lower limit', beerMaxCelsius: 'The beer’s upper limit',
    airMinCelsius: 'The air’s lower limit', airMaxCelsius: 'The air’s upper limit',
    pitchCelsius: 'The pitching temperature', action: 'This', chamber: 'What the chamber shall do',
    vesselOut: 'The vessel', 'chamber.celsius': 'The temperature to keep',
};

/** What the board says of a field goes on from its name, unless it is a sentence of its own. */
export function told({ field, message }) {
    if (/^\p{Lu}/u.test(message)) return message;
    return `${FIELDS[field] ?? field ?? 'This'} ${message}.`;
}

/** Takes a typed field, or throws its mistake. */
export function typed(read, text) {
    const { value, mistake } = read(String(text ?? ''));
    if (mistake) throw new Error(mistake);
    return value;
}

/** A field inside a sentence. */
export const field = (name, label, value, look = '') =>
    html`<label class="in"><span class="sr">${label}</span><input name=${name} class=${look} value=${value}></label>`;
