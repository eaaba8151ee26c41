// Proves a chamber's wires with a person beside it: what to prepare, each relay's click, what is tried, what was found.

import { ask, chamber as chamberOf, freshness, house } from '../board/house.js';
import { redraw } from '../board/redraw.js';
import { get, post, remove } from '../board/server.js';
import { entry } from '../frame/entry.js';
import { html, nothing } from '../library.js';
import { deeds } from '../words/deed.js';
import { figures } from '../words/figures.js';
import { momentSeenFrom } from '../words/moments.js';

const ASK_AGAIN_MS = 2_000;

export function commissioningRoom(id) {
    const path = `/api/chambers/${id}/commissioning`;
    let known;
    let trouble = '';
    const deed = deeds(learn);

    async function learn() {
        try {
            known = await get(path);
            trouble = '';
        } catch (failure) {
            trouble = failure.message;
        }
        redraw();
    }

    const timer = setInterval(() => document.hidden || learn(), ASK_AGAIN_MS);
    addEventListener('gylewarden:scale', learn);
    learn();

    const begin = () => deed('begin', 'Begin', html`<label class="tick"><input type="checkbox" name="beside">
        I stand beside the chamber, the vessel holds water, and I hear each relay click</label>`, async form => {
        if (!form.has('beside')) throw new Error('Go to the chamber first, and say that you are there.');
        await post(path, { besideIt: true });
        await ask();
        return 'Begun. Listen.';
    }, 'tall');

    const answer = (key, button, words, right) => deed(key, button, words, async () => {
        await post(`${path}/click`, { side: known.side, right });
        return right ? 'It goes on by itself.' : 'Ended. Find the plug first.';
    });

    const end = () => deed('end', 'End it', 'What runs is released as soon as it may be, and nothing of it is kept.',
        async () => {
            await remove(path);
            await ask();
            return 'Ended.';
        });

    function question() {
        if (known.state !== 'asking' || known.answered) return nothing;
        const load = known.side === 'cooling' ? 'cooler' : 'heater';
        return html`${answer('right', 'Yes', `The ${load} came on, and nothing else did.`, true)}
            ${answer('wrong', 'No', 'Nothing came on, or something else, or both.', false)}`;
    }

    const isGoing = () => ['clicking', 'asking', 'trying'].includes(known?.state);

    function now(chamber) {
        return entry('now', 'Now', STATES[known.state], html`
            <p class="say">${known.sentence}</p>
            ${known.overAt ? html`<p>It is over by <time datetime=${known.overAt}>${momentSeenFrom(known.overAt, chamber.asOf)}</time>
                at the latest, if nothing has to wait. Nobody need be beside it from here on, but stay near: a wrong wire may
                leave a load running while everything is off.</p>` : nothing}
            ${figures(chamber, freshness(id))}
            <ul class="deeds">${deed.said()}${question()}${end()}</ul>`, freshness(id) === 'alive' ? '' : 'is-old');
    }

    function before() {
        if (!known.allowed) return entry('before', 'Before', '', html`<p>${known.sentence}</p>`);
        return html`${entry('before', 'Before', 'with water, before there is beer', PREPARE)}
            ${entry('plan', 'What happens', '', html`<ol class="bullets">${known.plan.map(step => html`<li>${step}</li>`)}</ol>
            <ul class="deeds">${deed.said()}
                ${known.hindrance ? html`<li><p class="caution">${known.hindrance}</p></li>` : begin()}</ul>`)}`;
    }

    return {
        title: () => 'Commissioning',
        view() {
            const chamber = chamberOf(id);
            if (!chamber || !known) return title(undefined, waiting(chamber, trouble));
            return html`${title(chamber, trouble || summary(known))}
                ${isGoing() ? now(chamber) : html`${found(known)}${before()}`}`;
        },
        leave() {
            clearInterval(timer);
            removeEventListener('gylewarden:scale', learn);
        },
    };
}

const STATES = { clicking: 'a relay is to click', asking: 'you are asked', trying: 'it goes on alone' };

const PREPARE = html`<p class="caution">Mains kills. Never work on wires alone, and never with a plug in. Relays rest open, every
        heater has a thermal cut-out, a residual-current device stands before all of it; local codes hold, and what they ask of
        licensed hands is theirs. See SAFETY.md.</p>
    <ul class="bullets">
        <li>Fill the vessel with water that has the room’s temperature, about as much as a batch.</li>
        <li>Beer probe: in a well, or taped under insulation below the surface, away from a belt. Never hanging in the air. Air
            probe: hanging free.</li>
        <li>Turn the appliance’s own knob to coldest, eco and holiday modes off. It has to run again by itself after its plug
            was out for five minutes.</li>
        <li>Close the door, and leave it closed for an hour.</li>
    </ul>`;

function title(chamber, words) {
    return html`<div class="title">
        <p class="soft"><a href="/">Cellar</a>${chamber ? html` / <a href="/chamber/${chamber.id}">${chamber.name}</a>` : nothing}</p>
        <h1>Commissioning</h1><p class="say">${words}</p></div>`;
}

function waiting(chamber, trouble) {
    if (trouble) return trouble;
    if (!chamber && house.isLoaded) return 'No such chamber. Chambers are named in the config.';
    return house.isReachable ? 'Asking the board.' : 'The board does not answer.';
}

function summary({ state, allowed, result }) {
    if (!allowed) return 'Not on this page.';
    if (state === 'none') return 'Proves every wire before beer is at stake. It takes an afternoon, most of it waiting.';
    if (state !== 'over') return 'Under way.';
    if (!result) return 'Ended before its verdict.';
    return result.passed ? 'Passed.' : 'Not passed.';
}

/** The last one since the board's program started. */
function found({ state, sentence, result }) {
    if (state !== 'over') return nothing;
    return entry('found', 'Found', '', html`${result && !result.passed ? nothing : html`<p>${sentence}</p>`}
        ${result ? html`<ul class="bullets">
            ${result.findings.map(each => html`<li><strong>${each.sentence}</strong> ${each.lookFirst}</li>`)}
            ${result.effects.map(words => html`<li>${words}</li>`)}
            ${result.notTold.map(words => html`<li class="soft">${words}</li>`)}</ul>` : nothing}`);
}

