// The last day of a chamber as a small line, with its relays beneath.

import { freshness } from '../board/house.js';
import { redraw } from '../board/redraw.js';
import { get } from '../board/server.js';
import { html, nothing, svg } from '../library.js';
import { timeOfDay } from '../words/moments.js';
import { temperature } from '../words/scale.js';

const DAY_MS = 86_400_000;
const POINTS = 200;
/** Of the board's time, so that a demonstration faster than real time keeps up. */
const ASK_AGAIN_AFTER_MS = 5 * 60_000;
const ASK_AT_MOST_EVERY_MS = 5_000;
const WIDTH = 1000;
const HEIGHT = 300;
const STRIP = 50;

export function lastDay(id) {
    let readings;
    let askedUntil = -Infinity;
    let askedAt = -Infinity;

    async function ask(until) {
        askedUntil = until;
        askedAt = performance.now();
        const from = new Date(until - DAY_MS).toISOString();
        const to = new Date(until).toISOString();
        try {
            readings = await get(`/api/chambers/${id}/readings?from=${from}&to=${to}&points=${POINTS}`);
        } catch {
            // The line before stays as it is; the frame says that the board does not answer.
        }
        redraw();
    }

    return {
        view(chamber) {
            const now = Date.parse(chamber.asOf);
            const isDue = now - askedUntil > ASK_AGAIN_AFTER_MS || now < askedUntil;
            if (isDue && performance.now() - askedAt > ASK_AT_MOST_EVERY_MS) ask(now);
            if (!readings) return html`<figure class="day-figure"></figure>`;
            return figure(readings, askedUntil, freshness(id) === 'alive');
        },
    };
}

function figure(readings, until, isAlive) {
    const beer = readings.beer?.mean ?? [];
    const seen = beer.filter(value => value !== null);
    if (seen.length === 0)
        return html`<figure class="day-figure">
            <figcaption class="soft">No reading of the beer in the last day.</figcaption></figure>`;
    const times = readings.at.map(at => Date.parse(at));
    const low = Math.min(...seen);
    const high = Math.max(...seen);
    const all = [...seen, ...(readings.setpoint ?? []).filter(value => value !== null)];
    const bottom = Math.min(...all) - 0.5;
    const top = Math.max(...all) + 0.5;
    const x = at => ((at - (until - DAY_MS)) / DAY_MS) * WIDTH;
    const y = celsius => HEIGHT - ((celsius - bottom) / (top - bottom)) * HEIGHT;
    const words = `The last day: ${temperature(low)} to ${temperature(high)}`;
    return html`<figure class="day-figure">
        <div class="day" role="img" aria-label=${words}>
            <svg viewBox="0 0 ${WIDTH} ${HEIGHT + STRIP + 10}" preserveAspectRatio="none">
                <rect class="sheet" width=${WIDTH} height=${HEIGHT}/>
                <path class="set" d=${path(times, readings.setpoint ?? [], x, y)}/>
                <path class="beer" d=${path(times, beer, x, y)}/>
                ${strip(times, readings, x)}
            </svg>
            <p class="day-times">
                <span>${timeOfDay(until - DAY_MS)}</span>
                <span>${timeOfDay(until - DAY_MS / 2)}</span>
                <span>${isAlive ? 'now' : timeOfDay(until)}</span>
            </p>
        </div>
        <figcaption class="soft">${words}</figcaption>
    </figure>`;
}

function path(times, values, x, y) {
    let d = '';
    let isDown = false;
    values.forEach((value, index) => {
        if (value !== null) d += `${isDown ? 'L' : 'M'}${x(times[index]).toFixed(1)} ${y(value).toFixed(1)}`;
        isDown = value !== null;
    });
    return d;
}

function strip(times, { cooling, heating }, x) {
    const middle = HEIGHT + 10 + STRIP / 2;
    const bars = (values, up) => (values ?? []).map((fraction, index) => {
        if (!fraction) return '';
        const from = x(times[index]).toFixed(1);
        const to = x(times[index + 1] ?? times[index] + DAY_MS / POINTS).toFixed(1);
        const height = (STRIP / 2) * Math.max(0.15, fraction);
        const end = (up ? middle - height : middle + height).toFixed(1);
        return `M${from} ${middle}H${to}V${end}H${from}Z`;
    }).join('');
    return svg`${heating ? svg`<path class="heat" d=${bars(heating, true)}/>` : nothing}
        ${cooling ? svg`<path class="cool-bars" d=${bars(cooling, false)}/>` : nothing}
        <path class="mid" d="M0 ${middle}H${WIDTH}"/>`;
}
