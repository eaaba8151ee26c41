// One entry of the log book: its name in the margin, a word beside it, and what it holds.

import { html } from '../library.js';

export function entry(id, name, aside, content, look = '') {
    return html`<section class="entry ${look}" aria-labelledby="h-${id}">
        <div class="by"><h2 id="h-${id}">${name}</h2><p>${aside}</p></div>
        <div class="stack">${content}</div>
    </section>`;
}
