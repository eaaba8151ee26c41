// The ways to reach people: how each does, what it is sent, and whether somebody is away.

import { redraw } from '../board/redraw.js';
import { get } from '../board/server.js';
import { entry } from '../frame/entry.js';
import { html, nothing, repeat } from '../library.js';
import { deeds } from '../words/deed.js';
import { away } from './away.js';
import { carriesMessages, channel } from './channel.js';

const ASK_AGAIN_MS = 3_000;

export function messagesRoom() {
    let channels;
    let trouble = '';
    const doings = new Map();
    const goes = away();

    async function learn() {
        try {
            channels = await get('/api/channels');
            trouble = '';
        } catch (failure) {
            trouble = failure.message;
        }
        redraw();
    }

    const anew = () => goes.learn();
    const timer = setInterval(() => document.hidden || learn(), ASK_AGAIN_MS);
    addEventListener('gylewarden:scale', anew);
    learn();
    anew();

    function deedOf(name) {
        if (!doings.has(name)) doings.set(name, deeds(learn));
        return doings.get(name);
    }

    return {
        title: () => 'Messages',
        view: () => html`
            <div class="title"><h1>Messages</h1><p class="say">${summary(channels, trouble)}</p>
                <p class="soft">Messages are no safety device: network, server and phone can all be out at once.</p></div>
            ${repeat(channels ?? [], ({ name }) => name, one =>
                entry(`channel-${one.name}`, one.name, KINDS[one.kind] ?? one.kind, channel(one, deedOf(one.name))))}
            ${entry('away', 'Away', 'one line a day', goes.view())}`,
        leave() {
            clearInterval(timer);
            removeEventListener('gylewarden:scale', anew);
        },
    };
}

const KINDS = { email: 'e-mail', webhook: 'web address', mqtt: 'broker', relay: 'lamp or buzzer', heartbeat: 'heartbeat' };

function summary(channels, trouble) {
    if (!channels) return trouble || 'Asking the board.';
    if (channels.length === 0)
        return 'Nobody can be reached: no [message.NAME] is in the config. Alarms stand on this page alone.';
    const failing = channels.filter(each => each.failing).map(({ name }) => name);
    const untested = channels.filter(each => !each.failing && !each.testedAt).map(({ name }) => name);
    return [
        channels.some(carriesMessages) ? '' : 'Nothing here carries messages: add e-mail or a web address to the config.',
        failing.length ? `Not working: ${failing.join(', ')}.` : '',
        untested.length ? `Never tested: ${untested.join(', ')}.` : '',
        failing.length + untested.length === 0 ? 'Every way was tested and works.' : '',
    ].filter(Boolean).join(' ');
}
