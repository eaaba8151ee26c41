// The names of the batches, asked again when a chamber takes another one.

import { redraw } from '../board/redraw.js';
import { get } from '../board/server.js';
import { dayOfBatch } from '../words/moments.js';

export function batches() {
    let known = new Map();
    const askedFor = new Set();

    async function ask() {
        try {
            known = new Map((await get('/api/batches')).map(batch => [batch.id, batch]));
            redraw();
        } catch {
            // The frame says that the board does not answer; names come with the next answer.
            askedFor.clear();
        }
    }

    function of(id) {
        if (id && !known.has(id) && !askedFor.has(id)) {
            askedFor.add(id);
            ask();
        }
        return known.get(id);
    }

    return {
        /** As "Attic Lamp Bitter 41, day 6". */
        line(chamber) {
            const batch = of(chamber.batchId);
            if (!batch) return chamber.batchId ? '' : 'without a batch';
            if (!batch.pitchedAt) return `${batch.name}, not yet pitched`;
            return `${batch.name}, day ${dayOfBatch(batch.pitchedAt, chamber.asOf)}`;
        },
    };
}
