package gylewarden.web;

import com.fasterxml.jackson.databind.node.ArrayNode;
import gylewarden.batch.Batch;
import gylewarden.batch.Change.Listed;
import gylewarden.chamber.BatchDesk;
import gylewarden.document.Json;
import gylewarden.document.ScheduleDocument;
import gylewarden.schedule.Course;
import gylewarden.schedule.Outcome;
import gylewarden.schedule.PlanChange;
import gylewarden.schedule.Schedule;
import gylewarden.web.Problem.Kind;
import gylewarden.web.Route.Method;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The schedule of a batch: looked at, tried, saved. */
final class ScheduleRoutes {
    private static final String PATH = BatchRoutes.ONE + "/schedule";

    /** RFC 9110 8.8.3: a strong tag. Ours are revisions. */
    private static final Pattern TAG = Pattern.compile("\"(\\d{1,9})\"");

    private final Wired wired;

    ScheduleRoutes(Wired wired) {
        this.wired = wired;
    }

    List<Route> routes() {
        return List.of(
                Route.get(PATH, this::look),
                Route.json(Method.PUT, PATH, this::put),
                Route.get(PATH + "/revisions", this::revisions));
    }

    private Reply look(Call call) throws Refused {
        Batch batch = BatchRoutes.found(wired, call).batch();
        return tagged(Reply.json(new PlanDocument(call.units(), now()).of(batch)), batch);
    }

    private static Reply tagged(Reply reply, Batch batch) {
        return reply.with("ETag", "\"" + batch.revision() + "\"");
    }

    private Instant now() {
        return wired.house().clock().now();
    }

    private Reply put(Call call) throws Refused {
        Listed listed = BatchRoutes.found(wired, call);
        boolean dryRun = call.flag("dryRun");
        var plan = new PlanDocument(call.units(), now());
        int revision = revision(call, listed.batch());
        Schedule schedule = schedule(call);
        if (dryRun) return tried(listed.batch(), revision, schedule, plan);
        Batch saved =
                Answers.batch(wired.batches().editSchedule(listed.batch().id(), revision, schedule, call.actor()));
        return tagged(Reply.json(plan.of(saved)), saved);
    }

    /** The revision that the person saw. */
    private static int revision(Call call, Batch batch) throws Refused {
        String tags = call.header("If-Match")
                .orElseThrow(() -> new Refused(
                        Kind.PRECONDITION_REQUIRED,
                        "Say which revision you edited, so that nobody's changes are lost: GET the schedule, and send its"
                                + " ETag back in the header If-Match. Nothing was changed."));
        if (tags.strip().equals("*")) return batch.revision();
        Matcher tag = TAG.matcher(tags.strip());
        OptionalInt revision = tag.matches() ? OptionalInt.of(Integer.parseInt(tag.group(1))) : OptionalInt.empty();
        return revision.orElseThrow(() -> new Refused(
                Kind.PRECONDITION_FAILED,
                "The header If-Match must be the ETag of the schedule that you edited, such as \"" + batch.revision()
                        + "\" with its quotes. Nothing was changed."));
    }

    private static Schedule schedule(Call call) throws Refused {
        ScheduleDocument.Read read = ScheduleDocument.read(call.body());
        Optional<Problem> problem =
                read.fold(understood -> Optional.empty(), refused -> Optional.of(Problem.mistakes(refused.mistakes())));
        if (problem.isPresent()) throw new Refused(problem.get());
        return read.fold(understood -> understood.schedule(), refused -> {
            throw new IllegalStateException("refused and understood at once");
        });
    }

    private Reply tried(Batch batch, int revision, Schedule schedule, PlanDocument plan) throws Refused {
        if (revision != batch.revision())
            throw new Refused(
                    Kind.PRECONDITION_FAILED,
                    "Somebody else has changed this schedule: it is at revision " + batch.revision()
                            + ", and you edited revision " + revision + ". Look at what they saved, and edit that.");
        Answers.allow(wired.batches().wrongSchedule(batch, schedule));
        Outcome outcome = BatchDesk.revised(batch, schedule);
        Optional<Problem> problem =
                outcome.fold(done -> Optional.empty(), refused -> Optional.of(Problem.mistakes(refused.mistakes())));
        if (problem.isPresent()) throw new Refused(problem.get());
        Course next = outcome.fold(done -> done.course(), refused -> batch.course());
        return tagged(Reply.json(plan.tried(batch, next, PlanChange.between(batch.course(), next))), batch);
    }

    private Reply revisions(Call call) throws Refused {
        Batch batch = BatchRoutes.found(wired, call).batch();
        ArrayNode list = Json.object().putArray("revisions");
        for (Chronicle.Revision revision : Recorded.of(() -> wired.chronicle().revisions(batch.id())))
            list.addObject()
                    .put("revision", revision.revision())
                    .put("savedAt", Times.text(revision.savedAt()))
                    .put("actor", revision.actor())
                    .set("steps", ScheduleDocument.tree(revision.schedule()).get("steps"));
        return Reply.json(list);
    }
}
