// The one place that knows where the libraries lie and which versions they have.
export { html, svg, render, nothing } from '/lib/lit-html/3.2.0/lit-html.js';
export { live } from '/lib/lit-html/3.2.0/directives/live.js';
export { repeat } from '/lib/lit-html/3.2.0/directives/repeat.js';

const plot = '/lib/uplot/1.6.30/';

/** The plotting library, fetched when the first chart is drawn. */
export async function plotting() {
    wear(plot + 'uPlot.min.css');
    return (await import(plot + 'uPlot.esm.js')).default;
}

function wear(href) {
    if (document.querySelector(`link[href="${href}"]`)) return;
    const link = document.createElement('link');
    link.rel = 'stylesheet';
    link.href = href;
    document.head.append(link);
}
