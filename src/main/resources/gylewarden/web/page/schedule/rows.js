// The rows of a schedule under edit: typing, moving, doubling, taking out, and taking back the last edit.

import { html, nothing, repeat } from '../library.js';
import { asKind, draftOf, newKey, read, rowOf } from './draft.js';
import { stepRow } from './step-row.js';

/** @param changed is called after each edit */
export function scheduleRows(changed) {
    let rows = [];
    let locked = 0;
    let before = [];
    let typingIn;

    const copy = row =>
        ({ ...row, until: row.until.map(condition => ({ ...condition })), touched: new Set(row.touched) });

    /** Typing on in the same field is one edit to take back. */
    function edit(doing, place) {
        if (!place || place !== typingIn) before = [...before.slice(-50), rows.map(copy)];
        typingIn = place;
        doing();
        changed();
    }

    function change(row, field, value) {
        edit(() => {
            if (field === 'kind') Object.assign(row, asKind(row, value));
            row[field] = value;
            row.touched.add(field);
        }, `${row.key} ${field}`);
    }

    function condition(row, number, changedTo) {
        edit(() => {
            row.until.splice(number, 1, ...(changedTo ? [changedTo] : []));
        }, changedTo ? `${row.key} until ${number}` : undefined);
    }

    const handlers = (row, index) => ({
        change: (field, value) => change(row, field, value),
        condition: (number, changedTo) => condition(row, number, changedTo),
        addCondition: () => edit(() => row.until.push({ kind: 'gravityAtOrBelow', value: '' })),
        open: isOpen => { row.isOpen = isOpen; },
        move: by => edit(() => rows.splice(index + by, 0, ...rows.splice(index, 1))),
        double: () => edit(() => rows.splice(index + 1, 0, { ...copy(row), key: newKey() })),
        remove: () => edit(() => rows.splice(index, 1)),
    });

    function add() {
        const last = rows.at(-1);
        const celsius = last ? read([{ ...last, touched: new Set(['kind']) }]).steps[0].celsius ?? 18 : 18;
        edit(() => rows.push(rowOf({ kind: 'hold', celsius, duration: 'P1D' })));
    }

    function takeBack() {
        rows = before.pop();
        typingIn = undefined;
        changed();
    }

    return {
        /** @param firstOpen how many steps, from the first on, can no longer be changed */
        begin(steps, firstOpen = 0) {
            rows = draftOf(steps);
            locked = firstOpen;
            before = [];
            typingIn = undefined;
        },
        /** Puts other steps in place of what follows the locked ones; can be taken back. */
        replace: steps => edit(() => {
            rows = [...rows.slice(0, locked), ...draftOf(steps.slice(locked))];
        }),
        /** In another unit the same steps read differently. */
        reword() {
            const { steps, mistakes } = read(rows);
            if (mistakes.length > 0) return;
            rows = steps.map((step, index) => ({ ...rowOf(step), key: rows[index].key, touched: rows[index].touched }));
        },
        read: () => read(rows),
        rows: () => rows,
        isEdited: () => before.length > 0,
        /**
         * @param mistakes each {index, field, message}
         * @param planned the plan that is saved, for the words of what is over
         * @param running the index of the current step
         * @param when says for an index when that step begins
         */
        view(mistakes, { planned = [], running = -1, when = () => '' }) {
            return html`<ol class="steps edit">
                ${repeat(rows, row => row.key, (row, index) => (index < locked
                    ? html`<li class="done"><span class="no">${index + 1}</span><div><p>${planned[index]?.sentence}</p>
                        <span class="when">Done; stays as it is.</span></div></li>`
                    : stepRow(row, {
                        index, isFirst: index <= Math.max(locked, running + 1), isLast: index === rows.length - 1,
                        isRunning: index === running, when: when(index),
                    }, mistakes.filter(mistake => mistake.index === index), handlers(row, index))))}
            </ol>
            ${mistakes.filter(({ index }) => index < 0).map(({ message }) => html`<p class="mistake">${message}</p>`)}
            <div class="acts"><button type="button" @click=${add}>Add a step</button>
                ${before.length ? html`<button type="button" @click=${takeBack}>
                    Take back the last edit</button>` : nothing}</div>`;
        },
    };
}

/** Enter in a field is how people end a number; a schedule is saved by its button alone. */
export function noHastyEnter(press) {
    if (press.key === 'Enter' && press.target.matches('input')) press.preventDefault();
}
