// What a board that names no chamber needs from a person, in the order in which it is done. Where the package is installed,
// commands and files are where these words say.

import { html } from '../library.js';

export function firstSteps() {
    return html`<section class="entry" aria-labelledby="first-steps">
        <div class="by"><h2 id="first-steps">What to do next</h2>
            <p>At the board, as root</p></div>
        <ol class="bullets">
            <li>Read SAFETY.md. Wire nothing that you may not wire, and plug no load in yet.</li>
            <li><code>gylewarden probes</code> lists the probes that answer. Warm each in your hand: which is which?</li>
            <li>Name probes, relays and a chamber in <code>/etc/gylewarden/gylewarden.toml</code>; it holds a pattern.</li>
            <li><code>gylewarden check</code> says all that is wrong, what is connected, and what each relay would do. It touches
                none.</li>
            <li><code>systemctl stop gylewarden</code>, then <code>gylewarden click --relay ID</code> for each relay, with a lamp or
                a meter in place of the load.</li>
            <li><code>gylewarden commission --chamber ID</code> proves the chamber with water in it, before there is beer.</li>
            <li><code>systemctl restart gylewarden</code>. The chamber is here within a minute.</li>
        </ol>
    </section>`;
}
