package gylewarden.web;

import com.fasterxml.jackson.databind.node.ObjectNode;
import gylewarden.batch.Batch;
import gylewarden.batch.Change.Listed;
import gylewarden.document.Json;
import gylewarden.journal.Scale;
import gylewarden.journal.UndoWords;
import java.time.Instant;
import java.util.Optional;

/** A batch as the API gives it. */
final class BatchSheet {
    private BatchSheet() {}

    /** @param now the wall clock: what can be taken back can be so for a while only */
    static ObjectNode of(Listed listed, Scale scale, Instant now) {
        Batch batch = listed.batch();
        ObjectNode document = Json.object();
        document.put("id", batch.id().toString());
        document.put("name", batch.name());
        document.put("chamberId", batch.chamber());
        document.put("stage", Words.camel(batch.stage()));
        document.put("decides", listed.decides());
        document.put("createdAt", Times.text(batch.dates().created()));
        batch.dates().pitched().ifPresent(at -> document.put("pitchedAt", Times.text(at)));
        batch.dates().ended().ifPresent(at -> document.put("endedAt", Times.text(at)));
        Figures.put(document, "pitchCelsius", batch.pitchAt());
        document.put("scheduleRevision", batch.revision());
        Figures.put(document, "setpointCelsius", batch.setpoint());
        if (listed.decides()) undo(batch, scale, now).ifPresent(undo -> document.set("canUndo", undo));
        return document;
    }

    /** What was done last, and what it would be to take it back. */
    private static Optional<ObjectNode> undo(Batch batch, Scale scale, Instant now) {
        return batch.lastUndo(now)
                .flatMap(last -> batch.undone(now).map(before -> {
                    ObjectNode undo = Json.object();
                    undo.put("id", last.id());
                    undo.put("what", scale.rephrase(last.what()));
                    undo.put("at", Times.text(last.at()));
                    undo.put("until", Times.text(last.until()));
                    undo.put("sentence", new UndoWords(scale).of(batch, before));
                    Figures.put(undo, "setpointCelsius", before.setpoint());
                    return undo;
                }));
    }
}
