// Starting a batch: a name, a schedule, a pitching temperature.

import { ask, chamber as chamberOf, house } from '../board/house.js';
import { redraw } from '../board/redraw.js';
import { get, post } from '../board/server.js';
import { html, nothing } from '../library.js';
import { celsiusFrom } from '../words/typed.js';
import { told } from '../words/deed.js';
import { momentSeenFrom } from '../words/moments.js';
import { editable, temperature } from '../words/scale.js';
import { placed } from './draft.js';
import { noHastyEnter, scheduleRows } from './rows.js';

/** A plain ale; common practice, no source. Every field can be changed. */
const FIRST_STEPS = [
    { kind: 'hold', celsius: 18, duration: 'P4D' },
    { kind: 'rise', celsius: 20, kelvinPerDay: 1 },
    { kind: 'rest', celsius: 20, duration: 'P3D', confirm: true },
    { kind: 'crash', celsius: 3, kelvinPerHour: 0.5, duration: 'P2D' },
];

const THINK_MS = 400;

export function startRoom(id) {
    let name = '';
    let pitchAt = editable(FIRST_STEPS[0].celsius);
    let isPitched = false;
    let mistakes = [];
    let fieldMistakes = {};
    let trouble = '';
    let earlier = [];
    let isBusy = false;
    let tried;
    let timer;
    let asking;
    const rows = scheduleRows(() => {
        mistakes = rows.read().mistakes;
        checkSoon();
        redraw();
    });
    rows.begin(FIRST_STEPS);
    const anew = () => {
        const { value } = celsiusFrom(pitchAt);
        if (value !== undefined) pitchAt = editable(value);
        rows.reword();
        checkSoon();
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

    const pitchRead = () => (pitchAt.trim() ? celsiusFrom(pitchAt) : {});

    function body(steps, pitch) {
        const asked = { name: name.trim() || 'not named yet', chamberId: id, schedule: { steps } };
        if (isPitched) return { ...asked, pitched: true };
        return pitch.value === undefined ? asked : { ...asked, pitchCelsius: pitch.value };
    }

    function checkSoon() {
        clearTimeout(timer);
        asking?.abort();
        timer = setTimeout(check, THINK_MS);
    }

    /** The board tries it: what it can't take is said while it is typed, and what it comes to. Nothing begins. */
    async function check() {
        const { steps, mistakes: unread } = rows.read();
        asking = new AbortController();
        try {
            tried = (await post('/api/batches?dryRun=true', body(steps, pitchRead()), asking.signal)).data;
            mistakes = unread;
            fieldMistakes = { ...fieldMistakes, pitchCelsius: pitchRead().mistake ?? '' };
            trouble = '';
        } catch (failure) {
            if (failure.name === 'AbortError') return;
            tried = undefined;
            take(failure, unread);
        }
        redraw();
    }

    async function start(submit) {
        submit.preventDefault();
        clearTimeout(timer);
        asking?.abort();
        const read = rows.read();
        const pitch = pitchRead();
        mistakes = read.mistakes;
        fieldMistakes = { name: name.trim() ? '' : 'A batch needs a name.', pitchCelsius: pitch.mistake ?? '' };
        if (mistakes.length || fieldMistakes.name || fieldMistakes.pitchCelsius || isBusy) {
            redraw();
            return;
        }
        isBusy = true;
        trouble = '';
        try {
            await post('/api/batches', body(read.steps, pitch));
            await ask();
            rows.begin([]);
            dispatchEvent(new CustomEvent('gylewarden:go', { detail: `/chamber/${id}` }));
        } catch (failure) {
            take(failure);
        }
        isBusy = false;
        redraw();
    }

    function take(failure, unread = []) {
        if (!failure.errors?.length) {
            trouble = failure.message;
            return;
        }
        const ofSteps = failure.errors.filter(({ field }) => /^(schedule\.)?steps/.test(field));
        const inRows = ofSteps.map(error => ({ ...error, field: error.field.replace(/^schedule\./, '') }));
        const isNew = ({ index, field }) => !unread.some(other => other.index === index && other.field === field);
        mistakes = [...unread, ...placed(inRows, rows.rows()).filter(isNew)];
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
                ${input('pitchCelsius', '', pitchAt, typed => { pitchAt = typed; checkSoon(); })}</label> for pitching.</p>
            ${wrong('pitchCelsius')}
            <p><label class="tick"><input type="checkbox" .checked=${isPitched} @change=${tick}>
                The yeast is pitched already.</label></p>`;
    }

    function tick(changed) {
        isPitched = changed.target.checked;
        checkSoon();
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
                ${section('steps', 'Schedule', html`${copies()}${rows.view(mistakes, { when })}`)}
                ${section('go', 'Start', html`
                    <div class="acts"><button class="first" ?disabled=${isBusy}>Start the batch</button></div>
                    <p>${whatComes()}</p>
                    <div role="status">${trouble ? html`<p class="mistake">${trouble}</p>` : nothing}</div>`)}
            </form>`;
    }

    /** When a step begins, or the first one ends, by the board's reckoning. */
    function when(index) {
        const step = tried?.plan[index];
        if (!step) return '';
        const [word, at] = index === 0 ? ['until', step.endsAt] : ['from', step.startsAt];
        return at ? `${word} ${momentSeenFrom(at, chamberOf(id)?.asOf)}` : 'nobody can say when';
    }

    function whatComes() {
        const first = isPitched ? 'The first step begins at once.'
            : 'The chamber begins with the pitching temperature at once.';
        if (!tried) return first;
        const dates = isPitched ? '' : ' The dates beside the steps are as if the yeast were pitched now.';
        if (!tried.decides) return `Nothing changes for the chamber: another batch decides in it.${dates}`;
        return html`${first} ${tried.setpointCelsius === undefined ? nothing
            : html`<b>The setpoint is ${temperature(tried.setpointCelsius)} then.</b>`}${dates}`;
    }

    learn();
    checkSoon();
    return {
        title: () => 'Start a batch',
        view,
        leave() {
            clearTimeout(timer);
            asking?.abort();
            removeEventListener('gylewarden:scale', anew);
        },
    };
}

function section(id, name, content) {
    return html`<section class="entry" aria-labelledby="h-${id}"><div class="by"><h2 id="h-${id}">${name}</h2></div>
        <div class="stack">${content}</div></section>`;
}
