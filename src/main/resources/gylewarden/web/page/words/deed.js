// A deed: a button, the sentence that says what it will do, and afterwards what came of it.

import { redraw } from '../board/redraw.js';
import { html, nothing } from '../library.js';

/**
 * Deeds of one part of a page. A deed is done by a function that reads the form and answers a promise; a mistake it
 * throws is shown under the deed it belongs to.
 */
export function deeds(afterwards) {
    const answers = new Map();
    const busy = new Set();

    async function doIt(key, act, submit) {
        submit.preventDefault();
        if (busy.has(key)) return;
        busy.add(key);
        answers.clear();
        redraw();
        try {
            const said = await act(new FormData(submit.target), submit.target);
            answers.set(key, { words: said ?? 'Done.' });
            await afterwards();
        } catch (failure) {
            answers.set(key, { words: failure.message, errors: failure.errors ?? [], isMistake: true });
        } finally {
            busy.delete(key);
            redraw();
        }
    }

    return (key, button, sentence, act, look = '') => html`<li class=${look === 'tall' ? 'tall' : ''}>
        <form novalidate autocomplete="off" @submit=${submit => doIt(key, act, submit)}>
            <button class=${look} ?disabled=${busy.has(key)}>${button}</button>
            <div class="fill">${sentence}</div>
        </form>
        <div role="status">${answer(answers.get(key))}</div>
    </li>`;
}

function answer(said) {
    if (!said) return nothing;
    if (!said.isMistake) return html`<p class="done-note">${said.words}</p>`;
    return html`<div class="mistake">
        ${said.errors.length === 0 ? html`<p>${said.words}</p>` : said.errors.map(error => html`<p>${told(error)}</p>`)}</div>`;
}

/** The board names the field as the API does; a person reads a word. */
const FIELDS = {
    celsius: 'The temperature', duration: 'The time', name: 'The name', chamberId: 'The chamber', text: 'The note',
    beerMinCelsius: 'The beer’s lower limit', beerMaxCelsius: 'The beer’s upper limit',
    airMinCelsius: 'The air’s lower limit', airMaxCelsius: 'The air’s upper limit',
    pitchCelsius: 'The pitching temperature', action: 'This', chamber: 'What the chamber shall do', vesselOut: 'The vessel',
};

export const told = ({ field, message }) => (FIELDS[field] ? `${FIELDS[field]} ${message}` : `${field ? field + ' ' : ''}${message}`);

/** Takes a typed field, or throws its mistake. */
export function typed(read, text) {
    const { value, mistake } = read(String(text ?? ''));
    if (mistake) throw new Error(mistake);
    return value;
}

/** A field inside a sentence. */
export const field = (name, label, value, look = '') =>
    html`<label class="in"><span class="sr">${label}</span><input name=${name} class=${look} value=${value} inputmode="text"></label>`;
