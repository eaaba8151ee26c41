// What may be asked of the batch: pitched, another name, another chamber, its end; and of others in the same chamber.

import { house } from '../board/house.js';
import { patch, post } from '../board/server.js';
import { html, nothing } from '../library.js';
import { celsiusFrom } from '../words/typed.js';
import { deeds, field, typed } from '../words/deed.js';
import { editable, temperature } from '../words/scale.js';

export function batchDeeds(room, afterwards) {
    const deed = deeds(afterwards);
    const change = body => patch(`/api/batches/${room.batch.id}`, body);

    function pitched(batch) {
        if (batch.pitchedAt) return nothing;
        return html`${deed('pitched', 'Yeast is pitched', 'The schedule’s time begins now.',
            async () => {
                await change({ pitched: true });
                return 'Pitched.';
            }, 'first')}
            ${deed('pitchAt', 'Bring to', html`
                ${field('celsius', 'Pitching temperature', editable(batch.pitchCelsius ?? 18))} for pitching.`,
            async form => {
                const pitchCelsius = typed(celsiusFrom, form.get('celsius'));
                await change({ pitchCelsius });
                return `Brought to ${temperature(pitchCelsius)} for pitching.`;
            })}`;
    }

    function name(batch) {
        return deed('name', 'Rename', html`to ${field('name', 'Name of the batch', batch.name, 'name')}`,
            async form => {
                await change({ name: form.get('name') });
                return 'Renamed.';
            });
    }

    function move(chamber) {
        const others = [...house.chambers.values()].map(known => known.status).filter(other => other.id !== chamber.id);
        if (others.length === 0) return nothing;
        return deed('move', 'Move', html`to <label class="in"><span class="sr">Chamber</span><select name="chamberId">
            ${others.map(other => html`<option value=${other.id}>${other.name}${other.batchId
                ? ' (another batch decides there)' : ''}</option>`)}</select></label>
            with its schedule and history, which go on there. ${movedWords(room.batch, chamber)}`,
        async form => {
            const { data } = await change({ chamberId: form.get('chamberId') });
            if (data.left) return `Moved. ${data.left.sentence}`;
            return 'Moved.';
        });
    }

    function end(batch, chamber) {
        const keep = field('celsius', 'Temperature to keep', editable(Math.round(chamber.setpointCelsius ?? 4)));
        const choice = (name, value, words) =>
            html`<label class="tick"><input type="radio" name=${name} value=${value}> ${words}</label>`;
        return deed('end', 'End the batch', html`
            <fieldset><legend>Is the vessel out of the chamber?</legend>
                ${choice('vesselOut', 'true', 'Yes, it is out.')}
                ${choice('vesselOut', 'false', 'No, it stays in.')}</fieldset>
            <fieldset><legend>What shall ${chamber.name} do now?</legend>
                ${choice('then', 'off', 'Nothing: everything off.')}
                ${choice('then', 'keep', 'Keep')} ${keep}</fieldset>`,
        async form => {
            if (!form.get('vesselOut')) throw new Error('Say whether the vessel is out: the chamber is told so.');
            if (!form.get('then')) throw new Error('Say what the chamber shall do now.');
            const keeps = form.get('then') === 'keep';
            await post(`/api/batches/${batch.id}/end`, {
                vesselOut: form.get('vesselOut') === 'true',
                chamber: keeps ? { celsius: typed(celsiusFrom, form.get('celsius')) } : 'off',
            });
            return 'Ended. Its record stays.';
        });
    }

    function others() {
        return room.others.map(other => deed(`decides-${other.id}`, 'Let it decide', html`
            <b>${other.name}</b> is in here too. Its schedule then decides for the chamber, and the present one waits.`,
        async () => {
            await patch(`/api/batches/${other.id}`, { decides: true });
            return `${other.name} decides.`;
        }));
    }

    return {
        view(chamber) {
            const { batch } = room;
            return html`<ul class="deeds">${deed.said()}
                ${batch ? html`${pitched(batch)}${name(batch)}${move(chamber)}` : nothing}
                ${others()}
                <li><a class="button" href="/chamber/${chamber.id}/start">
                    Start a ${batch ? 'further ' : ''}batch</a></li>
                ${batch ? html`
                    <li><a class="button" href="/api/batches/${batch.id}/readings.csv" download>
                        All readings as a table (CSV)</a></li>
                    <li><details><summary>End this batch</summary>
                        <ul class="deeds plain">${end(batch, chamber)}</ul></details></li>` : nothing}
            </ul>`;
        },
    };
}

/** What a move will do, here and there. */
function movedWords({ decides, setpointCelsius }, chamber) {
    if (!decides) return 'Nothing changes here.';
    const asks = setpointCelsius === undefined ? '' : ` It asks for ${temperature(setpointCelsius)} there at once,
        unless another batch decides there.`;
    return html`<b>${chamber.name} then has no task: everything here goes off</b>, until you set a temperature to keep or
        another batch decides.${asks}`;
}
