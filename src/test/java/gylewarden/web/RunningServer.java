package gylewarden.web;

import gylewarden.units.MonotonicClock;
import java.time.Duration;
import java.util.List;
import java.util.Optional;

/** A real server on a free port. */
record RunningServer(SmallHouse house, Live live, Server server, Client client, Description description)
        implements AutoCloseable {
    static RunningServer of(SmallHouse house) throws NotStarted {
        return of(house, List.of());
    }

    /** @param more routes that only a test has */
    static RunningServer of(SmallHouse house, List<Route> more) throws NotStarted {
        var live =
                new Live(house, MonotonicClock.system(), Duration.ofSeconds(5), (thread, bug) -> bug.printStackTrace());
        List<Route> routes = new java.util.ArrayList<>(
                new Api(house.wired(), Assets.load("gylewarden/web/small-page/"), live).routes());
        routes.addAll(more);
        Server server = Server.start(new Address("127.0.0.1", 0), routes, List.of(live));
        var description = new Description();
        return new RunningServer(house, live, server, new Client(server.port(), Optional.of(description)), description);
    }

    @Override
    public void close() {
        server.close();
    }
}
