package gylewarden.web;

import gylewarden.document.Json;
import gylewarden.web.Problem.Kind;
import java.util.ArrayList;
import java.util.List;

/** Everything that can be asked for. */
final class Api {
    private static final List<String> PAGES = List.of(
            "/",
            "/chamber/{id}",
            "/chamber/{id}/start",
            "/chamber/{id}/commissioning",
            "/batch/{id}/schedule",
            "/alarms",
            "/messages");

    private final Wired wired;
    private final Assets assets;
    private final Live live;

    Api(Wired wired, Assets assets, Live live) {
        this.wired = wired;
        this.assets = assets;
        this.live = live;
    }

    List<Route> routes() {
        List<Route> routes = new ArrayList<>();
        for (String path : PAGES) routes.add(new Route(Route.Method.GET, path, "text/html", assets::page));
        for (String path : List.of("/page/<file>", "/lib/<file>"))
            routes.add(new Route(Route.Method.GET, path, "*/*", assets::file));
        routes.addAll(new ChamberRoutes(wired).routes());
        routes.addAll(new CommissioningRoutes(wired).routes());
        routes.addAll(new BatchRoutes(wired).routes());
        routes.addAll(new ScheduleRoutes(wired).routes());
        routes.addAll(new ReadingRoutes(wired).routes());
        routes.addAll(new RecordRoutes(wired).routes());
        routes.addAll(new AlarmRoutes(wired).routes());
        routes.addAll(new RuleRoutes(wired).routes());
        routes.addAll(new ChannelRoutes(wired).routes());
        routes.add(new Route(Route.Method.GET, "/api/live", "text/event-stream", live::connect));
        routes.add(Route.get("/api/openapi.json", call -> description()));
        routes.add(new Route(Route.Method.GET, "/metrics", Metrics.ACCEPTED, call -> new Metrics(wired).reply()));
        routes.add(Route.get("/healthz", call -> health()));
        return routes;
    }

    private static Reply description() {
        return Reply.bytes(200, Route.JSON, Resources.read("gylewarden/web/openapi.json"));
    }

    /** Sound only while every loop ticks. */
    private Reply health() throws Refused {
        List<String> late = wired.house().late();
        if (!late.isEmpty())
            throw new Refused(
                    Kind.SERVICE_UNAVAILABLE,
                    "The loop of " + String.join(", ", late)
                            + " does not tick; its relays release by themselves. Look at" + " the log of the daemon.");
        return Reply.json(Json.object().put("ticking", wired.house().rooms().size()));
    }
}
