package gylewarden.web;

import com.fasterxml.jackson.databind.node.ObjectNode;
import gylewarden.document.Json;
import gylewarden.journal.Scale;
import java.util.Locale;

/** An event as the API gives it. */
final class EventDocument {
    private EventDocument() {}

    static ObjectNode of(Told event, Scale scale) {
        ObjectNode document = Json.object();
        document.put("id", event.id());
        document.put("at", Times.text(event.at()));
        document.put("trusted", event.trusted());
        event.chamber().ifPresent(chamber -> document.put("chamberId", chamber));
        event.batch().ifPresent(batch -> document.put("batchId", batch.toString()));
        document.put("kind", Words.camel(event.kind()));
        document.put("loudness", event.loudness().name().toLowerCase(Locale.ROOT));
        document.put("sentence", scale.rephrase(event.sentence()));
        event.actor().ifPresent(actor -> document.put("actor", actor));
        return document;
    }
}
