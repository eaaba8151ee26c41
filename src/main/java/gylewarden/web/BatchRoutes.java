package gylewarden.web;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import gylewarden.batch.Batch;
import gylewarden.batch.Change.Listed;
import gylewarden.chamber.Answer;
import gylewarden.chamber.BatchDesk;
import gylewarden.document.Fields;
import gylewarden.document.Json;
import gylewarden.document.ScheduleDocument;
import gylewarden.journal.Scale;
import gylewarden.schedule.Mistake;
import gylewarden.schedule.Schedule;
import gylewarden.units.Temperature;
import gylewarden.web.Problem.Kind;
import gylewarden.web.Route.Method;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;

/** Batches: what they are, their beginning and their end. */
final class BatchRoutes {
    static final String ONE = "/api/batches/{id}";

    private final Wired wired;

    BatchRoutes(Wired wired) {
        this.wired = wired;
    }

    List<Route> routes() {
        return List.of(
                Route.get("/api/batches", this::all),
                Route.json(Method.POST, "/api/batches", this::begin),
                Route.get(ONE, call -> Reply.json(sheet(found(wired, call), call.units()))),
                Route.json(Method.PATCH, ONE, this::change),
                Route.json(Method.POST, ONE + "/end", this::end),
                Route.json(Method.POST, ONE + "/step", this::act));
    }

    /** @throws Refused if there is no such batch */
    static Listed found(Wired wired, Call call) throws Refused {
        UUID id = call.id();
        return wired.batches()
                .batch(id)
                .orElseThrow(() -> new Refused(
                        Kind.NOT_FOUND, "There is no batch " + id + ". GET /api/batches lists those that there are."));
    }

    private Reply all(Call call) throws Refused {
        ArrayNode list = Json.object().putArray("batches");
        Scale scale = call.units();
        for (Listed listed : Recorded.of(() -> wired.chronicle().batches())) list.add(sheet(listed, scale));
        return Reply.json(list);
    }

    private Reply begin(Call call) throws Refused {
        BatchDesk.Plan plan =
                call.body(List.of("name", "chamberId", "schedule", "pitchCelsius", "pitched"), BatchRoutes::plan);
        Scale scale = call.units();
        if (call.flag("dryRun")) return tried(plan, scale);
        Batch batch = Answers.batch(wired.batches().begin(plan, call.actor()));
        return Reply.json(201, sheet(current(batch), scale)).with("Location", "/api/batches/" + batch.id());
    }

    /** The dates are as if the yeast were pitched now. */
    private Reply tried(BatchDesk.Plan plan, Scale scale) throws Refused {
        Batch batch = Answers.batch(wired.batches().tried(plan));
        Instant now = wired.house().clock().now();
        Batch pitched = plan.pitched() ? batch : batch.pitched(now);
        ObjectNode document = new PlanDocument(scale, now).of(pitched);
        boolean decides = wired.house().beside(plan.chamber()).mandate().batch().isEmpty();
        document.put("decides", decides);
        if (decides) Figures.put(document, "setpointCelsius", batch.setpoint());
        return Reply.json(document);
    }

    private static Optional<BatchDesk.Plan> plan(Fields fields) {
        Optional<String> name = Typed.needed(fields, "name", fields.text("name"));
        Optional<String> chamber = Typed.needed(fields, "chamberId", fields.text("chamberId"));
        Optional<Schedule> schedule =
                Typed.needed(fields, "schedule", fields.node("schedule").flatMap(node -> schedule(fields, node)));
        Optional<Temperature> pitchAt = Typed.celsius(fields, "pitchCelsius");
        boolean pitched = fields.flag("pitched").orElse(false);
        if (name.isEmpty() || chamber.isEmpty() || schedule.isEmpty()) return Optional.empty();
        return Optional.of(new BatchDesk.Plan(name.get(), chamber.get(), schedule.get(), pitchAt, pitched));
    }

    private static Optional<Schedule> schedule(Fields fields, JsonNode node) {
        return ScheduleDocument.read(node).fold(understood -> Optional.of(understood.schedule()), refused -> {
            for (Mistake mistake : refused.mistakes())
                fields.mistake(
                        mistake.field().isEmpty() ? "schedule" : "schedule." + mistake.field(), mistake.message());
            return Optional.empty();
        });
    }

    private Reply change(Call call) throws Refused {
        BatchDesk.Patch patch =
                call.body(List.of("name", "chamberId", "pitched", "pitchCelsius", "decides"), BatchRoutes::patch);
        Listed before = found(wired, call);
        Scale scale = call.units();
        Batch batch = Answers.batch(wired.batches().change(call.id(), patch, call.actor()));
        ObjectNode sheet = sheet(current(batch), scale);
        String from = before.batch().chamber();
        if (before.decides() && !from.equals(batch.chamber())) sheet.set("left", left(from));
        return Reply.json(sheet);
    }

    /** The chamber that a batch was moved out of, and what it does now. */
    private ObjectNode left(String chamber) {
        String name = wired.house().rooms().stream()
                .filter(room -> room.id().equals(chamber))
                .map(House.Room::name)
                .findFirst()
                .orElse(chamber);
        boolean others = !wired.house().beside(chamber).otherBatches().isEmpty();
        return Json.object()
                .put("chamberId", chamber)
                .put(
                        "sentence",
                        name + " has no task now: everything there is off."
                                + (others ? " Another batch stands there; it decides only when you say so." : ""));
    }

    private static Optional<BatchDesk.Patch> patch(Fields fields) {
        return Optional.of(new BatchDesk.Patch(
                fields.text("name"),
                fields.text("chamberId"),
                onlyTrue(fields, "pitched", "take it back by the step action undo"),
                Typed.celsius(fields, "pitchCelsius"),
                onlyTrue(fields, "decides", "let another batch decide instead")));
    }

    private static boolean onlyTrue(Fields fields, String name, String instead) {
        Optional<Boolean> flag = fields.flag(name);
        if (flag.isPresent() && !flag.get()) fields.mistake(name, "can only be set to true; " + instead);
        return flag.orElse(false);
    }

    private record End(Optional<Boolean> vesselOut, Optional<Temperature> after) {}

    private Reply end(Call call) throws Refused {
        End end = call.body(
                List.of("vesselOut", "chamber"),
                fields -> Optional.of(new End(fields.flag("vesselOut"), after(fields))));
        return sheet(call.units(), wired.batches().end(call.id(), end.vesselOut(), end.after(), call.actor()));
    }

    /** What the chamber does then: "off", or a temperature. */
    private static Optional<Temperature> after(Fields fields) {
        Optional<JsonNode> chamber = Typed.needed(fields, "chamber", fields.node("chamber"));
        if (chamber.isEmpty()) return Optional.empty();
        if (chamber.get().isTextual() && chamber.get().textValue().equals("off")) return Optional.empty();
        if (!chamber.get().isObject()) {
            fields.mistake("chamber", "write \"off\", or {\"celsius\": 4.0} for what the chamber shall hold");
            return Optional.empty();
        }
        Optional<Fields> inner = fields.object("chamber");
        inner.ifPresent(held -> held.allowOnly(List.of("celsius")));
        return inner.flatMap(held -> Typed.needed(held, "celsius", Typed.celsius(held, "celsius")));
    }

    private Reply act(Call call) throws Refused {
        StepAction action = call.body(StepAction.FIELDS, StepAction::read);
        UUID id = call.id();
        return sheet(
                call.units(),
                action.action()
                        .map(asked -> wired.batches().act(id, asked, action.seen(), call.actor()))
                        .orElseGet(() -> wired.batches().undo(id, action.undo(), call.actor())));
    }

    private Reply sheet(Scale scale, Answer answer) throws Refused {
        return Reply.json(sheet(current(Answers.batch(answer)), scale));
    }

    private ObjectNode sheet(Listed listed, Scale scale) {
        return BatchSheet.of(listed, scale, wired.house().clock().now());
    }

    private Listed current(Batch batch) {
        return wired.batches().batch(batch.id()).orElse(new Listed(batch, false));
    }
}
