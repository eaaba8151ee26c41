// Draws a model on one time axis: ink left of now, pencil right of it, the relay strip beneath.

import { plotting } from '../library.js';
import { dayAndTime, dayName, dayOfMonth, timeOfDay } from '../words/moments.js';
import { digits, unit } from '../words/scale.js';
import { SERIES } from './chart-model.js';
import { drawNow, drawSheet, drawSteps, drawStrip, STRIP_HEIGHT } from './chart-marks.js';

const NARROW = 600;
const TOP = 44;
const DAY_SECONDS = 86_400;
const HINT = 'Point at the line to read it.';

/** A chart inside the element of this id, which may come and go with the drawing of the page. */
export function chartIn(id) {
    let chart;
    let shown;
    let library;
    let colours;
    let observer;

    async function show(model) {
        shown = model;
        library ??= plotting().catch(() => undefined);
        const Plot = await library;
        const place = document.getElementById(id);
        if (!Plot || !place || !shown) return;
        if (chart && (chart.root.parentNode !== place || chart.unit !== unit())) leaveChart();
        if (chart) chart.setData(shown.data, true);
        else make(Plot, place);
    }

    function make(Plot, place) {
        colours = coloursOf(place);
        chart = new Plot(options(place, () => shown, () => colours), shown.data, place);
        chart.unit = unit();
        observer = new ResizeObserver(() => chart?.setSize(sizeOf(place)));
        observer.observe(place);
        place.onkeydown = press => step(press);
    }

    function step(press) {
        const by = { ArrowLeft: -1, ArrowRight: 1 }[press.key];
        if (!by || !chart) return;
        press.preventDefault();
        const [times] = chart.data;
        const from = chart.cursor.idx ?? times.findLastIndex(at => at <= shown.now);
        const stride = Math.max(1, Math.round(times.length / 60));
        const to = Math.min(times.length - 1, Math.max(0, from + by * stride));
        chart.setCursor({ left: chart.valToPos(times[to], 'x'), top: 10 });
    }

    function repaint() {
        const place = document.getElementById(id);
        if (!chart || !place) return;
        colours = coloursOf(place);
        chart.redraw(false, true);
    }

    function leaveChart() {
        observer?.disconnect();
        chart?.destroy();
        chart = undefined;
    }

    const dark = matchMedia('(prefers-color-scheme: dark)');
    dark.addEventListener('change', repaint);
    return {
        show,
        leave() {
            dark.removeEventListener('change', repaint);
            leaveChart();
            shown = undefined;
        },
    };
}

const sizeOf = place => ({ width: place.clientWidth, height: place.clientWidth < NARROW ? 340 : 440 });

/** Lines take their colours from the same tokens as the words. */
function coloursOf(place) {
    const style = getComputedStyle(place);
    const names = ['ink', 'soft', 'pencil', 'rule', 'sheet', 'air', 'cool', 'heat'];
    const known = Object.fromEntries(names.map(name => [name, style.getPropertyValue(`--${name}`).trim()]));
    return { ...known, font: style.getPropertyValue('--num').trim() };
}

function options(place, model, colours) {
    const font = () => `12px ${colours().font}`;
    const marks = chart => ({ chart, model: model(), colours: colours(), isNarrow: place.clientWidth < NARROW });
    const line = (colour, width, more = {}) =>
        ({ stroke: () => colours()[colour], width, points: { show: false }, ...more });
    const looks = {
        airMin: line('air', 0), airMax: line('air', 0), air: line('air', 1),
        beerMin: line('ink', 0), beerMax: line('ink', 0), beer: line('ink', 2.25),
        setpoint: line('ink', 1),
        planned: line('pencil', 1.5, { dash: [5, 4] }),
        edited: line('ink', 2, { dash: [8, 3] }),
    };
    return {
        ...sizeOf(place),
        padding: [TOP, 28, 0, 0],
        legend: { show: false },
        cursor: { drag: { x: false, y: false }, y: false, points: { size: 7 } },
        scales: {
            x: { time: true, range: () => [model().from, model().to] },
            y: { range: (chart, low, high) => roomy(low, high) },
        },
        series: [{}, ...SERIES.map(name => ({ ...looks[name], label: name }))],
        bands: [band('airMax', 'airMin', () => colours().air), band('beerMax', 'beerMin', () => colours().ink)],
        axes: [
            {
                stroke: () => colours().soft, font: font(), size: STRIP_HEIGHT + 46, gap: STRIP_HEIGHT + 10,
                grid: { stroke: () => colours().rule, width: 1 }, ticks: { show: false }, space: 64,
                values: (chart, splits, axis, space, increment) => splits.map(at => label(at * 1000, increment)),
            },
            {
                stroke: () => colours().soft, font: font(), size: 44, gap: 4,
                grid: { stroke: () => colours().rule, width: 1 }, ticks: { show: false },
                values: (chart, splits) => splits.map(value => degreesOnAxis(value, splits)),
            },
        ],
        hooks: {
            drawClear: [chart => drawSheet(marks(chart))],
            draw: [chart => {
                drawStrip(marks(chart));
                drawSteps(marks(chart));
                drawNow(marks(chart));
            }],
            setCursor: [chart => {
                document.getElementById(`${place.id}-words`).textContent = readOut(chart) ?? HINT;
            }],
        },
    };
}

function band(upper, lower, colour) {
    const index = name => SERIES.indexOf(name) + 1;
    return { series: [index(upper), index(lower)], fill: () => `color-mix(in srgb, ${colour()} 22%, transparent)` };
}

/** At least four degrees, so that steady beer looks steady. */
function roomy(low, high) {
    if (low === null || high === null) return [0, 25];
    const missing = Math.max(0, 4 - (high - low)) / 2;
    const margin = 0.06 * (high - low);
    return [low - missing - margin, high + missing + margin];
}

function degreesOnAxis(value, splits) {
    const isWhole = splits.every(split => Number.isInteger(split));
    return `${isWhole ? String(value).replace('-', '−') : digits(value)}°`;
}

function label(at, increment) {
    const isMidnight = timeOfDay(at) === '00:00';
    if (increment >= DAY_SECONDS || isMidnight) return `${dayName(at)}\n${dayOfMonth(at)}`;
    return timeOfDay(at);
}

function readOut(chart) {
    const index = chart.cursor.idx;
    if (index === null || index === undefined) return undefined;
    const value = name => chart.data[SERIES.indexOf(name) + 1][index];
    const has = name => value(name) !== undefined && value(name) !== null;
    const said = name => `${digits(value(name))} ${unit()}`;
    const range = has('beerMin') && value('beerMax') - value('beerMin') >= 0.1
        ? ` (${digits(value('beerMin'))} to ${digits(value('beerMax'))})` : '';
    const parts = [
        has('beer') ? `beer ${said('beer')}${range}` : '',
        has('setpoint') ? `setpoint ${said('setpoint')}` : '',
        has('air') ? `air ${said('air')}` : '',
        has('planned') && !has('beer') ? `planned ${said('planned')}` : '',
        has('edited') ? `as edited ${said('edited')}` : '',
    ].filter(Boolean);
    return `${dayAndTime(chart.data[0][index] * 1000)}: ${parts.join(', ') || 'nothing was measured'}`;
}
