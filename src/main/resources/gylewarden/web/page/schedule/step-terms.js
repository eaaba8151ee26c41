// What a step may have besides its kind: an early end, a wait for the brewer's word, a note.

import { html, live, nothing } from '../library.js';
import { CONDITIONS } from './draft.js';
import { options } from './fields.js';

export const TERM_FIELDS = ['atMost', 'confirm', 'withoutWord', 'note'];

export function stepTerms(row, number, fields, on) {
    const { text, tick, told } = fields;
    const isAnyWrong = [...TERM_FIELDS, ...row.until.map((condition, index) => `until${index}`)].some(fields.isWrong);
    const wait = row.confirm ? 'Wait for it' : 'Be on the way, or wait for an early end,';
    return html`<details ?open=${row.isOpen || isAnyWrong} @toggle=${toggled => on.open(toggled.target.open)}>
        <summary>${summary(row)}</summary>
        <div class="stack tight">
            ${row.until.map((condition, index) => conditionLine(condition, index, number, fields, on))}
            <div class="acts"><button type="button" class="light" @click=${on.addCondition}>
                ${row.until.length ? 'Or until something else' : 'End early when …'}</button></div>
            ${tick('confirm', 'at its end wait for my word')}
            <p class="fill">${wait} at most ${text('atMost', 'Longest wait', '', 'no limit')}</p>
            ${told('atMost')}
            ${row.confirm ? tick('withoutWord', 'then go on without it') : nothing}
            ${told('confirm')}${told('withoutWord')}
            <p class="fill"><span aria-hidden="true">Note</span> ${text('note', 'Note', 'name')}</p>
            ${told('note')}
        </div>
    </details>`;
}

function summary(row) {
    const said = [
        row.until.length ? 'ends early' : '',
        row.confirm ? 'waits for your word' : '',
        row.atMost.trim() ? `at most ${row.atMost}` : '',
        row.note.trim() ? 'note' : '',
    ].filter(Boolean).join(', ');
    return said ? `Also: ${said}` : 'Ends early, waits, note';
}

function conditionLine({ kind, value }, index, number, { isWrong, told, id }, on) {
    const name = `until${index}`;
    return html`<p class="fill">or until
            <label class="in"><span class="sr">Condition ${index + 1} of step ${number}</span>
                <select @change=${chosen => on.condition(index, { kind: chosen.target.value, value })}>
                    ${options(CONDITIONS, kind)}</select></label>
            <label class="in"><span class="sr">Value of condition ${index + 1} of step ${number}</span>
                <input .value=${live(value)} aria-invalid=${isWrong(name) ? 'true' : 'false'}
                    aria-describedby=${id(`${name}-wrong`)}
                    @input=${typing => on.condition(index, { kind, value: typing.target.value })}></label>
            <button type="button" class="light" @click=${() => on.condition(index, undefined)}>Take out</button></p>
        ${told(name)}`;
}
