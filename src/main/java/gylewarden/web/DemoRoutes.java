package gylewarden.web;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import gylewarden.document.Fields;
import gylewarden.document.Json;
import gylewarden.web.FaultKnobs.Board;
import gylewarden.web.FaultKnobs.State;
import gylewarden.web.Problem.Kind;
import gylewarden.web.Route.Method;
import java.util.List;
import java.util.Optional;

/** Breaking things on purpose: the page for it and what it asks. These routes exist in the demo only. */
final class DemoRoutes {
    private static final String FAULTS = "/demo/faults";

    private final FaultKnobs knobs;
    private final Assets assets;

    /** @param assets with the demo's room */
    DemoRoutes(FaultKnobs knobs, Assets assets) {
        this.knobs = knobs;
        this.assets = assets;
    }

    List<Route> routes() {
        return List.of(
                new Route(Method.GET, "/demo", "text/html", assets::demo),
                new Route(Method.GET, "/demo/files/<file>", "*/*", assets::file),
                Route.get(FAULTS, call -> all()),
                Route.json(Method.POST, FAULTS, this::inject),
                Route.json(
                        Method.DELETE,
                        FAULTS + "/{chamber}/{fault}",
                        call -> turned(call.parameter("chamber"), call.parameter("fault"), false)),
                Route.json(Method.PUT, "/demo/speed", this::speed));
    }

    private record Wish(String chamber, String fault) {}

    private Reply inject(Call call) throws Refused {
        Wish wish = call.body(List.of("chamberId", "fault"), fields -> {
            Optional<String> chamber = Typed.needed(fields, "chamberId", fields.text("chamberId"));
            return Typed.needed(fields, "fault", fields.text("fault"))
                    .flatMap(fault -> chamber.map(id -> new Wish(id, fault)));
        });
        return turned(wish.chamber(), wish.fault(), true);
    }

    private Reply turned(String chamber, String fault, boolean isBroken) throws Refused {
        if (knobs.turn(chamber, fault, isBroken)) return all();
        throw new Refused(
                Kind.NOT_FOUND,
                "There is no fault \"" + Fields.shortened(fault) + "\" of a chamber \"" + Fields.shortened(chamber)
                        + "\". GET " + FAULTS + " lists all of them.");
    }

    private Reply speed(Call call) throws Refused {
        FaultKnobs.Range range = knobs.speeds();
        long wanted = call.body(List.of("speed"), fields -> {
            Optional<Long> speed = Typed.needed(fields, "speed", fields.whole("speed"));
            boolean isOutside = speed.filter(value -> value < range.least() || value > range.most())
                    .isPresent();
            if (isOutside)
                fields.mistake("speed", "is " + speed.get() + "; allowed is " + range.least() + " to " + range.most());
            return speed;
        });
        knobs.speed((int) wanted);
        return Reply.json(Json.object().put("speed", wanted));
    }

    private Reply all() {
        ObjectNode document = Json.object().put("speed", knobs.speed());
        ArrayNode chambers = document.putArray("chambers");
        for (Board board : knobs.boards()) {
            ObjectNode chamber = chambers.addObject().put("id", board.chamber()).put("name", board.name());
            ArrayNode faults = chamber.putArray("faults");
            for (State state : board.knobs()) {
                ObjectNode fault = faults.addObject();
                fault.put("id", state.id()).put("group", state.group());
                fault.put("title", state.title()).put("expect", state.expect());
                state.since().ifPresent(since -> fault.put("since", Times.text(since)));
            }
        }
        return Reply.json(document);
    }
}
