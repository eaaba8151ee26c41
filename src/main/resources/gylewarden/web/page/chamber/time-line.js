// The one time line of a chamber: which stretch is seen, and the readings for it. chart.js draws it.

import { freshness } from '../board/house.js';
import { redraw } from '../board/redraw.js';
import { get } from '../board/server.js';
import { html, nothing } from '../library.js';
import { chartIn } from './chart.js';
import { key } from './chart-key.js';
import { model } from './chart-model.js';
import { table } from './readings-table.js';

const HOUR_MS = 3_600_000;
/** A point for each pixel that a telephone has, and no more than a wall can show. */
const points = () => Math.min(700, innerWidth);
const ASK_AT_MOST_EVERY_MS = 5_000;
const RANGES = {
    day: { name: 'a day', back: 24 * HOUR_MS, ahead: 8 * HOUR_MS },
    twoDays: { name: 'two days', back: 48 * HOUR_MS, ahead: 24 * HOUR_MS },
    all: { name: 'all' },
};
const WITHOUT_A_BATCH_MS = 14 * 24 * HOUR_MS;

/** @param room whose batch and plan are drawn; an edited plan in `room.edited` is drawn as a second line */
export function timeLine(room, first = 'day') {
    let chosen = first;
    let readings;
    let askedAt = -Infinity;
    let askedUntil = -Infinity;
    let askedBatch;
    let trouble = '';
    const chart = chartIn(`plot-${room.id}`);

    const start = now => {
        const { back } = RANGES[chosen];
        if (back) return now - back;
        return room.batch ? Math.min(Date.parse(room.batch.createdAt), now - HOUR_MS) : now - WITHOUT_A_BATCH_MS;
    };

    async function learn(chamber) {
        const until = Date.parse(chamber.asOf);
        askedAt = performance.now();
        askedUntil = until;
        const [from, to] = [start(until), until].map(at => new Date(at).toISOString());
        const asked = chosen;
        askedBatch = room.batch?.id;
        // A batch that was moved brings its line along from the chambers that it was in.
        const of = askedBatch ? `batches/${askedBatch}` : `chambers/${chamber.id}`;
        try {
            const answer = await get(`/api/${of}/readings?from=${from}&to=${to}&points=${points()}`);
            if (asked === chosen && askedBatch === room.batch?.id) readings = answer;
            trouble = '';
        } catch (failure) {
            trouble = failure.message;
        }
        redraw();
    }

    function choose(range) {
        chosen = range;
        askedUntil = -Infinity;
        askedAt = -Infinity;
        redraw();
    }

    const end = (now, plan) => {
        const { ahead } = RANGES[chosen];
        if (ahead) return now + ahead;
        const last = [plan, room.edited].map(known => Date.parse(known?.ahead?.at?.at(-1) ?? '') || now);
        const furthest = Math.max(now, ...last);
        return furthest + 0.04 * (furthest - start(now));
    };

    const modelOf = chamber => {
        const now = Date.parse(chamber.asOf);
        return model({
            readings, chamber, plan: room.plan, edited: room.edited,
            from: start(now), to: end(now, room.plan), now, isAlive: freshness(chamber.id) === 'alive',
        });
    };

    return {
        view(chamber) {
            const now = Date.parse(chamber.asOf);
            const step = Math.max(60_000, (now - start(now)) / points());
            const isDue = now - askedUntil > step || now < askedUntil;
            const isOther = askedBatch !== room.batch?.id;
            if (isOther || (isDue && performance.now() - askedAt > ASK_AT_MOST_EVERY_MS)) learn(chamber);
            return html`
                <fieldset class="choice"><legend class="sr">Stretch of time</legend>
                    ${Object.entries(RANGES).map(([id, { name }]) => html`
                        <label><input type="radio" name="range-${room.id}" .checked=${chosen === id}
                            @change=${() => choose(id)}><span>${name}</span></label>`)}
                </fieldset>
                <figure>
                    <div class="bleed"><div id="plot-${room.id}" class="plot" tabindex="0" role="group"
                        aria-label="The time line. Arrow keys read it out; the table has the figures."></div></div>
                    <p class="readout" id="plot-${room.id}-words" aria-live="polite"></p>
                    <figcaption>${key(chamber, room)}</figcaption>
                </figure>
                ${trouble ? html`<p class="mistake">${trouble}</p>` : nothing}
                ${readings ? table(readings) : nothing}`;
        },
        drawn(chamber) {
            if (chamber) chart.show(modelOf(chamber));
        },
        leave: () => chart.leave(),
    };
}
