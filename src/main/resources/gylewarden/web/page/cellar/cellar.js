// Every chamber in an entry each, and above them the sentence that answers whether all is right.

import { freshness, house, latest } from '../board/house.js';
import { html, nothing, repeat } from '../library.js';
import { dayAndTime } from '../words/moments.js';
import { figures } from '../words/figures.js';
import { conditions, needingAPerson, next, notSaved, sentence } from '../words/state.js';
import { batches } from './batches.js';
import { firstSteps } from './first-steps.js';
import { lastDay } from './last-day.js';

export function cellar() {
    const names = batches();
    const days = new Map();
    return {
        title: () => 'Cellar',
        view: () => html`
            <div class="title"><h1>Cellar</h1>
                <p class="say">${summary()}</p>
                ${asOf(latest())}</div>
            ${isEmpty() ? firstSteps() : nothing}
            ${repeat(inOrderOfNeed(), ({ id }) => id, chamber => entry(chamber, names, dayOf(chamber.id, days)))}`,
    };
}

const isEmpty = () => house.isLoaded && house.isReachable && house.chambers.size === 0;

const asOf = at => (at ? html`<p class="soft"><time datetime=${at}>${dayAndTime(at)}</time></p>` : nothing);

function dayOf(id, days) {
    if (!days.has(id)) days.set(id, lastDay(id));
    return days.get(id);
}

function inOrderOfNeed() {
    const all = [...house.chambers.values()].map(known => known.status);
    return all.sort((one, other) => Number(needsYou(other)) - Number(needsYou(one)));
}

const needsYou = chamber => needingAPerson(chamber).length > 0 || chamber.saved === false;

function summary() {
    if (!house.isLoaded) return house.isReachable ? 'Asking the board.' : 'The board does not answer.';
    if (!house.isReachable) return 'Nobody knows: the board does not answer.';
    const all = [...house.chambers.values()].map(known => known.status);
    if (all.length === 0) return 'Nothing is controlled yet: the config names no chamber.';
    const need = all.filter(needsYou);
    const others = all.filter(chamber => !needsYou(chamber));
    const old = others.filter(chamber => freshness(chamber.id) !== 'alive');
    const waiting = others.filter(chamber => !old.includes(chamber) && chamber.step?.waitsForWord);
    const right = others.length - old.length - waiting.length;
    return [
        right > 0 ? count(right, 'is all right', 'are all right') : '',
        waiting.length > 0 ? count(waiting.length, 'waits for your word', 'wait for your word') : '',
        old.length > 0 ? count(old.length, 'has said nothing for a while', 'have said nothing for a while') : '',
        need.length > 0 ? count(need.length, 'needs you', 'need you') : '',
    ].filter(Boolean).join(' ');
}

function count(number, one, many) {
    const words = ['No', 'One', 'Two', 'Three', 'Four', 'Five', 'Six', 'Seven', 'Eight', 'Nine'];
    return `${words[number] ?? number} ${number === 1 ? `chamber ${one}` : `chambers ${many}`}.`;
}

function ring({ alarms }) {
    if (!alarms) return nothing;
    return html`<p><a href="/alarms">${alarms === 1 ? 'one alarm waits' : `${alarms} alarms wait`} for you</a></p>`;
}

function entry(chamber, names, day) {
    const state = freshness(chamber.id);
    return html`<section class="entry ${state === 'alive' ? '' : 'is-old'}" aria-labelledby="c-${chamber.id}">
        <div class="by"><h2 id="c-${chamber.id}"><a href="/chamber/${chamber.id}">${chamber.name}</a></h2>
            <p>${names.line(chamber)}</p>${ring(chamber)}</div>
        <div class="stack">
            ${notSaved(chamber)}
            ${conditions(chamber)}
            ${sentence(chamber)}
            <div class="two">
                <div class="stack">${figures(chamber, state)}${next(chamber)}</div>
                ${day.view(chamber)}
            </div>
        </div>
    </section>`;
}
