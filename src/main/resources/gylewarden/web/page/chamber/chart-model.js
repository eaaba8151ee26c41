// Readings, plan and edited plan on one axis, in the reader's unit. Pure.

import { degrees } from '../words/scale.js';

/** A gap is told from thinning by this many usual distances. */
const GAP_IN_STEPS = 3.5;
export const SERIES = ['airMin', 'airMax', 'air', 'beerMin', 'beerMax', 'beer', 'setpoint', 'planned', 'edited'];

/** @param parts with moments in milliseconds: {readings?, chamber, plan?, edited?, from, to, now, isAlive} */
export function model({ readings, chamber, plan, edited, from, to, now, isAlive }) {
    const rows = new Map();
    const row = at => {
        if (!rows.has(at)) rows.set(at, {});
        return rows.get(at);
    };
    measured(readings, row);
    if (isAlive) present(chamber, readings, row, now);
    ahead(plan?.ahead, 'planned', row, now);
    ahead(edited?.ahead, 'edited', row, now);
    const times = [...rows.keys()].sort((one, other) => one - other);
    return {
        from: from / 1000, to: to / 1000, now: now / 1000,
        data: [times.map(at => at / 1000), ...SERIES.map(name => times.map(at => scaled(rows.get(at)[name])))],
        strip: strip(readings),
        steps: stepsOf(edited ?? plan),
    };
}

/** undefined is "no value of this line here", null is "nothing was measured": a break in the line. */
const scaled = value => (value === undefined || value === null ? value : degrees(value));

function measured(readings, row) {
    if (!readings) return;
    const times = readings.at.map(at => Date.parse(at));
    times.forEach((at, index) => {
        const into = row(at);
        for (const probe of ['air', 'beer']) {
            const columns = readings[probe];
            if (!columns) continue;
            into[probe] = columns.mean[index];
            into[`${probe}Min`] = columns.min[index];
            into[`${probe}Max`] = columns.max[index];
        }
        if (readings.setpoint) into.setpoint = readings.setpoint[index];
    });
    for (const at of gaps(times)) breakAt(row(at));
}

function gaps(times) {
    const distances = times.slice(1).map((at, index) => at - times[index]);
    if (distances.length === 0) return [];
    const usual = [...distances].sort((one, other) => one - other)[Math.floor(distances.length / 2)];
    return distances.flatMap((distance, index) => (distance > usual * GAP_IN_STEPS ? [times[index] + usual] : []));
}

function breakAt(into) {
    for (const name of SERIES.slice(0, 7)) into[name] = null;
}

/** The latest status, so that the line reaches to now between two askings. */
function present({ beer, air, setpointCelsius }, readings, row, now) {
    const last = readings?.at.length ? Date.parse(readings.at.at(-1)) : -Infinity;
    if (!readings || now <= last || now - last > 15 * 60_000 + (last - Date.parse(readings.at[0])) / 50) return;
    const into = row(now);
    if (beer?.celsius !== undefined) into.beer = into.beerMin = into.beerMax = beer.celsius;
    if (air?.celsius !== undefined) into.air = into.airMin = into.airMax = air.celsius;
    if (setpointCelsius !== undefined) into.setpoint = setpointCelsius;
}

function ahead(line, name, row, now) {
    if (!line) return;
    line.at.forEach((at, index) => {
        const moment = Date.parse(at);
        if (moment >= now - 60_000) row(Math.max(moment, now))[name] = line.setpointCelsius[index];
    });
}

function strip(readings) {
    if (!readings) return { at: [] };
    return { at: readings.at.map(at => Date.parse(at) / 1000), cooling: readings.cooling, heating: readings.heating };
}

const NAMES = { hold: 'hold', rise: 'rise to', fall: 'fall to', rest: 'rest', crash: 'crash to' };

function stepsOf(plan) {
    return (plan?.plan ?? []).filter(step => step.startsAt).map(step => {
        const { kind, celsius } = plan.steps[step.index] ?? {};
        return {
            at: Date.parse(step.startsAt) / 1000,
            number: String(step.index + 1),
            words: kind ? `${NAMES[kind]} ${degrees(celsius).toFixed(1)}` : '',
        };
    });
}
