package gylewarden.document;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import gylewarden.schedule.Mistake;
import gylewarden.schedule.Schedule;
import gylewarden.schedule.Step;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;

/** A schedule as JSON, in files and in the API. What each field means: docs/schedule.md. */
public final class ScheduleDocument {
    private ScheduleDocument() {}

    /** What a text was found to say. */
    public sealed interface Read {
        <T> T fold(Function<Understood, T> understood, Function<Refused, T> refused);

        /** It is a schedule. */
        record Understood(Schedule schedule) implements Read {
            @Override
            public <T> T fold(Function<Understood, T> understood, Function<Refused, T> refused) {
                return understood.apply(this);
            }
        }

        /**
         * It is none.
         *
         * @param mistakes all of them, at least one; the field of one that concerns the whole text is empty
         */
        record Refused(List<Mistake> mistakes) implements Read {
            @Override
            public <T> T fold(Function<Understood, T> understood, Function<Refused, T> refused) {
                return refused.apply(this);
            }
        }
    }

    /** Reads a schedule, or finds all that is wrong with it. */
    public static Read read(String text) {
        try {
            return read(Json.parse(text));
        } catch (JsonProcessingException broken) {
            return refused(List.of(new Mistake("", "is no JSON " + Json.fault(broken))));
        }
    }

    /** For people: a line a field. Reading it gives the same schedule. */
    public static String write(Schedule schedule) {
        return Json.pretty(tree(schedule));
    }

    public static ObjectNode tree(Schedule schedule) {
        ObjectNode document = Json.object();
        var steps = document.putArray("steps");
        for (Step step : schedule.steps()) steps.add(StepDocument.write(step));
        return document;
    }

    public static Read read(JsonNode document) {
        List<Mistake> mistakes = new ArrayList<>();
        if (!document.isObject()) return refused(List.of(new Mistake("", "is no schedule; write {\"steps\": [ … ]}")));
        var fields = new Fields(document, "", mistakes);
        fields.allowOnly(List.of("steps"));
        if (!fields.has("steps")) fields.mistake("steps", "is missing; a schedule has 1 to 50 steps");
        List<Optional<Fields>> written = fields.objects("steps").orElse(List.of());
        if (written.size() <= Schedule.MOST_STEPS) return steps(written, mistakes);
        fields.mistake("steps", "has " + written.size() + " steps; a schedule has 1 to 50 steps");
        return refused(mistakes);
    }

    /**
     * Where a step can't be read in full, what can be read of it is checked all the same, so that a person hears of every
     * mistake at once.
     */
    private static Read steps(List<Optional<Fields>> written, List<Mistake> mistakes) {
        boolean readable = mistakes.isEmpty();
        List<Step> steps = new ArrayList<>();
        for (int index = 0; index < written.size(); index++) {
            int before = mistakes.size();
            steps.add(written.get(index).map(StepDocument::read).orElse(StepDocument.UNREADABLE));
            List<Mistake> unread = List.copyOf(mistakes.subList(before, mistakes.size()));
            readable = readable && unread.isEmpty();
            for (Mistake amiss : Schedule.checkAlone(steps, index))
                if (unread.stream().noneMatch(known -> known.field().equals(amiss.field()))) mistakes.add(amiss);
        }
        if (!readable) return refused(mistakes);
        List<Mistake> amiss = Schedule.check(steps);
        return amiss.isEmpty() ? new Read.Understood(new Schedule(steps)) : refused(amiss);
    }

    private static Read refused(List<Mistake> mistakes) {
        return new Read.Refused(List.copyOf(mistakes));
    }
}
