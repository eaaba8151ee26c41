// Steps as a person types them, and back. A draft's fields are texts; only what can be read becomes a schedule. Pure.

import { editableSpan } from '../words/moments.js';
import { editable, editableDifference } from '../words/scale.js';
import {
    celsiusFrom, isoOfSeconds, kelvinPerHourFrom, numberFrom, secondsFrom, secondsOfIso, thousandths,
} from '../words/typed.js';

let lastKey = 0;
export const newKey = () => ++lastKey;

export const KINDS = { hold: 'Hold', rise: 'Rise', fall: 'Fall', rest: 'Rest', crash: 'Cold crash' };

export const CONDITIONS = {
    gravityAtOrBelow: 'the gravity is at or below',
    attenuationAtLeast: 'the attenuation is at least',
    gravityStableFor: 'the gravity is stable for',
};

export const isRamp = ({ kind }) => kind === 'rise' || kind === 'fall';

/** The row as another kind of step; a time that was typed goes with it. */
export function asKind(row, kind) {
    const time = isRamp(row) && secondsFrom(row.pace).value !== undefined ? row.pace : row.duration;
    const changed = { ...row, kind, touched: new Set([...row.touched, 'kind']) };
    if (isRamp(changed)) return { ...changed, duration: '', pace: isRamp(row) ? row.pace : time };
    return { ...changed, duration: time, pace: kind === 'crash' && row.kind === 'crash' ? row.pace : '' };
}

/** Rows to type into, from the steps of a schedule. */
export const draftOf = steps => steps.map(rowOf);

export function rowOf(step) {
    const time = step.duration ? editableSpan(secondsOfIso(step.duration)) : '';
    const pace = step.kelvinPerDay ? `${editableDifference(step.kelvinPerDay)} a day`
        : step.kelvinPerHour ? `${editableDifference(step.kelvinPerHour)} an hour` : '';
    return {
        key: newKey(),
        kind: step.kind,
        celsius: editable(step.celsius),
        pace: isRamp(step) ? pace || time : pace,
        duration: isRamp(step) ? '' : time,
        until: (step.until ?? []).map(conditionOf),
        atMost: step.atMost ? editableSpan(secondsOfIso(step.atMost)) : '',
        confirm: step.confirm ?? false,
        withoutWord: step.withoutWord ?? false,
        note: step.note ?? '',
        written: step,
        touched: new Set(),
    };
}

function conditionOf(condition) {
    const [kind, value] = Object.entries(condition)[0];
    if (kind === 'attenuationAtLeast') return { kind, value: `${Math.round(value * 1000) / 10} %` };
    if (kind === 'gravityStableFor') return { kind, value: editableSpan(secondsOfIso(value)) };
    return { kind, value: value.toFixed(3) };
}

/**
 * What the rows say: {steps, mistakes}, each mistake {index, field, message}. Where a field can't be read, its value
 * from before stands in, so that the rest can be checked and shown; with mistakes the steps are not to be saved.
 */
export function read(rows) {
    const mistakes = [];
    const steps = rows.map((row, index) => readRow(row, (field, message) => mistakes.push({ index, field, message })));
    return { steps, mistakes };
}

function readRow(row, mistaken) {
    const take = (field, reader, into) => {
        if (!isTouched(row, field)) return;
        const { value, mistake } = reader(row[field]);
        if (mistake) mistaken(field, mistake);
        else into(value);
    };
    // What was not touched goes back as it came, so that opening a schedule never rounds it.
    const step = untouched(row);
    take('celsius', celsiusFrom, value => { step.celsius = value; });
    if (isRamp(row)) readPaceOrTime(row, step, mistaken);
    else readTime(row, step, mistaken);
    readTerms(row, step, mistaken);
    return step;
}

function untouched(row) {
    const keeps = !row.touched.has('kind');
    const { celsius, duration, kelvinPerDay, kelvinPerHour } = keeps ? row.written : {};
    const known = { kind: row.kind, celsius };
    if (duration) known.duration = duration;
    if (kelvinPerDay) known.kelvinPerDay = kelvinPerDay;
    if (kelvinPerHour) known.kelvinPerHour = kelvinPerHour;
    return known;
}

const isTouched = (row, field) => row.touched.has(field) || row.touched.has('kind');

function readPaceOrTime(row, step, mistaken) {
    if (!isTouched(row, 'pace')) return;
    const text = row.pace.trim();
    if (!text) {
        mistaken('pace', 'Write how fast, as 1.0 °C a day, or how long it may take, as 2 d.');
        return;
    }
    const time = secondsFrom(text);
    const pace = kelvinPerHourFrom(text);
    if (!time.value && !pace.value) {
        mistaken('pace', `“${text}” is no pace and no time. Write 1.0 °C a day, or 2 d.`);
        return;
    }
    delete step.duration;
    delete step.kelvinPerDay;
    if (time.value) step.duration = isoOfSeconds(time.value);
    else step.kelvinPerDay = thousandths(pace.value * 24);
}

function readTime(row, step, mistaken) {
    optional(row, 'duration', secondsFrom, mistaken, step, 'duration', isoOfSeconds);
    if (row.kind === 'crash') optional(row, 'pace', kelvinPerHourFrom, mistaken, step, 'kelvinPerHour', thousandths);
}

/** An empty field means that there is none. */
function optional(row, field, reader, mistaken, step, name, written) {
    if (!isTouched(row, field)) return;
    const { value, mistake } = row[field].trim() ? reader(row[field]) : {};
    if (mistake) {
        mistaken(field, mistake);
        return;
    }
    delete step[name];
    if (value !== undefined) step[name] = written(value);
}

function readTerms(row, step, mistaken) {
    const until = row.until.map((condition, number) =>
        readCondition(condition, message => mistaken(`until${number}`, message)));
    if (until.length) step.until = until;
    if (row.atMost.trim()) {
        const { value, mistake } = secondsFrom(row.atMost);
        if (mistake) mistaken('atMost', mistake);
        else step.atMost = isoOfSeconds(value);
    }
    if (row.confirm) step.confirm = true;
    if (row.confirm && row.withoutWord) step.withoutWord = true;
    if (row.note.trim()) step.note = row.note.trim();
}

function readCondition({ kind, value }, mistaken) {
    if (kind === 'gravityStableFor') {
        const time = secondsFrom(value);
        if (time.mistake) mistaken(time.mistake);
        return { [kind]: time.value ? isoOfSeconds(time.value) : value };
    }
    const found = /^(\d+(?:[.,]\d+)?)\s*(%?)$/.exec(value.trim());
    if (!found) {
        const needed = kind === 'gravityAtOrBelow' ? 'gravity. Write 1.012.' : 'share. Write 75 %.';
        mistaken(`“${value}” is no ${needed}`);
        return { [kind]: value };
    }
    return { [kind]: found[2] ? thousandths(numberFrom(found[1]) / 100) : numberFrom(found[1]) };
}

/** The board's mistakes, each put to the row and field that a person sees. */
export function placed(errors, rows) {
    return errors.map(({ field, message }) => {
        const found = /^steps\[(\d+)\](?:\.(\w+)(?:\[(\d+)\])?)?/.exec(field ?? '');
        if (!found) return { index: -1, field: '', message: `${field ? field + ' ' : ''}${message}` };
        const [, index, name = '', number] = found;
        return { index: Number(index), field: fieldOf(name, number, rows[index]), message: `This ${message}.` };
    });
}

function fieldOf(name, number, row) {
    if (name === 'until') return `until${number ?? 0}`;
    if (name === 'kelvinPerDay' || name === 'kelvinPerHour') return 'pace';
    if (name === 'duration' && row && isRamp(row)) return 'pace';
    return name;
}
