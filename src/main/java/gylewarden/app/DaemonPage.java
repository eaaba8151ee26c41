package gylewarden.app;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import gylewarden.app.config.Listen;
import gylewarden.document.Json;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.util.Optional;

/** A running daemon as it is reached without a disk: by its page, which every config has, on this machine alone. */
final class DaemonPage {
    private static final String OFF = "/api/relays-off";
    private static final String CHAMBERS = "/api/chambers";

    private final String page;
    private final Patience patience;
    private final HttpClient http;

    /** @param patience how long the daemon may take to answer, and then to release */
    DaemonPage(Listen web, Patience patience) {
        this.page = "http://" + web.host() + ":" + web.port();
        this.patience = patience;
        this.http = HttpClient.newBuilder()
                .version(HttpClient.Version.HTTP_1_1)
                .followRedirects(HttpClient.Redirect.NEVER)
                .connectTimeout(patience.longest())
                .build();
    }

    /**
     * Asks it to release every relay and keep it so, and waits until it says that it has.
     *
     * @return why it has not, in words; empty if it has
     */
    Optional<String> switchOff() throws InterruptedException {
        try {
            ask(HttpRequest.newBuilder(URI.create(page + OFF))
                    .PUT(BodyPublishers.ofString("{}"))
                    .setHeader("Content-Type", "application/json"));
            if (patience.until(() -> isReleased(ask(HttpRequest.newBuilder(URI.create(page + CHAMBERS))))))
                return Optional.empty();
            return Optional.of(page + " has taken the word, but says after "
                    + patience.longest().toSeconds() + " s that not every relay is released");
        } catch (IOException e) {
            return Optional.of(page + " " + reason(e));
        }
    }

    private JsonNode ask(HttpRequest.Builder request) throws IOException, InterruptedException {
        HttpResponse<String> answer =
                http.send(request.timeout(patience.longest()).build(), BodyHandlers.ofString());
        if (answer.statusCode() != 200) throw new IOException("answers " + answer.statusCode());
        try {
            return Json.parse(answer.body());
        } catch (JsonProcessingException e) {
            throw new IOException("does not answer as this program does", e);
        }
    }

    private static boolean isReleased(JsonNode chambers) {
        boolean released = !chambers.isEmpty();
        for (JsonNode chamber : chambers) {
            released &= chamber.path("switchedOff").booleanValue();
            for (String side : new String[] {"cooling", "heating"})
                released &= !chamber.path(side).path("energised").booleanValue();
        }
        return released;
    }

    private static String reason(IOException e) {
        return Optional.ofNullable(e.getMessage()).orElse("can't be reached");
    }
}
