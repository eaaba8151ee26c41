// The schedule of a batch: edited as sentences, checked by the board while it is typed, shown before it is saved.

import { ask, chamber as chamberOf } from '../board/house.js';
import { redraw } from '../board/redraw.js';
import { get, getWithTag, put } from '../board/server.js';
import { timeLine } from '../chamber/time-line.js';
import { html, nothing } from '../library.js';
import { momentSeenFrom } from '../words/moments.js';
import { conflict } from './conflict.js';
import { placed } from './draft.js';
import { earlierSaves } from './earlier-saves.js';
import { noHastyEnter, scheduleRows } from './rows.js';

const THINK_MS = 400;

export function scheduleRoom(id) {
    const path = `/api/batches/${id}/schedule`;
    const room = { id: `schedule-${id}`, batch: undefined, plan: undefined, edited: undefined };
    let tag;
    let mistakes = [];
    let answer = '';
    let trouble = '';
    let clash;
    let isSaving = false;
    let timer;
    let checking;
    const rows = scheduleRows(() => {
        answer = '';
        checkSoon();
        redraw();
    });
    const line = timeLine(room, 'all');
    const saves = earlierSaves(id, steps => rows.replace(steps));
    const chamber = () => room.batch && chamberOf(room.batch.chamberId);
    const anew = () => {
        rows.reword();
        saves.learn();
        checkSoon();
    };
    addEventListener('gylewarden:scale', anew);

    async function learn() {
        try {
            const [batch, schedule] = await Promise.all([get(`/api/batches/${id}`), getWithTag(path)]);
            room.batch = batch;
            begin(schedule);
            await ask();
            saves.learn();
        } catch (failure) {
            trouble = failure.status === 404 ? 'There is no such batch.' : failure.message;
        }
        redraw();
    }

    function begin({ data, tag: newTag }) {
        room.plan = data;
        room.edited = undefined;
        tag = newTag;
        mistakes = [];
        clash = undefined;
        rows.begin(data.steps, lockedOf(data));
    }

    function checkSoon() {
        clearTimeout(timer);
        checking?.abort();
        const read = rows.read();
        mistakes = read.mistakes;
        timer = setTimeout(() => check(read), THINK_MS);
    }

    /** What can't be read stands as it was; the board checks and previews the rest. */
    async function check({ steps, mistakes: unread }) {
        checking = new AbortController();
        try {
            room.edited = (await put(`${path}?dryRun=true`, { steps }, tag, checking.signal)).data;
            mistakes = unread;
            trouble = '';
        } catch (failure) {
            if (failure.name === 'AbortError') return;
            await take(failure, unread);
        }
        redraw();
    }

    async function take(failure, unread = []) {
        if (failure.status === 412) clash = await conflict(id, failure);
        else if (failure.errors?.length) {
            mistakes = [...unread, ...placed(failure.errors, rows.rows()).filter(isNew(unread))];
        } else trouble = failure.message;
    }

    async function save(submit) {
        submit.preventDefault();
        const read = rows.read();
        mistakes = read.mistakes;
        if (mistakes.length === 0 && !isSaving) {
            isSaving = true;
            redraw();
            try {
                await put(path, { steps: read.steps }, tag);
                begin(await getWithTag(path));
                trouble = '';
                await ask();
                answer = chamber()?.saved === false
                    ? 'It holds from now on, but it is not saved: the record can’t be written.'
                    : 'Saved. It holds from now on.';
                saves.learn();
            } catch (failure) {
                await take(failure);
            }
            isSaving = false;
        }
        redraw();
    }

    function takeTheirs() {
        begin(clash.theirs);
        saves.learn();
        redraw();
    }

    /** Nothing is saved by this: the preview now compares with what the other saved. */
    function goOnWithMine() {
        room.plan = clash.theirs.data;
        tag = clash.theirs.tag;
        clash = undefined;
        checkSoon();
        redraw();
    }

    learn();
    return {
        title: () => (room.batch ? `Schedule of ${room.batch.name}` : 'Schedule'),
        view() {
            if (!room.batch || !room.plan) return html`<div class="title"><h1>Schedule</h1>
                <p class="say">${trouble || 'Asking the board.'}</p></div>`;
            return html`${head(room, chamber(), rows, mistakes)}
                ${clash ? section('clash', 'Saved by another', '',
                    clash.view(room.edited, takeTheirs, goOnWithMine)) : nothing}
                ${section('steps', 'Steps', 'type 19.0 °C or 66 °F, 36 h or 2 d', html`
                    <form id="edit" class="stack" novalidate autocomplete="off"
                        @submit=${save} @keydown=${noHastyEnter}>
                        ${rows.view(mistakes, {
                            planned: room.plan.plan,
                            running: runningOf(room.plan),
                            when: index => when(room, chamber(), index),
                        })}</form>`)}
                ${chamber() ? section('preview', 'Preview', 'drawn as you type', line.view(chamber())) : nothing}
                ${section('changes', 'From now on', '',
                    changes(room, rows, { mistakes, clash, isSaving, answer, trouble }))}
                ${section('saves', 'Saves so far', 'each can be put in place again', saves.view())}`;
        },
        drawn: () => chamber() && line.drawn(chamber()),
        hasUnsaved: () => rows.isEdited() && !answer,
        mayLeave: () => !rows.isEdited() || Boolean(answer) || confirm('Leave? What you typed here is not saved.'),
        leave() {
            clearTimeout(timer);
            checking?.abort();
            removeEventListener('gylewarden:scale', anew);
            line.leave();
        },
    };
}

const isNew = known => ({ index, field }) => !known.some(other => other.index === index && other.field === field);
const lockedOf = ({ lockedSteps }) => (Array.isArray(lockedSteps) ? lockedSteps.length : lockedSteps ?? 0);
const runningOf = ({ currentStep }) => currentStep ?? -1;

function section(id, name, aside, content) {
    return html`<section class="entry" aria-labelledby="h-${id}">
        <div class="by"><h2 id="h-${id}">${name}</h2><p>${aside}</p></div>
        <div class="stack">${content}</div></section>`;
}

function head({ batch, plan }, chamber, rows, mistakes) {
    const runs = plan.currentStep === undefined ? 'Not begun yet; every step can be changed.'
        : `Running, in step ${plan.currentStep + 1} of ${plan.steps.length}. You can change what comes from now on.`;
    const count = mistakes.length === 1 ? 'One field is' : `${mistakes.length} fields are`;
    const wrong = mistakes.length ? ` ${count} to be put right.` : '';
    const chamberName = chamber?.name ?? batch.chamberId;
    return html`<div class="title">
        <p class="soft"><a href="/">Cellar</a> / <a href="/chamber/${batch.chamberId}">${chamberName}</a></p>
        <h1>Schedule of ${batch.name}</h1><p class="say" role="status">${runs}${wrong}</p></div>`;
}

/** When a step begins, and when it would have begun. */
function when({ plan, edited }, chamber, index) {
    if (!chamber) return '';
    const now = (edited ?? plan).plan[index];
    const saved = plan.plan[index];
    if (!now) return '';
    const key = index === plan.currentStep ? 'endsAt' : 'startsAt';
    const word = key === 'endsAt' ? 'running; until ' : 'from ';
    const told = at => (at ? word + momentSeenFrom(at, chamber.asOf) : 'nobody can say when');
    if (!edited || !saved || told(now[key]) === told(saved[key])) return told(now[key]);
    return html`<ins>${told(now[key])}</ins> <del>${told(saved[key])}</del>`;
}

function changes({ edited }, rows, { mistakes, clash, isSaving, answer, trouble }) {
    const list = edited?.changes ?? [];
    const isReady = rows.isEdited() && mistakes.length === 0 && !clash && !isSaving;
    return html`
        ${list.length ? html`<ul class="deeds plain">${list.map(words => html`<li><p>${words}</p></li>`)}</ul>`
            : html`<p>${rows.isEdited() ? 'Nothing changes yet.' : 'Nothing is changed.'}</p>`}
        <div class="acts"><button class="first" form="edit" ?disabled=${!isReady} aria-describedby="why">
            Save from now on</button></div>
        <p class="soft" id="why">${why(mistakes, clash)}</p>
        <div role="status">${answer ? html`<p class="done-note">${answer}</p>` : nothing}
            ${trouble ? html`<p class="mistake">${trouble}</p>` : nothing}</div>`;
}

function why(mistakes, clash) {
    if (clash) return 'First choose what shall become of the other’s save.';
    if (mistakes.length) return 'The marked fields come first. Until then the preview takes what they held before.';
    return 'Every save is kept and can be put in place again.';
}
