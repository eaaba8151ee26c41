package gylewarden.message;

import gylewarden.journal.Letter;
import jakarta.mail.internet.MimeUtility;
import java.io.IOException;
import java.io.UnsupportedEncodingException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpTimeoutException;
import java.time.DateTimeException;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.format.DateTimeFormatter;
import java.util.Map;
import java.util.Optional;

/**
 * A request to an address of the owner's choice. Follows no redirect: what was meant for one server is not told to another.
 */
public final class Webhook implements Channel {
    private static final Duration PATIENCE = Duration.ofSeconds(20);
    /** However long the other side asks for, an alarm is tried again after that. */
    static final Duration LONGEST_WAIT = Duration.ofHours(1);

    /** What is sent unless the config says otherwise. */
    public static final Template STANDARD_BODY = new Template(
            "{\"id\": \"{id}\", \"alarm\": \"{alarm}\", \"kind\": \"{kind}\", \"priority\": \"{priority}\","
                    + " \"subject\": \"{subject}\", \"text\": \"{text}\", \"made\": \"{made}\"}");

    private final String name;
    private final Call call;
    private final InstantSource clock;
    private final HttpClient client;

    /**
     * The request.
     *
     * @param headers values may have places, see {@link Template}
     */
    public record Call(URI address, String method, Map<String, Template> headers, Template body) {
        public Call {
            headers = Map.copyOf(headers);
        }

        private String mediaType() {
            return headers.entrySet().stream()
                    .filter(header -> header.getKey().equalsIgnoreCase("Content-Type"))
                    .map(header -> header.getValue().pattern())
                    .findFirst()
                    .orElse("application/json");
        }
    }

    /** @param clock against which a date to wait for is held */
    public Webhook(String name, Call call, InstantSource clock, HttpClient client) {
        this.name = name;
        this.call = call;
        this.clock = clock;
        this.client = client;
    }

    /** A client that all webhooks may share. */
    public static HttpClient client() {
        return HttpClient.newBuilder()
                .version(HttpClient.Version.HTTP_1_1)
                .followRedirects(HttpClient.Redirect.NEVER)
                .connectTimeout(Duration.ofSeconds(10))
                .build();
    }

    @Override
    public String name() {
        return name;
    }

    @Override
    public Delivery carry(Letter letter) {
        try {
            return delivery(client.send(request(letter), HttpResponse.BodyHandlers.discarding()));
        } catch (HttpTimeoutException e) {
            return failed("did not answer within " + PATIENCE.toSeconds() + " s.");
        } catch (IOException e) {
            String said = e.getMessage() == null ? e.getClass().getSimpleName() : e.getMessage();
            return failed("could not be reached: " + said.strip().replaceAll("\\s+", " "));
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return failed("was not waited for: the daemon ends.");
        }
    }

    private HttpRequest request(Letter letter) {
        HttpRequest.Builder request = HttpRequest.newBuilder(call.address())
                .timeout(PATIENCE)
                .setHeader("Content-Type", call.mediaType())
                .setHeader("User-Agent", "gylewarden")
                .setHeader("Idempotency-Key", letter.id().toString());
        call.headers()
                .forEach((header, value) ->
                        request.setHeader(header, oneLine(value.of(letter, Template.Writing.PLAIN))));
        boolean hasBody = !call.method().equals("GET");
        String body = call.body().of(letter, Template.Writing.as(call.mediaType()));
        return request.method(call.method(), hasBody ? BodyPublishers.ofString(body) : BodyPublishers.noBody())
                .build();
    }

    /** A header holds ASCII on one line; all else is encoded as in mail (RFC 2047). */
    private static String oneLine(String value) {
        try {
            return MimeUtility.encodeText(value.strip().replaceAll("\\s+", " "), "UTF-8", "B")
                    .replaceAll("\\s+", " ");
        } catch (UnsupportedEncodingException e) {
            throw new IllegalStateException("every Java has UTF-8", e);
        }
    }

    private Delivery delivery(HttpResponse<Void> response) {
        int status = response.statusCode();
        if (status >= 200 && status < 300) return new Delivery.Arrived();
        Optional<Duration> wait = response.headers().firstValue("Retry-After").flatMap(this::waiting);
        return new Delivery.Failed(server() + " answered " + status + advice(status), wait);
    }

    private static String advice(int status) {
        if (status >= 300 && status < 400)
            return ", which sends to another address. Redirects are not followed: write the address that it sends to into"
                    + " the config.";
        if (status == 401 || status == 403) return ": it does not accept us. Look at the headers in the config.";
        if (status == 404 || status == 410) return ": there is nothing at that address. Look at it in the config.";
        if (status == 429) return ": it has had too many. It is tried again later.";
        return ".";
    }

    /** Seconds or a date (RFC 9110, 10.2.3). */
    private Optional<Duration> waiting(String value) {
        try {
            Duration wait = value.strip().matches("\\d{1,9}")
                    ? Duration.ofSeconds(Long.parseLong(value.strip()))
                    : Duration.between(
                            clock.instant(), Instant.from(DateTimeFormatter.RFC_1123_DATE_TIME.parse(value.strip())));
            if (wait.isNegative()) return Optional.empty();
            return Optional.of(wait.compareTo(LONGEST_WAIT) > 0 ? LONGEST_WAIT : wait);
        } catch (DateTimeException e) {
            return Optional.empty();
        }
    }

    private Delivery failed(String what) {
        return Delivery.Failed.because(server() + " " + what);
    }

    /** Without path and query, which may hold a secret. */
    private String server() {
        URI address = call.address();
        return "The server " + address.getHost() + (address.getPort() < 0 ? "" : ":" + address.getPort());
    }
}
