package gylewarden.web;

import gylewarden.web.Problem.Kind;
import java.nio.ByteBuffer;
import java.util.Optional;
import java.util.stream.Stream;
import org.eclipse.jetty.http.HttpHeader;
import org.eclipse.jetty.server.Request;
import org.eclipse.jetty.server.Response;
import org.eclipse.jetty.util.Callback;

/** What the HTTP server itself refuses, before any code of ours has seen it, is a problem document like any other. */
final class ServerErrors implements Request.Handler {
    @Override
    public boolean handle(Request request, Response response, Callback callback) {
        Problem problem = problem(response.getStatus());
        Door.secure(response.getHeaders());
        response.setStatus(problem.kind().status());
        response.getHeaders().put(HttpHeader.CONTENT_TYPE, Problem.CONTENT_TYPE);
        response.getHeaders().put(HttpHeader.CACHE_CONTROL, "no-store");
        response.write(true, ByteBuffer.wrap(problem.json()), callback);
        return true;
    }

    private static Problem problem(int status) {
        Optional<Kind> known =
                Stream.of(Kind.values()).filter(kind -> kind.status() == status).findFirst();
        Kind kind = known.orElse(status < 500 ? Kind.BAD_REQUEST : Kind.INTERNAL_SERVER_ERROR);
        return Problem.of(
                kind,
                switch (kind) {
                    case HEADERS_TOO_LARGE ->
                        "The request's headers are longer than 8 KiB. Clear this site's cookies, then try again.";
                    case INTERNAL_SERVER_ERROR -> unexpected();
                    default ->
                        "The request cannot be read as HTTP (RFC 9110, RFC 9112). Look at how the client writes it.";
                });
    }

    static String unexpected() {
        return "Something went wrong here that should not; the control of the chambers goes on. Look at the log of the"
                + " daemon, and try again.";
    }
}
