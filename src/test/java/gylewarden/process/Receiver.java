package gylewarden.process;

import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.function.Function;

/** A real HTTP server at the other end of webhooks and heartbeats: it keeps every request, and answers as a test wants. */
final class Receiver implements AutoCloseable {
    /**
     * One request.
     *
     * @param id the letter's, empty if there is none
     * @param life what {@link #nextLife} has counted up to
     */
    record Request(String path, String id, String body, int life, int answered) {}

    private final HttpServer server;
    private final ExecutorService threads = Executors.newFixedThreadPool(4);
    private final List<Request> requests = new ArrayList<>();
    private final Function<String, Integer> answers;
    private int life;

    private Receiver(HttpServer server, Function<String, Integer> answers) {
        this.server = server;
        this.answers = answers;
    }

    /** @param answers the status for a request to this path; may be asked by several threads */
    static Receiver open(Function<String, Integer> answers) throws IOException {
        var receiver =
                new Receiver(HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0), answers);
        receiver.server.setExecutor(receiver.threads);
        receiver.server.createContext("/", receiver::take);
        receiver.server.start();
        return receiver;
    }

    private void take(HttpExchange exchange) throws IOException {
        String body = new String(exchange.getRequestBody().readAllBytes(), StandardCharsets.UTF_8);
        String path = exchange.getRequestURI().getPath();
        String id = String.valueOf(exchange.getRequestHeaders().getFirst("Idempotency-Key"));
        int status = answers.apply(path);
        synchronized (this) {
            requests.add(new Request(path, id, body, life, status));
        }
        exchange.sendResponseHeaders(status, -1);
        exchange.close();
    }

    /** What comes from now on comes from another life of the daemon. */
    synchronized int nextLife() {
        return ++life;
    }

    String address(String path) {
        return "http://127.0.0.1:" + server.getAddress().getPort() + path;
    }

    synchronized List<Request> to(String path) {
        return requests.stream().filter(each -> each.path().equals(path)).toList();
    }

    @Override
    public void close() {
        server.stop(0);
        threads.shutdownNow();
    }
}
