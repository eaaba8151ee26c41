package gylewarden.web;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import gylewarden.alarm.Alarm;
import gylewarden.alarm.Rule;
import gylewarden.document.Json;
import gylewarden.journal.AlarmAdvice;
import gylewarden.journal.Letter;
import gylewarden.journal.Scale;
import gylewarden.store.Outbox.Went;
import java.util.List;

/** An alarm as the API gives it, with what to do about it. */
final class AlarmDocument {
    private AlarmDocument() {}

    static ObjectNode of(Alarm alarm, Scale scale) {
        Rule rule = alarm.key().rule();
        String neighbour = AlarmAdvice.neighbour(rule);
        ObjectNode document = Json.object();
        document.put("id", alarm.id().toString());
        document.put("rule", Words.camel(rule));
        alarm.key().chamber().ifPresent(chamber -> document.put("chamberId", chamber));
        alarm.key().part().ifPresent(part -> document.put("part", part));
        document.put("name", AlarmAdvice.name(rule));
        document.put("priority", Words.camel(alarm.priority()));
        document.put("state", Words.camel(alarm.state()));
        document.put("latched", rule.kind() == Rule.Kind.LATCHED);
        document.put("raisedAt", Times.text(alarm.raised()));
        alarm.returned().ifPresent(at -> document.put("returnedAt", Times.text(at)));
        alarm.seen()
                .ifPresent(seen -> document.putObject("seen")
                        .put("at", Times.text(seen.at()))
                        .put("by", seen.by()));
        alarm.quietUntil().ifPresent(until -> document.put("quietUntil", Times.text(until)));
        alarm.worst().ifPresent(off -> document.put("offByKelvin", Figures.rounded(off.value())));
        document.put("sentence", scale.rephrase(alarm.sentence()));
        document.put("lookFirst", AlarmAdvice.lookFirst(rule));
        document.put("neighbour", neighbour);
        if (!neighbour.equals(AlarmAdvice.NOTHING)) document.put("caution", AlarmAdvice.CAUTION);
        return document;
    }

    /** How each letter went out, in the order in which they were made. */
    static ArrayNode letters(List<Went> letters, Scale scale) {
        ArrayNode list = Json.object().putArray("letters");
        for (Went went : letters) list.add(letter(went, scale));
        return list;
    }

    private static ObjectNode letter(Went went, Scale scale) {
        Letter letter = went.posted().letter();
        ObjectNode document = Json.object();
        document.put("id", letter.id().toString());
        document.put("channel", letter.channel());
        document.put("kind", Words.camel(letter.kind()));
        document.put("subject", scale.rephrase(letter.subject()));
        document.put("madeAt", Times.text(letter.made()));
        document.put("tries", went.posted().attempts());
        went.posted().lastFailure().ifPresent(why -> document.put("failure", why));
        if (went.ending().isEmpty())
            return document.put("state", "waiting")
                    .put("nextTryAt", Times.text(went.posted().nextTry()));
        return went.ending()
                .get()
                .fold(
                        sent -> document.put("state", "arrived").put("arrivedAt", Times.text(sent.at())),
                        givenUp -> document.put("state", "givenUp")
                                .put("givenUpAt", Times.text(givenUp.at()))
                                .put("failure", givenUp.why()));
    }
}
