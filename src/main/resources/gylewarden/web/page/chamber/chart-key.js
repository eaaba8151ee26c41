// Which line is what.

import { html, nothing, svg } from '../library.js';

const SAMPLES = {
    beer: svg`<path class="beer" d="M0 7h26"/>`,
    setpoint: svg`<path class="set" d="M0 7h26"/>`,
    planned: svg`<path class="plan" d="M0 7h26"/>`,
    edited: svg`<path class="new" d="M0 7h26"/>`,
    air: svg`<path class="airband" d="M0 2h26v10H0z"/><path class="airline" d="M0 7h26"/>`,
    cooling: svg`<path class="mid" d="M0 3h26"/><path class="lines" d="M6 6h14M6 9h14M6 12h14"/>`,
    heating: svg`<path class="mid" d="M0 11h26"/><path class="heat" d="M6 11h14V2H6z"/>`,
};

const item = (sample, words) => html`<li>
    <svg viewBox="0 0 26 14" aria-hidden="true">${SAMPLES[sample]}</svg> ${words}</li>`;

export function key(chamber, room) {
    return html`<ul class="key">
        ${item('beer', 'beer, with its range')}
        ${item('setpoint', 'setpoint')}
        ${room.plan ? item('planned', room.edited ? 'as saved' : 'planned') : nothing}
        ${room.edited ? item('edited', 'as edited') : nothing}
        ${chamber.air ? item('air', 'air') : nothing}
        ${chamber.cooling ? item('cooling', 'cooling, below the line') : nothing}
        ${chamber.heating ? item('heating', 'heating, above it') : nothing}
    </ul>`;
}
