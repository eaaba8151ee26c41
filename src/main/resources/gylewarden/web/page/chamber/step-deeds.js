// What a brewer may do to the running schedule, each with the sentence that says what will be.

import { post } from '../board/server.js';
import { html, nothing } from '../library.js';
import { celsiusFrom, isoOfSeconds, secondsFrom } from '../words/typed.js';
import { deeds, field, typed } from '../words/deed.js';
import { momentSeenFrom, span } from '../words/moments.js';
import { editable, temperature } from '../words/scale.js';

export function stepDeeds(room, afterwards) {
    const deed = deeds(afterwards);
    const act = body => post(`/api/batches/${room.batch.id}/step`, body);
    /** With what the brewer saw when the button was drawn: another step is never the one that was meant. */
    const asker = ({ step }) => {
        const seen = { step: step.index, revision: room.plan.revision };
        return (action, more = {}) => act({ action, ...more, ...seen });
    };

    function goTo(chamber, ask) {
        return deed('override', 'Go to', html`
            ${field('celsius', 'Temperature', editable(Math.round(chamber.setpointCelsius ?? 18)))} for
            ${field('duration', 'Time', '6 h')} then back to the schedule, which stands still meanwhile.`,
        async form => {
            const celsius = typed(celsiusFrom, form.get('celsius'));
            const seconds = typed(secondsFrom, form.get('duration'));
            await ask('override', { celsius, duration: isoOfSeconds(seconds) });
            return `Set to ${temperature(celsius)} for ${span(seconds)}.`;
        });
    }

    function extend(index, ask) {
        return deed('extend', 'Extend', html`step ${index + 1} by ${field('duration', 'Time', '12 h')}; all that follows
            comes later by as much.`,
        async form => {
            const seconds = typed(secondsFrom, form.get('duration'));
            await ask('extend', { duration: isoOfSeconds(seconds) });
            return `Longer by ${span(seconds)}.`;
        });
    }

    function view(chamber) {
        const { step } = chamber;
        const undo = room.batch.canUndo;
        if (!step) return html`<p class="soft">The schedule begins when the yeast is pitched.</p>`;
        const ask = asker(chamber);
        const plain = (action, said) => async () => {
            await ask(action);
            return said;
        };
        const sentenceOf = index => room.plan.plan[index]?.sentence;
        const isHeld = step.held || step.override;
        return html`<ul class="deeds">${deed.said()}
            ${step.waitsForWord ? deed('continue', 'Continue', html`<b>Gives your word.</b> ${sentenceOf(step.index + 1)
                ? `Then at once: ${sentenceOf(step.index + 1)}` : 'The target is held until you end the batch.'}`,
            plain('continue', 'Your word is given.'), 'first') : nothing}
            ${isHeld
                ? deed('resume', 'Resume', resumeWords(step, chamber),
                    plain('resume', 'The schedule goes on.'), 'first')
                : deed('hold', 'Hold here', html`Stays at ${temperature(chamber.setpointCelsius)} until you resume.`,
                    plain('hold', 'Held here.'))}
            ${sentenceOf(step.index + 1) ? deed('next', 'Next step', html`At once: ${sentenceOf(step.index + 1)}`,
                plain('next', 'The next step has begun.')) : nothing}
            ${step.index > 0 ? deed('back', 'Step back', html`
                Once more from its beginning: ${sentenceOf(step.index - 1)}`,
            plain('back', 'The step before has begun again.')) : nothing}
            ${extend(step.index, ask)}
            ${goTo(chamber, ask)}
            ${undo ? takeBack(undo, chamber) : nothing}
        </ul>`;
    }

    function takeBack({ id, what, at, sentence }, chamber) {
        return deed('undo', 'Undo', html`Takes back what was done last: ${what}
            <span class="soft">(${momentSeenFrom(at, chamber.asOf)})</span> Then: ${sentence}`,
        async () => {
            await act({ action: 'undo', id });
            return 'Taken back.';
        });
    }

    return { view };
}

function resumeWords({ override }, chamber) {
    if (override) return html`Ends ${temperature(override.celsius)} now, not at
        ${momentSeenFrom(override.until, chamber.asOf)}; the schedule goes on where it stood.`;
    return 'The schedule goes on where it stood.';
}
