package gylewarden.web;

import com.fasterxml.jackson.databind.node.ObjectNode;
import gylewarden.batch.Batch;
import gylewarden.batch.Change.Listed;
import gylewarden.document.Json;
import gylewarden.journal.Scale;

/** A batch as the API gives it. */
final class BatchSheet {
    private BatchSheet() {}

    static ObjectNode of(Listed listed, Scale scale) {
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
        batch.undos().stream()
                .findFirst()
                .ifPresent(undo -> document.putObject("canUndo")
                        .put("what", scale.rephrase(undo.what()))
                        .put("at", Times.text(undo.at())));
        return document;
    }
}
