// One step as a sentence with fields in it.

import { html, live, nothing } from '../library.js';
import { CONDITIONS, isRamp, KINDS } from './draft.js';
import { secondsFrom } from '../words/typed.js';

/**
 * @param row of the draft
 * @param place {index, isFirst, isLast, isRunning, when}
 * @param mistakes those of this row, each {field, message}
 * @param on {change(field, value), move(by), double(), remove(), condition(number, changed), addCondition(), open(isOpen)}
 */
export function stepRow(row, place, mistakes, on) {
    const number = place.index + 1;
    const id = name => `s${row.key}-${name}`;
    const wrong = name => mistakes.filter(mistake => mistake.field === name);
    const input = (name, label, look = '', placeholder = '') => html`<label class="in"><span class="sr">${label} of step ${number}</span>
        <input id=${id(name)} class=${look} .value=${live(row[name])} placeholder=${placeholder} autocomplete="off" spellcheck="false"
            aria-invalid=${wrong(name).length ? 'true' : 'false'} aria-describedby=${id(name + '-wrong')}
            @input=${typing => on.change(name, typing.target.value)}></label>`;
    const told = name => html`<span id=${id(name + '-wrong')}>${wrong(name).map(({ message }) => html`<span class="mistake">${message}</span>`)}</span>`;
    const names = ['kind', 'celsius', 'pace', 'duration', 'atMost', 'confirm', 'withoutWord', 'note', ...row.until.map((condition, index) => `until${index}`)];
    const elsewhere = mistakes.filter(mistake => !names.includes(mistake.field));
    return html`<li class=${place.isRunning ? 'now' : ''}>
        <span class="no">${number}</span>
        <div>
            <p class="fill"><label class="in"><span class="sr">Kind of step ${number}</span>
                <select id=${id('kind')} ?disabled=${place.isRunning} @change=${chosen => on.change('kind', chosen.target.value)}>
                    ${Object.entries(KINDS).map(([kind, words]) => html`<option value=${kind} ?selected=${kind === row.kind}>${words}</option>`)}
                </select></label>
                ${sentence(row, input)}</p>
            ${['kind', 'celsius', 'pace', 'duration'].map(told)}
            ${elsewhere.map(({ message }) => html`<p class="mistake">${message}</p>`)}
            ${place.when ? html`<span class="when">${place.when}</span>` : nothing}
            ${more(row, number, input, told, wrong, on, id)}
            ${place.isRunning ? nothing : acts(number, place, on)}
        </div>
    </li>`;
}

function sentence(row, input) {
    const time = (placeholder = '') => input('duration', 'Time', '', placeholder);
    if (isRamp(row)) {
        const isTime = secondsFrom(row.pace).value !== undefined;
        return html`to ${input('celsius', 'Temperature')} ${isTime ? 'over' : 'at'} ${input('pace', 'Pace or time', 'long', '1.0 °C a day')}`;
    }
    if (row.kind === 'crash')
        return html`to ${input('celsius', 'Temperature')} at ${input('pace', 'Pace', 'long', 'at once')} then ${time('0 h')}`;
    if (row.kind === 'rest')
        return html`at ${input('celsius', 'Temperature')} for ${time('0 h')} <span class="soft">counted once the beer is there</span>`;
    return html`at ${input('celsius', 'Temperature')} for ${time('until its end')}`;
}

function more(row, number, input, told, wrong, on, id) {
    const said = [
        row.until.length ? 'ends early' : '', row.confirm ? 'waits for your word' : '', row.atMost.trim() ? `at most ${row.atMost}` : '',
        row.note.trim() ? 'note' : '',
    ].filter(Boolean).join(', ');
    return html`<details ?open=${row.isOpen} @toggle=${toggled => on.open(toggled.target.open)}>
        <summary>${said ? `Also: ${said}` : 'Ends early, waits, note'}</summary>
        <div class="stack tight">
            ${row.until.map((condition, index) => conditionLine(condition, index, number, told, wrong, on))}
            <div class="acts"><button type="button" class="light" @click=${on.addCondition}>${row.until.length ? 'Or until something else' : 'End early when …'}</button></div>
            <p class="fill"><label class="tick"><input type="checkbox" .checked=${live(row.confirm)}
                @change=${ticked => on.change('confirm', ticked.target.checked)}> at its end wait for my word</label></p>
            <p class="fill">${waitWords(row)} at most ${input('atMost', 'Longest wait', '', 'no limit')}</p>
            ${told('atMost')}
            ${row.confirm ? html`<p class="fill"><label class="tick"><input type="checkbox" .checked=${live(row.withoutWord)}
                @change=${ticked => on.change('withoutWord', ticked.target.checked)}> then go on without it</label></p>` : nothing}
            ${told('confirm')}${told('withoutWord')}
            <p class="fill"><label class="in wide">Note <input id=${id('note')} class="full" .value=${live(row.note)}
                @input=${typing => on.change('note', typing.target.value)}></label></p>
            ${told('note')}
        </div>
    </details>`;
}

const waitWords = row => (row.confirm ? 'Wait for it' : 'Be on the way, or wait for an early end,');

function conditionLine({ kind, value }, index, number, told, wrong, on) {
    return html`<p class="fill">or until <label class="in"><span class="sr">Condition ${index + 1} of step ${number}</span>
        <select @change=${chosen => on.condition(index, { kind: chosen.target.value, value })}>
            ${Object.entries(CONDITIONS).map(([id, words]) => html`<option value=${id} ?selected=${id === kind}>${words}</option>`)}
        </select></label>
        <label class="in"><span class="sr">Value of condition ${index + 1} of step ${number}</span>
            <input .value=${live(value)} aria-invalid=${wrong(`until${index}`).length ? 'true' : 'false'}
                @input=${typing => on.condition(index, { kind, value: typing.target.value })}></label>
        <button type="button" class="light" @click=${() => on.condition(index, undefined)}>Take out</button></p>
        ${told(`until${index}`)}`;
}

function acts(number, { isFirst, isLast }, on) {
    return html`<div class="acts">
        <button type="button" class="light" ?disabled=${isFirst} aria-label="Move step ${number} up" @click=${() => on.move(-1)}>Up</button>
        <button type="button" class="light" ?disabled=${isLast} aria-label="Move step ${number} down" @click=${() => on.move(1)}>Down</button>
        <button type="button" class="light" aria-label="Double step ${number}" @click=${on.double}>Double</button>
        <button type="button" class="light" aria-label="Take out step ${number}" @click=${on.remove}>Take out</button>
    </div>`;
}
