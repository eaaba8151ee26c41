// What is drawn around the curves: the written-on sheet, the relay strip, the steps' names, the double line "now".

import { timeOfDay } from '../words/moments.js';

export const STRIP_HEIGHT = 48;
const HATCH_EVERY = 3;

const px = length => length * devicePixelRatio;

/** The library remembers which font and colour it set last, so a mark puts both back. */
function leavingNoTrace(mark) {
    return marks => {
        marks.chart.ctx.save();
        mark(marks);
        marks.chart.ctx.restore();
    };
}

const xOf = ({ chart }, at) => chart.valToPos(at, 'x', true);

/** What is past lies on a brighter sheet; what is ahead on the plain page. */
export const drawSheet = leavingNoTrace(marks => {
    const { chart, model, colours } = marks;
    const { left, top, width, height } = chart.bbox;
    const end = Math.min(left + width, Math.max(left, xOf(marks, model.now)));
    chart.ctx.fillStyle = colours.sheet;
    chart.ctx.fillRect(left, top, end - left, height + px(STRIP_HEIGHT + 4));
});

/** Heating stands solid above the line, cooling hangs lined below it; a full height is energised all the time. */
export const drawStrip = leavingNoTrace(marks => {
    const { chart, model, colours } = marks;
    const { ctx, bbox } = chart;
    const half = px(STRIP_HEIGHT / 2 - 6);
    const middle = bbox.top + bbox.height + px(STRIP_HEIGHT / 2 + 4);
    ctx.beginPath();
    ctx.rect(bbox.left, middle - half - 2, bbox.width, 2 * half + 4);
    ctx.clip();
    const { at } = model.strip;
    at.forEach((from, index) => {
        const to = at[index + 1] ?? from + (from - (at[index - 1] ?? from - 60));
        const [x, width] = [xOf(marks, from), Math.max(px(1), xOf(marks, to) - xOf(marks, from))];
        bar(ctx, x, width, middle, -half * (model.strip.heating?.[index] ?? 0), colours.heat, false);
        bar(ctx, x, width, middle, half * (model.strip.cooling?.[index] ?? 0), colours.cool, true);
    });
    ctx.fillStyle = colours.ink;
    const end = Math.min(bbox.left + bbox.width, xOf(marks, model.now));
    ctx.fillRect(bbox.left, middle - px(0.5), Math.max(0, end - bbox.left), px(1));
});

function bar(ctx, x, width, middle, height, colour, isLined) {
    if (!height) return;
    const tall = Math.sign(height) * Math.max(px(2), Math.abs(height));
    ctx.fillStyle = colour;
    if (!isLined) {
        ctx.fillRect(x, middle, width, tall);
        return;
    }
    for (let y = 0; y < tall; y += px(HATCH_EVERY)) ctx.fillRect(x, middle + y, width, px(1.6));
}

export const drawSteps = leavingNoTrace(marks => {
    const { chart, model, colours, isNarrow } = marks;
    const { ctx, bbox } = chart;
    const y = bbox.top - px(10);
    ctx.font = `${px(12)}px ${colours.font}`;
    ctx.textAlign = 'left';
    ctx.textBaseline = 'alphabetic';
    const current = model.steps.findLastIndex(step => step.at <= model.now);
    const isShown = (step, index) => step.at < model.to && (step.at >= model.from || index === current);
    const shown = model.steps.filter(isShown);
    shown.forEach((step, index) => {
        const x = Math.max(bbox.left, xOf(marks, step.at));
        const end = index + 1 < shown.length ? xOf(marks, shown[index + 1].at) : bbox.left + bbox.width;
        const words = isNarrow ? step.number : `${step.number} ${step.words}`;
        ctx.fillStyle = colours.rule;
        ctx.fillRect(x, y - px(12), px(1), px(22));
        ctx.fillStyle = step.at <= model.now ? colours.ink : colours.pencil;
        const fits = text => ctx.measureText(text).width + px(8) < end - x;
        const fitting = [words, step.number].find(fits);
        if (fitting) ctx.fillText(fitting, x + px(5), y);
    });
});

export const drawNow = leavingNoTrace(marks => {
    const { chart, model, colours } = marks;
    const { ctx, bbox } = chart;
    const x = xOf(marks, model.now);
    if (x < bbox.left || x > bbox.left + bbox.width) return;
    const words = `now, ${timeOfDay(model.now * 1000)}`;
    ctx.fillStyle = colours.ink;
    const height = bbox.height + px(STRIP_HEIGHT + 4 + 22);
    for (const beside of [-1.5, 1.5]) ctx.fillRect(x + px(beside) - px(0.5), bbox.top - px(22), px(1), height);
    ctx.font = `600 ${px(12)}px ${colours.font}`;
    const half = ctx.measureText(words).width / 2;
    ctx.textAlign = 'center';
    const rightmost = bbox.left + bbox.width - half + px(26);
    ctx.fillText(words, Math.min(rightmost, Math.max(bbox.left + half, x)), bbox.top - px(28));
});
