package gylewarden.web;

import gylewarden.web.Problem.Kind;
import java.nio.ByteBuffer;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.eclipse.jetty.http.HttpField;
import org.eclipse.jetty.http.HttpFields;
import org.eclipse.jetty.http.HttpHeader;
import org.eclipse.jetty.server.Handler;
import org.eclipse.jetty.server.Request;
import org.eclipse.jetty.server.Response;
import org.eclipse.jetty.server.Server;
import org.eclipse.jetty.util.Callback;

/**
 * Who comes in at all. Stands before everything else, so that a page of somebody else's that is open in the same browser can
 * neither read nor ask for anything: the Host must be one of ours (a foreign name that resolves to us is none), the Origin,
 * if one is sent, must be that same host, and a request that changes something must be JSON, which a foreign page cannot send
 * unasked. A body is read here in full, without a thread that waits for it, and bounded.
 */
final class Door extends Handler.Wrapper {
    /** A schedule of fifty steps with long notes has 20 KB. */
    static final int LONGEST_BODY = 64 * 1024;

    /** The request's attribute that holds the whole body, a byte[]. */
    static final String BODY = "gylewarden.body";

    private static final Set<String> READING = Set.of("GET", "HEAD");
    private static final Set<String> WITH_BODY = Set.of("POST", "PUT", "PATCH");

    private final Address address;

    Door(Address address) {
        this.address = address;
    }

    @Override
    public boolean handle(Request request, Response response, Callback callback) throws Exception {
        secure(response.getHeaders());
        Optional<Problem> problem = problem(request);
        if (problem.isPresent()) {
            refuse(problem.get(), response, callback);
            return true;
        }
        if (READING.contains(request.getMethod())) return super.handle(request, response, callback);
        new WholeBody(
                        request,
                        body -> {
                            request.setAttribute(BODY, body);
                            return super.handle(request, response, callback);
                        },
                        tooLarge -> refuse(tooLarge, response, callback),
                        callback)
                .run();
        return true;
    }

    private Optional<Problem> problem(Request request) {
        // The server has made sure that an address in the request line is this same one.
        String host = header(request, HttpHeader.HOST).orElse("").toLowerCase(Locale.ROOT);
        List<String> names = address.names(port());
        if (!names.contains(host))
            return Optional.of(Problem.of(
                    Kind.MISDIRECTED_REQUEST,
                    "This server answers to " + String.join(", ", names) + " alone, not to \"" + shortened(host)
                            + "\". Open http://" + names.get(0) + "/ instead."));
        return foreign(request, host).or(() -> unfitBody(request));
    }

    private static Optional<Problem> foreign(Request request, String host) {
        Optional<String> origin = header(request, HttpHeader.ORIGIN);
        boolean ours = origin.isEmpty() || origin.get().equalsIgnoreCase("http://" + host);
        if (ours) return Optional.empty();
        return Optional.of(Problem.of(
                Kind.FORBIDDEN,
                "A page of \"" + shortened(origin.get()) + "\" asked for this. Only the page of this server may; open"
                        + " http://" + host + "/ and do it there."));
    }

    private static Optional<Problem> unfitBody(Request request) {
        if (READING.contains(request.getMethod())) return Optional.empty();
        if (request.getLength() > LONGEST_BODY) return Optional.of(tooLarge());
        Optional<String> type = header(request, HttpHeader.CONTENT_TYPE);
        boolean needed = WITH_BODY.contains(request.getMethod()) || request.getLength() > 0;
        if (type.isEmpty() ? !needed : isJson(type.get())) return Optional.empty();
        return Optional.of(Problem.of(
                Kind.UNSUPPORTED_MEDIA_TYPE,
                type.map(given -> "The body is \"" + shortened(given) + "\"").orElse("The request says no content type")
                        + "; only JSON is taken. Send the header Content-Type: application/json, with the body {} where"
                        + " there is nothing to say."));
    }

    private static boolean isJson(String type) {
        String[] parts = type.toLowerCase(Locale.ROOT).replace("\"", "").split(";", -1);
        if (!parts[0].strip().equals("application/json")) return false;
        for (int i = 1; i < parts.length; i++) if (!parts[i].strip().equals("charset=utf-8")) return false;
        return true;
    }

    static Problem tooLarge() {
        return Problem.of(
                Kind.CONTENT_TOO_LARGE,
                "The body is longer than " + LONGEST_BODY / 1024
                        + " KiB, the most that is taken. Nothing was changed.");
    }

    private int port() {
        Server server = getServer();
        return ((org.eclipse.jetty.server.NetworkConnector) server.getConnectors()[0]).getLocalPort();
    }

    private static Optional<String> header(Request request, HttpHeader name) {
        return Optional.ofNullable(request.getHeaders().get(name));
    }

    private static String shortened(String text) {
        return gylewarden.document.Fields.shortened(text);
    }

    /** Sends a problem and, for what is left of the request is not read, ends the connection. */
    private static void refuse(Problem problem, Response response, Callback callback) {
        response.setStatus(problem.kind().status());
        response.getHeaders().put(HttpHeader.CONTENT_TYPE, Problem.CONTENT_TYPE);
        response.getHeaders().put(HttpHeader.CACHE_CONTROL, "no-store");
        response.write(true, ByteBuffer.wrap(problem.json()), callback);
    }

    /** What every answer says to the browser, errors of the server itself included. */
    static void secure(HttpFields.Mutable headers) {
        for (HttpField field : SECURE) headers.put(field);
    }

    /**
     * W3C Content Security Policy Level 3: nothing but our own files, no inline script or style, no frames, no forms that
     * leave. The page is never part of another page.
     */
    private static final HttpField[] SECURE = {
        new HttpField(
                "Content-Security-Policy",
                "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self';"
                        + " manifest-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"),
        new HttpField("X-Content-Type-Options", "nosniff"),
        new HttpField("Referrer-Policy", "no-referrer"),
        new HttpField("X-Frame-Options", "DENY"),
        new HttpField("Cross-Origin-Opener-Policy", "same-origin"),
        new HttpField("Cross-Origin-Resource-Policy", "same-origin"),
        new HttpField(
                "Permissions-Policy",
                "camera=(), geolocation=(), microphone=(), payment=(), usb=(), serial=(), hid=()"),
    };
}
