package gylewarden.web;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import gylewarden.batch.Mandate;
import gylewarden.chamber.Answer;
import gylewarden.document.Fields;
import gylewarden.document.Json;
import gylewarden.journal.ChamberStatus;
import gylewarden.journal.Scale;
import gylewarden.units.Temperature;
import gylewarden.web.Problem.Kind;
import gylewarden.web.Route.Method;
import java.time.Duration;
import java.util.List;
import java.util.Optional;

/** Chambers, and what may be asked of them. */
final class ChamberRoutes {
    private static final String ONE = "/api/chambers/{id}";
    private static final List<String> LIMITS =
            List.of("beerMinCelsius", "beerMaxCelsius", "airMinCelsius", "airMaxCelsius");

    private final Wired wired;

    ChamberRoutes(Wired wired) {
        this.wired = wired;
    }

    List<Route> routes() {
        return List.of(
                Route.get("/api/chambers", this::all),
                Route.get(ONE, call -> Reply.json(document(room(call), call.units()))),
                Route.json(Method.PUT, ONE + "/target", this::setTarget),
                Route.json(
                        Method.DELETE,
                        ONE + "/target",
                        call -> asked(call, id -> wired.desk().setTarget(id, Optional.empty(), call.actor()))),
                Route.json(Method.POST, ONE + "/pause", this::pause),
                Route.json(
                        Method.DELETE,
                        ONE + "/pause",
                        call -> asked(call, id -> wired.desk().endPause(id, call.actor()))),
                Route.json(Method.PUT, ONE + "/limits", this::limit),
                Route.json(Method.POST, ONE + "/acknowledge", this::acknowledge));
    }

    private Reply all(Call call) throws Refused {
        ArrayNode list = Json.object().putArray("chambers");
        for (House.Room room : wired.house().rooms()) list.add(document(room, call.units()));
        return Reply.json(list);
    }

    private ObjectNode document(House.Room room, Scale scale) throws Refused {
        ChamberStatus status = wired.house()
                .status(room.id())
                .orElseThrow(() -> new Refused(
                        Kind.SERVICE_UNAVAILABLE,
                        "The daemon has only just started and " + room.id()
                                + " has not ticked yet. Ask again in a second."));
        return ChamberDocument.of(room, wired.house().beside(room.id()), status, scale);
    }

    private House.Room room(Call call) throws Refused {
        return room(wired.house(), call.parameter("id"));
    }

    static House.Room room(House house, String id) throws Refused {
        return house.rooms().stream()
                .filter(room -> room.id().equals(id))
                .findFirst()
                .orElseThrow(() -> new Refused(
                        Kind.NOT_FOUND,
                        "There is no chamber \"" + Fields.shortened(id)
                                + "\". GET /api/chambers lists those of the config."));
    }

    private Reply setTarget(Call call) throws Refused {
        Temperature target = call.body(
                List.of("celsius"), fields -> Typed.needed(fields, "celsius", Typed.celsius(fields, "celsius")));
        return asked(call, id -> wired.desk().setTarget(id, Optional.of(target), call.actor()));
    }

    private Reply pause(Call call) throws Refused {
        Duration length =
                call.body(List.of("duration"), fields -> Typed.needed(fields, "duration", fields.duration("duration")));
        return asked(call, id -> wired.desk().pause(id, length, call.actor()));
    }

    private Reply limit(Call call) throws Refused {
        Mandate.Limits limits = call.body(
                LIMITS,
                fields -> Optional.of(new Mandate.Limits(
                        Typed.celsius(fields, "beerMinCelsius"),
                        Typed.celsius(fields, "beerMaxCelsius"),
                        Typed.celsius(fields, "airMinCelsius"),
                        Typed.celsius(fields, "airMaxCelsius"))));
        return asked(call, id -> wired.desk().limit(id, limits, call.actor()));
    }

    private Reply acknowledge(Call call) throws Refused {
        call.body(List.of(), fields -> Optional.of(fields.size()));
        return asked(call, id -> wired.desk().acknowledge(id, call.actor()));
    }

    private interface Asking {
        Answer of(String chamber);
    }

    /** The reply is the chamber as it is asked to be from now on. */
    private Reply asked(Call call, Asking asking) throws Refused {
        House.Room room = room(call);
        Scale scale = call.units();
        Answers.done(asking.of(room.id()));
        return Reply.json(document(room, scale));
    }
}
