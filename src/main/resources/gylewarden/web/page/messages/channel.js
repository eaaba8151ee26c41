// One way to reach people.

import { latest } from '../board/house.js';
import { post, put } from '../board/server.js';
import { html, nothing } from '../library.js';
import { momentSeenFrom } from '../words/moments.js';

const FROM = { low: 'everything', middle: 'what needs somebody within hours, or sooner', high: 'what needs somebody now' };
const TURN = {
    first: 'at once',
    next: 'when nobody has seen something urgent for 30 min',
    secondPerson: 'when nobody has seen it for 2 h',
};

/** What carries no messages is tried in a way of its own. */
const TESTS = {
    relay: ['Let it blink', 'Three times, a second each. Go and see it.', 'It blinks now. Within seconds it says above whether the relay answered.'],
    heartbeat: ['Beat once', 'Then see that whoever waits for it has had it. None goes out while not all is well.',
        'A beat is on its way. Within seconds it says above whether it arrived.'],
};
const LETTER = ['Send a test', 'See that it arrives. Do it before you need it.',
    'A test is on its way. Within seconds it says above whether it arrived; look at your end too.'];

export const carriesMessages = ({ kind }) => !(kind in TESTS);

export function channel(known, deed) {
    const [button, sentence, done] = TESTS[known.kind] ?? LETTER;
    return html`
        <p class="say">${state(known)}</p>
        <ul class="deeds">${deed.said()}
            ${deed('test', button, sentence, () => test(known.name, done))}
            ${known.wishes ? deed('wishes', 'Save', wishes(known), form => save(known, form), 'tall') : nothing}
        </ul>`;
}

const at = moment => momentSeenFrom(moment, latest() ?? Date.now());

function state(known) {
    const { failing, waiting, testedAt, lastArrivedAt, lit } = known;
    const waits = waiting ? html` ${waiting === 1 ? 'One message waits.' : `${waiting} messages wait.`}` : nothing;
    if (failing) return html`<span class="tag soon">Does not work</span> Since ${at(failing.since)},
        ${failing.tries === 1 ? 'one try' : `${failing.tries} tries`} in vain: ${failing.why}${waits}`;
    if (lit !== undefined) return `${lit ? 'On now.' : 'Off now.'} ${testedAt ? `Blinked as a test ${at(testedAt)}.` : 'Not tested yet.'}`;
    if (known.kind === 'heartbeat') return [
        lastArrivedAt ? `The last beat arrived ${at(lastArrivedAt)}.` : 'No beat has arrived since the start.',
        testedAt ? `Tested ${at(testedAt)}.` : 'Not tested yet.',
    ].join(' ');
    const arrived = lastArrivedAt ? ` The last message arrived ${at(lastArrivedAt)}.` : '';
    const tested = testedAt ? `A test arrived ${at(testedAt)}.` : 'Not tested yet.';
    return html`${tested}${arrived}${waits}`;
}

function wishes(known) {
    const wish = known.wishes;
    const words = carriesMessages(known);
    const option = ([value, words], chosen) =>
        html`<option value=${value} ?selected=${value === chosen}>${words}</option>`;
    const choice = (name, label, words, chosen) => html`<label class="wish"><span>${label}</span>
        <select name=${name}>${Object.entries(words).map(each => option(each, chosen))}</select></label>`;
    return html`<span class="wishes">
        ${choice('from', words ? 'It is sent' : 'It is on for', FROM, wish.from)}
        ${words ? choice('turn', 'and that', TURN, wish.turn) : nothing}
        <span class="wish" role="group" aria-label="Quiet hours"><span>Quiet from</span>
            <span class="fill"><label class="in"><span class="sr">Quiet from</span>
            <input name="quietFrom" type="time" value=${wish.quiet?.from ?? ''}></label> to <label class="in">
            <span class="sr">Quiet to</span><input name="quietTo" type="time" value=${wish.quiet?.to ?? ''}></label></span>
            <small>Only what is urgent comes through then. Both empty: never.${zone(wish.quiet)}</small></span>
        ${words ? html`${choice('units', 'Temperatures in', { C: '°C', F: '°F' }, wish.units)}
        <label class="tick"><input type="checkbox" name="summary" ?checked=${wish.summary}>
            more than three at once as one message</label>` : nothing}
    </span>`;
}

const zone = quiet => (quiet?.zone ? ` By the clock of ${quiet.zone}.` : '');

async function test(name, done) {
    const { saved } = await post(`/api/channels/${name}/test`, {});
    return saved ? done : `${done} It is not on the disk yet: a restart would lose it.`;
}

async function save(known, form) {
    const from = form.get('quietFrom');
    const to = form.get('quietTo');
    if (Boolean(from) !== Boolean(to)) throw new Error('Quiet hours need both times, or none.');
    const quiet = from ? { from, to, zone: Intl.DateTimeFormat().resolvedOptions().timeZone } : null;
    const own = { from: form.get('from'), quiet };
    const ofMessages = { turn: form.get('turn'), units: form.get('units'), summary: form.has('summary') };
    await put(`/api/channels/${known.name}`, carriesMessages(known) ? { ...own, ...ofMessages } : own);
    return carriesMessages(known) ? 'Saved. It holds from the next message on.' : 'Saved. It holds from now on.';
}
