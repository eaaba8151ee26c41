// The demo's room in which things are broken on purpose. Asks the server for everything it shows; keeps nothing.

import { html, render, nothing } from '/lib/lit-html/3.2.0/lit-html.js';

const SPEEDS = [1, 10, 60, 300, 1200, 3600];
const EACH_MILLISECONDS = 5000;

const place = document.getElementById('knobs');
let told = { speed: 0, chambers: [] };
let chosen = new URLSearchParams(location.search).get('chamber');
let failure = '';

async function ask(method, path, body) {
    try {
        const reply = await fetch(path, {
            method,
            headers: body ? { 'Content-Type': 'application/json' } : {},
            body: body && JSON.stringify(body),
        });
        const answer = await reply.json();
        failure = reply.ok ? '' : answer.detail;
        return reply.ok ? answer : null;
    } catch {
        failure = 'The demo does not answer. Is it still running?';
        return null;
    }
}

async function look() {
    take(await ask('GET', '/demo/faults'));
}

function take(answer) {
    if (answer?.chambers) told = answer;
    draw();
}

async function turn(chamber, fault) {
    take(fault.since
        ? await ask('DELETE', `/demo/faults/${chamber.id}/${fault.id}`)
        : await ask('POST', '/demo/faults', { chamberId: chamber.id, fault: fault.id }));
}

async function quicken(speed) {
    await ask('PUT', '/demo/speed', { speed });
    await look();
}

function current() {
    return told.chambers.find(chamber => chamber.id === chosen) ?? told.chambers[0];
}

function draw() {
    const chamber = current();
    render(html`<div class="sheet">
        <header>
            <p class="soft"><a href="/">Cellar</a> / Breaking things</p>
            <h1>Break something, and see what becomes of the beer</h1>
            <p>Nothing here is real, and nothing can be harmed. Choose a chamber, break a part of it, and watch its page:
                the sentence, the relays, the log. Several things may be broken at once.</p>
            ${failure ? html`<p class="mistake" role="alert">${failure}</p>` : nothing}
        </header>
        ${chamber ? [pace(), choice(chamber), groups(chamber)] : nothing}
    </div>`, place);
}

function pace() {
    return html`<section class="group" aria-labelledby="pace">
        <h2 id="pace">How fast time passes</h2>
        <p class="acts">One of your seconds is
            <select aria-label="virtual seconds in one of yours" @change=${event => quicken(Number(event.target.value))}>
                ${[...new Set([...SPEEDS, told.speed])].sort((a, b) => a - b).map(speed => html`
                    <option value=${speed} ?selected=${speed === told.speed}>${inWords(speed)}</option>`)}
            </select> in the demo.</p>
    </section>`;
}

function inWords(seconds) {
    if (seconds < 60) return seconds === 1 ? '1 second' : `${seconds} seconds`;
    const minutes = Math.round(seconds / 6) / 10;
    return minutes === 1 ? '1 minute' : minutes === 60 ? '1 hour' : `${minutes} minutes`;
}

function choice(chamber) {
    return html`<section class="group" aria-labelledby="where">
        <h2 id="where">Where</h2>
        <div class="chambers">${told.chambers.map(each => html`
            <button type="button" aria-pressed=${each === chamber} @click=${() => choose(each)}>${each.name}</button>`)}
        </div>
        <p class="acts"><a href="/chamber/${chamber.id}" target="_blank">Open the page of ${chamber.name} beside this one</a></p>
    </section>`;
}

function choose(chamber) {
    chosen = chamber.id;
    history.replaceState({}, '', `?chamber=${chamber.id}`);
    draw();
}

function groups(chamber) {
    const names = [...new Set(chamber.faults.map(fault => fault.group))];
    return names.map(name => html`<section class="group">
        <h2>${name}</h2>
        ${chamber.faults.filter(fault => fault.group === name).map(fault => knob(chamber, fault))}
    </section>`);
}

function knob(chamber, fault) {
    const name = `${fault.group}: ${fault.title}`;
    return html`<div class="knob ${fault.since ? 'is-broken' : ''}">
        <div><button type="button" aria-label="${fault.since ? 'Put right' : 'Break'}. ${name}"
            @click=${() => turn(chamber, fault)}>${fault.since ? 'Put it right' : 'Break it'}</button></div>
        <div><h3>${fault.title}</h3>
            <p>${fault.expect}</p>
            ${fault.since ? html`<p class="soft">Since <time datetime=${fault.since}>${
                new Date(fault.since).toLocaleString()}</time>, in the demo's time.</p>` : nothing}</div>
    </div>`;
}

look();
setInterval(look, EACH_MILLISECONDS);
