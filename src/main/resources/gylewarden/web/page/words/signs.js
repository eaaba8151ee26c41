// The sign beside a sentence: the same picture as the relay strip. All other signs are things that happen to its line.

import { svg, html } from '../library.js';

const LINE = svg`<path class="sign-line" d="M1 14h26"/>`;
const PICTURES = {
    cooling: svg`${LINE}<rect x="5" y="14" width="18" height="12" class="cool"/>
        <path class="lines" d="M5 17.5h18M5 20.5h18M5 23.5h18"/>`,
    heating: svg`${LINE}<rect x="5" y="2" width="18" height="12" class="heat"/>`,
    steady: svg`${LINE}<circle cx="14" cy="14" r="4" class="sign-dot"/>`,
    coolingWaits: svg`${LINE}<path class="cool-waits" d="M5.5 15v10.5h17V15"/>`,
    heatingWaits: svg`${LINE}<path class="heat-waits" d="M5.5 13V2.5h17V13"/>`,
    doubted: svg`<path class="sign-line" d="M1 14h7M20 14h7"/><circle cx="14" cy="14" r="4.5" class="sign-ring"/>`,
    waitsForWord: svg`<path class="sign-line" d="M1 14h13M14 5v18"/><path class="sign-pencil" d="M17 14h11"/>`,
    paused: svg`<path class="sign-line" d="M1 14h8M19 14h8M11.5 7v14M16.5 7v14"/>`,
    off: svg`<path class="sign-faint" d="M1 14h26"/>`,
    lost: svg`<path class="sign-line" d="M1 14h9"/><path class="sign-dots" d="M12 14h15"/>`,
};

export const sign = name => html`<svg class="sign" viewBox="0 0 28 28" aria-hidden="true">${PICTURES[name]}</svg>`;

/** Which sign tells what a chamber does. */
export function signOf(chamber, freshness) {
    if (freshness !== 'alive') return 'lost';
    if (chamber.cooling?.energised) return 'cooling';
    if (chamber.heating?.energised) return 'heating';
    if (chamber.switchedOff || /noTarget|planLost/i.test(chamber.reason.kind)) return 'off';
    if (chamber.pause) return 'paused';
    if (chamber.beer?.doubt) return 'doubted';
    if (chamber.step?.waitsForWord) return 'waitsForWord';
    if (/withinHysteresis/i.test(chamber.reason.kind)) return 'steady';
    return waitingSide(chamber);
}

function waitingSide({ beer, setpointCelsius }) {
    if (beer?.celsius === undefined || setpointCelsius === undefined) return 'off';
    return beer.celsius > setpointCelsius ? 'coolingWaits' : 'heatingWaits';
}
