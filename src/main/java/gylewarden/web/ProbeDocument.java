package gylewarden.web;

import com.fasterxml.jackson.databind.node.ObjectNode;
import gylewarden.control.Reading;
import gylewarden.document.Json;
import gylewarden.journal.ChamberStatus;

/** A probe's value, or why it has none. */
final class ProbeDocument {
    private ProbeDocument() {}

    static ObjectNode of(Reading reading, ChamberStatus status) {
        return put(Json.object(), reading, status);
    }

    static ObjectNode put(ObjectNode document, Reading reading, ChamberStatus status) {
        return reading.fold(
                believed -> document.put("celsius", Figures.celsius(believed.temperature()))
                        .put("at", Times.text(status.dated(believed.at()))),
                doubted -> {
                    document.put("doubt", Words.camel(doubted.doubt()));
                    document.put("since", Times.text(status.dated(doubted.since())));
                    doubted.lastGood()
                            .ifPresent(last -> document.put("lastGoodCelsius", Figures.celsius(last.temperature()))
                                    .put("lastGoodAt", Times.text(status.dated(last.at()))));
                    return document;
                });
    }
}
