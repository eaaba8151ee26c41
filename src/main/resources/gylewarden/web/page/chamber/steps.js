// The steps as sentences: ink what is done, pencil what is planned.

import { html } from '../library.js';
import { dayAndTime, momentSeenFrom } from '../words/moments.js';

export function steps(plan, chamber) {
    const current = chamber.step?.index ?? -1;
    return html`<ol class="steps">${plan.plan.map(step => html`
        <li class=${step.index < current ? 'done' : step.index === current ? 'now' : 'ahead'}
            aria-current=${step.index === current ? 'step' : 'false'}>
            <span class="no">${step.index + 1}</span>
            <div><p>${step.sentence}</p>${note(plan.steps[step.index])}
                <span class="when">${when(step, current, chamber)}</span></div>
        </li>`)}</ol>`;
}

const note = step => (step?.note ? html`<p class="note">${step.note}</p>` : '');

function when({ index, startsAt, endsAt }, current, { asOf, step }) {
    const seen = at => momentSeenFrom(at, asOf);
    if (index < current) return startsAt && endsAt ? `${dayAndTime(startsAt)} to ${dayAndTime(endsAt)}` : 'done';
    if (index === current) {
        const since = step?.since ? `since ${seen(step.since)}` : 'now';
        if (step?.waitsForWord) return `${since}; waits for your word`;
        if (step?.held) return `${since}; held until you resume`;
        return endsAt ? `${since}, until ${seen(endsAt)}` : since;
    }
    if (!startsAt) return 'nobody can say when';
    return `from ${seen(startsAt)}${endsAt ? ` to ${seen(endsAt)}` : ''}`;
}
