package gylewarden.document;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import gylewarden.schedule.Condition;
import gylewarden.schedule.Pace;
import gylewarden.schedule.Step;
import gylewarden.schedule.Terms;
import gylewarden.schedule.Terms.Confirm;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/** One step of a {@link ScheduleDocument}. */
final class StepDocument {
    /**
     * Stands for a step that can't be read, so that those after it keep their numbers. Never part of a schedule: the
     * mistakes that were noted refuse it.
     */
    static final Step UNREADABLE = new Step.Hold(new Temperature(20), Optional.of(Duration.ofHours(1)), Terms.none());

    private static final Condition UNREADABLE_CONDITION = new Condition.AttenuationAtLeast(1);

    private static final List<String> ANY_STEP = List.of("until", "atMost", "confirm", "withoutWord", "note");

    private StepDocument() {}

    /** The step as far as it can be read; what can't be is noted, and {@link #UNREADABLE}'s value stands for it. */
    static Step read(Fields fields) {
        Optional<Step.Kind> kind = kind(fields);
        fields.allowOnly(names(kind));
        Temperature target = target(fields);
        Terms terms = terms(fields);
        if (kind.isEmpty()) return new Step.Hold(target, UNREADABLE.duration(), terms);
        return switch (kind.get()) {
            case HOLD -> new Step.Hold(target, fields.duration("duration"), terms);
            case RISE -> new Step.Ramp(Step.Ramp.Name.RISE, target, pace(fields), terms);
            case FALL -> new Step.Ramp(Step.Ramp.Name.FALL, target, pace(fields), terms);
            case REST -> new Step.Rest(target, fields.duration("duration"), terms);
            case CRASH -> new Step.Crash(target, fields.number("kelvinPerHour"), fields.duration("duration"), terms);
        };
    }

    private static Optional<Step.Kind> kind(Fields fields) {
        String allowed = "one of hold, rise, fall, rest, crash";
        if (!fields.has("kind")) fields.mistake("kind", "is missing; write " + allowed);
        Optional<String> word = fields.text("kind");
        Optional<Step.Kind> kind = word.flatMap(written -> Arrays.stream(Step.Kind.values())
                .filter(known -> known.word().equals(written))
                .findFirst());
        if (word.isPresent() && kind.isEmpty())
            fields.mistake("kind", "is \"" + Fields.shortened(word.get()) + "\"; write " + allowed);
        return kind;
    }

    private static List<String> names(Optional<Step.Kind> kind) {
        List<String> names = new ArrayList<>(List.of("kind", "celsius", "duration"));
        if (kind.isEmpty() || kind.get() == Step.Kind.RISE || kind.get() == Step.Kind.FALL) names.add("kelvinPerDay");
        if (kind.isEmpty() || kind.get() == Step.Kind.CRASH) names.add("kelvinPerHour");
        names.addAll(ANY_STEP);
        return names;
    }

    private static Temperature target(Fields fields) {
        if (!fields.has("celsius")) fields.mistake("celsius", "is missing; allowed are -5 to 45 °C");
        Optional<Double> celsius = fields.number("celsius");
        if (celsius.isPresent() && celsius.get() >= -273.15) return new Temperature(celsius.get());
        celsius.ifPresent(cold -> fields.mistake("celsius", "is " + cold + " °C; allowed are -5 to 45 °C"));
        return UNREADABLE.target();
    }

    private static Pace pace(Fields fields) {
        Optional<Duration> duration = fields.duration("duration");
        Optional<Double> perDay = fields.number("kelvinPerDay");
        if (fields.has("duration") && fields.has("kelvinPerDay"))
            fields.mistake("kelvinPerDay", "can't stand beside duration; give one of the two");
        if (!fields.has("duration") && !fields.has("kelvinPerDay"))
            fields.mistake("duration", "is missing; give either duration or kelvinPerDay");
        Optional<Pace> byDuration = duration.map(Pace.During::new);
        Optional<Pace> byPerDay = perDay.map(Pace.PerDay::new);
        return byDuration.or(() -> byPerDay).orElse(new Pace.During(Duration.ofHours(1)));
    }

    private static Terms terms(Fields fields) {
        List<Condition> until = new ArrayList<>();
        for (Optional<Fields> condition : fields.objects("until").orElse(List.of()))
            until.add(condition.flatMap(StepDocument::condition).orElse(UNREADABLE_CONDITION));
        boolean asks = fields.flag("confirm").orElse(false);
        boolean goesOn = fields.flag("withoutWord").orElse(false);
        Optional<Duration> atMost = fields.duration("atMost");
        if (goesOn && !asks) fields.mistake("withoutWord", "is only for a step with \"confirm\": true");
        boolean sound = asks && goesOn && (atMost.isPresent() || !fields.has("atMost"));
        Confirm confirm = sound ? Confirm.GOES_ON_WITHOUT_WORD : asks ? Confirm.WAITS : Confirm.NOT_ASKED;
        return new Terms(until, atMost, confirm, fields.text("note"));
    }

    private static Optional<Condition> condition(Fields fields) {
        fields.allowOnly(List.of("gravityAtOrBelow", "attenuationAtLeast", "gravityStableFor"));
        List<Condition> said = new ArrayList<>();
        fields.number("gravityAtOrBelow").map(Condition.GravityAtOrBelow::new).ifPresent(said::add);
        fields.number("attenuationAtLeast")
                .map(Condition.AttenuationAtLeast::new)
                .ifPresent(said::add);
        fields.duration("gravityStableFor").map(Condition.GravityStableFor::new).ifPresent(said::add);
        if (fields.size() != 1)
            fields.mistakeHere("has " + fields.size() + " fields; a condition has one. Write a condition each");
        return said.stream().findFirst();
    }

    static ObjectNode write(Step step) {
        ObjectNode document = Json.object();
        document.put("kind", step.kind().word());
        document.put("celsius", step.target().celsius());
        step.duration().ifPresent(duration -> document.put("duration", text(duration)));
        if (step instanceof Step.Ramp ramp && ramp.pace() instanceof Pace.PerDay pace)
            document.put("kelvinPerDay", pace.kelvins());
        if (step instanceof Step.Crash crash)
            crash.kelvinPerHour().ifPresent(perHour -> document.put("kelvinPerHour", perHour));
        write(step.terms(), document);
        return document;
    }

    private static void write(Terms terms, ObjectNode document) {
        if (!terms.until().isEmpty()) {
            ArrayNode until = document.putArray("until");
            for (Condition condition : terms.until()) until.add(write(condition));
        }
        terms.atMost().ifPresent(longest -> document.put("atMost", text(longest)));
        if (terms.confirm() != Confirm.NOT_ASKED) document.put("confirm", true);
        if (terms.confirm() == Confirm.GOES_ON_WITHOUT_WORD) document.put("withoutWord", true);
        terms.note().ifPresent(note -> document.put("note", note));
    }

    private static ObjectNode write(Condition condition) {
        return condition.fold(
                gravity -> Json.object().put("gravityAtOrBelow", gravity.specificGravity()),
                attenuation -> Json.object().put("attenuationAtLeast", attenuation.fraction()),
                stable -> Json.object().put("gravityStableFor", text(stable.duration())));
    }

    /** ISO 8601 with days, which {@link Duration#toString} would write as hours. */
    private static String text(Duration duration) {
        long days = duration.toDays();
        Duration rest = duration.minusDays(days);
        if (days == 0) return rest.toString();
        return "P" + days + "D" + (rest.isZero() ? "" : rest.toString().substring(1));
    }
}
