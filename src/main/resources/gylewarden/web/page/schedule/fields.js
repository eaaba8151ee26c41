// The fields of one step: each labelled for those who hear the page, each with its mistakes beneath.

import { html, live } from '../library.js';

/** @param on {change(field, value), …} of the row */
export function fieldsOf(row, number, mistakes, on) {
    const id = name => `s${row.key}-${name}`;
    const wrong = name => mistakes.filter(mistake => mistake.field === name);

    return {
        id,
        /** A text field inside the sentence. */
        text: (name, label, look = '', placeholder = '') => html`<label class="in">
            <span class="sr">${label} of step ${number}</span>
            <input id=${id(name)} class=${look} .value=${live(row[name])} placeholder=${placeholder}
                autocomplete="off" spellcheck="false"
                aria-invalid=${wrong(name).length ? 'true' : 'false'} aria-describedby=${id(`${name}-wrong`)}
                @input=${typing => on.change(name, typing.target.value)}></label>`,
        tick: (name, words) => html`<p class="fill"><label class="tick">
            <input type="checkbox" .checked=${live(row[name])}
                @change=${ticked => on.change(name, ticked.target.checked)}> ${words}</label></p>`,
        isWrong: name => wrong(name).length > 0,
        told: name => html`<span id=${id(`${name}-wrong`)}>${wrong(name).map(mistake)}</span>`,
    };
}

const mistake = ({ message }) => html`<span class="mistake">${message}</span>`;

/** @param choices an object of words by value */
export const options = (choices, chosen) => Object.entries(choices).map(([value, words]) =>
    html`<option value=${value} .selected=${live(value === chosen)}>${words}</option>`);
