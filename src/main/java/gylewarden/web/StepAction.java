package gylewarden.web;

import gylewarden.batch.Action;
import gylewarden.document.Fields;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** @param action absent: take the last thing back */
record StepAction(Optional<Action> action) {
    private static final String KNOWN = "hold, resume, next, back, extend, continue, override, undo";

    static Optional<StepAction> read(Fields fields) {
        Optional<String> word = Typed.needed(fields, "action", fields.text("action"));
        Optional<Duration> duration = fields.duration("duration");
        Optional<Temperature> celsius = Typed.celsius(fields, "celsius");
        return word.flatMap(written -> switch (written) {
            case "hold" -> alone(fields, written, new Action.Hold());
            case "resume" -> alone(fields, written, new Action.Resume());
            case "next" -> alone(fields, written, new Action.Next());
            case "back" -> alone(fields, written, new Action.Back());
            case "continue" -> alone(fields, written, new Action.Continue());
            case "undo" -> {
                refuse(fields, written, List.of("celsius", "duration"));
                yield Optional.of(new StepAction(Optional.empty()));
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

    private static StepAction of(Action action) {
        return new StepAction(Optional.of(action));
    }

    private static Optional<StepAction> alone(Fields fields, String word, Action action) {
        refuse(fields, word, List.of("celsius", "duration"));
        return Optional.of(of(action));
    }

    private static void refuse(Fields fields, String word, List<String> names) {
        List<String> given = new ArrayList<>(names);
        given.removeIf(name -> !fields.has(name));
        for (String name : given) fields.mistake(name, "does not go with " + word + "; leave it out");
    }
}
