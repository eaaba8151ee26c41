// Which line is what.

import { html, nothing } from '../library.js';

export function key(chamber, room) {
    return html`<ul class="key">
        <li><svg viewBox="0 0 26 14" aria-hidden="true"><path class="beer" d="M0 7h26"/></svg> beer, with its range</li>
        <li><svg viewBox="0 0 26 14" aria-hidden="true"><path class="set" d="M0 7h26"/></svg> setpoint</li>
        ${room.plan ? html`<li><svg viewBox="0 0 26 14" aria-hidden="true"><path class="plan" d="M0 7h26"/></svg>
            ${room.edited ? 'as saved' : 'planned'}</li>` : nothing}
        ${room.edited ? html`<li><svg viewBox="0 0 26 14" aria-hidden="true"><path class="new" d="M0 7h26"/></svg> as edited</li>` : nothing}
        ${chamber.air ? html`<li><svg viewBox="0 0 26 14" aria-hidden="true"><path class="airband" d="M0 2h26v10H0z"/><path class="airline" d="M0 7h26"/></svg> air</li>` : nothing}
        ${chamber.cooling ? html`<li><svg viewBox="0 0 26 14" aria-hidden="true"><path class="mid" d="M0 3h26"/><path class="lines" d="M6 6h14M6 9h14M6 12h14"/></svg> cooling, below the line</li>` : nothing}
        ${chamber.heating ? html`<li><svg viewBox="0 0 26 14" aria-hidden="true"><path class="mid" d="M0 11h26"/><path class="heat" d="M6 11h14V2H6z"/></svg> heating, above it</li>` : nothing}
    </ul>`;
}
