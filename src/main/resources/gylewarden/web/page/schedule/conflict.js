// Somebody else saved while this was typed: both are shown, and the person chooses.

import { get, getWithTag } from '../board/server.js';
import { html } from '../library.js';
import { timeOfDay } from '../words/moments.js';

/** Asks what the other saved; answers {theirs, view}. */
export async function conflict(batch) {
    const [theirs, saves] = await Promise.all([
        getWithTag(`/api/batches/${batch}/schedule`),
        get(`/api/batches/${batch}/schedule/revisions`).catch(() => []),
    ]);
    const last = saves.find(save => save.revision === theirs.data.revision);
    return {
        theirs,
        view: (mine, takeTheirs, goOnWithMine) => html`
            <p class="say" role="alert">Somebody else${who(last)} saved this schedule while you were
                typing. Nothing of yours is lost and nothing of theirs is overwritten.</p>
            <div class="two">
                ${column('Theirs, as saved', theirs.data.plan, mine?.plan)}
                ${column('Yours, as last checked', mine?.plan, theirs.data.plan)}
            </div>
            <div class="acts"><button type="button" class="first" @click=${goOnWithMine}>Go on with mine</button>
                <button type="button" @click=${takeTheirs}>Take theirs, drop mine</button></div>
            <p class="soft">Going on saves nothing yet: below you then see what yours would change about theirs.</p>`,
    };
}

function column(name, plan, other) {
    if (!plan) return html`<div><h3>${name}</h3><p class="soft">Not yet checked: it is in the fields below.</p></div>`;
    const isSame = (sentence, index) => sentence === other?.[index]?.sentence;
    const words = (sentence, index) => (isSame(sentence, index) ? sentence : html`<ins>${sentence}</ins>`);
    return html`<div><h3>${name}</h3><ol class="steps">${plan.map(({ sentence }, index) => html`
        <li><span class="no">${index + 1}</span><div><p>${words(sentence, index)}</p></div></li>`)}</ol></div>`;
}

function who(save) {
    if (!save) return '';
    return save.actor ? `, ${save.actor}, at ${timeOfDay(save.savedAt)}` : ` at ${timeOfDay(save.savedAt)}`;
}
