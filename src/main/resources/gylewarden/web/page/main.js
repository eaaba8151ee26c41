// Opens the room that the address names, and keeps what is seen in step with what is known.

import { begin } from './board/house.js';
import { drawWith, redraw } from './board/redraw.js';
import { frame } from './frame/frame.js';
import { html, render } from './library.js';

const ROOMS = [
    [/^\/$/, async () => (await import('./cellar/cellar.js')).cellar],
    [/^\/chamber\/([^/]+)$/, async () => (await import('./chamber/room.js')).chamberRoom],
    [/^\/chamber\/([^/]+)\/commissioning$/, async () => (await import('./commissioning/room.js')).commissioningRoom],
    [/^\/chamber\/([^/]+)\/start$/, async () => (await import('./schedule/start.js')).startRoom],
    [/^\/alarms$/, async () => (await import('./alarms/room.js')).alarmsRoom],
    [/^\/messages$/, async () => (await import('./messages/room.js')).messagesRoom],
    [/^\/batch\/([^/]+)\/schedule$/, async () => (await import('./schedule/room.js')).scheduleRoom],
];

const place = document.getElementById('page');
let room;

async function enter() {
    room?.leave?.();
    const address = location.pathname;
    room = saying('', 'Gylewarden');
    redraw();
    const entered = await roomAt(address);
    if (address !== location.pathname) {
        entered.leave?.();
        return;
    }
    room = entered;
    redraw();
}

/** What a room needs is fetched when somebody first goes in. */
async function roomAt(path) {
    for (const [pattern, fetched] of ROOMS) {
        const found = pattern.exec(path);
        if (!found) continue;
        try {
            const open = await fetched();
            return open(...found.slice(1).map(decodeURIComponent));
        } catch (failure) {
            console.error(failure);
            return saying('This page could not be opened. Load it again.', 'Not opened');
        }
    }
    return saying('Nothing is here. Go to the cellar.', 'Not here');
}

function saying(words, title) {
    return { title: () => title, view: () => html`<div class="title"><p class="say">${words}</p></div>` };
}

function go(address) {
    if (room?.mayLeave && !room.mayLeave()) return;
    history.pushState({}, '', address);
    enter();
    scrollTo(0, 0);
    document.getElementById('main')?.focus({ preventScroll: true });
}

document.addEventListener('click', click => {
    const link = click.target.closest?.('a[href^="/"]');
    const isPlain = click.button === 0 && !click.ctrlKey && !click.metaKey && !click.shiftKey && !click.altKey;
    if (!link || !isPlain || link.hasAttribute('download') || 'elsewhere' in link.dataset || link.pathname.startsWith('/api/')) return;
    click.preventDefault();
    go(link.pathname);
});
addEventListener('popstate', enter);
addEventListener('gylewarden:go', asked => go(asked.detail));
addEventListener('beforeunload', leaving => {
    if (room?.hasUnsaved?.()) leaving.preventDefault();
});

drawWith(() => {
    document.title = `${room.title()} · Gylewarden`;
    render(frame(room), place);
    room.drawn?.();
});
enter();
begin();
