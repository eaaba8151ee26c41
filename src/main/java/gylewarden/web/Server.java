package gylewarden.web;

import gylewarden.journal.Scale;
import gylewarden.web.Problem.Kind;
import io.javalin.Javalin;
import io.javalin.compression.CompressionStrategy;
import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpResponseException;
import io.javalin.util.JavalinBindException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.eclipse.jetty.server.NetworkConnectionLimit;
import org.eclipse.jetty.server.ServerConnector;
import org.eclipse.jetty.util.thread.QueuedThreadPool;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Serves the page and its API. Runs on threads of its own, few of them, and none ever waits for a client; nothing here is
 * waited for by a chamber. A bug in an answer is that request's alone: it is logged, and the control goes on.
 */
public final class Server implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger("gylewarden");

    /** One accepts, one selects, six answer; more only wait for the database. */
    private static final int THREADS = 8;

    /** A connection on which nothing moves. Live connections have something to say far more often. */
    private static final int IDLE_MILLIS = 30_000;

    private static final int HEADERS = 8 * 1024;

    /** Live ones and some for each browser; a file descriptor each. */
    private static final int CONNECTIONS = 400;

    private final Javalin javalin;
    private final List<AutoCloseable> parts;

    private Server(Javalin javalin, List<AutoCloseable> parts) {
        this.javalin = javalin;
        this.parts = parts;
    }

    /**
     * Starts it.
     *
     * @param live is closed with it
     * @throws NotStarted if the port is taken or may not be used
     */
    public static Server start(Address address, Wired wired, Live live) throws NotStarted {
        var api = new Api(wired, Assets.load(), live);
        return start(address, api.routes(), List.of(live));
    }

    /** As {@link #start(Address, Wired, Live)}, with the demo's room in which things are broken on purpose. */
    public static Server startDemo(Address address, Wired wired, Live live, FaultKnobs knobs) throws NotStarted {
        Assets assets = Assets.loadForDemo();
        List<Route> routes = new ArrayList<>(new Api(wired, assets, live).routes());
        routes.addAll(new DemoRoutes(knobs, assets).routes());
        return start(address, routes, List.of(live));
    }

    static Server start(Address address, List<Route> routes, List<AutoCloseable> parts) throws NotStarted {
        Javalin javalin = Javalin.create(config -> configure(config, address, routes));
        try {
            javalin.start(address.host(), address.port());
        } catch (JavalinBindException taken) {
            throw new NotStarted("The page cannot listen on " + address.host() + ":" + address.port()
                    + ": another program has that port, or it is below 1024. Write another under [web] listen, or end the"
                    + " other program. Nothing was started.");
        }
        return new Server(javalin, parts);
    }

    /** The port that it really listens on. */
    public int port() {
        return javalin.port();
    }

    private static void configure(JavalinConfig config, Address address, List<Route> routes) {
        config.startup.showJavalinBanner = false;
        config.http.compressionStrategy = CompressionStrategy.NONE;
        config.http.prefer405over404 = true;
        config.router.ignoreTrailingSlashes = false;
        config.jetty.threadPool = new QueuedThreadPool(THREADS, 3, 60_000);
        config.jetty.modifyHttpConfiguration(http -> {
            http.setSendServerVersion(false);
            http.setSendDateHeader(true);
            http.setRequestHeaderSize(HEADERS);
            http.setIdleTimeout(IDLE_MILLIS);
        });
        config.jetty.modifyServer(server -> {
            server.setHandler(new Door(address));
            server.setErrorHandler(new ServerErrors());
            server.addBean(new NetworkConnectionLimit(CONNECTIONS, server));
            server.setStopTimeout(0);
        });
        config.jetty.addConnector((server, http) -> connector(server, http, address));
        var browsers = new Browsers();
        config.routes.before("/api/*", browsers::greet);
        for (Route route : routes) register(config, route, browsers);
        config.routes.exception(Refused.class, (refused, context) -> send(context, inUnitOf(context, refused)));
        config.routes.exception(HttpResponseException.class, (none, context) -> send(context, unknown(none, context)));
        config.routes.exception(Exception.class, (bug, context) -> {
            LOG.error("A bug in the answer to {} {}; the control goes on.", context.method(), context.path(), bug);
            send(context, Problem.of(Kind.INTERNAL_SERVER_ERROR, ServerErrors.unexpected()));
        });
    }

    private static ServerConnector connector(
            org.eclipse.jetty.server.Server server, org.eclipse.jetty.server.HttpConfiguration http, Address address) {
        var connector = new ServerConnector(server, 1, 1, new org.eclipse.jetty.server.HttpConnectionFactory(http));
        connector.setHost(address.host());
        connector.setPort(address.port());
        connector.setIdleTimeout(IDLE_MILLIS);
        connector.setAcceptQueueSize(64);
        return connector;
    }

    private static void register(JavalinConfig config, Route route, Browsers browsers) {
        io.javalin.http.Handler handler = context -> {
            acceptable(context, route);
            Sender.send(context, route.work().answer(new Call(context, browsers)));
        };
        switch (route.method()) {
            case GET -> config.routes.get(route.path(), handler);
            case POST -> config.routes.post(route.path(), handler);
            case PUT -> config.routes.put(route.path(), handler);
            case PATCH -> config.routes.patch(route.path(), handler);
            case DELETE -> config.routes.delete(route.path(), handler);
        }
    }

    private static void acceptable(Context context, Route route) throws Refused {
        Optional<String> accept = Optional.ofNullable(context.header("Accept"));
        if (accept.isEmpty() || Media.accepts(accept.get(), route.produces())) return;
        throw new Refused(
                Kind.NOT_ACCEPTABLE,
                context.path() + " gives " + route.produces()
                        + ", which the header Accept does not allow. Ask for that.");
    }

    private static Problem unknown(HttpResponseException none, Context context) {
        if (none.getStatus() == Kind.METHOD_NOT_ALLOWED.status()) {
            String allowed = none.getDetails().values().stream().collect(Collectors.joining(", "));
            context.header("Allow", allowed);
            return Problem.of(
                    Kind.METHOD_NOT_ALLOWED,
                    context.method() + " cannot be done here; " + allowed
                            + " can. /api/openapi.json lists everything.");
        }
        return Problem.of(
                Kind.NOT_FOUND,
                "There is nothing at " + shortened(context.path()) + ". /api/openapi.json lists everything.");
    }

    /** A reader whose unit is none is told so in °C. */
    private static Problem inUnitOf(Context context, Refused refused) {
        boolean fahrenheit = "F".equals(context.queryParam("units"));
        return new ReadersUnit(fahrenheit ? Scale.FAHRENHEIT : Scale.CELSIUS).of(refused.problem());
    }

    private static String shortened(String path) {
        return gylewarden.document.Fields.shortened(path);
    }

    private static void send(Context context, Problem problem) {
        Sender.send(context, Reply.problem(problem).with("Cache-Control", "no-store"));
    }

    /** Ends every connection. */
    @Override
    public void close() {
        for (AutoCloseable part : parts) {
            try {
                part.close();
            } catch (Exception e) {
                LOG.error("A part of the page's server could not be ended", e);
            }
        }
        javalin.stop();
    }
}
