package gylewarden.web;

import com.fasterxml.jackson.databind.node.ObjectNode;
import gylewarden.batch.Batch;
import gylewarden.batch.Mandate;
import gylewarden.chamber.Asked;
import gylewarden.commission.Commissioned;
import gylewarden.control.Condition;
import gylewarden.control.Load;
import gylewarden.control.Reason;
import gylewarden.control.Rules;
import gylewarden.control.Side;
import gylewarden.document.Json;
import gylewarden.journal.ChamberStatus;
import gylewarden.journal.CourseWords;
import gylewarden.journal.LimitWords;
import gylewarden.journal.Scale;
import gylewarden.journal.Sentences;
import gylewarden.schedule.Course;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;

/** A chamber as it is now. */
final class ChamberDocument {
    private final House.Room room;
    private final ChamberStatus status;
    private final Scale scale;
    private final CourseWords words;
    private final Mandate mandate;
    private final ObjectNode document = Json.object();

    private ChamberDocument(House.Room room, ChamberStatus status, Mandate mandate, Scale scale) {
        this.room = room;
        this.status = status;
        this.mandate = mandate;
        this.scale = scale;
        this.words = new CourseWords(scale);
    }

    static ObjectNode of(House.Room room, House.Beside beside, ChamberStatus status, Scale scale) {
        var writing = new ChamberDocument(room, status, beside.mandate(), scale);
        writing.names(beside);
        writing.probes();
        writing.control();
        writing.plan();
        writing.limits();
        writing.document.put("asOf", Times.text(status.dated(status.at())));
        writing.document.put("saved", beside.saved());
        writing.document.put("alarms", beside.alarms());
        return writing.document;
    }

    private void names(House.Beside beside) {
        document.put("id", room.id()).put("name", room.name());
        mandate.batch().ifPresent(batch -> document.put("batchId", batch.id().toString()));
        var others = document.putArray("otherBatchIds");
        beside.otherBatches().forEach(id -> others.add(id.toString()));
        beside.commissioned().ifPresent(this::commissioned);
    }

    private void commissioned(Commissioned result) {
        ObjectNode told = document.putObject("commissioned");
        told.put("at", Times.text(result.at())).put("passed", result.passed());
        var findings = told.putArray("findings");
        result.findings().forEach(sentence -> findings.add(scale.rephrase(sentence)));
    }

    private void probes() {
        var readings = status.readings();
        document.set("beer", ProbeDocument.of(readings.beer(), status));
        readings.secondBeer().ifPresent(r -> document.set("secondBeer", ProbeDocument.of(r, status)));
        readings.air().ifPresent(r -> document.set("air", ProbeDocument.of(r, status)));
        readings.room().ifPresent(r -> document.set("room", ProbeDocument.of(r, status)));
        if (readings.watched().isEmpty()) return;
        var list = document.putArray("watched");
        for (int i = 0; i < readings.watched().size(); i++)
            ProbeDocument.put(
                    list.addObject().put("id", room.watched().get(i)),
                    readings.watched().get(i),
                    status);
    }

    private void control() {
        Figures.put(document, "setpointCelsius", mandate.setpoint());
        Figures.put(document, "targetCelsius", mandate.target());
        for (Side side : Side.values()) if (status.fitted().has(side)) document.set(Words.camel(side), relay(side));
        document.set("reason", ReasonDocument.of(status, scale));
        if (status.decision().reason() instanceof Reason.SwitchedOff) document.put("switchedOff", true);
        var conditions = document.putArray("conditions");
        for (Condition condition : Condition.values())
            if (status.conditions().contains(condition))
                conditions
                        .addObject()
                        .put("kind", Words.camel(condition))
                        .put("priority", Words.camel(condition.priority()))
                        .put("sentence", Sentences.of(condition));
    }

    private ObjectNode relay(Side side) {
        Load load = status.guard().load(side);
        ObjectNode relay = Json.object();
        relay.put("energised", load.energised());
        relay.put("since", Times.text(status.dated(load.since())));
        status.mayStartAt(side).ifPresent(at -> relay.put("mayStartAt", Times.text(status.dated(at))));
        return relay;
    }

    private void plan() {
        mandate.course().ifPresent(course -> document.set("step", step(course, mandate.batch())));
        nextChange().ifPresent(next -> document.set("nextChange", next));
        mandate.pauseLeft().ifPresent(left -> document.putObject("pause").put("until", in(left)));
        ObjectNode clock = document.putObject("clock");
        clock.put("trusted", status.clock().trusted());
        clock.put("awaysUnsettled", status.time().unsettled().isPresent());
    }

    private ObjectNode step(Course course, Optional<Batch> batch) {
        ObjectNode step = Json.object();
        step.put("index", course.stepIndex());
        step.put("kind", course.kind().word());
        batch.flatMap(present -> present.dates().stepSince()).ifPresent(since -> step.put("since", Times.text(since)));
        step.put("sentence", words.now(course));
        step.put("waitsForWord", course.waitsForWord());
        step.put("held", course.held().isPresent());
        course.override()
                .ifPresent(other -> step.putObject("override")
                        .put("celsius", Figures.celsius(other.temperature()))
                        .put("until", in(other.left())));
        return step;
    }

    private Optional<ObjectNode> nextChange() {
        if (mandate.pauseLeft().isPresent())
            return Optional.of(change(mandate.pauseLeft().get(), "The pause is over."));
        Optional<Course> course = mandate.course();
        if (course.isEmpty()) return Optional.empty();
        Optional<Course.OverrideFor> override = course.get().override();
        if (override.isPresent()) return Optional.of(change(override.get().left(), "The schedule goes on."));
        return course.get()
                .untilNextStep()
                .map(wait -> change(
                        wait, words.begins(course.get().schedule(), course.get().stepIndex() + 1)));
    }

    private ObjectNode change(Duration wait, String sentence) {
        return Json.object().put("at", in(wait)).put("sentence", sentence);
    }

    private String in(Duration wait) {
        Instant now = status.dated(status.at());
        return Times.text(now.plus(wait));
    }

    /** A person's own limits can only narrow those of the config. */
    private void limits() {
        Rules.Limits outer = room.outer();
        Mandate.Limits own = mandate.limits();
        ObjectNode limits = document.putObject("limits");
        Rules.Limits inForce = Asked.within(outer, own);
        putLimits(limits, inForce);
        putLimits(limits.putObject("outer"), outer);
        var cautions = limits.putArray("cautions");
        new LimitWords(scale).of(mandate, inForce).forEach(cautions::add);
    }

    private static void putLimits(ObjectNode into, Rules.Limits limits) {
        into.put("beerMinCelsius", Figures.celsius(limits.beerMin()))
                .put("beerMaxCelsius", Figures.celsius(limits.beerMax()))
                .put("airMinCelsius", Figures.celsius(limits.airMin()))
                .put("airMaxCelsius", Figures.celsius(limits.airMax()));
    }
}
