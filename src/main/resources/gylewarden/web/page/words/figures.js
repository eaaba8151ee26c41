// Beer, setpoint, air: a number is ink while it is alive and pencil when it is not.

import { html, nothing } from '../library.js';
import { momentSeenFrom, timeOfDay } from './moments.js';
import { degrees, digits, temperature, unit } from './scale.js';

export function figures(chamber, freshness) {
    return html`<dl class="figures">
        ${main(chamber, freshness)}
        ${setpoint(chamber, freshness)}
        ${beside('Second probe', chamber.secondBeer, chamber, freshness)}
        ${beside('Air', chamber.air, chamber, freshness)}
        ${beside('Room', chamber.room, chamber, freshness)}
        ${(chamber.watched ?? []).map(probe => beside(probe.id, probe, chamber, freshness))}
    </dl>`;
}

function main(chamber, freshness) {
    const { value, at, isAlive } = lastKnown(chamber.beer, freshness);
    return html`<div class="main ${isAlive ? '' : 'was'}">
        <dt>${label('Beer', at, chamber, isAlive)}</dt>
        <dd>${value === undefined ? 'not known'
            : html`<b class="value">${digits(degrees(value))}</b><span>${unit()}</span>`}</dd>
    </div>`;
}

function setpoint({ setpointCelsius }, freshness) {
    if (setpointCelsius === undefined) return html`<div><dt>Setpoint</dt><dd>none</dd></div>`;
    return html`<div class=${freshness === 'alive' ? '' : 'was'}><dt>Setpoint</dt>
        <dd><b class="value">${temperature(setpointCelsius)}</b></dd></div>`;
}

function beside(name, reading, chamber, freshness) {
    if (!reading) return nothing;
    const { value, at, isAlive } = lastKnown(reading, freshness);
    return html`<div class=${isAlive ? '' : 'was'}><dt>${label(name, at, chamber, isAlive)}</dt>
        <dd>${value === undefined ? 'not known' : html`<b class="value">${temperature(value)}</b>`}</dd></div>`;
}

function lastKnown(reading, freshness) {
    if (!reading) return { isAlive: false };
    if (reading.doubt) return { value: reading.lastGoodCelsius, at: reading.lastGoodAt, isAlive: false };
    return { value: reading.celsius, at: reading.at, isAlive: freshness === 'alive' };
}

function label(name, at, { asOf }, isAlive) {
    if (isAlive || !at) return name;
    const moment = momentSeenFrom(at, asOf);
    const word = moment === timeOfDay(at) ? 'at ' : '';
    return html`${name} was, ${word}<time datetime=${at}>${moment}</time>`;
}
