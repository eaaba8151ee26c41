// One step as a sentence with fields in it.

import { html, nothing } from '../library.js';
import { secondsFrom } from '../words/typed.js';
import { isRamp, KINDS } from './draft.js';
import { fieldsOf, options } from './fields.js';
import { stepTerms, TERM_FIELDS } from './step-terms.js';

const SENTENCE_FIELDS = ['kind', 'celsius', 'pace', 'duration'];

/**
 * @param row of the draft
 * @param place {index, isFirst, isLast, isRunning, when}
 * @param mistakes those of this row, each {field, message}
 * @param on what to call after each edit: {change(field, value), move(by), double(), remove(),
 *     condition(number, changed), addCondition(), open(isOpen)}
 */
export function stepRow(row, place, mistakes, on) {
    const number = place.index + 1;
    const fields = fieldsOf(row, number, mistakes, on);
    const known = [...SENTENCE_FIELDS, ...TERM_FIELDS, ...row.until.map((condition, index) => `until${index}`)];
    const elsewhere = mistakes.filter(({ field }) => !known.includes(field));
    return html`<li class=${place.isRunning ? 'now' : ''}>
        <span class="no">${number}</span>
        <div>
            <p class="fill">
                <label class="in"><span class="sr">Kind of step ${number}</span>
                    <select id=${fields.id('kind')} ?disabled=${place.isRunning}
                        @change=${chosen => on.change('kind', chosen.target.value)}>${options(KINDS, row.kind)}</select>
                </label>
                ${sentence(row, fields)}
            </p>
            ${SENTENCE_FIELDS.map(fields.told)}
            ${elsewhere.map(({ message }) => html`<p class="mistake">${message}</p>`)}
            ${place.when ? html`<span class="when">${place.when}</span>` : nothing}
            ${stepTerms(row, number, fields, on)}
            ${place.isRunning ? nothing : acts(number, place, on)}
        </div>
    </li>`;
}

function sentence(row, { text }) {
    const temperature = text('celsius', 'Temperature');
    if (isRamp(row)) {
        const isTime = secondsFrom(row.pace).value !== undefined;
        const pace = text('pace', 'Pace or time', 'long', '1.0 °C a day');
        return html`to ${temperature} ${isTime ? 'over' : 'at'} ${pace}`;
    }
    if (row.kind === 'crash') {
        const pace = text('pace', 'Pace', 'long', 'at once');
        return html`to ${temperature} at ${pace} then ${text('duration', 'Time', '', '0 h')}`;
    }
    if (row.kind === 'rest') return html`at ${temperature} for ${text('duration', 'Time', '', '0 h')}
        <span class="soft">counted once the beer is there</span>`;
    return html`at ${temperature} for ${text('duration', 'Time', '', 'until its end')}`;
}

function acts(number, { isFirst, isLast }, on) {
    const act = (words, label, doing, isOff = false) => html`<button type="button" class="light"
        ?disabled=${isOff} aria-label="${label}" @click=${doing}>${words}</button>`;
    return html`<div class="acts">
        ${act('Up', `Move step ${number} up`, () => on.move(-1), isFirst)}
        ${act('Down', `Move step ${number} down`, () => on.move(1), isLast)}
        ${act('Double', `Double step ${number}`, on.double)}
        ${act('Take out', `Take out step ${number}`, on.remove)}
    </div>`;
}
