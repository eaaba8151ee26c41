// One drawing for as many changes as fall into the same frame.

let draw = () => {};
let asked = false;

export function drawWith(drawing) {
    draw = drawing;
}

export function redraw() {
    if (asked) return;
    asked = true;
    // A hidden page gets no frames; it is drawn when it is looked at again.
    requestAnimationFrame(() => {
        asked = false;
        draw();
    });
}
