// Starting a batch: a name, a schedule, a pitching temperature.

import { ask, chamber as chamberOf, house } from '../board/house.js';
import { redraw } from '../board/redraw.js';
import { get, post } from '../board/server.js';
import { html, nothing } from '../library.js';
import { celsiusFrom } from '../words/typed.js';
import { told } from '../words/deed.js';
import { editable } from '../words/scale.js';
import { placed } from './draft.js';
import { noHastyEnter, scheduleRows } from './rows.js';

/** A plain ale; common practice, no source. Every field can be changed. */
const FIRST_STEPS = [
    { kind: 'hold', celsius: 18, duration: 'P4D' },
    { kind: 'rise', celsius: 20, kelvinPerDay: 1 },
    { kind: 'rest', celsius: 20, duration: 'P3D', confirm: true },
    { kind: 'crash', celsius: 3, kelvinPerHour: 0.5, duration: 'P2D' },
];

export function startRoom(id) {
    let name = '';
    let pitchAt = editable(FIRST_STEPS[0].celsius);
    let isPitched = false;
    let mistakes = [];
    let fieldMistakes = {};
    let trouble = '';
    let earlier = [];
    let isBusy = false;
    const rows = scheduleRows(() => {
        mistakes = rows.read().mistakes;
        redraw();
    });
    rows.begin(FIRST_STEPS);
    const anew = () => {
        const { value } = celsiusFrom(pitchAt);
        if (value !== undefined) pitchAt = editable(value);
        rows.reword();
        redraw();
    };
    addEventListener('gylewarden:scale', anew);

    async function learn() {
        try {
            earlier = await get('/api/batches');
        } catch {
            // Without earlier batches there is still the schedule in the fields.
        }
        redraw();
    }

    async function copyFrom(chosen) {
        if (!chosen.target.value) return;
        try {
            rows.replace((await get(`/api/batches/${chosen.target.value}/schedule`)).steps);
        } catch (failure) {
            trouble = failure.message;
            redraw();
        }
    }

    async function start(submit) {
        submit.preventDefault();
        const read = rows.read();
        const pitch = pitchAt.trim() ? celsiusFrom(pitchAt) : {};
        mistakes = read.mistakes;
        fieldMistakes = { name: name.trim() ? '' : 'A batch needs a name.', pitchCelsius: pitch.mistake ?? '' };
        if (mistakes.length || fieldMistakes.name || fieldMistakes.pitchCelsius || isBusy) {
            redraw();
            return;
        }
        isBusy = true;
        trouble = '';
        try {
            const body = { name: name.trim(), chamberId: id, schedule: { steps: read.steps } };
            if (pitch.value !== undefined && !isPitched) body.pitchCelsius = pitch.value;
            if (isPitched) body.pitched = true;
            await post('/api/batches', body);
            await ask();
            rows.begin([]);
            dispatchEvent(new CustomEvent('gylewarden:go', { detail: `/chamber/${id}` }));
        } catch (failure) {
            take(failure);
        }
        isBusy = false;
        redraw();
    }

    function take(failure) {
        if (!failure.errors?.length) {
            trouble = failure.message;
            return;
        }
        const ofSteps = failure.errors.filter(({ field }) => /^(schedule\.)?steps/.test(field));
        const inRows = ofSteps.map(error => ({ ...error, field: error.field.replace(/^schedule\./, '') }));
        mistakes = placed(inRows, rows.rows());
        for (const { field, message } of failure.errors) {
            if (field === 'name' || field === 'pitchCelsius') fieldMistakes[field] = told({ field, message });
            else if (!/steps/.test(field)) trouble = told({ field, message });
        }
    }

    const wrong = field =>
        (fieldMistakes[field] ? html`<p class="mistake" id="wrong-${field}">${fieldMistakes[field]}</p>` : nothing);
    const input = (field, look, value, into) => html`<input class=${look} .value=${value}
        aria-invalid=${fieldMistakes[field] ? 'true' : 'false'} aria-describedby="wrong-${field}"
        @input=${typing => into(typing.target.value)}>`;

    function names() {
        return html`
            <p class="fill"><label class="in wide">Name
                ${input('name', 'full', name, typed => { name = typed; })}</label></p>${wrong('name')}
            <p class="fill"><label class="in">Bring the wort to
                ${input('pitchCelsius', '', pitchAt, typed => { pitchAt = typed; })}</label> for pitching.</p>
            ${wrong('pitchCelsius')}
            <p><label class="tick"><input type="checkbox" .checked=${isPitched} @change=${tick}>
                The yeast is pitched already.</label></p>`;
    }

    function tick(changed) {
        isPitched = changed.target.checked;
        redraw();
    }

    function copies() {
        if (earlier.length === 0) return nothing;
        return html`<p class="fill"><label class="in">Take the steps of <select @change=${copyFrom}>
            <option value="">…</option>
            ${earlier.map(batch => html`<option value=${batch.id}>${batch.name}</option>`)}</select></label></p>`;
    }

    function view() {
        const chamber = chamberOf(id);
        if (!chamber) return html`<div class="title"><h1>Start a batch</h1>
            <p class="say">${house.isLoaded ? 'There is no such chamber.' : 'Asking the board.'}</p></div>`;
        return html`
            <div class="title"><p class="soft"><a href="/">Cellar</a> / <a href="/chamber/${id}">${chamber.name}</a></p>
                <h1>Start a batch in ${chamber.name}</h1>
                <p class="say">${chamber.batchId
                    ? 'Another batch decides in here; this one waits until you let it decide.'
                    : html`The chamber brings the wort to pitching temperature; the schedule’s time begins when you
                        say that the yeast is pitched.`}</p></div>
            <form novalidate autocomplete="off" @submit=${start} @keydown=${noHastyEnter}>
                ${section('name', 'Batch', names())}
                ${section('steps', 'Schedule', html`${copies()}${rows.view(mistakes, {})}`)}
                ${section('go', 'Start', html`
                    <div class="acts"><button class="first" ?disabled=${isBusy}>Start the batch</button></div>
                    <p>${isPitched ? 'The first step begins at once.'
                        : 'The chamber begins with the pitching temperature at once.'}</p>
                    <div role="status">${trouble ? html`<p class="mistake">${trouble}</p>` : nothing}</div>`)}
            </form>`;
    }

    learn();
    return { title: () => 'Start a batch', view, leave: () => removeEventListener('gylewarden:scale', anew) };
}

function section(id, name, content) {
    return html`<section class="entry" aria-labelledby="h-${id}"><div class="by"><h2 id="h-${id}">${name}</h2></div>
        <div class="stack">${content}</div></section>`;
}
