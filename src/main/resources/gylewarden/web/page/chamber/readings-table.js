// The readings of the time line as a table, in two dozen rows at most.

import { html } from '../library.js';
import { dayAndTime } from '../words/moments.js';
import { degrees, digits, unit } from '../words/scale.js';

const ROWS = 24;

export function table(readings) {
    const rows = rowsOf(readings);
    if (rows.length === 0) return html`<p class="soft">Nothing was measured in this stretch.</p>`;
    const hasAir = rows.some(row => row.air !== undefined);
    const columns = COLUMNS.filter(([name]) => hasAir || name !== 'Air');
    return html`<details><summary>The same as a table</summary>
        <div class="wide" tabindex="0" role="region" aria-label="Readings"><table class="num">
            <caption>Means in ${unit()}; relays in per cent of the time</caption>
            <thead><tr><th scope="col">From</th>
                ${columns.map(([name]) => html`<th scope="col">${name}</th>`)}</tr></thead>
            <tbody>${rows.map(row => html`<tr><th scope="row">${dayAndTime(row.at)}</th>
                ${columns.map(([, cell]) => html`<td>${cell(row)}</td>`)}</tr>`)}</tbody>
        </table></div></details>`;
}

const told = celsius => (celsius === undefined ? '' : digits(degrees(celsius)));
const share = fraction => (fraction === undefined ? '' : `${Math.round(fraction * 100)} %`);

const COLUMNS = [
    ['Beer', row => told(row.beer)],
    ['lowest', row => told(row.low)],
    ['highest', row => told(row.high)],
    ['Setpoint', row => told(row.setpoint)],
    ['Air', row => told(row.air)],
    ['Cooling', row => share(row.cooling)],
    ['Heating', row => share(row.heating)],
];

function rowsOf(readings) {
    const size = Math.ceil(readings.at.length / ROWS);
    const rows = [];
    for (let from = 0; from < readings.at.length; from += size) {
        const part = column => (column ?? []).slice(from, from + size).filter(value => value !== null);
        rows.push({
            at: readings.at[from],
            beer: mean(part(readings.beer?.mean)),
            low: extreme(Math.min, part(readings.beer?.min)),
            high: extreme(Math.max, part(readings.beer?.max)),
            setpoint: mean(part(readings.setpoint)),
            air: mean(part(readings.air?.mean)),
            cooling: mean(part(readings.cooling)),
            heating: mean(part(readings.heating)),
        });
    }
    return rows;
}

const mean = values => (values.length ? values.reduce((sum, value) => sum + value, 0) / values.length : undefined);
const extreme = (which, values) => (values.length ? which(...values) : undefined);
