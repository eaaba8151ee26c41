package gylewarden.web;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import gylewarden.batch.Batch;
import gylewarden.batch.Batch.Stage;
import gylewarden.document.ScheduleDocument;
import gylewarden.journal.CourseWords;
import gylewarden.journal.PlanWords;
import gylewarden.journal.Scale;
import gylewarden.schedule.Course;
import gylewarden.schedule.Leg;
import gylewarden.schedule.PlanChange;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;

/** A schedule with what it comes to: when each step is, and the line of the setpoint from now on. */
record PlanDocument(Scale scale, Instant now) {
    /** Of the line ahead; a bend is hit to within a 150th of it, a step's beginning and end exactly. */
    private static final int POINTS = 150;

    /** How far ahead a plan is drawn that has no end. */
    private static final Duration OPEN_END = Duration.ofDays(7);

    private static final Duration LONGEST = Duration.ofDays(200);

    ObjectNode of(Batch batch) {
        return of(batch, batch.course());
    }

    /** As it would be with another course, and what would be different. */
    ObjectNode tried(Batch batch, Course next, List<PlanChange> changes) {
        ObjectNode document = of(batch, next);
        ArrayNode list = document.putArray("changes");
        var words = new PlanWords(scale);
        for (PlanChange change : changes) list.add(words.of(change));
        return document;
    }

    private ObjectNode of(Batch batch, Course course) {
        boolean runs = batch.stage() == Stage.FERMENTS;
        ObjectNode document = ScheduleDocument.tree(course.schedule());
        document.put("revision", batch.revision());
        if (runs) document.put("currentStep", course.stepIndex());
        document.put("lockedSteps", runs ? course.stepIndex() : batch.stage() == Stage.ENDED ? steps(course) : 0);
        document.set("plan", plan(batch, course));
        document.set("ahead", ahead(document.objectNode(), batch, course));
        return document;
    }

    private static int steps(Course course) {
        return course.schedule().steps().size();
    }

    /** Before pitching nobody can say when; what is over is not known to the second either, but for the present step. */
    private ArrayNode plan(Batch batch, Course course) {
        ArrayNode list = ScheduleDocument.tree(course.schedule()).putArray("plan");
        var words = new CourseWords(scale);
        List<Leg> legs = batch.stage() == Stage.FERMENTS ? course.plan() : List.of();
        for (int index = 0; index < steps(course); index++) {
            int step = index;
            ObjectNode entry = list.addObject().put("index", step);
            Optional<Leg> leg = legs.stream().filter(one -> one.step() == step).findFirst();
            boolean present = step == course.stepIndex();
            Optional<Instant> starts = present && leg.isPresent()
                    ? batch.dates().stepSince()
                    : leg.flatMap(Leg::begins).map(now::plus);
            starts.ifPresent(at -> entry.put("startsAt", Times.text(at)));
            leg.flatMap(Leg::ends).ifPresent(ends -> entry.put("endsAt", Times.text(now.plus(ends))));
            entry.put("sentence", words.of(course.schedule().step(step)));
        }
        return list;
    }

    private ObjectNode ahead(ObjectNode ahead, Batch batch, Course course) {
        ArrayNode at = ahead.putArray("at");
        ArrayNode setpoints = ahead.putArray("setpointCelsius");
        if (batch.stage() != Stage.FERMENTS) return ahead;
        for (Duration moment : moments(course.plan())) {
            Optional<Temperature> setpoint = course.setpointAhead(moment);
            if (setpoint.isEmpty()) continue;
            at.add(Times.text(now.plus(moment)));
            setpoints.add(Figures.celsius(setpoint.get()));
        }
        return ahead;
    }

    private static TreeSet<Duration> moments(List<Leg> legs) {
        var moments = new TreeSet<Duration>();
        Duration end = legs.stream()
                .flatMap(leg -> leg.ends().or(leg::begins).stream())
                .max(Duration::compareTo)
                .orElse(Duration.ZERO);
        boolean open = legs.get(legs.size() - 1).ends().isEmpty();
        Duration span = open ? end.plus(OPEN_END) : end;
        if (span.compareTo(LONGEST) > 0) span = LONGEST;
        for (int i = 0; i <= POINTS; i++) moments.add(span.multipliedBy(i).dividedBy(POINTS));
        for (Leg leg : legs) {
            if (leg.ends().isEmpty() || leg.ends().get().compareTo(span) > 0) continue;
            Duration ends = leg.ends().get();
            moments.add(ends);
            if (ends.compareTo(Duration.ofSeconds(1)) > 0) moments.add(ends.minusSeconds(1));
        }
        return moments;
    }
}
