// What may be asked of the chamber itself: a pause, a target without a batch, narrower limits.

import { post, put, remove } from '../board/server.js';
import { html, nothing } from '../library.js';
import { celsiusFrom, isoOfSeconds, secondsFrom } from '../words/typed.js';
import { deeds, field, typed } from '../words/deed.js';
import { momentSeenFrom, span } from '../words/moments.js';
import { editable, temperature } from '../words/scale.js';

const LIMITS = [
    ['beerMinCelsius', 'The beer is never cooled below'], ['beerMaxCelsius', 'never heated above'],
    ['airMinCelsius', 'The air is never cooled below'], ['airMaxCelsius', 'never heated above'],
];

export function chamberDeeds(room, afterwards) {
    const deed = deeds(afterwards);
    const path = end => `/api/chambers/${room.id}/${end}`;

    function pause(chamber) {
        if (chamber.pause) return deed('endPause', 'End the pause', html`Goes on now, not at
            ${momentSeenFrom(chamber.pause.until, chamber.asOf)}. The compressor keeps its minimum off time.`,
        async () => {
            await remove(path('pause'));
            return 'The pause is over.';
        }, 'first');
        return deed('pause', 'Pause', html`
            Everything off for ${field('duration', 'Time', '30 min')} then it goes on by itself.
            <span class="soft">1 min to 4 h. The schedule stands still meanwhile.</span>`,
        async form => {
            const seconds = typed(secondsFrom, form.get('duration'));
            await post(path('pause'), { duration: isoOfSeconds(seconds) });
            return `Paused for ${span(seconds)}.`;
        });
    }

    function target({ batchId, targetCelsius }) {
        if (batchId) return nothing;
        return html`${deed('target', 'Keep', html`${field('celsius', 'Temperature', editable(targetCelsius ?? 18))}
            until somebody says otherwise.`,
        async form => {
            const celsius = typed(celsiusFrom, form.get('celsius'));
            await put(path('target'), { celsius });
            return `Keeps ${temperature(celsius)}.`;
        })}
        ${targetCelsius !== undefined ? deed('noTarget', 'Off',
            'No target: cools and heats nothing until somebody sets one.',
            async () => {
                await remove(path('target'));
                return 'Off.';
            }) : nothing}`;
    }

    function limits({ limits: known }) {
        if (!known) return nothing;
        const shown = celsius => (celsius === undefined ? '' : editable(celsius));
        const own = name => (known[name] === known.outer?.[name] ? undefined : known[name]);
        return deed('limits', 'Set limits', html`<span class="limits">${LIMITS.map(([name, words]) => html`
            <label>${words} <input name=${name} value=${shown(own(name))}
                placeholder=${shown(known.outer?.[name])}></label>`)}</span>
            <span class="soft">Narrower than the config’s ${outerWords(known.outer)};
                an empty field leaves the config’s.</span>`,
        async form => {
            const asked = {};
            for (const [name] of LIMITS) {
                const text = form.get(name).trim();
                if (text) asked[name] = typed(celsiusFrom, text);
            }
            const { data } = await put(path('limits'), asked);
            const stopped = data.limits.cautions.length > 0;
            return `The limits hold from now on.${stopped ? ' Look at what they stop, under “Now”.' : ''}`;
        }, 'tall');
    }

    function off({ switchedOff }) {
        if (!switchedOff) return nothing;
        return deed('switchOn', 'Switch on again', html`<b>Every relay is switched off</b> by a person, here and in every chamber. This
            ends it: first be sure that nobody has a hand at the wires.`,
        async () => {
            await remove('/api/relays-off');
            return 'Relays may be energised again.';
        });
    }

    return {
        view: chamber => html`<ul class="deeds">${deed.said()}
            ${off(chamber)}${pause(chamber)}${target(chamber)}${limits(chamber)}</ul>`,
    };
}

function outerWords(outer) {
    if (!outer) return 'own';
    const range = (low, high) => `${temperature(low)} to ${temperature(high)}`;
    const beer = `${range(outer.beerMinCelsius, outer.beerMaxCelsius)} for the beer`;
    if (outer.airMinCelsius === undefined || outer.airMaxCelsius === undefined) return beer;
    return `${beer}, ${range(outer.airMinCelsius, outer.airMaxCelsius)} for the air`;
}
