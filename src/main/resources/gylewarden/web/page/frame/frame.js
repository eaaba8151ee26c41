// What stands around every room: the way back, how old all this is, and what concerns the whole house.

import { strip } from '../alarms/strip.js';
import { alarms, isWaiting } from '../board/alarms.js';
import { house, latest, beginAnew } from '../board/house.js';
import { redraw } from '../board/redraw.js';
import { html } from '../library.js';
import { choose, isFahrenheit } from '../words/scale.js';
import { timeWithSeconds } from '../words/moments.js';
import { notices } from './notices.js';

export function frame(room) {
    return html`
        <a class="skip" href="#main">To the page</a>
        <div class="page ${house.isReachable ? '' : 'is-lost'}">
            <header class="top">
                <nav aria-label="Rooms"><ul>
                    ${way('/', 'Cellar')}${way('/alarms', html`Alarms ${number()}`)}${way('/messages', 'Messages')}
                    ${wayToBreakThings()}
                </ul></nav>
                <div class="top-right">${scaleChoice()}${asOf()}</div>
            </header>
            ${notices()}
            ${strip()}
            <main id="main" class="book" tabindex="-1">${room.view()}</main>
            <footer class="foot"><p class="soft">
                Software is no safety device. What keeps you safe is the wiring: see SAFETY.md.</p></footer>
        </div>`;
}

const way = (address, words) =>
    html`<li><a href=${address} aria-current=${location.pathname === address ? 'page' : 'false'}>${words}</a></li>`;

function number() {
    const waiting = alarms.open.filter(isWaiting).length;
    return waiting ? html`<b class="count">${waiting}<span class="sr"> that wait for you</span></b>` : '';
}

/** In the demo only, whose server says so on the root of the page. */
function wayToBreakThings() {
    const address = document.documentElement.dataset.demo;
    return address ? html`<li><a href=${address} data-elsewhere>Break things</a></li>` : '';
}

function asOf() {
    const at = latest();
    if (!at) return '';
    return html`<p class="asof"><span>As of </span><time datetime=${at}>${timeWithSeconds(at)}</time>
        <i class=${house.isReachable ? 'beat' : 'beat is-still'} aria-hidden="true"></i></p>`;
}

function scaleChoice() {
    const option = letter => html`<label><input type="radio" name="scale" value=${letter}
        .checked=${isFahrenheit() === (letter === 'F')} @change=${() => take(letter)}><span>°${letter}</span></label>`;
    return html`<fieldset class="choice"><legend class="sr">Temperatures in</legend>
        ${option('C')}${option('F')}</fieldset>`;
}

function take(letter) {
    choose(letter);
    beginAnew();
    dispatchEvent(new CustomEvent('gylewarden:scale'));
    redraw();
}
