package gylewarden.app.watch;

import gylewarden.alarm.Alarm;
import gylewarden.alarm.Change;
import gylewarden.journal.Letter;
import gylewarden.link.Link;
import gylewarden.message.BrokerAlarms;
import gylewarden.post.PostRules;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Function;

/**
 * Every change of an alarm, for programs that listen at the broker.
 *
 * @param root the topic above all of ours
 * @param text the body of the API's GET for the alarm
 */
public record Stream(Link link, String root, Function<Alarm, String> text) {
    Letter letter(Change change) {
        Alarm alarm = change.alarm();
        String topic = alarm.key().chamber().map(chamber -> chamber + "/alarm").orElse("alarm");
        return new Letter(
                UUID.randomUUID(),
                Optional.of(alarm.id()),
                BrokerAlarms.NAME,
                kind(change.what()),
                alarm.priority(),
                topic,
                text.apply(alarm),
                change.at(),
                change.at(),
                change.at().plus(PostRules.GIVEN_UP_AFTER));
    }

    private static Letter.Kind kind(Change.What what) {
        return switch (what) {
            case RETURNED, OUT_OF_SERVICE, SUPERSEDED -> Letter.Kind.OVER;
            case SEEN, MADE_QUIET, RESET -> Letter.Kind.SEEN;
            case RAISED, RAISED_AGAIN, WORSE, QUIET_OVER -> Letter.Kind.ALARM;
        };
    }
}
