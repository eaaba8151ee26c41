package gylewarden.web;

import gylewarden.document.Json;
import gylewarden.web.Problem.Kind;
import java.util.ArrayList;
import java.util.List;

/** Everything that can be asked for. */
final class Api {
    private static final List<String> PAGES =
            List.of("/", "/chamber/{id}", "/chamber/{id}/start", "/batch/{id}/schedule");

    private final House house;
    private final Assets assets;

    Api(House house, Assets assets) {
        this.house = house;
        this.assets = assets;
    }

    List<Route> routes() {
        List<Route> routes = new ArrayList<>();
        for (String path : PAGES) routes.add(new Route(Route.Method.GET, path, "text/html", assets::page));
        for (String path : List.of("/page/<file>", "/lib/<file>"))
            routes.add(new Route(Route.Method.GET, path, "*/*", assets::file));
        routes.add(Route.get("/healthz", call -> health()));
        return routes;
    }

    /** Sound only while every loop ticks. */
    private Reply health() throws Refused {
        List<String> late = house.late();
        if (!late.isEmpty())
            throw new Refused(
                    Kind.SERVICE_UNAVAILABLE,
                    "The loop of " + String.join(", ", late)
                            + " does not tick; its relays release by themselves. Look at" + " the log of the daemon.");
        return Reply.json(Json.object().put("ticking", house.rooms().size()));
    }
}
