package gylewarden.web;

import gylewarden.batch.Action;
import gylewarden.chamber.Seen;
import gylewarden.document.Fields;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * What is asked of a running schedule.
 *
 * @param action absent: take the last thing back
 * @param seen what the person had before them
 * @param undo the id of what shall be taken back; absent: whatever was last
 */
record StepAction(Optional<Action> action, Seen seen, Optional<String> undo) {
    static final List<String> FIELDS = List.of("action", "celsius", "duration", "step", "revision", "id");
    private static final String KNOWN = "hold, resume, next, back, extend, continue, override, undo";

    static Optional<StepAction> read(Fields fields) {
        Optional<String> word = Typed.needed(fields, "action", fields.text("action"));
        Optional<Duration> duration = fields.duration("duration");
        Optional<Temperature> celsius = Typed.celsius(fields, "celsius");
        Seen seen = new Seen(small(fields, "step", 0), small(fields, "revision", 1));
        Optional<String> id = fields.text("id");
        return action(fields, word, celsius, duration).map(read -> new StepAction(read.action(), seen, id));
    }

    private static Optional<Integer> small(Fields fields, String name, int least) {
        Optional<Long> number = fields.whole(name);
        boolean allowed = number.filter(n -> n < least || n > Integer.MAX_VALUE).isEmpty();
        if (!allowed) fields.mistake(name, "is " + number.get() + "; write a whole number from " + least + " on");
        return allowed ? number.map(Math::toIntExact) : Optional.empty();
    }

    private record Read(Optional<Action> action) {}

    private static Optional<Read> action(
            Fields fields, Optional<String> word, Optional<Temperature> celsius, Optional<Duration> duration) {
        if (word.isPresent() && !word.get().equals("undo")) refuse(fields, word.get(), List.of("id"));
        return word.flatMap(written -> switch (written) {
            case "hold" -> alone(fields, written, new Action.Hold());
            case "resume" -> alone(fields, written, new Action.Resume());
            case "next" -> alone(fields, written, new Action.Next());
            case "back" -> alone(fields, written, new Action.Back());
            case "continue" -> alone(fields, written, new Action.Continue());
            case "undo" -> {
                refuse(fields, written, List.of("celsius", "duration", "step", "revision"));
                yield Optional.of(new Read(Optional.empty()));
            }
            case "extend" -> {
                refuse(fields, written, List.of("celsius"));
                yield Typed.needed(fields, "duration", duration).map(by -> of(new Action.Extend(by)));
            }
            case "override" -> {
                Typed.needed(fields, "celsius", celsius);
                Typed.needed(fields, "duration", duration);
                yield celsius.flatMap(to -> duration.map(length -> of(new Action.Another(to, length))));
            }
            default -> {
                fields.mistake("action", "is \"" + Fields.shortened(written) + "\"; write one of " + KNOWN);
                yield Optional.empty();
            }
        });
    }

    private static Read of(Action action) {
        return new Read(Optional.of(action));
    }

    private static Optional<Read> alone(Fields fields, String word, Action action) {
        refuse(fields, word, List.of("celsius", "duration"));
        return Optional.of(of(action));
    }

    private static void refuse(Fields fields, String word, List<String> names) {
        List<String> given = new ArrayList<>(names);
        given.removeIf(name -> !fields.has(name));
        for (String name : given) fields.mistake(name, "does not go with " + word + "; leave it out");
    }
}
