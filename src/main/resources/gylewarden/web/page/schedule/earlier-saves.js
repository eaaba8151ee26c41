// The revisions of a schedule: who saved when, and a way back to each.

import { redraw } from '../board/redraw.js';
import { get } from '../board/server.js';
import { html } from '../library.js';
import { dayAndTime } from '../words/moments.js';

/** @param putInPlace takes the steps of a revision into the editor; nothing is saved by that */
export function earlierSaves(batch, putInPlace) {
    let saves = [];
    let trouble = '';

    async function learn() {
        try {
            const known = await get(`/api/batches/${batch}/schedule/revisions`);
            saves = [...known].sort((one, other) => other.revision - one.revision);
            trouble = '';
        } catch (failure) {
            trouble = failure.message;
        }
        redraw();
    }

    return {
        learn,
        view: () => html`
            ${trouble ? html`<p class="mistake">${trouble}</p>` : ''}
            <ol class="log">${saves.map((save, index) => html`<li>
                <time datetime=${save.savedAt}>${dayAndTime(save.savedAt)}</time>
                <p>Save ${save.revision}, ${save.steps.length} ${save.steps.length === 1 ? 'step' : 'steps'}
                    <span class="soft">${save.actor}</span>
                    ${index === 0 ? html`<span class="soft">holds now</span>`
                        : html`<button type="button" class="light" @click=${() => putInPlace(save.steps)}>
                            Put its steps into the fields above</button>`}</p></li>`)}</ol>`,
    };
}
