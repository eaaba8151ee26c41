package gylewarden.web;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import gylewarden.chamber.Answer;
import gylewarden.document.Json;
import gylewarden.journal.Scale;
import gylewarden.web.Route.Method;
import java.util.List;
import java.util.Optional;
import java.util.UUID;

/** What was told and written down, and how the record and the clock do. */
final class RecordRoutes {
    private static final int MOST_EVENTS = 500;
    private static final int EVENTS = 100;

    private final Wired wired;

    RecordRoutes(Wired wired) {
        this.wired = wired;
    }

    List<Route> routes() {
        return List.of(
                Route.get("/api/chambers/{id}/events", this::ofChamber),
                Route.get(BatchRoutes.ONE + "/events", this::ofBatch),
                Route.get(BatchRoutes.ONE + "/notes", this::notes),
                Route.json(Method.POST, BatchRoutes.ONE + "/notes", this::note),
                Route.get("/api/record", call -> record()),
                Route.get("/api/clock", call -> Reply.json(clock())),
                Route.json(Method.POST, "/api/clock", this::clockIsRight),
                Route.get("/api/relays-off", call -> relaysOff()),
                Route.json(Method.PUT, "/api/relays-off", call -> switchOff(call, true)),
                Route.json(Method.DELETE, "/api/relays-off", call -> switchOff(call, false)));
    }

    private Reply ofChamber(Call call) throws Refused {
        House.Room room = ChamberRoutes.room(wired.house(), call.parameter("id"));
        Optional<Long> before = before(call);
        int most = most(call);
        return events(Recorded.of(() -> wired.chronicle().ofChamber(room.id(), before, most)), call.units());
    }

    private Reply ofBatch(Call call) throws Refused {
        UUID batch = BatchRoutes.found(wired, call).batch().id();
        Optional<Long> before = before(call);
        int most = most(call);
        return events(Recorded.of(() -> wired.chronicle().ofBatch(batch, before, most)), call.units());
    }

    private Reply notes(Call call) throws Refused {
        UUID batch = BatchRoutes.found(wired, call).batch().id();
        return events(Recorded.of(() -> wired.chronicle().notes(batch)), call.units());
    }

    private static Optional<Long> before(Call call) throws Refused {
        return call.whole("before", 1, Long.MAX_VALUE);
    }

    private static int most(Call call) throws Refused {
        return Math.toIntExact(call.whole("limit", 1, MOST_EVENTS).orElse((long) EVENTS));
    }

    private static Reply events(List<Told> events, Scale scale) {
        ArrayNode list = Json.object().putArray("events");
        for (Told event : events) list.add(EventDocument.of(event, scale));
        return Reply.json(list);
    }

    private Reply note(Call call) throws Refused {
        UUID batch = BatchRoutes.found(wired, call).batch().id();
        String text = call.body(List.of("text"), fields -> Typed.needed(fields, "text", fields.text("text")));
        Answer.Done done = Answers.done(wired.batches().note(batch, text, call.actor()));
        ObjectNode document = Json.object().put("text", text.strip());
        document.put("saved", done.unsaved().isEmpty());
        return Reply.json(201, document);
    }

    private Reply record() {
        Chronicle.State state = wired.chronicle().state();
        ObjectNode document = Json.object();
        document.put("state", state.since().isEmpty() ? "sound" : "broken");
        state.since().ifPresent(since -> document.put("since", Times.text(since)));
        document.put("sentence", state.sentence());
        document.put("waitingMinutes", state.waitingMinutes());
        document.put("droppedMinutes", state.droppedMinutes());
        state.schemaVersion().ifPresent(version -> document.put("schemaVersion", version));
        ArrayNode strays = document.putArray("strays");
        for (House.Stray stray : wired.house().strays()) {
            ObjectNode entry = strays.addObject().put("chamberId", stray.chamber());
            stray.batch().ifPresent(batch -> entry.put("batchId", batch.toString()));
            entry.put("sentence", stray.sentence());
        }
        return Reply.json(document);
    }

    private ObjectNode clock() {
        House.WallClock clock = wired.house().clock();
        return Json.object()
                .put("now", Times.text(clock.now()))
                .put("trusted", clock.trusted())
                .put("because", clock.because())
                .put("bootSince", Times.text(clock.bootSince()));
    }

    private Reply clockIsRight(Call call) throws Refused {
        call.body(List.of("rightNow"), fields -> {
            Optional<Boolean> right = Typed.needed(fields, "rightNow", fields.flag("rightNow"));
            if (right.isPresent() && !right.get())
                fields.mistake("rightNow", "can only be true; set the board's clock first, then say that it is right");
            return right;
        });
        Answers.done(wired.house().clockIsRight(call.actor()));
        return Reply.json(clock());
    }

    private Reply relaysOff() {
        return Reply.json(Json.object().put("relaysOff", wired.house().relaysOff()));
    }

    private Reply switchOff(Call call, boolean off) throws Refused {
        if (off) call.body(List.of(), fields -> Optional.of(fields.size()));
        boolean saved = Answers.done(wired.house().switchOff(off, call.actor()))
                .unsaved()
                .isEmpty();
        return Reply.json(
                Json.object().put("relaysOff", wired.house().relaysOff()).put("saved", saved));
    }
}
