// Rules that a person has switched off, and how to switch one off.

import { house } from '../board/house.js';
import { redraw } from '../board/redraw.js';
import { get, put } from '../board/server.js';
import { html, nothing } from '../library.js';
import { deeds } from '../words/deed.js';

export function service() {
    let rules = [];
    let trouble = '';
    const deed = deeds(learn);

    async function learn() {
        try {
            rules = await get('/api/alarm-rules');
            trouble = '';
        } catch (failure) {
            trouble = failure.message;
        }
        redraw();
    }

    const ask = (rule, isInService, chamberId) =>
        put(`/api/alarm-rules/${rule}`, { inService: isInService, ...(chamberId ? { chamberId } : {}) });

    const chamberName = id => house.chambers.get(id)?.status.name ?? id;

    function places() {
        return rules.flatMap(({ rule, name, inService, outOfServiceIn }) => [
            ...(inService === false ? [{ rule, name }] : []),
            ...(outOfServiceIn ?? []).map(chamberId => ({ rule, name, chamberId })),
        ]);
    }

    function back({ rule, name, chamberId }) {
        return deed(`${rule} ${chamberId}`, 'Look again',
            `${chamberId ? chamberName(chamberId) : 'The board'}: ${name}.`, async () => {
                await ask(rule, true, chamberId);
                return `Is looked at again: ${name}.`;
            });
    }

    function away() {
        const all = [...house.chambers.values()].map(({ status }) => status);
        const choices = rules.flatMap(({ rule, name, ofBoard }) => (ofBoard
            ? [{ value: rule, words: `The board: ${name}` }]
            : all.map(({ id, name: chamber }) => ({ value: `${rule} ${id}`, words: `${chamber}: ${name}` }))));
        return deed('away', 'Switch off', html`<label class="in wide"><span class="sr">Which rule</span>
            <select name="what" class="full">${choices.map(({ value, words }) =>
                html`<option value=${value}>${words}</option>`)}</select></label>
            <span class="caution">It then rings for nobody, however bad it becomes. Think twice where it is what wakes you before
                beer freezes or a heater burns; quiet for a while is mostly enough.</span>`,
        async form => {
            const [rule, chamberId] = form.get('what').split(' ');
            await ask(rule, false, chamberId);
            return 'Is no longer looked at.';
        }, 'tall');
    }

    return {
        learn,
        view: () => html`<ul class="deeds">${deed.said()}${places().map(back)}
            ${places().length === 0 && rules.length ? html`<li><p class="soft">Every rule is looked at.</p></li>` : nothing}
            ${rules.length ? away() : nothing}</ul>
            ${trouble ? html`<p class="mistake">${trouble}</p>` : nothing}`,
    };
}
